//! Single changes of a flight or of its strip, each with its words and its cost.

use super::cost::{Cost, cost_of};
use super::take_off_changes::take_off_changes;
use crate::assess::Core;
use crate::ground::LegKind;
use crate::movements::daylight::darker;
use crate::phrase::Phrase;
use crate::repairs::Gravel;
use hardpan_model::{Costs, Direction, Flight, Given, SurveyLine, ThrustRow, Verdict, Weight};
use hardpan_quantity::{Amount, Length, Mass, Quantity, Speed, kilograms, metres, millimetres};
use std::sync::Arc;

/// Step in which a threshold is laid up the strip.
const DISPLACED_STEP_M: f64 = 50.0;
/// How far beyond a rough place the ground is brought to a straight line.
const RAMP_M: f64 = 15.0;
/// Findings that cutting and filling can mend.
const UNEVEN: [&str; 5] = ["R10", "R40", "R50", "R60", "R70"];

/// What gravel is paid by, and how it is found.
pub(super) const OF_GRAVEL: (&str, &str) = (
    "cubic metres of gravel",
    "length laid, with a step of the ground more, by width of the strip and thickness",
);
/// The same of ground that is moved.
const OF_EARTH: (&str, &str) =
    ("cubic metres moved", "cut and fill along the mean line, by the width of the strip");

/// A flight as changed so far.
#[derive(Debug, Clone)]
pub(super) struct Changed {
    pub(super) flight: Flight,
    pub(super) gravel: Vec<Gravel>,
    /// Whether the strip is another than the standing one.
    pub(super) reshaped: bool,
}

/// One change.
#[derive(Debug, Clone)]
pub(super) struct Change {
    pub(super) kind: Kind,
    pub(super) action: Phrase,
    /// In the unit of money that the user names; none where it is not stated.
    pub(super) cost: Option<Cost>,
}

/// What is changed.
#[derive(Debug, Clone)]
pub(super) enum Kind {
    Fuel(Option<Mass>, Option<Mass>),
    Pressure(LegKind),
    LandingFlap(Given<String>),
    TakeOffFlap(Given<String>),
    DecisionSpeed(Option<Speed>),
    Thrust(Vec<ThrustRow>),
    Bleeds,
    Hour(usize),
    Directions(bool, bool),
    Displaced(Length),
    Gravel(Vec<Gravel>),
    Straightened(Vec<(Length, Length)>),
    Rolled,
    Drained,
    Cleared,
}

impl Kind {
    /// Whether the strip is worked on.
    pub(super) fn is_repair(&self) -> bool {
        matches!(
            self,
            Self::Gravel(_) | Self::Straightened(_) | Self::Rolled | Self::Drained | Self::Cleared
        )
    }

    pub(super) fn is_gravel(&self) -> bool {
        matches!(self, Self::Gravel(_))
    }

    /// Whether two changes cannot both be made.
    pub(super) fn excludes(&self, other: &Self) -> bool {
        if let (Self::Pressure(one), Self::Pressure(other)) = (self, other) {
            return one == other;
        }
        std::mem::discriminant(self) == std::mem::discriminant(other)
    }
}

impl Changed {
    pub(super) fn of(flight: &Flight) -> Self {
        Self { flight: flight.clone(), gravel: Vec::new(), reshaped: false }
    }

