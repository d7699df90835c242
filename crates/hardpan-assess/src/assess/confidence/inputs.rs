//! What is uncertain of a flight, and how it is spread.

use hardpan_model::{Finding, Flight, Given, InputFrom, Need, Source, Tier};
use hardpan_quantity::{Amount, Dimension, Length, Quantity, Ratio, metres, percent};

/// Spread of the penetrometer law where the flight states none: the published
/// laws lie about ±30 % around their middle, read as the range of nine in ten.
/// `ln 1.3 / 1.645`.
const LAW_SPREAD: f64 = 0.16;
const LAW_SOURCE: Source = Source::new(
    "",
    "spread of five published penetrometer laws at one rate, ±30 %, as a range of nine in ten",
    Tier::Judgement,
);

/// Spread of the thickness law, as a factor on the strength that it asks for, where
/// the flight states none: no scatter of the criterion is published. Coverages until
/// it fails are taken to lie within a third and three times of it in nine of ten,
/// which at 1000 coverages is `ln 3 / 1.645 × 2 × 0.176 / (ln 10 × 0.648)` of strength.
const BEARING_SPREAD: f64 = 0.16;
const BEARING_SOURCE: Source = Source::new(
    "",
    "no scatter of the thickness law is published: a third to three times its coverages in nine of \
     ten, as strength",
    Tier::Judgement,
);

/// Spread of the laws of ruts where the flight states none: no scatter of either is
/// published. The two lie about a factor of two apart where both hold, which is taken as
/// half to double in nine of ten: `ln 2 / 1.645` of the logarithm.
const RUT_SPREAD: f64 = 0.44;
const RUT_SOURCE: Source = Source::new(
    "",
    "no scatter of a law of ruts is published: half to double in nine of ten, as far as two such \
     laws lie apart",
    Tier::Judgement,
);

/// Spread of the strain over that allowed where the flight states none. The strain that a
/// subgrade bears at a number of loads is published at 50, 85 and 95 % of sections of
/// roads, 0.028, 0.021 and 0.018 `N^-1/4`: `ln (28/18) / 1.645` and `ln (28/21) / 1.036`
/// are 0.27 of the logarithm. Stiffness over bearing ratio was measured from half to
/// double its law, read as the range of nine in ten, and strain goes as one over it. Both
/// are 0.50 of the logarithm, 54 % of the strain.
const STRAIN_SPREAD: f64 = 0.54;
const STRAIN_SOURCE: Source = Source::new(
    "HUANG-2004",
    "subgrade strain criteria at 50, 85 and 95 % reliability, of roads; and HEUKELOM-KLOMP-1962, \
     half to double the stiffness of a bearing ratio, taken as nine in ten",
    Tier::Memory,
);

/// Most soundings that are varied each by itself; more are varied in groups of
/// neighbours.
const MOST_SOUNDINGS: usize = 200;

/// One thing that is uncertain.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Kind {
    Law,
    BearingLaw,
    /// Soundings from one index to before another, by rising station.
    Soundings(usize, usize),
    Rolling,
    Braking,
    WindSpeed,
    WindDirection,
    Temperature,
    AirPressure,
    Mass,
    Thrust,
    Touchdown,
    Levels,
    RutLaw,
    StrainLaw,
}

/// What findings rest on that is drawn for them alone.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct RestsOn {
    /// Limits on figures of the survey.
    pub(super) levels: bool,
    /// Ruts of a law, or rolling over them.
    pub(super) ruts: bool,
    /// The strain of a weak layer.
    pub(super) strain: bool,
}

impl RestsOn {
    /// What those of a flight rest on, some of them on levels or none.
    pub(super) fn of(findings: &[Finding], levels: bool) -> Self {
        let tells = |codes: &[&str]| {
            findings.iter().any(|one| {
                codes.contains(&one.code)
                    && one.value.is_some()
                    && !one.title.starts_with("deepest")
            })
        };
        Self { levels, ruts: tells(&["G50", "G52", "G55"]), strain: tells(&["G60"]) }
    }
}

/// One axis of the draws.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Axis {
    pub(super) kind: Kind,
    /// In words.
    pub(super) name: String,
    /// Standard deviation in the SI unit, or over the value.
    pub(super) deviation: f64,
    pub(super) shown: Amount,
    pub(super) is_share: bool,
    pub(super) source: String,
    /// The place where it stands, or the judgement.
    pub(super) from: InputFrom,
    /// Where more measurements would go, for a sounding.
    pub(super) stretch: Option<(Length, Length)>,
}

