//! Layered elastic ground against closed forms and against itself.

use approx::assert_relative_eq;
use hardpan_ground::{
    CircularLoad, ElasticLayer, GroundPlace, GroundResponse, LayeredGround, Side,
};
use hardpan_quantity::{
    Length, Quantity, kilonewtons, kilopascals, megapascals, metres, millimetres, psi,
};
use proptest::prelude::*;

fn layer(thickness: f64, stiffness: f64, poisson: f64) -> ElasticLayer {
    ElasticLayer {
        thickness: Some(millimetres(thickness)),
        stiffness: megapascals(stiffness),
        poisson,
    }
}

fn base(stiffness: f64, poisson: f64) -> ElasticLayer {
    ElasticLayer { thickness: None, ..layer(1.0, stiffness, poisson) }
}

fn load(radius: f64) -> CircularLoad {
    CircularLoad {
        x: metres(0.0),
        y: metres(0.0),
        pressure: megapascals(1.0),
        radius: millimetres(radius),
    }
}

fn place(x: f64, depth: f64, side: Side) -> GroundPlace {
    GroundPlace { x: millimetres(x), y: metres(0.0), depth: millimetres(depth), side }
}

fn respond(layers: &[ElasticLayer], place: &GroundPlace) -> GroundResponse {
    LayeredGround::new(layers)
        .and_then(|ground| ground.response(&[load(150.0)], place))
        .expect("inside")
}

fn values(response: &GroundResponse) -> [f64; 12] {
    let [sx, sy, sz] = response.stress.map(Quantity::si);
    let [xy, xz, yz] = response.shear.map(Quantity::si);
    let [ex, ey, ez] = response.strain.map(|strain| strain.si() * 1e8);
    let [ux, uy] = response.sideways.map(|u| u.si() * 1e9);
    [sx, sy, sz, xy, xz, yz, ex, ey, ez, ux, uy, response.deflection.si() * 1e9]
}

fn same(a: &GroundResponse, b: &GroundResponse, tolerance: f64) {
    for (a, b) in values(a).into_iter().zip(values(b)) {
        assert!((a - b).abs() <= tolerance, "{a} and {b}");
    }
}

/// A layer cut in two of the same material is an integral on one side and a
/// closed form on the other; 1 Pa of 1 MPa.
#[test]
fn exact_cutting_a_half_space_changes_nothing() {
    let whole = [base(80.0, 0.4)];
    let cut = [layer(120.0, 80.0, 0.4), layer(230.0, 80.0, 0.4), base(80.0, 0.4)];
    for x in [0.0, 1e-3, 40.0, 149.0, 150.0, 151.0, 400.0, 2500.0] {
        for depth in [0.0, 60.0, 120.0, 200.0, 350.0, 900.0] {
            for side in [Side::Above, Side::Below] {
                let at = place(x, depth, side);
                same(&respond(&whole, &at), &respond(&cut, &at), 1e-3);
            }
        }
    }
}

#[test]
fn exact_cutting_a_layer_changes_nothing() {
    let whole = [layer(300.0, 200.0, 0.35), base(50.0, 0.45)];
    let cut = [
        layer(100.0, 200.0, 0.35),
        layer(150.0, 200.0, 0.35),
        layer(50.0, 200.0, 0.35),
        base(50.0, 0.45),
    ];
    for x in [0.0, 150.0, 700.0] {
        for depth in [0.0, 50.0, 100.0, 180.0, 300.0, 600.0] {
            for side in [Side::Above, Side::Below] {
                let at = place(x, depth, side);
                same(&respond(&whole, &at), &respond(&cut, &at), 1e-3);
            }
        }
    }
}

#[test]
fn exact_stresses_pass_through_an_interface() {
    let layers = [layer(200.0, 400.0, 0.3), layer(250.0, 90.0, 0.4), base(30.0, 0.5)];
    for depth in [200.0, 450.0] {
        let above = respond(&layers, &place(220.0, depth, Side::Above));
        let below = respond(&layers, &place(220.0, depth, Side::Below));
        assert_relative_eq!(above.stress[2].si(), below.stress[2].si(), epsilon = 1e-3);
        assert_relative_eq!(above.shear[1].si(), below.shear[1].si(), epsilon = 1e-3);
        assert_relative_eq!(above.deflection.si(), below.deflection.si(), epsilon = 1e-12);
        assert_relative_eq!(above.sideways[0].si(), below.sideways[0].si(), epsilon = 1e-12);
    }
}