    /// With one more change.
    pub(super) fn with(mut self, change: &Change) -> Self {
        let flight = &mut self.flight;
        match &change.kind {
            Kind::Fuel(landing, take_off) => lighten(flight, *landing, *take_off),
            Kind::Pressure(leg) => *leg.given_mut(flight) = None,
            Kind::LandingFlap(name) => {
                if let Some(plan) = &mut flight.landing {
                    plan.flap = Some(name.clone());
                }
            }
            Kind::TakeOffFlap(name) => {
                if let Some(plan) = &mut flight.take_off {
                    plan.flap = Some(name.clone());
                }
            }
            Kind::DecisionSpeed(speed) => {
                if let Some(plan) = &mut flight.take_off {
                    plan.decision_speed = speed.map(|at| Given::stated("decision_speed", at));
                }
            }
            Kind::Thrust(rows) => {
                if let Some(plan) = &mut flight.take_off {
                    plan.thrust.clone_from(rows);
                }
            }
            Kind::Bleeds => other_bleeds(flight),
            Kind::Hour(index) => at_hour(flight, *index),
            Kind::Directions(landing, take_off) => turned(flight, *landing, *take_off),
            Kind::Displaced(by) => {
                if let Some(plan) = &mut flight.landing {
                    plan.displaced_threshold = Some(Given::stated("displaced_threshold", *by));
                }
            }
            Kind::Gravel(laid) => self.gravel.extend(laid.iter().copied()),
            Kind::Straightened(stretches) => {
                straighten(flight, stretches);
                self.reshaped = true;
            }
            Kind::Rolled => {
                flight.strip.ruts.clear();
                self.reshaped = true;
            }
            Kind::Drained => {
                if let Some(water) = &mut flight.day.standing_water {
                    water.clear();
                }
            }
            Kind::Cleared => {
                flight.strip.loose_stones.clear();
                if let Some(loose) = &mut flight.day.loose_material {
                    loose.clear();
                }
            }
        }
        self
    }
}

fn lighten(flight: &mut Flight, landing: Option<Mass>, take_off: Option<Mass>) {
    let less = |given: &mut Option<Given<Mass>>, by: Option<Mass>| {
        if let (Some(given), Some(by)) = (given, by) {
            given.value -= by;
        }
    };
    if let Some(plan) = &mut flight.landing {
        less(&mut plan.mass, landing);
        less(&mut flight.options.landing_fuel, landing);
    }
    if let Some(plan) = &mut flight.take_off {
        less(&mut plan.mass, take_off);
        less(&mut flight.options.take_off_fuel, take_off);
    }
}

fn other_bleeds(flight: &mut Flight) {
    let Some(other) = flight.options.bleeds.clone() else { return };
    flight.aeroplane.engines.bleed_loss = Some(other.loss);
    if let Some(plan) = &mut flight.take_off {
        plan.bleeds = Some(other.name);
    }
}

fn at_hour(flight: &mut Flight, index: usize) {
    let Some(hour) = flight.day.forecast.get(index).cloned() else { return };
    let day = &mut flight.day;
    // The report made for the flight does not speak for another hour: the
    // forecast takes its place, as old as the report.
    if let (Some(time), Some(observed)) = (&mut day.time_utc, &mut day.observed_utc) {
        let age = time.value.duration_since(observed.value);
        if let Ok(moved) = hour.time_utc.value.checked_sub(age) {
            observed.value = moved;
        }
    }
    day.time_utc = Some(hour.time_utc);
    day.wind = hour.wind;
    day.temperature = hour.temperature;
    day.sea_level_pressure = hour.sea_level_pressure;
}

pub(super) fn turned(flight: &mut Flight, landing: bool, take_off: bool) {
    let other = |given: Option<Given<Direction>>| {
        given.map(|given| {
            given.map(|direction| match direction {
                Direction::Up => Direction::Down,
                Direction::Down => Direction::Up,
            })
        })
    };
    if let (true, Some(plan)) = (landing, flight.landing.as_mut()) {
        plan.direction = other(plan.direction.take());
    }
    if let (true, Some(plan)) = (take_off, flight.take_off.as_mut()) {
        plan.direction = other(plan.direction.take());
    }
}

/// Every line brought to a straight grade over each stretch.
fn straighten(flight: &mut Flight, stretches: &[(Length, Length)]) {
    let Some(survey) = &mut flight.strip.survey else { return };
    survey.file = Arc::from(format!("{} as graded", survey.file));
    for line in &mut survey.lines {
        for stretch in stretches {
            for (index, level) in graded(line, *stretch) {
                if let Some(point) = line.points.get_mut(index) {
                    point.elevation = level;
                }
            }
        }
    }
}