/// All axes of a flight, and what nobody says how sure it is.
pub(super) struct Inputs {
    pub(super) axes: Vec<Axis>,
    pub(super) missing: Vec<Need>,
    /// Soundings by rising station: index in the strip's list.
    pub(super) order: Vec<usize>,
}

impl Inputs {
    /// Those of a flight whose findings rest on this.
    pub(super) fn of(flight: &Flight, rests_on: RestsOn) -> Self {
        let mut inputs = Self { axes: Vec::new(), missing: Vec::new(), order: Vec::new() };
        let stated = &flight.uncertainty;
        if !flight.strip.soundings.is_empty() {
            inputs.soundings(flight);
        }
        inputs.share(
            Kind::Rolling,
            "rolling_friction",
            "rolling friction",
            &stated.rolling_friction,
        );
        inputs.share(
            Kind::Braking,
            "braking_friction",
            "braking friction",
            &stated.braking_friction,
        );
        inputs.value(Kind::WindSpeed, "wind_speed", "wind speed", &stated.wind_speed, Amount::from);
        let from = flight.day.wind.as_ref().is_some_and(|wind| wind.value.from.is_some());
        if from {
            let (key, what) = ("wind_direction", "wind direction");
            inputs.value(Kind::WindDirection, key, what, &stated.wind_direction, Amount::from);
        }
        inputs.temperature(flight);
        let shown = |pressure| Amount::air_pressure(pressure);
        inputs.value(
            Kind::AirPressure,
            "air_pressure",
            "air pressure",
            &stated.air_pressure,
            shown,
        );
        inputs.share(Kind::Mass, "mass", "mass", &stated.mass);
        inputs.share(Kind::Thrust, "thrust", "thrust", &stated.thrust);
        if let Some(landing) = &flight.landing {
            let scatter = &landing.touchdown_scatter;
            inputs.known(Kind::Touchdown, "place of touchdown", scatter, Amount::from, || Need {
                what: "flight: landing.touchdown_scatter".to_owned(),
                how: "standard deviation, from the operator's record".to_owned(),
            });
        }
        if rests_on.levels {
            let survey = flight.strip.survey.as_ref();
            let noise = survey.and_then(|survey| survey.level_noise.clone());
            inputs.known(Kind::Levels, "levels of the survey", &noise, Amount::from, || Need {
                what: "strip: survey_info.level_noise".to_owned(),
                how: "as the surveyor states it".to_owned(),
            });
        }
        if !flight.strip.soundings.is_empty() || !flight.strip.strength_tests.is_empty() {
            let (kind, name) = (Kind::BearingLaw, "law of the strength needed");
            inputs.law(kind, name, &stated.bearing_law, (BEARING_SPREAD, BEARING_SOURCE));
        }
        if rests_on.ruts {
            let name = "laws of ruts";
            inputs.law(Kind::RutLaw, name, &stated.rut_law, (RUT_SPREAD, RUT_SOURCE));
        }
        if rests_on.strain {
            let name = "law of strain in weak ground";
            inputs.law(Kind::StrainLaw, name, &stated.strain_law, (STRAIN_SPREAD, STRAIN_SOURCE));
        }
        inputs
    }

    /// The law of the penetrometer, then each sounding by rising station.
    fn soundings(&mut self, flight: &Flight) {
        let (strip, stated) = (&flight.strip, &flight.uncertainty);
        let name = "law of the penetrometer";
        self.law(Kind::Law, name, &stated.penetrometer_law, (LAW_SPREAD, LAW_SOURCE));
        let Some(given) = &stated.sounding else {
            self.missing.push(wanted("sounding"));
            return;
        };
        let station = |at: &usize| strip.soundings[*at].station.value.si();
        self.order = (0..strip.soundings.len()).collect();
        self.order.sort_by(|a, b| station(a).total_cmp(&station(b)).then(a.cmp(b)));
        let stations: Vec<f64> = self.order.iter().map(station).collect();
        let groups = stations.len().min(MOST_SOUNDINGS);
        for group in 0..groups {
            let of = |group: usize| group * stations.len() / groups;
            let (from, to) = (of(group), of(group + 1));
            let (first, last) = (stations[from], stations[to - 1]);
            let before = stations.iter().rev().find(|one| **one < first).copied().unwrap_or(0.0);
            let end = strip.length.as_ref().map_or(last, |length| length.value.si());
            let after = stations.iter().find(|one| **one > last).copied().unwrap_or(end);
            let offset = Amount::from(strip.soundings[self.order[from]].offset).told();
            let place = Amount::from(metres(first)).told();
            self.push(Axis {
                kind: Kind::Soundings(from, to),
                name: format!("sounding at station {place}, offset {offset}"),
                deviation: given.value.si(),
                shown: given.value.into(),
                is_share: true,
                source: source(given),
                from: stands(given),
                stretch: Some((metres(before), metres(after))),
            });
        }
    }