#[test]
fn exact_surface_carries_the_load_and_nothing_else() {
    let layers = [layer(60.0, 3000.0, 0.35), layer(300.0, 250.0, 0.35), base(40.0, 0.45)];
    for (x, stress) in [(0.0, 1e6), (100.0, 1e6), (200.0, 0.0), (1000.0, 0.0)] {
        let at = respond(&layers, &place(x, 0.0, Side::Below));
        assert_relative_eq!(at.stress[2].si(), stress, epsilon = 1e-3);
        assert_relative_eq!(at.shear[1].si(), 0.0, epsilon = 1e-3);
    }
}

/// Two circles of the handbook example (a = 5 in, q = 50 psi, 20 in apart,
/// E 10,000 psi, nu 0.5, 10 in below one centre), evaluated apart in double
/// precision: 14.598, 2.151, 0.828 psi, 0.001311, 0.02184 in.
#[test]
fn oracle_two_circles() {
    let inches = |value: f64| metres(value * 0.0254);
    let ground = LayeredGround::new(&[ElasticLayer {
        thickness: None,
        stiffness: psi(10_000.0),
        poisson: 0.5,
    }])
    .expect("half space");
    let circle = |x: f64| CircularLoad {
        x: inches(x),
        y: inches(0.0),
        pressure: psi(50.0),
        radius: inches(5.0),
    };
    let at = GroundPlace { x: inches(0.0), y: inches(0.0), depth: inches(10.0), side: Side::Below };
    let found = ground.response(&[circle(0.0), circle(20.0)], &at).expect("inside");
    let in_psi = |index: usize| found.stress[index].si() / psi(1.0).si();
    assert_relative_eq!(in_psi(2), 14.598, epsilon = 5e-4);
    assert_relative_eq!(in_psi(0), 2.151, epsilon = 5e-4);
    assert_relative_eq!(in_psi(1), 0.828, epsilon = 5e-4);
    assert_relative_eq!(found.strain[2].si(), 0.001_311, epsilon = 5e-7);
    assert_relative_eq!(found.deflection.si() / 0.0254, 0.021_84, epsilon = 5e-6);
}

#[test]
fn very_thin_thick_stiff_and_soft_layers_stay_finite() {
    for thickness in [1.0, 10.0, 1e4, 9e5] {
        for stiffness in [0.01, 1e2, 1e6] {
            let layers =
                [layer(thickness, stiffness, 0.5), layer(300.0, 100.0, 0.0), base(50.0, 0.5)];
            for depth in [0.0, 0.5 * thickness, thickness, thickness + 200.0] {
                for x in [0.0, 150.0, 600.0] {
                    let depth = depth.min(9e5);
                    let found = respond(&layers, &place(x, depth, Side::Above));
                    assert!(values(&found).iter().all(|value| value.is_finite()), "{found:?}");
                }
            }
        }
    }
}

