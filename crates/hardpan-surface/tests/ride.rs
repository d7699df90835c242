//! The ride of a rigid aeroplane against an independent integration.
//!
//! The aeroplane is made up for the check: 4 500 kg, 12 000 kg m², nose gear
//! 3.2 m ahead on 60 kN/m and 4 kN s/m, mains 0.4 m behind on 300 kN/m and
//! 16 kN s/m, cockpit 3.0 m ahead. Expected values: transfer functions, and
//! SciPy's DOP853 at a tolerance of 1e-11. It is linear, so bumps of a tenth of
//! the height keep the wheels on the ground.
#![allow(clippy::unwrap_used)]

use approx::assert_relative_eq;
use hardpan_quantity::{
    Area, Length, Mass, Pressure, Quantity, Volume, kilonewtons, metres, metres_per_second,
    newtons, ratio,
};
use hardpan_surface::{
    Course, Lanes, Motion, Oleo, Pace, Profile, Ride, RigidAeroplane, Support, cockpit_limit,
    noise_profile, ride, ride_by_speed, ride_courses, ride_grounds, ride_lanes,
};
use rstest::rstest;

const G: f64 = 9.806_65;

fn spring(stiffness: f64, damping: f64) -> Support {
    Support::Spring {
        stiffness: (newtons(stiffness), metres(1.0)),
        damping: (newtons(damping), metres_per_second(1.0)),
    }
}

fn aeroplane() -> RigidAeroplane {
    RigidAeroplane {
        mass: Mass::from_si(4_500.0),
        gyration: metres((12_000.0_f64 / 4_500.0).sqrt()),
        nose_ahead: metres(3.2),
        main_behind: metres(0.4),
        cockpit_ahead: metres(3.0),
        nose: spring(60e3, 4e3),
        main: spring(300e3, 16e3),
        lift_share: ratio(0.0),
    }
}

fn profile(spacing: f64, length: f64, level: impl Fn(f64) -> f64) -> Profile {
    let count = (length / spacing).round() as usize;
    let levels: Vec<Length> = (0..=count).map(|i| metres(level(i as f64 * spacing))).collect();
    Profile::evenly_spaced(metres(0.0), metres(0.0), metres(spacing), &levels).unwrap()
}

#[rstest]
#[case(15.0, 0.0500, 10.0, 1.0, [0.18316, -0.22789, 0.32814, -0.29879])]
#[case(15.0, 0.0762, 30.48, 1.0, [0.03997, -0.04167, 0.04816, -0.05510])]
#[case(15.0, 0.1016, 60.96, 1.0, [0.01598, -0.01269, 0.01911, -0.01227])]
#[case(15.0, 0.0500, 20.0, 3.0, [0.07500, -0.08103, 0.10158, -0.11958])]
#[case(30.0, 0.0500, 10.0, 1.0, [0.20448, -0.39772, 0.31415, -0.43992])]
#[case(30.0, 0.0762, 30.48, 1.0, [0.21921, -0.23225, 0.34493, -0.31695])]
#[case(30.0, 0.1016, 60.96, 1.0, [0.05873, -0.05440, 0.07156, -0.05939])]
#[case(30.0, 0.0500, 20.0, 3.0, [0.35738, -0.35816, 0.64732, -0.65191])]
#[case(45.0, 0.0500, 10.0, 1.0, [0.30579, -0.44395, 0.38586, -0.44157])]
#[case(45.0, 0.0762, 30.48, 1.0, [0.34978, -0.44519, 0.58548, -0.59631])]
#[case(45.0, 0.1016, 60.96, 1.0, [0.14064, -0.17109, 0.14055, -0.20492])]
#[case(45.0, 0.0500, 20.0, 3.0, [0.38946, -0.39612, 0.59159, -0.54456])]
fn oracle_cosine_bumps(
    #[case] speed: f64,
    #[case] height: f64,
    #[case] wave: f64,
    #[case] count: f64,
    #[case] expected: [f64; 4],
) {
    const TENTH: f64 = 0.1;
    let bumps = profile(0.02, 60.0 + wave * count + 4.0 * speed, |x| {
        let along = x - 20.0;
        if (0.0..=wave * count).contains(&along) {
            TENTH * 0.5 * height * (1.0 - (std::f64::consts::TAU * along / wave).cos())
        } else {
            0.0
        }
    });
    let found = ride(&aeroplane(), &bumps, |_| metres_per_second(speed)).unwrap();
    let values = [found.centre.up.0, found.centre.down.0, found.cockpit.up.0, found.cockpit.down.0];
    assert!(!found.left_ground.0 && !found.left_ground.1);
    for (value, expected) in values.into_iter().zip(expected) {
        assert_relative_eq!(value.si() / G / TENTH, expected, max_relative = 0.01);
    }
}