    /// A law, with its own spread where the flight states none.
    fn law(
        &mut self,
        kind: Kind,
        name: &str,
        stated: &Option<Given<Ratio>>,
        (spread, by): (f64, Source),
    ) {
        let (deviation, source, from) = match stated {
            Some(given) => (given.value.si(), source(given), stands(given)),
            None if by.key.is_empty() => (spread, by.locator.to_owned(), InputFrom::Constant(by)),
            None => (spread, by.to_string(), InputFrom::Constant(by)),
        };
        self.push(Axis {
            kind,
            name: name.to_owned(),
            deviation,
            shown: percent(100.0 * deviation).into(),
            is_share: true,
            source,
            from,
            stretch: None,
        });
    }

    fn temperature(&mut self, flight: &Flight) {
        let Some(given) = &flight.uncertainty.temperature_kelvins else {
            self.missing.push(wanted("temperature"));
            return;
        };
        self.push(Axis {
            kind: Kind::Temperature,
            name: "temperature".to_owned(),
            deviation: given.value,
            shown: Amount::new(Dimension::Temperature, given.value),
            is_share: false,
            source: source(given),
            from: stands(given),
            stretch: None,
        });
    }

    fn share(&mut self, kind: Kind, key: &str, name: &str, stated: &Option<Given<Ratio>>) {
        let before = self.axes.len();
        self.value(kind, key, name, stated, Amount::from);
        for axis in &mut self.axes[before..] {
            axis.is_share = true;
        }
    }

    fn value<Q: Quantity>(
        &mut self,
        kind: Kind,
        key: &str,
        name: &str,
        stated: &Option<Given<Q>>,
        shown: impl Fn(Q) -> Amount,
    ) {
        self.known(kind, name, stated, shown, || wanted(key));
    }

    fn known<Q: Quantity>(
        &mut self,
        kind: Kind,
        name: &str,
        stated: &Option<Given<Q>>,
        shown: impl Fn(Q) -> Amount,
        need: impl Fn() -> Need,
    ) {
        let Some(given) = stated else {
            self.missing.push(need());
            return;
        };
        self.push(Axis {
            kind,
            name: name.to_owned(),
            deviation: given.value.si(),
            shown: shown(given.value),
            is_share: false,
            source: source(given),
            from: stands(given),
            stretch: None,
        });
    }

    fn push(&mut self, axis: Axis) {
        self.axes.push(axis);
    }
}

fn wanted(key: &str) -> Need {
    Need {
        what: format!("flight: uncertainty.{key}"),
        how: "standard deviation, by a source or by choice; 0 if it is exact".to_owned(),
    }
}

fn stands<T>(given: &Given<T>) -> InputFrom {
    let source = given.source.as_deref().map(str::to_owned);
    InputFrom::File { origin: given.origin.clone(), source }
}

fn source<T>(given: &Given<T>) -> String {
    match &given.source {
        Some(source) => source.to_string(),
        None => format!("stated at {}", given.origin),
    }
}

#[cfg(test)]
mod tests {
    use super::{BEARING_SPREAD, RUT_SPREAD, STRAIN_SPREAD};
    use hardpan_ground::{BARBER_RUT, GIROUD_HAN_RUT, HAMMITT_BEARING};
    use hardpan_quantity::{Amount, bearing_percent, kilonewtons, kilopascals, metres};
    use std::f64::consts::PI;

