//! Time for one response of layered ground under a dual leg.

use criterion::{Criterion, criterion_group, criterion_main};
use hardpan_ground::{CircularLoad, ElasticLayer, GroundPlace, LayeredGround, Side};
use hardpan_quantity::{kilonewtons, kilopascals, megapascals, metres, millimetres};
use std::hint::black_box;

fn layered(criterion: &mut Criterion) {
    let layer = |thickness: Option<f64>, stiffness: f64| ElasticLayer {
        thickness: thickness.map(millimetres),
        stiffness: megapascals(stiffness),
        poisson: 0.35,
    };
    let layers = [layer(Some(200.0), 250.0), layer(Some(300.0), 100.0), layer(None, 40.0)];
    let Ok(ground) = LayeredGround::new(&layers) else { return };
    let wheel = |x: f64| {
        CircularLoad::wheel(metres(x), metres(0.0), kilonewtons(45.0), kilopascals(600.0)).ok()
    };
    let one: Vec<CircularLoad> = wheel(0.0).into_iter().collect();
    let two: Vec<CircularLoad> = [wheel(-0.22), wheel(0.22)].into_iter().flatten().collect();
    for (name, loads, x, depth) in [
        ("one wheel, surface, centre", &one, 0.0, 0.0),
        ("one wheel, 500 mm deep, 300 mm aside", &one, 0.3, 0.5),
        ("dual wheels, 200 mm deep, between", &two, 0.0, 0.2),
        ("one wheel, surface, 3 m aside", &one, 3.0, 0.0),
    ] {
        let place =
            GroundPlace { x: metres(x), y: metres(0.0), depth: metres(depth), side: Side::Below };
        criterion
            .bench_function(name, |bench| bench.iter(|| ground.response(black_box(loads), &place)));
    }
}

criterion_group!(benches, layered);
criterion_main!(benches);