#[rstest]
#[case(10.0, 5.0, 0.137_379, 0.110_397)]
#[case(10.0, 20.0, 0.010_642, 0.011_106)]
#[case(20.0, 10.0, 0.102_766, 0.120_875)]
#[case(20.0, 20.0, 0.063_803, 0.096_386)]
#[case(30.0, 20.0, 0.141_643, 0.250_956)]
#[case(40.0, 30.0, 0.130_614, 0.228_254)]
#[case(40.0, 60.0, 0.022_137, 0.020_837)]
fn oracle_steady_waves(
    #[case] speed: f64,
    #[case] wave: f64,
    #[case] centre: f64,
    #[case] cockpit: f64,
) {
    let growing = |x: f64| (x / (40.0 * wave)).min(1.0);
    let waves = profile(0.02, 60.0 * wave, |x| {
        1e-3 * growing(x) * (std::f64::consts::TAU * x / wave).sin()
    });
    let found = ride(&aeroplane(), &waves, |_| metres_per_second(speed)).unwrap();
    assert_relative_eq!(found.centre.up.0.si(), centre, max_relative = 0.01);
    assert_relative_eq!(-found.centre.down.0.si(), centre, max_relative = 0.01);
    assert_relative_eq!(found.cockpit.up.0.si(), cockpit, max_relative = 0.01);
}

/// An invented light leg: 1.2 kN preload, soft tyre.
fn leg(area: f64, preload: f64) -> Support {
    Support::Oleo(Oleo {
        piston_area: Area::from_si(area),
        preload: Pressure::from_si(preload),
        gas_volume: Volume::from_si(area * 0.25),
        polytropic: 1.1,
        damping: (kilonewtons(8.0), metres_per_second(1.0)),
        unsprung: Mass::from_si(60.0),
        tyre: (kilonewtons(20.0), metres(0.06)),
        tyre_exponent: 1.2,
    })
}

#[test]
fn exact_a_level_or_evenly_sloping_strip_is_no_ride() {
    let on_oleos = RigidAeroplane { nose: leg(4e-3, 3e5), main: leg(20e-3, 8e5), ..aeroplane() };
    for aeroplane in [aeroplane(), on_oleos] {
        for grade in [0.0, 0.02] {
            let strip = profile(0.5, 200.0, |x| grade * x);
            let found = ride(&aeroplane, &strip, |_| metres_per_second(25.0)).unwrap();
            assert!(found.worst_at_cockpit().0.si() < 1e-3 * G);
            assert_relative_eq!(found.load_factors.0.si(), 1.0, epsilon = 2e-3);
            assert_relative_eq!(found.load_factors.1.si(), 1.0, epsilon = 2e-3);
        }
    }
}

#[test]
fn three_small_waves_pass_the_cockpit_limit() {
    let waves = profile(0.02, 260.0, |x| {
        if (20.0..=80.0).contains(&x) {
            0.025 * (1.0 - (std::f64::consts::TAU * (x - 20.0) / 20.0).cos())
        } else {
            0.0
        }
    });
    let found = ride(&aeroplane(), &waves, |_| metres_per_second(30.0)).unwrap();
    assert!(found.worst_at_cockpit().0 > cockpit_limit());
}

