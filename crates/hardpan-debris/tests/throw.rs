//! Stones thrown by tyre edges: what must vanish, rise, and where they come down.

use hardpan_debris::{Error, FORMULAS, Hits, SPEED_CLASSES, Surface, Throw, Thrown, Tyre};
use hardpan_quantity::{Density, Length, Quantity, Speed, metres, metres_per_second};
use proptest::prelude::*;
use rstest::rstest;

const STONES: u32 = 20_000;

fn nose() -> Tyre {
    Tyre { aft: metres(0.0), right: metres(0.0), radius: metres(0.4), width: metres(0.2) }
}

fn plate(from: f64, to: f64, half: f64, height: f64) -> Surface {
    Surface {
        from: metres(from),
        to: metres(to),
        left: metres(-half),
        right: metres(half),
        height: metres(height),
    }
}

fn thrown(stone: Length, fastest: Speed, surfaces: &[Surface]) -> Result<Vec<Hits>, Error> {
    let tyres = [nose()];
    Throw { tyres: &tyres, stone, air: Density::from_si(1.225), fastest, seed: 0 }
        .hits(surfaces, STONES)
}

fn hits(fastest: f64, surfaces: &[Surface]) -> Vec<Hits> {
    thrown(metres(0.02), metres_per_second(fastest), surfaces).expect("in range")
}

/// [NGUYEN-2016]: strikes from 3 m to 18 m behind the nose wheel and within 2 m
/// of the centre line of a high-wing transport. The launch here is judged, so
/// that only the bulk of the strikes is asked for.
#[test]
fn the_bulk_of_strikes_lies_in_the_published_envelope() {
    let everywhere = plate(0.0, 100.0, 50.0, 1.5);
    let inside = plate(3.0, 18.0, 2.0, 1.5);
    let all = hits(60.0, &[everywhere])[0].share.si();
    let published = hits(60.0, &[inside])[0].share.si();
    assert!(all > 0.01, "{all}");
    assert!(published > 0.5 * all, "{published} of {all}");
}

/// Half of the square of the speed over the ground bounds the energy but for
/// the stone's own speed: 20 mm at 60 m/s is 20.0 J; [IMPERIAL-DEBRIS] takes
/// 20 g at 70 m/s for its case of 50 J.
#[test]
fn stones_strike_at_about_the_speed_over_the_ground() {
    let greatest = hits(60.0, &[plate(0.0, 60.0, 20.0, 1.0)])[0].greatest.si();
    assert!(greatest > 15.0 && greatest < 45.0, "{greatest} J");
}

#[test]
fn a_deflector_over_the_wheel_spares_what_is_behind() {
    let belly = plate(1.0, 20.0, 2.0, 1.5);
    let guard = plate(-1.0, 4.0, 2.0, 0.3);
    let bare = hits(60.0, &[belly])[0];
    let guarded = hits(60.0, &[belly, guard]);
    assert!(guarded[0].share < 0.5 * bare.share);
    assert!(guarded[1].share > bare.share);
}

#[rstest]
#[case(10.0, 30.0)]
#[case(30.0, 60.0)]
#[case(60.0, 80.0)]
fn faster_runs_reach_more_and_strike_harder(#[case] slow: f64, #[case] fast: f64) {
    let belly = [plate(0.0, 60.0, 30.0, 1.0)];
    let (slow, fast) = (hits(slow, &belly)[0], hits(fast, &belly)[0]);
    assert!(fast.share >= slow.share && fast.greatest >= slow.greatest);
}

#[test]
fn nothing_is_thrown_at_standstill_and_nothing_reaches_the_sky() {
    let none = Hits { share: hardpan_quantity::ratio(0.0), greatest: Quantity::from_si(0.0) };
    assert_eq!(hits(0.0, &[plate(0.0, 60.0, 30.0, 1.0)]), [none]);
    assert_eq!(hits(60.0, &[plate(0.0, 60.0, 30.0, 25.0)]), [none]);
    assert_eq!(hits(60.0, &[]), []);
}

#[test]
fn the_same_input_gives_the_same_bits() {
    let plates = [plate(0.0, 20.0, 2.0, 1.2), plate(0.0, 20.0, 2.0, 1.6)];
    assert_eq!(hits(55.0, &plates), hits(55.0, &plates));
}

/// A seed draws the same again; other seeds draw other stones to the same shares.
#[test]
fn seeds_draw_other_stones_to_the_same_shares() {
    let tyres = [nose()];
    let belly = [plate(3.0, 18.0, 2.0, 1.5)];
    let drawn = |seed: u64| {
        let fastest = metres_per_second(60.0);
        let air = Density::from_si(1.225);
        let throw = Throw { tyres: &tyres, stone: metres(0.02), air, fastest, seed };
        throw.hits(&belly, STONES).expect("in range")[0]
    };
    let first = drawn(1);
    assert_eq!(first, drawn(1));
    for seed in [0, 2, 3, u64::MAX] {
        let other = drawn(seed);
        assert_ne!(other, first);
        assert!((other.share.si() / first.share.si() - 1.0).abs() < 0.08, "{other:?} {first:?}");
    }
}