/// The points inside a stretch with the level of the straight line between the
/// last point before and the first point behind it.
fn graded(line: &SurveyLine, (from, to): (Length, Length)) -> Vec<(usize, Length)> {
    let points = &line.points;
    let first = points.partition_point(|point| point.station < from).saturating_sub(1);
    let last = points.partition_point(|point| point.station <= to);
    let last = last.min(points.len().saturating_sub(1));
    let (Some(a), Some(b)) = (points.get(first), points.get(last)) else { return Vec::new() };
    let length = (b.station - a.station).si();
    if length <= 0.0 {
        return Vec::new();
    }
    let level = |index: usize| {
        let share = (points[index].station - a.station).si() / length;
        (index, a.elevation + (b.elevation - a.elevation) * share)
    };
    (first + 1..last).map(level).collect()
}

/// Every single change that the files and the operator allow.
pub(super) fn changes(flight: &Flight, core: &Core) -> Vec<Change> {
    let mut all = Vec::new();
    all.extend(fuel(flight, core));
    all.extend(handling(flight));
    all.extend(take_off_changes(flight, core));
    all.extend(flaps(flight));
    all.extend(hours(flight));
    all.extend(directions(flight));
    all.extend(displaced(flight));
    let amounts = super::amounts_of_gravel(flight, core).into_iter();
    all.extend(amounts.map(|laid| gravel(flight, laid)));
    all.extend(repairs(flight, core));
    all
}

/// Less fuel as far as the least fuel allows, and no farther than is needed.
fn fuel(flight: &Flight, core: &Core) -> Option<Change> {
    let spare = |aboard: &Option<Given<Mass>>, least: &Option<Given<Mass>>| {
        let spare = aboard.as_ref()?.value - least.as_ref()?.value;
        (spare.si() > 0.0).then_some(spare)
    };
    let over = |answer: &Option<crate::assessment::MassAnswer>| {
        let answer = answer.as_ref()?;
        let over = (answer.planned? - answer.largest?).si();
        (over > 0.0).then(|| kilograms((over / 10.0).ceil() * 10.0))
    };
    let options = &flight.options;
    let landing = over(&core.landing_mass)
        .zip(spare(&options.landing_fuel, &options.least_landing_fuel))
        .map(|(over, spare)| over.min(spare));
    let take_off = over(&core.take_off_mass)
        .zip(spare(&options.take_off_fuel, &options.least_take_off_fuel))
        .map(|(over, spare)| over.min(spare));
    let mut parts = Vec::new();
    let mut amounts: Vec<Amount> = Vec::new();
    for (word, less) in [("land", landing), ("take off", take_off)] {
        if let Some(less) = less {
            parts.push(format!("{word} with {{}} less fuel"));
            amounts.push(less.into());
        }
    }
    (!parts.is_empty()).then(|| Change {
        kind: Kind::Fuel(landing, take_off),
        action: Phrase::new(format!("{}, the load kept", parts.join(" and ")), amounts),
        cost: Some(Cost::default()),
    })
}

fn handling(flight: &Flight) -> Vec<Change> {
    let free = |kind, words: Phrase| Change { kind, action: words, cost: Some(Cost::default()) };
    let mut all = Vec::new();
    for leg in [LegKind::Main, LegKind::Nose] {
        if leg.given(flight).is_some() {
            let words = format!("set the {} tyres as the ground asks for", leg.word());
            all.push(free(Kind::Pressure(leg), words.into()));
        }
    }
    if let (Some(other), true) = (&flight.options.bleeds, flight.take_off.is_some()) {
        let words = format!("take off with the bleeds {}", other.name.value);
        all.push(free(Kind::Bleeds, words.replace("{}", "").into()));
    }
    all
}

