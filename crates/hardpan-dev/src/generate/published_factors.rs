//! Published factors on distances beside what the runs give for the same change.

use super::markdown::{escaped, table};
use crate::{Problem, Workspace};
use hardpan_files::{Disk, read_flight};
use hardpan_model::{
    Condition, Direction, FieldRule, FlapSetting, Flight, Given, GroundPoint, Source, Strip,
    SurfaceKind, SurfaceState, Tier,
};
use hardpan_quantity::{
    Length, Mass, Quantity, Ratio, Speed, kilograms, metres, metres_per_second, ratio,
};
use hardpan_run::{
    Air, Available, Ground, LandingPlan, RunModel, Situation, TakeOffPlan, WindComponents,
    friction, landing, take_off,
};

/// Invented aeroplanes that the comparison is made with.
const FLIGHTS: [(&str, &str); 2] = [
    ("demo/flight.toml", "twin turbofan, 40 t"),
    ("examples/04-dirt-strip-turboprop/flight.toml", "twin turboprop, 16 t"),
];
const LENGTH_M: f64 = 6000.0;
const STEP_M: f64 = 20.0;
/// Rolling on dry pavement. Source: [RAYMER-2018] table 17.1 and its text.
const PAVED_ROLLING: f64 = 0.03;

const LEAFLET: Source =
    Source::new("CAA-SSL-7C", "table of factors, light aeroplanes", Tier::Secondary);
const GRAVEL_LAW: Source =
    Source::new("CARS-704", "704.46(6), propeller aeroplanes above 5700 kg", Tier::Published);

const OPENING: &str = "
## Published factors beside the runs

What a published factor adds to a distance on dry pavement, and what the runs
give for the same change: all engines to the screen, accelerate-stop with an
engine failure, and the landing from 50 ft, each over level ground in the
standard atmosphere at sea level. Both aeroplanes are invented. The first figure
takes the best estimate of rolling and braking, the second what is credited, by
which the assessment judges. None of it is a test of the runs: the factors are
rules, most of them for light aeroplanes. Approved data bind. Where an operator
must use a factor and a run is longer, the longer of the two is to be used; the
last column says which that is, and by how much of the paved distance.

";

/// One change and the factor that is published for it.
struct Change {
    name: &'static str,
    distance: Distance,
    factor: f64,
    source: Source,
    made: Made,
}

#[derive(Clone, Copy, PartialEq)]
enum Distance {
    TakeOff,
    AccelerateStop,
    Landing,
}

#[derive(Clone, Copy)]
enum Made {
    Surface(SurfaceKind, SurfaceState),
    /// Rise in the direction of the movement.
    Slope(f64),
    Heavier,
    Higher,
    Warmer,
    Tailwind,
}

/// What the runs are made with.
#[derive(Clone, Copy)]
struct Setting {
    mass: Mass,
    slope: f64,
    altitude: f64,
    warmer: f64,
    headwind: f64,
    rolling: f64,
    braking: f64,
}

/// The section of the page.
pub(super) fn section(workspace: &Workspace) -> Result<String, Vec<Problem>> {
    let mut flights = Vec::new();
    for (file, name) in FLIGHTS {
        let path = workspace.path(file).to_string_lossy().into_owned();
        let flight = read_flight(&Disk::default(), &path).value;
        let unread = || vec![Problem::of_file(file, "cannot be read".to_owned())];
        flights.push((file, name, flight.ok_or_else(unread)?));
    }
    let head: Vec<&str> = ["change", "distance", "factor", "source"]
        .into_iter()
        .chain(FLIGHTS.map(|(_, name)| name))
        .chain(["longer"])
        .collect();
    let mut rows = Vec::new();
    for change in changes() {
        let mut row = vec![
            change.name.to_owned(),
            word(change.distance).to_owned(),
            format!("{:.2}", change.factor),
            escaped(&change.source.to_string()),
        ];
        let mut most: f64 = 0.0;
        for (file, _, flight) in &flights {
            let found = compared(flight, &change);
            let [best, credited] = found.map_err(|why| vec![Problem::of_file(*file, why)])?;
            most = most.max(credited);
            row.push(format!("{best:.2}, {credited:.2}"));
        }
        let by = most - change.factor;
        row.push(match by {
            by if by > 0.005 => format!("run, by {by:.2}"),
            by if by < -0.005 => format!("factor, by {:.2}", -by),
            _ => "neither".to_owned(),
        });
        rows.push(row);
    }
    Ok(format!("{OPENING}{}", table(&head, &rows)))
}

