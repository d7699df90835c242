//! Stones thrown by tyre edges: what must vanish, rise, and where they come down.

use hardpan_debris::{Error, Hits, Surface, Throw, Tyre};
use hardpan_quantity::{Density, Length, Quantity, Speed, metres, metres_per_second};
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
    Throw { tyres: &tyres, stone, air: Density::from_si(1.225), fastest }.hits(surfaces, STONES)
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

/// Twice as many stones move a share by less than 5 %, an energy by less than 10 %.
#[test]
fn enough_stones_are_drawn() {
    let tyres = [nose()];
    let throw = Throw {
        tyres: &tyres,
        stone: metres(0.02),
        air: Density::from_si(1.225),
        fastest: metres_per_second(60.0),
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
        Throw { tyres, stone: metres(0.02), air, fastest }.hits(&[], stones)
    };
    assert!(throw(&[], 100).is_err());
    assert!(throw(&[nose()], 0).is_err());
    assert!(throw(&[nose()], 20_000_000).is_err());
}