    /// By the law itself, [HAMMITT-1970]: what three times and a third of 1,000
    /// coverages ask for, deep down where the area of the tyre counts for little, lies
    /// 1.645 deviations off in the mean of both.
    #[test]
    fn the_spread_of_the_thickness_law_is_a_third_to_three_times_its_coverages() {
        let needed = |coverages: f64| {
            let cover = metres(2.0);
            let values = [
                kilonewtons(50.0).into(),
                kilopascals(500.0).into(),
                cover.into(),
                Amount::coefficient(coverages),
            ];
            HAMMITT_BEARING.value(&values).expect("within the law").si
        };
        let off = 0.5 * (needed(3000.0) / needed(1000.0 / 3.0)).ln() / 1.645;
        assert!((off - BEARING_SPREAD).abs() < 0.005, "{off}");
    }

    /// The deviation over the mean of a lognormal factor, of which nine in ten lie within
    /// one over a factor and that factor.
    fn nine_in_ten_within(factor: f64) -> f64 {
        let of_logarithm = factor.ln() / 1.645;
        ((of_logarithm * of_logarithm).exp() - 1.0).sqrt()
    }

    /// Places where the law of Giroud and Han gives 75 mm, [GIROUD-HAN-2004], under loads
    /// of 40 to 100 kN on ground of CBR 1 to 5: Barber, Odom and Patrick say half of it.
    #[test]
    fn the_spread_of_ruts_is_how_far_two_laws_lie_apart() {
        let places = [
            (40.0, 550.0, 0.4702, 20.0, 1.0),
            (40.0, 550.0, 0.3040, 20.0, 2.0),
            (40.0, 550.0, 0.2548, 20.0, 3.0),
            (50.0, 500.0, 0.1384, 30.0, 4.0),
            (100.0, 600.0, 0.1604, 40.0, 5.0),
        ];
        let apart = places.map(|(load, pressure, thickness, above, below)| {
            let [above, below] = [above, below].map(|one| Amount::from(bearing_percent(one)));
            let loading = [
                kilonewtons(load).into(),
                kilopascals(pressure).into(),
                Amount::coefficient(1000.0),
                metres(thickness).into(),
            ];
            let unreinforced = [Amount::coefficient(0.0), Amount::coefficient(PI)];
            let barber = [&loading[..], &[above, below]].concat();
            let giroud_han = [&loading[..], &[below, above], &unreinforced].concat();
            let ruts = [(&GIROUD_HAN_RUT, giroud_han), (&BARBER_RUT, barber)];
            let [giroud_han, barber] = ruts.map(|(law, of)| law.value(&of).expect("within").si);
            assert!((giroud_han - 0.075).abs() < 2e-4, "{giroud_han}");
            (giroud_han / barber).ln()
        });
        let mean = apart.iter().sum::<f64>() / 5.0;
        assert!((mean / 2.0_f64.ln() - 1.0).abs() < 0.1, "{}", mean.exp());
        assert!((nine_in_ten_within(2.0) - RUT_SPREAD).abs() < 0.005);
    }

    /// [HUANG-2004] subgrade strain criteria (from memory): N = f strain^-4, f 6.15, 1.94 and
    /// 1.05 x 10^-7 at 50, 85 and 95 %, which is 0.028, 0.021 and 0.018 N^-1/4;
    /// [HEUKELOM-KLOMP-1962] 5 to 20 MPa for each per cent of
    /// CBR about 10. Their logarithms add as squares.
    #[test]
    fn the_spread_of_strain_is_that_of_stiffness_and_of_the_criterion() {
        for (strain, fourth) in [(0.028, 6.15e-7), (0.021, 1.94e-7), (0.018, 1.05e-7_f64)] {
            assert!((f64::powi(strain, 4) / fourth - 1.0).abs() < 0.005, "{strain}");
        }
        let of_95 = (0.028_f64 / 0.018).ln() / 1.645;
        let of_85 = (0.028_f64 / 0.021).ln() / 1.036;
        assert!((of_95 - of_85).abs() < 0.01, "one distribution: {of_95} {of_85}");
        let of_stiffness = (20.0_f64 / 10.0).ln() / 1.645;
        let of_both = of_stiffness.hypot((of_95 + of_85) / 2.0);
        assert!(((of_both * of_both).exp_m1().sqrt() - STRAIN_SPREAD).abs() < 0.005);
    }
}
