//! The model calibrated to the operator's charts, at a terminal.

use super::{Paint, TextStyle, table_text};
use crate::measure::quantity_text;
use crate::wrap::{hanging, plain};
use hardpan_assess::{CAUTION, Calibration, ChartResiduals};
use hardpan_quantity::{Amount, UnitSystem};

const WHAT: &str = "Planning only: the approved charts bind where they reach. The factors bring the \
    runs of the model near to them, for what they do not answer. Rolling and braking start from \
    the planning values of the surface; each constant is held to what is stated with a standard \
    deviation of 20 %, each run to its chart with 3 %, points far off counting less and less. A deviation near 20 % says that the charts \
    tell nothing of the constant.";

/// The constants and how near the runs come to each chart, as terminal text.
#[must_use]
pub fn calibration_text(
    aeroplane: &str,
    found: &Calibration,
    units: UnitSystem,
    style: TextStyle,
) -> String {
    let paint = Paint::new(style);
    let mut out = paint.heading(&format!("Model of {} calibrated to its charts", plain(aeroplane)));
    out.push_str(&hanging(WHAT, paint.width(), ""));
    out.push('\n');
    let mut table =
        paint.table(&["Constant", "Stated", "Calibrated", "Change", "Deviation"], &[1, 2, 3, 4]);
    for constant in &found.constants {
        table.add_row([
            plain(&constant.name),
            shown(constant.stated, units),
            shown(constant.calibrated, units),
            share(constant.calibrated.si / constant.stated.si - 1.0),
            format!("{:.1} %", 100.0 * constant.deviation),
        ]);
    }
    out.push_str(&table_text(&table));
    out.push_str(&hanging(&moved_far(found), paint.width(), ""));
    out.push('\n');
    out.push_str(&paint.heading("Run less chart, in shares of the chart"));
    let head = ["Chart", "Points", "", "Mean", "Root mean square", "Shortest", "Longest"];
    let mut table = paint.table(&head, &[1, 3, 4, 5, 6]);
    for chart in &found.charts {
        for (index, row) in rows(chart).into_iter().enumerate() {
            let first = index == 0;
            let name = format!("{}, flap {}", chart.gives.word(), plain(&chart.flap));
            let mut cells = vec![
                if first { name } else { plain(&chart.file) },
                if first { chart.points.to_string() } else { String::new() },
            ];
            cells.extend(row);
            table.add_row(cells);
        }
    }
    out.push_str(&table_text(&table));
    out.push('\n');
    for chart in &found.charts {
        out.push_str(&hanging(&farthest(chart, units), paint.width(), ""));
    }
    for file in &found.left_out {
        let words = format!(
            "{}: left out; it is no distance, or states no flap, surface or state.",
            plain(file)
        );
        out.push_str(&hanging(&words, paint.width(), ""));
    }
    out.push('\n');
    out.push_str(&hanging(CAUTION, paint.width(), ""));
    out
}

/// Constants that the charts pull so far that they are not to be used as found.
fn moved_far(found: &Calibration) -> String {
    let far = found.moved_far();
    let names: Vec<String> = far.into_iter().map(|constant| plain(&constant.name)).collect();
    match names.is_empty() {
        true => {
            "No constant moves by more than two of the deviations that it is held with.".to_owned()
        }
        false => format!(
            "! Moved by more than two of the deviations that it is held with: {}. Find out whether \
             the file or the charts are wrong before anything is used.",
            names.join("; ")
        ),
    }
}

fn rows(chart: &ChartResiduals) -> [Vec<String>; 2] {
    [("as stated", chart.before), ("calibrated", chart.after)].map(|(name, found)| {
        vec![
            name.to_owned(),
            share(found.mean),
            format!("{:.1} %", 100.0 * found.root_mean_square),
            share(found.shortest),
            share(found.longest),
        ]
    })
}

fn farthest(chart: &ChartResiduals, units: UnitSystem) -> String {
    let without = match chart.without {
        0 => String::new(),
        1 => " At one point the model has no run.".to_owned(),
        count => format!(" At {count} points the model has no run."),
    };
    let Some(worst) = &chart.worst else {
        return format!("{}: the model has no run at any point.", plain(&chart.file));
    };
    let arguments: Vec<String> = worst
        .arguments
        .iter()
        .map(|(name, amount)| format!("{name} {}", amount.show(units)))
        .collect();
    format!(
        "{}: farthest at {}: chart {}, run {}.{without}",
        plain(&chart.file),
        arguments.join(", "),
        quantity_text(worst.chart, units),
        quantity_text(worst.run, units)
    )
}

fn shown(amount: Amount, units: UnitSystem) -> String {
    match amount.dimension {
        hardpan_quantity::Dimension::Coefficient => format!("{:.3}", amount.si),
        _ => amount.show(units),
    }
}

fn share(value: f64) -> String {
    let sign = if value < 0.0 { "−" } else { "+" };
    format!("{sign}{:.1} %", 100.0 * value.abs())
}
