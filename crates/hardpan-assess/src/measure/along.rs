//! The rolling surface by station: what the strip has everywhere, and what is
//! stated or seen of stretches of it.

use crate::by_formula::{by_formula, result_of};
use crate::draft::given;
use crate::ground::rut_drag::RutDrag;
use crate::measured::{Known, Unavailable};
use crate::reported_area::{Stretch, overlap, wheel_band};
use hardpan_ground::ROLLING_OF_RUTTING;
use hardpan_model::{Condition, Flight, GroundPoint, Need, Step, SurfaceFriction, SurfaceState};
use hardpan_quantity::{Amount, Length, Quantity, Ratio, metres, ratio};
use hardpan_run::Friction;
use std::sync::Arc;

/// Braking that is credited in standing water, at any speed: what is published
/// for pavement from 85 % of hydroplaning speed up.
/// Source: [AC-25-32] wheel braking coefficients, standing water.
const BRAKING_IN_WATER: f64 = 0.05;
/// Width over which the surface changes where a stretch ends.
const EDGE_M: f64 = 0.1;

/// What holds over one stretch.
struct Piece {
    from: Length,
    to: Length,
    what: What,
}

enum What {
    /// Stated in place of what the strip has.
    Friction { rolling: Option<Ratio>, braking: Option<Ratio> },
    /// Added to it by ground that gives way.
    Sinking(Ratio),
    /// Water of a depth.
    Water(Length),
    /// Loose material that rolls no easier than this.
    Loose(Ratio),
}

/// The rolling surface by station, with the friction that is credited and what
/// ruts add to it.
pub(super) fn condition(
    flight: &Flight,
    profile: &Known<Vec<(Length, Length)>>,
    (friction, ruts): (&Known<Friction>, Option<&Arc<RutDrag>>),
) -> Known<Condition> {
    let (profile, friction) = match (profile, friction) {
        (Ok(profile), Ok(friction)) => (profile, friction),
        (profile, friction) => {
            let needs = [profile.as_ref().err(), friction.as_ref().err()];
            let needs = needs.into_iter().flatten().flat_map(|why| why.needs.clone());
            return Err(Unavailable::missing("the rolling surface", needs.collect()));
        }
    };
    let pieces = pieces(flight)?;
    let everywhere = (friction.rolling.credited, friction.braking.credited);
    let stations = stations(profile, &pieces);
    let near = |index: usize| stations.get(index).map_or(Length::default(), |(at, _)| *at);
    let points = stations.iter().enumerate().map(|(index, &(station, elevation))| {
        let (rolling, braking, water) = at(station, &pieces, everywhere);
        let added = ruts.map_or(ratio(0.0), |ruts| {
            ruts.added_between(near(index.saturating_sub(1)), near(index + 1).max(station))
        });
        let rolling = over_ruts(rolling, everywhere.0, added);
        GroundPoint { station, elevation, rolling, braking, water }
    });
    Ok(Condition { points: points.collect() })
}

/// Rolling coefficient of a place where ruts add to that of the day. What is
/// stated or seen of the place and the law of ruts tell of the same work on the
/// same ground: it counts once, by the one that gives more.
fn over_ruts(here: Ratio, everywhere: Ratio, added: Ratio) -> Ratio {
    let rutted = if added.si() > 0.0 { everywhere + added } else { here };
    here.max(rutted).min(ratio(1.0))
}

/// Rolling resistance that each reported area adds where wheels sink into it.
pub(crate) fn sinking_steps(flight: &Flight) -> Known<Vec<(Stretch, Step)>> {
    let everywhere = (metres(f64::NEG_INFINITY), metres(f64::INFINITY));
    let band = wheel_band(flight);
    let mut steps = Vec::new();
    for area in &flight.strip.areas {
        let Some(sinkage) = &area.sinkage else { continue };
        let Some(stretch) = overlap(area, everywhere, band) else { continue };
        let tyre = &flight.aeroplane.gear.main.tyre;
        let (Some(load), Some(pressure)) = (&tyre.rated_load, &tyre.rated_pressure) else {
            let what = "aeroplane: gear.main.tyre.rated_load, rated_pressure".to_owned();
            let how = "the contact of the tyre, for the drag where it sinks in".to_owned();
            return Err(Unavailable::missing("the rolling surface", vec![Need { what, how }]));
        };
        let inputs = vec![
            given("depth of sinking", sinkage),
            given("rated load of a main tyre", load),
            given("rated pressure of a main tyre", pressure),
        ];
        steps.push((stretch, by_formula(ROLLING_OF_RUTTING.name, inputs)?));
    }
    Ok(steps)
}