#[test]
fn ground_and_places_that_make_no_sense_are_refused() {
    assert!(LayeredGround::new(&[]).is_err());
    assert!(LayeredGround::new(&[layer(100.0, 50.0, 0.4)]).is_err());
    assert!(LayeredGround::new(&[base(50.0, 0.4), base(50.0, 0.4)]).is_err());
    assert!(LayeredGround::new(&[base(50.0, 0.51)]).is_err());
    assert!(LayeredGround::new(&[base(f64::NAN, 0.4)]).is_err());
    let ground = LayeredGround::new(&[base(50.0, 0.4)]).expect("half space");
    for at in [place(0.0, -1.0, Side::Below), place(f64::NAN, 0.0, Side::Below)] {
        assert!(ground.response(&[load(150.0)], &at).is_err());
    }
    assert!(ground.response(&[load(f64::NAN)], &place(0.0, 1.0, Side::Below)).is_err());
    let wheel =
        CircularLoad::wheel(metres(0.0), metres(0.0), kilonewtons(40.0), kilopascals(500.0));
    assert_relative_eq!(wheel.expect("positive").radius.si(), 0.159_577, epsilon = 1e-6);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]
    #[test]
    fn prop_reciprocal_and_linear(
        top in 40.0f64..400.0, stiff in 60.0f64..2000.0, soft in 20.0f64..100.0,
        x in 0.0f64..900.0, depth in 0.0f64..900.0, nu in 0.0f64..0.5
    ) {
        let layers = [layer(top, stiff, nu), base(soft, 0.45)];
        let ground = LayeredGround::new(&layers).expect("inside");
        let at = place(x, depth, Side::Below);
        let one = ground.response(&[load(150.0)], &at).expect("inside");
        let mirrored = place(-x, depth, Side::Below);
        let other = ground.response(&[load(150.0)], &mirrored).expect("inside");
        prop_assert!((one.deflection.si() - other.deflection.si()).abs() < 1e-12);
        prop_assert!((one.shear[1].si() + other.shear[1].si()).abs() < 1e-6);
        let both = ground.response(&[load(150.0), load(150.0)], &at).expect("inside");
        prop_assert!((both.stress[2].si() - 2.0 * one.stress[2].si()).abs() < 1e-6);
        prop_assert!(one.deflection > Length::from_si(0.0));
    }

    /// A layer cut anywhere into two of the same material is the same layer, to
    /// 1e-5 of the greater of the value and 1 MPa: the integrals lose digits at
    /// the top of a layer much thinner than the contact is wide.
    #[test]
    fn prop_splitting_a_layer_changes_nothing(
        top in 60.0f64..500.0, share in 0.1f64..0.9, stiff in 30.0f64..1000.0,
        soft in 20.0f64..200.0, nu in 0.05f64..0.49, x in 0.0f64..900.0, depth in 0.0f64..900.0
    ) {
        let whole = [layer(top, stiff, nu), base(soft, 0.45)];
        let parts = [layer(share * top, stiff, nu), layer((1.0 - share) * top, stiff, nu)];
        let cut = [parts[0], parts[1], base(soft, 0.45)];
        let at = place(x, depth, Side::Below);
        let both = values(&respond(&whole, &at)).into_iter().zip(values(&respond(&cut, &at)));
        for (whole, cut) in both {
            let scale = whole.abs().max(1e6);
            prop_assert!((whole - cut).abs() <= 1e-5 * scale, "{whole} and {cut} of {scale}");
        }
    }

    /// Layers of one material are a half space, and so is a layer so thick that
    /// nothing below it is felt: [BOUSSINESQ-1885] under the centre of a circle.
    #[test]
    fn prop_half_space_limit(
        top in 60.0f64..500.0, stiff in 20.0f64..1000.0, soft in 20.0f64..1000.0,
        depth in 10.0f64..600.0
    ) {
        let at = place(0.0, depth, Side::Below);
        let z = depth / 150.0;
        let closed = 1e6 * (1.0 - (z / 1f64.hypot(z)).powi(3));
        let alike = respond(&[layer(top, stiff, 0.4), base(stiff, 0.4)], &at);
        prop_assert!((alike.stress[2].si() - closed).abs() < 1.0);
        let thick = respond(&[layer(400e3, stiff, 0.4), base(soft, 0.4)], &at);
        prop_assert!((thick.stress[2].si() - closed).abs() < 100.0, "{:?}", thick.stress[2]);
    }

    /// Softer ground anywhere never deflects less under the load, and more pressure
    /// under one load never strains the weak layer less.
    #[test]
    fn prop_softer_ground_and_more_pressure_never_help(
        top in 80.0f64..500.0, stiff in 40.0f64..1000.0, soft in 20.0f64..200.0,
        softer in 0.3f64..1.0, pressure in 0.3f64..1.2, more in 1.0f64..2.0, upper in any::<bool>()
    ) {
        let under = |stiff: f64, soft: f64| {
            let layers = [layer(top, stiff, 0.35), base(soft, 0.45)];
            respond(&layers, &place(0.0, 0.0, Side::Below)).deflection.si()
        };
        let (less, least) = if upper { (stiff * softer, soft) } else { (stiff, soft * softer) };
        prop_assert!(under(less, least) >= under(stiff, soft) * (1.0 - 1e-9));
        let strain = |pressure: f64| {
            let ground =
                LayeredGround::new(&[layer(top, stiff, 0.35), base(soft, 0.45)]).expect("inside");
            let centre = metres(0.0);
            let tyre =
                CircularLoad::wheel(centre, centre, kilonewtons(60.0), megapascals(pressure));
            let found = ground.response(&[tyre.expect("positive")], &place(0.0, top, Side::Below));
            found.expect("inside").strain[2].si()
        };
        prop_assert!(strain(pressure * more) >= strain(pressure) * (1.0 - 1e-9));
    }
}