const fn word(distance: Distance) -> &'static str {
    match distance {
        Distance::TakeOff => "take-off",
        Distance::AccelerateStop => "accelerate-stop",
        Distance::Landing => "landing",
    }
}

fn changes() -> Vec<Change> {
    use Distance::{AccelerateStop, Landing, TakeOff};
    let gravel = |distance| Change {
        name: "dry gravel",
        distance,
        factor: 1.15,
        source: GRAVEL_LAW,
        made: Made::Surface(SurfaceKind::Gravel, SurfaceState::Dry),
    };
    let leaflet =
        |name, distance, factor, made| Change { name, distance, factor, source: LEAFLET, made };
    let grass = |state| Made::Surface(SurfaceKind::Grass, state);
    vec![
        gravel(TakeOff),
        gravel(AccelerateStop),
        gravel(Landing),
        leaflet("dry grass", TakeOff, 1.20, grass(SurfaceState::Dry)),
        leaflet("dry grass", Landing, 1.15, grass(SurfaceState::Dry)),
        leaflet("wet grass", TakeOff, 1.30, grass(SurfaceState::Wet)),
        leaflet("wet grass", Landing, 1.35, grass(SurfaceState::Wet)),
        leaflet("2 % uphill", TakeOff, 1.10, Made::Slope(0.02)),
        leaflet("2 % downhill", Landing, 1.10, Made::Slope(-0.02)),
        leaflet("10 % more mass", TakeOff, 1.20, Made::Heavier),
        leaflet("10 % more mass", Landing, 1.10, Made::Heavier),
        leaflet("1000 ft higher", TakeOff, 1.10, Made::Higher),
        leaflet("1000 ft higher", Landing, 1.05, Made::Higher),
        leaflet("10 K warmer", TakeOff, 1.10, Made::Warmer),
        leaflet("10 K warmer", Landing, 1.05, Made::Warmer),
        leaflet("tailwind of 10 % of lift-off speed", TakeOff, 1.20, Made::Tailwind),
        leaflet("tailwind of 10 % of touchdown speed", Landing, 1.20, Made::Tailwind),
    ]
}

/// Distance over that on dry pavement, by best estimate and as credited.
fn compared(flight: &Flight, change: &Change) -> Result<[f64; 2], String> {
    let landing = change.distance == Distance::Landing;
    let mass = match landing {
        true => flight.landing.as_ref().and_then(|plan| plan.mass.as_ref()),
        false => flight.take_off.as_ref().and_then(|plan| plan.mass.as_ref()),
    };
    let paved = flight.aeroplane.brakes.paved_dry_coefficient.as_ref();
    let (Some(mass), Some(paved)) = (mass, paved) else {
        return Err("states no mass or no braking on dry pavement".to_owned());
    };
    let base = Setting {
        mass: mass.value,
        slope: 0.0,
        altitude: 0.0,
        warmer: 0.0,
        headwind: 0.0,
        rolling: PAVED_ROLLING,
        braking: paved.value,
    };
    let own = distance(flight, change.distance, base)?;
    let changed = match change.made {
        Made::Surface(kind, state) => on_surface(flight, base, kind, state)?,
        Made::Slope(slope) => [Setting { slope, ..base }; 2],
        Made::Heavier => [Setting { mass: kilograms(1.1 * base.mass.si()), ..base }; 2],
        Made::Higher => [Setting { altitude: 304.8, ..base }; 2],
        Made::Warmer => [Setting { warmer: 10.0, ..base }; 2],
        // The rule has one and a half times a tailwind counted.
        Made::Tailwind => [Setting { headwind: -0.1 * own.1.si() / 1.5, ..base }; 2],
    };
    let [best, credited] =
        changed.map(|setting| distance(flight, change.distance, setting).map(|found| found.0));
    Ok([best?.si() / own.0.si(), credited?.si() / own.0.si()])
}