fn pieces(flight: &Flight) -> Known<Vec<Piece>> {
    let mut pieces = Vec::new();
    let state = flight.day.surface_state.as_ref().map(|state| state.value);
    if let Some(state) = state {
        let needs = stated_for_another_state(&flight.strip.friction, state);
        if !needs.is_empty() {
            return Err(Unavailable::missing("the friction of a stretch", needs));
        }
    }
    for stated in flight.strip.friction.iter().filter(|stated| Some(stated.state) == state) {
        let Some((from, to)) = &stated.between else { continue };
        let value = |given: &Option<hardpan_model::Given<Ratio>>| given.as_ref().map(|g| g.value);
        let what =
            What::Friction { rolling: value(&stated.rolling), braking: value(&stated.braking) };
        pieces.push(Piece { from: from.value, to: *to, what });
    }
    for ((from, to), step) in sinking_steps(flight)? {
        pieces.push(Piece { from, to, what: What::Sinking(result_of(&step)?) });
    }
    for patch in flight.day.standing_water.iter().flatten() {
        let what = What::Water(patch.depth.value);
        pieces.push(Piece { from: patch.from.value, to: patch.to, what });
    }
    for patch in flight.day.loose_material.iter().flatten() {
        if let Some(rolling) = &patch.rolling {
            let what = What::Loose(rolling.value);
            pieces.push(Piece { from: patch.from.value, to: patch.to, what });
        }
    }
    Ok(pieces)
}

/// What is needed of stretches whose friction somebody stated for other states
/// only: how they are in this one is not known. In the dry, where the ground is at
/// its best, a stretch is unlike the rest only where that is stated.
fn stated_for_another_state(stated: &[SurfaceFriction], state: SurfaceState) -> Vec<Need> {
    if state == SurfaceState::Dry {
        return Vec::new();
    }
    type Of = fn(&SurfaceFriction) -> bool;
    let quantities: [(&str, Of); 2] =
        [("rolling", |one| one.rolling.is_some()), ("braking", |one| one.braking.is_some())];
    let mut needs: Vec<Need> = Vec::new();
    for (name, has) in quantities {
        let of_it = || stated.iter().filter(move |one| has(one));
        let known: Vec<_> = of_it().filter(|one| one.state == state).filter_map(ends).collect();
        for other in of_it().filter(|one| one.state != state) {
            let Some(stretch) = ends(other) else { continue };
            if covered(stretch, &known) {
                continue;
            }
            let what = format!("strip: friction \"{}\": {name}, from, to", state.word());
            let place = Amount::from(stretch.0).told_to(stretch.1.into());
            let how = format!("for {place}, which is stated for {} only", other.state.word());
            needs.push(Need { what, how });
        }
    }
    needs
}

fn ends(stated: &SurfaceFriction) -> Option<Stretch> {
    stated.between.as_ref().map(|(from, to)| (from.value, *to))
}

/// Loose material whose drag is not counted: no law of it is published, and nobody
/// states the rolling over it.
pub(crate) fn loose_left_out(flight: &Flight) -> Option<String> {
    let state = flight.day.surface_state.as_ref().map(|state| state.value);
    let stated = flight.strip.friction.iter();
    let stated = stated.filter(|one| Some(one.state) == state && one.rolling.is_some());
    let known: Vec<Stretch> = stated.filter_map(ends).collect();
    let patches = flight.day.loose_material.iter().flatten();
    let silent = patches
        .filter(|patch| patch.rolling.is_none() && !covered((patch.from.value, patch.to), &known));
    let places: Vec<String> =
        silent.map(|patch| Amount::from(patch.from.value).told_to(patch.to.into())).collect();
    (!places.is_empty()).then(|| {
        format!(
            "loose material lies at {}: no drag of it is counted, since no law of it is published; \
             where it is deep, state the rolling over it (day: loose_material: rolling)",
            places.join(", ")
        )
    })
}