fn flaps(flight: &Flight) -> Vec<Change> {
    let landing = flight.landing.as_ref().and_then(|plan| plan.flap.as_ref());
    let take_off = flight.take_off.as_ref().and_then(|plan| plan.flap.as_ref());
    let mut all = Vec::new();
    for setting in &flight.aeroplane.flaps {
        let allowed = |given: &Option<Given<bool>>| given.as_ref().is_some_and(|one| one.value);
        let differs =
            |now: Option<&Given<String>>| now.is_some_and(|now| now.value != setting.name.value);
        let words = |movement: &str| {
            Phrase::from(format!("{movement} with flap {}", setting.name.value.replace("{}", "")))
        };
        let name = setting.name.clone();
        if differs(landing) && allowed(&setting.landing) {
            let kind = Kind::LandingFlap(name.clone());
            all.push(Change { kind, action: words("land"), cost: Some(Cost::default()) });
        }
        if differs(take_off) && allowed(&setting.take_off) {
            let kind = Kind::TakeOffFlap(name);
            all.push(Change { kind, action: words("take off"), cost: Some(Cost::default()) });
        }
    }
    all
}

fn hours(flight: &Flight) -> Vec<Change> {
    let now = flight.day.time_utc.as_ref().map(|time| time.value);
    let rows = flight.day.forecast.iter().enumerate();
    rows.filter(|(_, hour)| Some(hour.time_utc.value) != now)
        .filter(|(index, _)| !is_dark_at(flight, *index))
        .map(|(index, hour)| {
            let time = hour.time_utc.value.strftime("%H:%MZ").to_string();
            let mut words = format!("move at {time}");
            let mut amounts: Vec<Amount> = Vec::new();
            if let Some(temperature) = &hour.temperature {
                words.push_str(", {}");
                amounts.push(temperature.value.into());
            }
            if let Some(wind) = &hour.wind {
                match wind.value.from {
                    Some(from) => {
                        let degrees = from.si().to_degrees().round();
                        words.push_str(&format!(", wind {degrees:03.0}° {{}}"));
                    }
                    None => words.push_str(", wind {}"),
                }
                amounts.push(wind.value.speed.into());
            }
            let apart = now.map(|now| hour.time_utc.value.duration_since(now));
            let hours = apart.map(|apart| apart.as_secs_f64().abs() / 3600.0);
            let cost = cost_of(
                &flight.options.costs.hour,
                hours,
                ("hours", "from the time planned to that of the forecast"),
            );
            Change { kind: Kind::Hour(index), action: Phrase::new(words, amounts), cost }
        })
        .collect()
}

fn is_dark_at(flight: &Flight, index: usize) -> bool {
    let mut moved = flight.clone();
    at_hour(&mut moved, index);
    darker(&moved).is_some_and(|light| light.is_dark())
}

fn directions(flight: &Flight) -> Vec<Change> {
    let flown = (flight.landing.is_some(), flight.take_off.is_some());
    [("land", true, false), ("take off", false, true), ("land and take off", true, true)]
        .into_iter()
        .filter(|(_, landing, take_off)| (flown.0 || !landing) && (flown.1 || !take_off))
        .map(|(word, landing, take_off)| Change {
            kind: Kind::Directions(landing, take_off),
            action: format!("{word} in the other direction").into(),
            cost: Some(Cost::default()),
        })
        .collect()
}

fn displaced(flight: &Flight) -> Vec<Change> {
    let Some(most) = &flight.options.displaced_up_to else { return Vec::new() };
    if flight.landing.is_none() {
        return Vec::new();
    }
    let steps = (most.value.si() / DISPLACED_STEP_M).floor().clamp(0.0, 12.0) as usize;
    (1..=steps)
        .map(|step| {
            let by = metres(DISPLACED_STEP_M * step as f64);
            Change {
                kind: Kind::Displaced(by),
                action: Phrase::new(
                    "lay the threshold of the landing {} up the strip",
                    [by.into()],
                ),
                cost: Some(Cost::default()),
            }
        })
        .collect()
}

