//! What reverse thrust moves: the dust and the stones that the sheet along the
//! ground lifts ahead of it, and the counted stones over which it is used.

use crate::by_formula::{by_formula, result_of};
use crate::context::Context;
use crate::draft::{computed, constant, given};
use crate::jet::{STONE_DENSITY, STONES_OF_ROCK};
use crate::measured::{Known, Unavailable};
use hardpan_debris::Grain;
use hardpan_model::{Given, Patch, Source, Step, Tier};
use hardpan_quantity::{
    Acceleration, Amount, Density, Length, Quantity, STANDARD_GRAVITY_M_PER_S2, Speed, ratio,
};

const ALONG_GROUND: Source =
    Source::new("", "decay along the ground, momentum balance without friction", Tier::Derived);
const SKIN: Source = Source::new("SHAO-LU-2000", "eq. 22, skin friction of 0.005", Tier::Judgement);
const SKIN_FRICTION: f64 = 0.005;

/// Constant of the sheet along the ground that is held.
pub(crate) const GREATEST_CONSTANT: f64 = 1.0;
pub(crate) const SHEET: Source =
    Source::new("", "greatest over moving ground, at even odds", Tier::Memory);

/// What the sheet lifts and moves, the aeroplane at rest.
pub(crate) struct Front {
    /// Largest single stone that it still moves under the lip.
    pub(crate) moves: Length,
    /// How far ahead of where it strikes it lifts the dust of the surface; none
    /// where nobody knows how fine that is.
    pub(crate) dust_to: Option<Length>,
    pub(crate) steps: Vec<Step>,
}

/// The sheet of a lobe at an efflux speed.
pub(crate) fn front(
    context: &Context<'_>,
    lobe: &Given<Length>,
    efflux: Speed,
    ahead: &Given<Length>,
) -> Known<Front> {
    let air = context.measured.air.as_ref().map_err(Clone::clone)?.density();
    let jet = || {
        [computed("efflux speed", efflux, "the efflux of D40"), given("diameter of the lobe", lobe)]
    };
    let one = constant("one lobe", Amount::count(1.0), ALONG_GROUND);
    let decay = constant("decay along the ground", Amount::coefficient(6.0), ALONG_GROUND);
    let mut inputs = jet().to_vec();
    inputs.push(constant("density over the air's", ratio(1.0), ALONG_GROUND));
    inputs.extend([one.clone(), given("strike point to lip", ahead), decay.clone()]);
    let sheet = by_formula("jet-centre-speed", inputs)?;
    let under_lip: Speed = result_of(&sheet)?;
    let gravity = Acceleration::from_si(STANDARD_GRAVITY_M_PER_S2);
    let rock = Density::from_si(STONE_DENSITY);
    let stone = by_formula(
        "single-stone-size",
        vec![
            computed("speed of the sheet under the lip", under_lip, "the step above"),
            constant("density of rock", rock, STONES_OF_ROCK),
            computed("air density", air, "air of the day"),
            constant("gravity", gravity, STONES_OF_ROCK),
        ],
    )?;
    let moves = result_of(&stone)?;
    let mut steps = vec![sheet, stone];
    let mut dust_to = None;
    if let Some(grain) = &context.flight.strip.dust_grain {
        let dust = Grain { diameter: grain.value, density: rock, air_density: air };
        let threshold = dust
            .sheet_threshold(SKIN_FRICTION)
            .map_err(|error| Unavailable::refused("the dust ahead of reverse", &error))?;
        let mut inputs = jet().to_vec();
        inputs.extend([one, constant("speed that lifts the dust", threshold, SKIN), decay]);
        let reach = by_formula("jet-reach", inputs)?;
        dust_to = Some(result_of(&reach)?);
        steps.push(reach);
    }
    Ok(Front { moves, dust_to, steps })
}

/// Patches of loose stones that the planned landing rolls over with the
/// airspeed above that by which reverse is stowed; none while that is not known.
pub(crate) fn under_reverse<'a>(context: &Context<'a>, stowed_by: Speed) -> Vec<&'a Patch> {
    let patches = context.flight.day.loose_material.as_deref().unwrap_or_default();
    let run = context.measured.landing.as_ref().and_then(|run| run.as_ref().ok());
    let Some(trace) = run.and_then(|run| run.trace.as_ref()) else { return Vec::new() };
    let fast = trace
        .points
        .iter()
        .filter(|point| point.height <= Length::default() && point.airspeed >= stowed_by);
    let span = fast.map(|point| (point.station, point.station));
    let span = span.reduce(|a, b| (a.0.min(b.0), a.1.max(b.1)));
    let Some((from, to)) = span else { return Vec::new() };
    patches.iter().filter(|patch| patch.from.value < to && from < patch.to).collect()
}

/// The largest of a patch's counted stones that is no larger than what is
/// moved: `Ok(None)` where all are larger.
///
/// # Errors
/// Nobody measured the stones.
pub(crate) fn moved_of(patch: &Patch, moves: Length) -> Result<Option<Length>, ()> {
    let mut sizes: Vec<Length> = patch.sizes.iter().map(|size| size.up_to.value).collect();
    if sizes.is_empty() {
        sizes.extend(patch.largest_stone.as_ref().map(|largest| largest.value));
    }
    if sizes.is_empty() {
        return Err(());
    }
    Ok(sizes.into_iter().filter(|size| *size <= moves).reduce(Length::max))
}