#[test]
fn refuses_what_it_cannot_drive() {
    let strip = profile(0.5, 100.0, |_| 0.0);
    assert!(ride(&aeroplane(), &strip, |_| metres_per_second(0.0)).is_err());
    assert!(ride(&aeroplane(), &strip, |_| metres_per_second(f64::NAN)).is_err());
    let short = profile(0.5, 5.0, |_| 0.0);
    assert!(ride(&aeroplane(), &short, |_| metres_per_second(20.0)).is_err());
    let weightless = RigidAeroplane { mass: Mass::from_si(f64::NAN), ..aeroplane() };
    assert!(ride(&weightless, &strip, |_| metres_per_second(20.0)).is_err());
    let limp = RigidAeroplane { main: spring(f64::INFINITY, 0.0), ..aeroplane() };
    assert!(ride(&limp, &strip, |_| metres_per_second(20.0)).is_err());
}

#[test]
fn a_change_of_lift_alone_is_no_ride() {
    // The wing lets go of half the weight at 100 m: the aeroplane settles, but
    // the ground did nothing.
    let on_oleos = RigidAeroplane { nose: leg(4e-3, 3e5), main: leg(20e-3, 8e5), ..aeroplane() };
    let flat = profile(0.5, 400.0, |_| 0.0);
    let lanes = Lanes { nose: &flat, main: &flat };
    let found = ride_lanes(&on_oleos, lanes, |station| Motion {
        speed: metres_per_second(30.0),
        lift_share: ratio(if station.si() < 100.0 { 0.5 } else { 0.0 }),
    })
    .unwrap();
    assert!(found.worst_at_cockpit().0.si() < 1e-9);
    assert!(found.load_factors.1.si() > 1.0, "yet the gear feels it");
}

#[test]
fn lift_that_grows_slowly_on_level_ground_is_no_ride() {
    // A fiftieth of the weight each second, begun at once, and as a take-off does:
    // with both legs off their stops, and with the wing carrying nearly all.
    let flat = profile(0.5, 1_200.0, |_| 0.0);
    let lanes = Lanes { nose: &flat, main: &flat };
    type Share = fn(f64) -> f64;
    let growing: [(f64, Share); 4] = [
        (0.005, |x| 0.6 * (x / 1_200.0).powi(2)),
        (0.01, |x| 0.02 * x.min(900.0) / 30.0),
        (1e-9, |x| 0.02 * x / 30.0),
        (1e-9, |x| 0.9 * (x / 1_200.0).powi(2)),
    ];
    for (most, share) in growing {
        let found = ride_lanes(&heavy(), lanes, |station| Motion {
            speed: metres_per_second(30.0),
            lift_share: ratio(share(station.si().max(0.0))),
        });
        let (worst, at) = found.unwrap().worst_at_cockpit();
        assert!(worst.si() < most * G, "{} m/s² at {} m", worst.si(), at.si());
    }
}

#[test]
fn courses_that_part_are_ridden_as_each_by_itself() {
    let flat = profile(2.5, 900.0, |_| 0.0);
    let rough = noise_profile(&flat, metres(0.008), 4).unwrap();
    let grounds = [Lanes { nose: &rough, main: &rough }];
    let slowing = |station: Length, by: f64| {
        let (speed, lift) = (60.0 - by * (station.si() - 400.0).max(0.0) / 10.0, 0.3);
        Motion { speed: metres_per_second(speed.max(5.0)), lift_share: ratio(lift) }
    };
    let goes = |station: Length| slowing(station, 0.0);
    let stops = |station: Length| slowing(station, 1.0);
    let (to, end) = (metres(600.0), metres(2_000.0));
    let courses = [Course { motion: &goes, to }, Course { motion: &stops, to: end }];
    let together = ride_courses(&heavy(), &grounds, &courses, metres(400.0)).unwrap();
    for (course, found) in courses.into_iter().zip(together) {
        assert_eq!(ride_courses(&heavy(), &grounds, &[course], to).unwrap(), [found]);
    }
    assert!(ride_courses(&heavy(), &grounds, &[], to).unwrap().is_empty());
}