/// Volume of gravel over the whole width of the strip, m³; none without a width.
pub(super) fn volume(flight: &Flight, laid: &[Gravel]) -> Option<f64> {
    let width = flight.strip.width.as_ref()?.value.si();
    let one = |one: &Gravel| {
        let length = (one.to - one.from).si() + crate::ground::STEP_M;
        length * width * one.thickness.si()
    };
    Some(laid.iter().map(one).fold(0.0, |sum, one| sum + one))
}

/// Laying gravel, in words and with its cost.
pub(super) fn gravel(flight: &Flight, laid: Vec<Gravel>) -> Change {
    let mut words = Vec::new();
    let mut amounts: Vec<Amount> = Vec::new();
    for one in &laid {
        words.push("{} of gravel of at least CBR {} from station {} to {}");
        amounts.extend::<[Amount; 4]>([
            one.thickness.into(),
            one.bearing_ratio.into(),
            one.from.into(),
            one.to.into(),
        ]);
    }
    let cost = cost_of(&flight.options.costs.gravel_cubic_metre, volume(flight, &laid), OF_GRAVEL);
    let action = Phrase::new(format!("lay and compact {}", words.join(" and ")), amounts);
    Change { kind: Kind::Gravel(laid), action, cost }
}

fn repairs(flight: &Flight, core: &Core) -> Vec<Change> {
    let costs = &flight.options.costs;
    let mut all: Vec<Change> = uneven(flight, core).into_iter().collect();
    let ruts = flight.strip.ruts.len();
    if ruts > 0 && failing(core, &["G55", "W40"]) {
        let metres = rutted(flight);
        let cost = cost_of(
            &costs.rolling_metre,
            Some(metres),
            ("metres rolled", "from the first to the last rut measured"),
        );
        let action = Phrase::from("fill and roll the ruts measured");
        all.push(Change { kind: Kind::Rolled, action, cost });
    }
    let length = |patches: Option<&Vec<hardpan_model::Patch>>| -> f64 {
        patches.into_iter().flatten().map(|patch| (patch.to - patch.from.value).si()).sum()
    };
    let water = length(flight.day.standing_water.as_ref());
    if water > 0.0 {
        let cost = cost_of(
            &costs.draining_metre,
            Some(water),
            ("metres drained", "lengths of the standing water of the day"),
        );
        let action = Phrase::new("drain {} of standing water", [metres(water).into()]);
        all.push(Change { kind: Kind::Drained, action, cost });
    }
    let stones: f64 =
        flight.strip.loose_stones.iter().map(|one| (one.to - one.from.value).si()).sum();
    let loose = length(flight.day.loose_material.as_ref()).max(stones);
    if loose > 0.0 {
        let width = flight.strip.width.as_ref().map(|width| width.value.si());
        let cost = cost_of(
            &costs.clearing_square_metre,
            width.map(|width| width * loose),
            ("square metres cleared", "lengths of loose stones by the width of the strip"),
        );
        let action = Phrase::new("remove the loose stones from {}", [metres(loose).into()]);
        all.push(Change { kind: Kind::Cleared, action, cost });
    }
    all
}

fn rutted(flight: &Flight) -> f64 {
    let stations = flight.strip.ruts.iter().map(|rut| rut.station.value.si());
    let (low, high) = stations.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), at| {
        (f64::min(low, at), f64::max(high, at))
    });
    (high - low).max(0.0)
}

fn failing(core: &Core, codes: &[&str]) -> bool {
    core.findings.iter().any(|one| {
        one.verdict == Verdict::Fail && one.weight == Weight::Safety && codes.contains(&one.code)
    })
}

