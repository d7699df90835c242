//! Reading a cloud to survey lines beside decoding it alone.

use criterion::{Criterion, criterion_group, criterion_main};
use hardpan_quantity::metres;
use hardpan_survey::made::{Compression, MadeStrip};
use hardpan_survey::{CloudRequest, GridSettings, read_cloud};
use std::io::Cursor;

fn cloud(criterion: &mut Criterion) {
    let strip = MadeStrip { length: metres(200.0), ..MadeStrip::default() };
    let bytes = strip.bytes(Compression::Laz).expect("memory takes all bytes");
    let request = CloudRequest {
        axis: strip.axis().expect("an axis"),
        strip_length: strip.length,
        strip_width: strip.width,
        settings: GridSettings::default(),
        horizontal_unit: None,
        vertical_unit: None,
    };
    let mut group = criterion.benchmark_group("cloud of 450 000 points");
    group.sample_size(10);
    group.bench_function("baseline: bare decoding", |bencher| {
        bencher.iter(|| {
            let mut reader = las::Reader::new(Cursor::new(bytes.clone())).expect("a cloud");
            let mut points = las::PointDataBuilder::new().for_header(reader.header()).build();
            let mut count = 0;
            while let Ok(decoded @ 1..) = reader.fill_points(50_000, &mut points) {
                count += decoded;
            }
            count
        });
    });
    group.bench_function("to survey lines", |bencher| {
        bencher.iter(|| {
            let input = Box::new(Cursor::new(bytes.clone()));
            read_cloud(input, &request, &mut |_| ()).expect("lines")
        });
    });
    group.finish();
}

criterion_group!(benches, cloud);
criterion_main!(benches);