#[test]
fn down_the_stations_meets_the_same_bumps_turned_round() {
    let uneven = profile(0.5, 300.0, |x| 0.02 * (0.3 * x).sin() + 0.001 * x);
    let turned = uneven.turned();
    assert_eq!(turned.stretch().from.si(), -300.0);
    assert_eq!(turned.turned(), uneven);
    let part = turned.between(metres(-200.2), metres(-100.0));
    assert_eq!((part.stretch().from.si(), part.stretch().to.si()), (-200.5, -100.0));
    let level = part.levels().next().unwrap().1;
    assert_relative_eq!(level.si(), 0.02 * (0.3 * 200.5_f64).sin() + 0.2005, epsilon = 1e-12);
}

#[test]
fn a_bump_under_the_main_lane_alone_is_felt_and_less_than_under_both() {
    let flat = profile(0.1, 300.0, |_| 0.0);
    let bump = profile(0.1, 300.0, |x| {
        if (100.0..=120.0).contains(&x) {
            0.01 * (1.0 - (std::f64::consts::TAU * (x - 100.0) / 20.0).cos())
        } else {
            0.0
        }
    });
    let felt = |nose, main| {
        let motion = |_| Motion { speed: metres_per_second(30.0), lift_share: ratio(0.2) };
        ride_lanes(&aeroplane(), Lanes { nose, main }, motion).unwrap().worst_at_cockpit().0.si()
    };
    assert!(felt(&flat, &flat) < 1e-9);
    assert!(felt(&flat, &bump) > 0.1);
    assert!(felt(&bump, &bump) > felt(&flat, &bump));
}

#[test]
fn noise_has_its_deviation_and_is_the_same_each_time() {
    let flat = profile(0.5, 5_000.0, |_| 0.0);
    let noise = noise_profile(&flat, metres(0.002), 7).unwrap();
    let squares: f64 = noise.levels().map(|(_, level)| level.si() * level.si()).sum();
    assert_relative_eq!((squares / 10_001.0).sqrt(), 0.002, max_relative = 0.03);
    assert_eq!(noise, noise_profile(&flat, metres(0.002), 7).unwrap());
    assert!(noise_profile(&flat, metres(f64::NAN), 7).is_err());
}

#[test]
fn the_speed_that_beats_with_the_waves_is_the_worst_of_a_sweep() {
    // Waves of 20 m against 1.145 Hz and 1.453 Hz (undamped, by the equations):
    // the beat is between 23 and 29 m/s; far below it the ride is gentle.
    let waves = profile(0.1, 900.0, |x| {
        1e-3 * (x / 600.0).min(1.0) * (std::f64::consts::TAU * x / 20.0).sin()
    });
    let speeds: Vec<_> = (1..=12).map(|step| metres_per_second(5.0 * f64::from(step))).collect();
    let lanes = Lanes { nose: &waves, main: &waves };
    let found = ride_by_speed(&aeroplane(), lanes, &speeds).unwrap();
    let worst = found
        .iter()
        .max_by(|a, b| a.1.worst_at_cockpit().0.si().total_cmp(&b.1.worst_at_cockpit().0.si()))
        .unwrap();
    assert!((25.0..=35.0).contains(&worst.0.si()), "{:?}", worst.0);
    assert!(found[0].1.worst_at_cockpit().0 < 0.1 * worst.1.worst_at_cockpit().0);
}

/// The made waves, driven as the integration of `oracle_cosine_bumps` drives
/// its own: the same peaks but for where the wave begins.
#[rstest]
#[case(30.0, 0.0500, 10.0, 1, 0.43992)]
#[case(30.0, 0.0762, 30.48, 1, 0.34493)]
#[case(45.0, 0.0762, 30.48, 1, 0.59631)]
#[case(30.0, 0.0500, 20.0, 3, 0.65191)]
fn oracle_made_waves_ride_as_the_integration_says(
    #[case] speed: f64,
    #[case] height: f64,
    #[case] length: f64,
    #[case] count: usize,
    #[case] felt: f64,
) {
    // A tenth of the height keeps the wheels on the ground: the answer is linear.
    let flat = (metres(20.0), metres(4.0 * speed));
    let waves = Profile::cosine_waves(metres(0.1 * height), metres(length), count, flat).unwrap();
    let ridden = ride(&aeroplane(), &waves, |_| metres_per_second(speed)).unwrap();
    let found = ridden.worst_at_cockpit().0.si() / G;
    assert_relative_eq!(found, 0.1 * felt, max_relative = 0.01);
}