/// Cut and fill the stretches whose evenness fails.
fn uneven(flight: &Flight, core: &Core) -> Option<Change> {
    let bad = core.findings.iter().filter(|one| {
        one.verdict == Verdict::Fail && one.weight == Weight::Safety && UNEVEN.contains(&one.code)
    });
    let mut places: Vec<(Length, Length)> = bad
        .filter_map(|one| one.place)
        .map(|place| (place.from - metres(RAMP_M), place.to + metres(RAMP_M)))
        .collect();
    places.sort_by(|a, b| a.0.si().total_cmp(&b.0.si()));
    let mut stretches: Vec<(Length, Length)> = Vec::new();
    for (from, to) in places {
        match stretches.last_mut() {
            Some(last) if from <= last.1 => last.1 = last.1.max(to),
            _ => stretches.push((from.max(metres(0.0)), to)),
        }
    }
    let survey = flight.strip.survey.as_ref()?;
    if stretches.is_empty() {
        return None;
    }
    let moved = earth(&survey.lines, &stretches);
    let width = flight.strip.width.as_ref().map(|width| width.value.si());
    let volume = width.map(|width| width * moved.0);
    let mut words = Vec::new();
    let mut amounts: Vec<Amount> = Vec::new();
    for (from, to) in &stretches {
        words.push("from station {} to {}");
        amounts.extend::<[Amount; 2]>([(*from).into(), (*to).into()]);
    }
    amounts.push(millimetres(moved.1 * 1e3).into());
    let action = format!("cut and fill to a straight grade {}, by up to {{}}", words.join(" and "));
    Some(Change {
        kind: Kind::Straightened(stretches),
        action: Phrase::new(action, amounts),
        cost: cost_of(&flight.options.costs.earth_cubic_metre, volume, OF_EARTH),
    })
}

/// Area of ground moved along a mean line, m², and the greatest cut or fill, m.
fn earth(lines: &[SurveyLine], stretches: &[(Length, Length)]) -> (f64, f64) {
    let (mut area, mut most) = (0.0, 0.0_f64);
    for line in lines {
        for stretch in stretches {
            let levels = graded(line, *stretch);
            for (index, level) in &levels {
                let off = (line.points[*index].elevation - *level).si().abs();
                let apart = match (index.checked_sub(1), line.points.get(index + 1)) {
                    (Some(before), Some(after)) => {
                        0.5 * (after.station - line.points[before].station).si()
                    }
                    _ => 0.0,
                };
                area += off * apart;
                most = most.max(off);
            }
        }
    }
    (area / lines.len().max(1) as f64, most)
}

/// The cost of leaving load behind.
pub(super) fn cost_of_load(costs: &Costs, left: Mass) -> Option<Cost> {
    let of = ("tonnes left behind", "masses planned less those that then hold");
    cost_of(&costs.load_tonne, Some(left.si() / 1000.0), of)
}

#[cfg(test)]
mod tests {
    use super::graded;
    use hardpan_model::{SurveyLine, SurveyPoint};
    use hardpan_quantity::{Quantity, metres};

    /// A bump of 100 mm on level ground is cut to nothing; its ends stay.
    #[test]
    fn a_stretch_is_brought_to_the_line_between_its_ends() {
        let level = |at: u32| if at == 5 { 10.1 } else { 10.0 };
        let point = |at: u32| SurveyPoint {
            station: metres(f64::from(at)),
            elevation: metres(level(at)),
            line: at,
        };
        let line = SurveyLine { offset: metres(0.0), points: (0..11).map(point).collect() };
        let changed = graded(&line, (metres(3.5), metres(6.5)));
        let indices: Vec<usize> = changed.iter().map(|one| one.0).collect();
        assert_eq!(indices, [4, 5, 6]);
        assert!(changed.iter().all(|(_, level)| (level.si() - 10.0).abs() < 1e-9));
    }
}
