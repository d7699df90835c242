//! The points of the charts that a calibration looks at.

use hardpan_model::{
    Aeroplane, Chart, ChartArgument, ChartFigure, ChartWind, FlapSetting, Need, SurfaceKind,
    SurfaceState,
};
use hardpan_quantity::Amount;
use std::sync::Arc;

/// A chart of a distance with what it holds for.
#[derive(Debug, Clone)]
pub(super) struct Charted {
    pub(super) file: Arc<str>,
    pub(super) gives: ChartFigure,
    pub(super) flap: FlapSetting,
    pub(super) surface: SurfaceKind,
    pub(super) state: SurfaceState,
    pub(super) points: Vec<Point>,
}

/// One point of a chart, SI units.
#[derive(Debug, Clone)]
pub(super) struct Point {
    pub(super) arguments: Vec<(&'static str, Amount)>,
    pub(super) mass: f64,
    pub(super) altitude: f64,
    /// The standard atmosphere's where the chart has none.
    pub(super) temperature: Option<f64>,
    /// Headwind that gives the chart's once it is credited.
    pub(super) reported_headwind: f64,
    pub(super) slope: f64,
    pub(super) value: f64,
}

impl Charted {
    /// The same chart with at most so many points, spread over all of it.
    pub(super) fn thinned(&self, most: usize) -> Self {
        let every = self.points.len().div_ceil(most.max(1)).max(1);
        let points = self.points.iter().step_by(every).cloned().collect();
        Self { points, ..self.clone() }
    }
}

/// The charts to calibrate to, and the files of those left out.
type Sorted = (Vec<Charted>, Vec<Arc<str>>);

/// The charts of distances that a calibration looks at, and those left out.
pub(super) fn charted(aeroplane: &Aeroplane) -> Result<Sorted, Vec<Need>> {
    let (mut charts, mut left_out) = (Vec::new(), Vec::new());
    for chart in &aeroplane.charts {
        let wanted = matches!(
            chart.gives.value,
            ChartFigure::TakeOffDistance
                | ChartFigure::AccelerateStop
                | ChartFigure::LandingDistance
        );
        let stated = chart.flap.as_ref().zip(chart.surface.as_ref()).zip(chart.state.as_ref());
        let has_mass = chart.arguments.iter().any(|(of, _)| *of == ChartArgument::Mass);
        let Some(((flap, surface), state)) = stated.filter(|_| wanted && has_mass) else {
            left_out.push(chart.file.clone());
            continue;
        };
        let named = aeroplane.flaps.iter().find(|setting| setting.name.value == flap.value);
        let setting = named.ok_or_else(|| {
            vec![Need {
                what: format!("aeroplane: flap \"{}\"", flap.value),
                how: format!("the chart {} is for it", chart.file),
            }]
        })?;
        charts.push(Charted {
            file: chart.file.clone(),
            gives: chart.gives.value,
            flap: setting.clone(),
            surface: surface.value,
            state: state.value,
            points: points(chart),
        });
    }
    Ok((charts, left_out))
}

fn points(chart: &Chart) -> Vec<Point> {
    let mut points = Vec::with_capacity(chart.values.len());
    for (index, value) in chart.values.iter().enumerate() {
        let mut left = index;
        let mut arguments = Vec::new();
        for (argument, rows) in chart.arguments.iter().rev() {
            let count = rows.len().max(1);
            arguments.push((*argument, rows.get(left % count).copied().unwrap_or(f64::NAN)));
            left /= count;
        }
        arguments.reverse();
        points.push(point(chart, &arguments, *value));
    }
    points
}

fn point(chart: &Chart, arguments: &[(ChartArgument, f64)], value: f64) -> Point {
    let of = |wanted: ChartArgument| {
        arguments.iter().find(|(argument, _)| *argument == wanted).map(|(_, si)| *si)
    };
    let headwind = of(ChartArgument::Headwind).unwrap_or(0.0);
    let reported = match chart.wind.as_ref().map(|wind| wind.value) {
        Some(ChartWind::Reported) => headwind,
        _ if headwind > 0.0 => headwind / 0.5,
        _ => headwind / 1.5,
    };
    let shown = |(argument, si): &(ChartArgument, f64)| {
        (argument.word(), Amount::new(argument.dimension(), *si))
    };
    Point {
        arguments: arguments.iter().map(shown).collect(),
        mass: of(ChartArgument::Mass).unwrap_or(f64::NAN),
        altitude: of(ChartArgument::PressureAltitude).unwrap_or(0.0),
        temperature: of(ChartArgument::Temperature),
        reported_headwind: reported,
        slope: of(ChartArgument::Slope).unwrap_or(0.0),
        value,
    }
}