#[test]
fn a_made_wave_has_its_height_and_lies_between_level_ground() {
    let waves =
        Profile::cosine_waves(metres(-0.06), metres(8.0), 2, (metres(5.0), metres(7.0))).unwrap();
    let levels: Vec<f64> = waves.levels().map(|(_, level)| level.si()).collect();
    assert!(levels.first() == Some(&0.0) && levels.last() == Some(&0.0));
    let least = levels.iter().copied().fold(0.0, f64::min);
    assert_relative_eq!(least, -0.06, max_relative = 1e-3);
    assert!(levels.iter().all(|level| *level <= 1e-12));
    assert!(
        Profile::cosine_waves(metres(0.1), metres(0.0), 1, (metres(1.0), metres(1.0))).is_err()
    );
    assert!(
        Profile::cosine_waves(metres(f64::NAN), metres(9.0), 1, (metres(1.0), metres(1.0)))
            .is_err()
    );
}

/// An invented heavy leg pair: 20 t on struts that carry it at mid stroke.
fn heavy() -> RigidAeroplane {
    let strut = |area: f64, preload, volume, damping, unsprung, load, squash| {
        Support::Oleo(Oleo {
            piston_area: Area::from_si(area),
            preload: Pressure::from_si(preload),
            gas_volume: Volume::from_si(volume),
            polytropic: 1.1,
            damping: (kilonewtons(damping), metres_per_second(1.0)),
            unsprung: Mass::from_si(unsprung),
            tyre: (kilonewtons(load), metres(squash)),
            tyre_exponent: 1.3,
        })
    };
    RigidAeroplane {
        mass: Mass::from_si(39_000.0),
        gyration: metres(6.2),
        nose_ahead: metres(11.0),
        main_behind: metres(1.1),
        cockpit_ahead: metres(13.0),
        nose: strut(7e-3, 1.2e6, 2.6e-3, 60.0, 90.0, 36.0, 0.07),
        main: strut(40e-3, 2.6e6, 20e-3, 560.0, 620.0, 350.0, 0.09),
        lift_share: ratio(0.0),
    }
}

#[test]
fn long_steps_ride_as_even_short_ones_do() {
    // Rough ground of several classes under three speeds and lifts; the even
    // steps are 1 ms.
    for (seed, spacing, rough) in [(1_u64, 2.5, 0.004), (2, 2.5, 0.012), (3, 0.5, 0.006)] {
        let flat = profile(spacing, 900.0, |_| 0.0);
        let noise = noise_profile(&flat, metres(rough), seed).unwrap();
        let other = noise_profile(&flat, metres(rough), seed + 10).unwrap();
        for (speed, lift) in [(8.0, 0.0), (30.0, 0.2), (60.0, 0.6), (70.0, 0.93)] {
            let motion = |station: Length| Motion {
                speed: metres_per_second(speed),
                lift_share: ratio(lift * (station.si() / 900.0).clamp(0.0, 1.0)),
            };
            let grounds = [Lanes { nose: &noise, main: &other }];
            let ridden = |pace| ride_grounds(&heavy(), &grounds, motion, pace).unwrap()[0];
            let (long, even) = (ridden(Pace::Adapted), ridden(Pace::Even));
            let worst = |ride: &Ride| ride.worst_at_cockpit().0.si();
            assert_relative_eq!(worst(&long), worst(&even), max_relative = 0.005);
            let load = |ride: &Ride| ride.load_factors.1.si();
            assert_relative_eq!(load(&long), load(&even), max_relative = 0.01);
            assert_eq!(long.bottomed, even.bottomed);
        }
    }
}