/// Whether stretches together leave no metre of another one out.
fn covered((from, to): Stretch, by: &[Stretch]) -> bool {
    let mut sorted = by.to_vec();
    sorted.sort_by(|a, b| a.0.si().total_cmp(&b.0.si()));
    let slack = metres(EDGE_M);
    let reached = sorted.into_iter().fold(from, |reached, next| {
        if next.0 <= reached + slack { reached.max(next.1) } else { reached }
    });
    reached + slack >= to
}

/// Stations of the profile and both sides of every end of a stretch, with the
/// elevation there.
fn stations(profile: &[(Length, Length)], pieces: &[Piece]) -> Vec<(Length, Length)> {
    let mut all = profile.to_vec();
    let (Some(first), Some(last)) = (profile.first(), profile.last()) else { return all };
    let edges = pieces.iter().flat_map(|piece| {
        let (from, to, edge) = (piece.from, piece.to, metres(EDGE_M));
        [from - edge, from, to, to + edge]
    });
    for edge in edges.filter(|edge| *edge > first.0 && *edge < last.0) {
        let after = all.partition_point(|(station, _)| *station < edge);
        let near = |at: usize| all.get(at).is_some_and(|(s, _)| (*s - edge).si().abs() < 1e-3);
        if near(after) || after.checked_sub(1).is_some_and(near) {
            continue;
        }
        if let (Some(a), Some(b)) = (all.get(after.wrapping_sub(1)), all.get(after)) {
            let share = (edge - a.0).si() / (b.0 - a.0).si();
            let elevation = a.1 + (b.1 - a.1) * share;
            all.insert(after, (edge, elevation));
        }
    }
    all
}

/// Rolling and braking coefficient and depth of water at a station.
fn at(
    station: Length,
    pieces: &[Piece],
    (mut rolling, mut braking): (Ratio, Ratio),
) -> (Ratio, Ratio, Length) {
    let slack = metres(1e-3);
    let here = |piece: &&Piece| station >= piece.from - slack && station <= piece.to + slack;
    let (mut added, mut water, mut loose) = (0.0, metres(0.0), ratio(0.0));
    for piece in pieces.iter().filter(here) {
        match piece.what {
            What::Friction { rolling: rolls, braking: brakes } => {
                rolling = rolls.unwrap_or(rolling);
                braking = brakes.unwrap_or(braking);
            }
            What::Sinking(more) => added += more.si(),
            What::Water(depth) => water = water.max(depth),
            What::Loose(rolls) => loose = loose.max(rolls),
        }
    }
    if water.si() > 0.0 {
        braking = braking.min(ratio(BRAKING_IN_WATER));
    }
    (ratio((rolling.si() + added).min(1.0)).max(loose), braking, water)
}

#[cfg(test)]
mod tests {
    use super::{Piece, What, at, covered, over_ruts, stated_for_another_state, stations};
    use hardpan_model::{Given, SurfaceFriction, SurfaceState};
    use hardpan_quantity::{Length, Quantity, Ratio, metres, millimetres, ratio};

    fn piece(from: f64, to: f64, what: What) -> Piece {
        Piece { from: metres(from), to: metres(to), what }
    }