fn on_surface(
    flight: &Flight,
    base: Setting,
    kind: SurfaceKind,
    state: SurfaceState,
) -> Result<[Setting; 2], String> {
    let surface = Some(Given::stated("the comparison", kind));
    let strip = Strip { surface, ..Strip::default() };
    let found = friction(&strip, &flight.aeroplane, state)
        .map_err(|needs| format!("{} {}: {needs:?}", state.word(), kind.word()))?;
    let with = |rolling: Ratio, braking: Ratio| Setting {
        rolling: rolling.si(),
        braking: braking.si(),
        ..base
    };
    Ok([
        with(found.rolling.value, found.braking.value),
        with(found.rolling.credited, found.braking.credited),
    ])
}

/// A distance, and the speed that leaves or meets the ground.
fn distance(flight: &Flight, wanted: Distance, on: Setting) -> Result<(Length, Speed), String> {
    let points = 0..=(LENGTH_M / STEP_M) as u32;
    let points = points.map(|index| {
        let station = f64::from(index) * STEP_M;
        GroundPoint {
            station: metres(station),
            elevation: metres(on.slope * station),
            rolling: ratio(on.rolling),
            braking: ratio(on.braking),
            water: metres(0.0),
        }
    });
    let condition = Condition { points: points.collect() };
    let ground = Ground::new(&condition, Direction::Up, metres(LENGTH_M));
    let ground = ground.map_err(|error| error.to_string())?;
    let air = Air::standard(metres(on.altitude), on.warmer).map_err(|error| error.to_string())?;
    let wind = WindComponents::stated(metres_per_second(on.headwind), metres_per_second(0.0));
    let centre = match wanted {
        Distance::Landing => {
            flight.landing.as_ref().and_then(|plan| plan.centre_of_gravity.as_ref())
        }
        _ => flight.take_off.as_ref().and_then(|plan| plan.centre_of_gravity.as_ref()),
    };
    let centre = centre.ok_or("states no centre of gravity")?.value;
    let situation =
        Situation { mass: on.mass, centre_of_gravity: centre, air, wind, ground: &ground };
    match wanted {
        Distance::Landing => landed(flight, &situation),
        _ => taken_off(flight, wanted, &situation),
    }
}

fn taken_off(
    flight: &Flight,
    wanted: Distance,
    situation: &Situation<'_>,
) -> Result<(Length, Speed), String> {
    let flap = flight.take_off.as_ref().and_then(|plan| plan.flap.as_ref());
    let model = RunModel::for_take_off(&flight.aeroplane, setting(flight, flap)?);
    let model = model.map_err(|needs| format!("{needs:?}"))?;
    let plan = TakeOffPlan {
        rule: FieldRule::LargeTakeOff,
        line_up: metres(0.0),
        available: Available::default(),
        wet_screen: None,
        decision_speed: None,
        brake_allowance: None,
        traces: false,
    };
    let run = take_off(&model, situation, &plan).map_err(|error| error.to_string())?;
    let length = match (wanted, run.accelerate_stop_needed) {
        (Distance::AccelerateStop, Some(stop)) => stop,
        _ => run.all_engines.screen,
    };
    Ok((length, run.speeds.lift_off.true_airspeed))
}

fn landed(flight: &Flight, situation: &Situation<'_>) -> Result<(Length, Speed), String> {
    let flap = flight.landing.as_ref().and_then(|plan| plan.flap.as_ref());
    let model = RunModel::for_landing(&flight.aeroplane, setting(flight, flap)?);
    let model = model.map_err(|needs| format!("{needs:?}"))?;
    let plan = LandingPlan {
        own_factor: None,
        rule: FieldRule::LandingSixtyPercent,
        state: SurfaceState::Dry,
        speed_addition: metres_per_second(0.0),
        late_by: None,
        brake_target: None,
        traces: false,
    };
    let run = landing(&model, situation, &plan).map_err(|error| error.to_string())?;
    Ok((run.stop, run.touchdown_speed))
}

fn setting<'a>(
    flight: &'a Flight,
    name: Option<&Given<String>>,
) -> Result<&'a FlapSetting, String> {
    let name = name.ok_or("states no flap")?;
    let found = flight.aeroplane.flaps.iter().find(|flap| flap.name.value == name.value);
    found.ok_or_else(|| format!("has no flap {}", name.value))
}