/// Twice as many stones move a share by less than 5 %, an energy by less than 10 %.
#[test]
fn enough_stones_are_drawn() {
    let tyres = [nose()];
    let throw = Throw {
        tyres: &tyres,
        stone: metres(0.02),
        air: Density::from_si(1.225),
        fastest: metres_per_second(60.0),
        seed: 0,
    };
    let belly = [plate(3.0, 18.0, 2.0, 1.5)];
    let few = throw.hits(&belly, 10_000).expect("in range")[0];
    let many = throw.hits(&belly, 200_000).expect("in range")[0];
    assert!((few.share.si() / many.share.si() - 1.0).abs() < 0.05);
    assert!((few.greatest.si() / many.greatest.si() - 1.0).abs() < 0.10);
}

#[rstest]
#[case(f64::NAN, 60.0, 1.0)]
#[case(0.0, 60.0, 1.0)]
#[case(0.25, 60.0, 1.0)]
#[case(0.02, f64::NAN, 1.0)]
#[case(0.02, -1.0, 1.0)]
#[case(0.02, 201.0, 1.0)]
#[case(0.02, 60.0, f64::NAN)]
#[case(0.02, 60.0, 0.0)]
fn what_is_out_of_range_is_refused(#[case] stone: f64, #[case] fastest: f64, #[case] height: f64) {
    let belly = [plate(0.0, 20.0, 2.0, height)];
    assert!(thrown(metres(stone), metres_per_second(fastest), &belly).is_err());
}

#[test]
fn a_run_without_tyres_or_stones_is_refused() {
    let throw = |tyres: &[Tyre], stones| {
        let fastest = metres_per_second(60.0);
        let air = Density::from_si(1.225);
        Throw { tyres, stone: metres(0.02), air, fastest, seed: 0 }.hits(&[], stones)
    };
    assert!(throw(&[], 100).is_err());
    assert!(throw(&[nose()], 0).is_err());
    assert!(throw(&[nose()], 20_000_000).is_err());
}

/// Stones thrown at a belly behind a guard over the wheel.
fn guarded(guard: Surface, fastest: f64) -> Thrown {
    let tyres = [nose()];
    let air = Density::from_si(1.225);
    let throw = Throw {
        tyres: &tyres,
        stone: metres(0.02),
        air,
        fastest: metres_per_second(fastest),
        seed: 0,
    };
    throw.thrown(&[plate(2.0, 16.0, 2.0, 1.2), guard], 4_000).expect("in range")
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn a_deflector_never_adds_strikes(
        from in -1.0..6.0_f64,
        length in 0.1..4.0_f64,
        half in 0.1..1.5_f64,
        height in 0.1..2.0_f64,
        fastest in 20.0..80.0_f64,
    ) {
        let thrown = guarded(plate(from, from + length, half, height), fastest);
        let bare = thrown.hits(|surface| surface == 0)[0];
        let behind = thrown.hits(|_| true)[0];
        prop_assert!(behind.share <= bare.share && behind.greatest <= bare.greatest);
    }

    #[test]
    fn a_smaller_stone_never_hits_harder_at_equal_speed(
        diameter in 0.001..0.2_f64,
        share in 0.0..1.0_f64,
        speed in 0.0..200.0_f64,
    ) {
        let formula = FORMULAS.iter().find(|one| one.name == "stone-impact-energy");
        let energy = |d: f64| (formula.expect("in the catalogue").evaluate)(&[d, 2650.0, speed]);
        prop_assert!(energy(share * diameter) <= energy(diameter));
    }
}

/// Classes of speed, weighted by the stones drawn in each, give the whole share.
#[test]
fn the_classes_of_speed_add_up() {
    let thrown = guarded(plate(-1.0, 1.0, 0.2, 0.3), 60.0);
    let on_belly = |path: &hardpan_debris::StonePath| path.end(|one| one == 0).is_some();
    let classes = thrown.share_by_speed(on_belly);
    assert_eq!(classes.len(), SPEED_CLASSES);
    let weight = |class: usize| (2 * class + 1) as f64 / (SPEED_CLASSES * SPEED_CLASSES) as f64;
    let sum: f64 =
        classes.iter().enumerate().map(|(class, (_, share))| weight(class) * share.si()).sum();
    assert!((sum - thrown.share(on_belly).si()).abs() < 1e-9);
    assert!(classes.first().expect("a class").1 <= classes.last().expect("a class").1);
}

/// A trail begins at the tyre and ends on the surface.
#[test]
fn a_trail_runs_from_the_tyre_to_its_end() {
    let thrown = guarded(plate(-1.0, 1.0, 0.2, 0.3), 60.0);
    let path = thrown.paths().first().expect("a path");
    let end = path.crossings().first().expect("an end");
    let trail = path.trail(end);
    assert_eq!(trail.first().expect("a point")[2], metres(0.0));
    assert_eq!(trail.last().expect("a point"), &end.at());
    assert!(trail.windows(2).all(|pair| pair[1][2] >= pair[0][2]));
}