    #[test]
    fn a_stretch_holds_between_its_ends_and_nowhere_else() {
        let profile: Vec<(Length, Length)> =
            (0..=10).map(|n| (metres(10.0 * f64::from(n)), metres(0.1 * f64::from(n)))).collect();
        let friction = What::Friction { rolling: Some(ratio(0.10)), braking: None };
        let pieces = [
            piece(23.0, 41.0, friction),
            piece(35.0, 60.0, What::Sinking(ratio(0.02))),
            piece(50.0, 55.0, What::Water(millimetres(6.0))),
            piece(70.0, 80.0, What::Loose(ratio(0.07))),
            piece(20.0, 30.0, What::Loose(ratio(0.05))),
        ];
        let all = stations(&profile, &pieces);
        assert!(all.windows(2).all(|pair| pair[0].0 < pair[1].0));
        assert_eq!(all.len(), 11 + 14, "six ends lie on the profile");
        for (station, elevation) in &all {
            assert!((elevation.si() - 0.01 * station.si()).abs() < 1e-12);
        }
        let found = |s: f64| at(metres(s), &pieces, (ratio(0.04), ratio(0.3)));
        let same = |s: f64, rolling: f64, braking: f64, depth: f64| {
            let (r, b, w) = found(s);
            let close = |a: f64, b: f64| (a - b).abs() < 1e-12;
            assert!(
                close(r.si(), rolling) && close(b.si(), braking) && close(w.si(), depth),
                "{s}"
            );
        };
        same(19.9, 0.04, 0.3, 0.0);
        same(22.9, 0.05, 0.3, 0.0);
        same(23.0, 0.10, 0.3, 0.0);
        same(38.0, 0.12, 0.3, 0.0);
        same(45.0, 0.06, 0.3, 0.0);
        same(52.0, 0.06, 0.05, 0.006);
        same(60.1, 0.04, 0.3, 0.0);
        same(75.0, 0.07, 0.3, 0.0);
        same(25.0, 0.10, 0.3, 0.0);
    }

    #[test]
    fn a_stretch_is_known_where_others_leave_none_of_it_out() {
        let by = |list: &[(f64, f64)]| -> Vec<(Length, Length)> {
            list.iter().map(|(from, to)| (metres(*from), metres(*to))).collect()
        };
        let stretch = (metres(100.0), metres(200.0));
        assert!(covered(stretch, &by(&[(150.0, 210.0), (90.0, 150.0)])));
        assert!(!covered(stretch, &by(&[(100.0, 140.0), (150.0, 200.0)])));
        assert!(!covered(stretch, &[]));
    }

    #[test]
    fn a_stretch_stated_for_another_state_is_not_known_in_this_one() {
        let one = |state, rolling: Option<f64>, from: f64, to: f64| SurfaceFriction {
            state,
            rolling: rolling.map(|value| Given::stated("rolling", ratio(value))),
            over_ruts: None,
            braking: None,
            between: Some((Given::stated("from", metres(from)), metres(to))),
        };
        let dry = one(SurfaceState::Dry, Some(0.06), 640.0, 700.0);
        let wet = one(SurfaceState::Wet, Some(0.09), 600.0, 700.0);
        let needed = |stated: &[SurfaceFriction], state| {
            let needs = stated_for_another_state(stated, state);
            needs.into_iter().map(|need| need.what).collect::<Vec<_>>()
        };
        let stated = [dry.clone()];
        assert_eq!(
            needed(&stated, SurfaceState::Wet),
            ["strip: friction \"wet\": rolling, from, to"]
        );
        assert!(needed(&stated, SurfaceState::Dry).is_empty());
        assert!(needed(&[dry, wet.clone()], SurfaceState::Wet).is_empty());
        assert!(needed(&[wet], SurfaceState::Dry).is_empty());
    }

    #[test]
    fn ground_that_gives_way_costs_its_work_once() {
        let counted = |here: f64, added: f64| over_ruts(ratio(here), ratio(0.04), ratio(added));
        let close = |got: Ratio, wanted: f64| assert!((got.si() - wanted).abs() < 1e-12);
        close(counted(0.04, 0.02), 0.06);
        close(counted(0.09, 0.02), 0.09);
        close(counted(0.05, 0.02), 0.06);
        close(counted(0.03, 0.0), 0.03);
        close(counted(0.04, 2.0), 1.0);
    }
}
