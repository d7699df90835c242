//! Clouds: facts of files from outside, and made strips whose ground is known.

use hardpan_model::GroundFrom;
use hardpan_quantity::{Length, Quantity, metres};
use hardpan_survey::made::{Compression, MadeStrip};
use hardpan_survey::{
    AxisStart, CloudRequest, CloudUnit, Error, GridSettings, Gridded, GroundUse, PlanePoint,
    StationAxis, cloud_footprint, covered_axis, read_cloud,
};
use rstest::rstest;
use std::io::Cursor;

fn bytes(strip: &MadeStrip, compression: Compression) -> Vec<u8> {
    strip.bytes(compression).expect("memory takes all bytes")
}

fn short() -> MadeStrip {
    MadeStrip {
        length: metres(60.0),
        width: metres(16.0),
        density: 80.0,
        bumps: vec![(30.0, 12.0, 0.08)],
        noise: metres(0.01),
        plants: 0.0,
        ..MadeStrip::default()
    }
}

fn request(strip: &MadeStrip) -> CloudRequest {
    CloudRequest {
        axis: strip.axis().expect("an axis"),
        strip_length: strip.length,
        strip_width: metres(12.0),
        settings: GridSettings::default(),
        horizontal_unit: None,
        vertical_unit: None,
    }
}

fn read(bytes: Vec<u8>, request: &CloudRequest) -> Result<Gridded, Error> {
    read_cloud(Box::new(Cursor::new(bytes)), request, &mut |_| ())
}

fn made(strip: &MadeStrip) -> Gridded {
    read(bytes(strip, Compression::Laz), &request(strip)).expect("a made strip has lines")
}

/// Greatest difference from the true ground, and the mean of its square.
fn misses(strip: &MadeStrip, gridded: &Gridded) -> (f64, f64) {
    let (mut most, mut squares, mut count) = (0.0_f64, 0.0, 0.0);
    for line in &gridded.lines {
        for point in &line.points {
            let miss = (point.elevation - strip.ground(point.station, line.offset)).si();
            most = most.max(miss.abs());
            squares += miss * miss;
            count += 1.0;
        }
    }
    (most, (squares / count).sqrt())
}

// Counted with an independent reader from the test files of laspy 2.7.0
// (BSD-2), see tests/data. The strip is two cells about the first ground point,
// so that one of them has a level wherever the others lie.
#[rstest]
#[case("simple.las", 1065, 276, 1.0, Some(CloudUnit::Metre))]
#[case("simple.laz", 1065, 276, 1.0, Some(CloudUnit::Metre))]
#[case("autzen_trim.laz", 110_000, 26_107, 0.3048, None)]
#[case("test1_4.las", 1000, 1000, 0.3048, None)]
fn outside_files_have_their_points_and_ground_points(
    #[case] file: &str,
    #[case] points: u64,
    #[case] ground: u64,
    #[case] metres_each: f64,
    #[case] horizontal_unit: Option<CloudUnit>,
) {
    let bytes = outside(file);
    let mut reader = las::Reader::new(Cursor::new(bytes.clone())).expect("a cloud");
    let all = reader.read_all().expect("points");
    let first = all.classification().position(|class| class == 2).expect("a ground point");
    let (x, y) = (all.x().nth(first).expect("one"), all.y().nth(first).expect("one"));
    let at = |east_m: f64| PlanePoint {
        easting: metres(x * metres_each + east_m),
        northing: metres(y * metres_each),
    };
    let request = CloudRequest {
        axis: StationAxis::between(at(0.0), at(20.0)).expect("an axis"),
        strip_length: metres(20.0),
        strip_width: metres(10.0),
        settings: GridSettings {
            cell_length: metres(20.0),
            cell_width: metres(20.0),
            least_points: 1,
            ..GridSettings::default()
        },
        horizontal_unit,
        vertical_unit: Some(CloudUnit::Foot),
    };
    let facts = read(bytes, &request).unwrap_or_else(|error| panic!("{file}: {error}")).facts;
    assert_eq!(facts.points, points);
    assert_eq!(facts.ground, GroundFrom::Classes);
    assert!(facts.used > 0);
    assert_eq!(facts.used + facts.rejected + facts.off_strip, ground);
    assert_eq!(facts.excluded, points - ground);
}

fn outside(file: &str) -> Vec<u8> {
    let path = format!("{}/tests/data/{file}", env!("CARGO_MANIFEST_DIR"));
    std::fs::read(path).expect("the file stands in the tree")
}

#[test]
fn a_compressed_cloud_gives_the_same_lines_as_a_plain_one() {
    let strip = short();
    let plain = read(bytes(&strip, Compression::Las), &request(&strip)).expect("lines");
    assert_eq!(plain, made(&strip));
}

/// The mean of a cell across the crown lies a quarter of its width's fall low:
/// the mean of |o| over a cell of width w about the crown is w/4.
#[test]
fn levels_lie_on_the_crown_and_bump_within_their_noise() {
    let strip = short();
    let gridded = made(&strip);
    assert_eq!(gridded.lines.len(), 13);
    assert_eq!(gridded.lines[0].points.len(), 121);
    for line in &gridded.lines {
        let on_crown = line.offset.si() == 0.0;
        let low = if on_crown { strip.crossfall * 0.25 } else { 0.0 };
        let misses: Vec<f64> = line
            .points
            .iter()
            .map(|p| (p.elevation - strip.ground(p.station, line.offset)).si() + low)
            .collect();
        let (ends, inner) = ([misses[0], misses[120]], &misses[1..120]);
        // Some 40 points of 10 mm: 1.6 mm, of which 5 for the worst of 1547.
        assert!(inner.iter().all(|miss| miss.abs() < 0.008), "{}", line.offset.si());
        // The cells of the ends hold 20 points on one side of their node: a
        // plane at its edge has four times the variance of its middle, 4.5 mm.
        assert!(ends.iter().all(|miss| miss.abs() < 0.0225), "{ends:?}");
        // The mean of 119 levels of 1.6 mm has a deviation of 0.15 mm; four of
        // them, and 0.1 mm for the curve of the bump within a cell.
        let mean = inner.iter().sum::<f64>() / 119.0;
        assert!(mean.abs() < 0.0007, "{}: {mean}", line.offset.si());
    }
}

#[test]
fn the_noise_of_a_point_is_recovered() {
    let strip = MadeStrip { bumps: Vec::new(), crossfall: 0.0, ..short() };
    let facts = made(&strip).facts;
    let noise = facts.point_noise.expect("enough cells").si();
    // The median of 1573 variances with some 37 degrees of freedom has a
    // relative error of about 0.4 %; four of them, and the millimetre scale.
    assert!((noise / 0.01 - 1.0).abs() < 0.03, "{noise}");
    let level = facts.level_noise.expect("enough cells").si();
    assert!((level / (noise / 5.0) - 1.0).abs() < 1e-9, "credited to 25 points at most");
}

#[test]
fn plants_do_not_lift_the_ground() {
    let bare = short();
    let grown = MadeStrip { plants: 0.25, classified: false, ..bare.clone() };
    let gridded = made(&grown);
    assert_eq!(gridded.facts.ground, GroundFrom::Filter);
    let (_, mean) = misses(&grown, &gridded);
    assert!(mean < 0.005, "{mean}");
    let kept = gridded.facts.rejected as f64 / gridded.facts.points as f64;
    assert!(kept > 0.1, "the plants on the strip are a share of all points: {kept}");
}

#[test]
fn only_marked_points_count_where_ground_is_marked() {
    let strip = MadeStrip { plants: 0.25, ..short() };
    let facts = made(&strip).facts;
    assert_eq!(facts.ground, GroundFrom::Classes);
    assert_eq!(facts.used + facts.off_strip + facts.rejected + facts.excluded, facts.points);
    let all = CloudRequest {
        settings: GridSettings { ground: GroundUse::Filtered, ..GridSettings::default() },
        ..request(&strip)
    };
    let filtered = read(bytes(&strip, Compression::Las), &all).expect("lines");
    assert_eq!(filtered.facts.excluded, 0);
}

#[test]
fn a_small_hole_is_filled_and_a_large_one_is_not() {
    let strip =
        MadeStrip { holes: vec![(19.75, 20.25, 1.5, 2.5), (40.0, 46.0, -4.0, 4.0)], ..short() };
    let gridded = made(&strip);
    assert_eq!(gridded.facts.filled, 1);
    let hole = gridded.facts.holes[0];
    assert!((hole.from.si() - 40.0).abs() < 0.6 && (hole.to.si() - 46.0).abs() < 0.6);
    let centre = gridded.lines.iter().find(|line| line.offset.si() == 0.0).expect("a centre line");
    let over = |from: f64, to: f64| {
        centre.points.iter().filter(|p| p.station.si() > from && p.station.si() < to).count()
    };
    assert_eq!(over(40.6, 45.4), 0);
    let beside = gridded.lines.iter().find(|line| line.offset.si() == 2.0).expect("a line");
    let filled = beside.points.iter().find(|p| p.station.si() == 20.0).expect("filled");
    let truth = strip.ground(filled.station, beside.offset);
    assert!((filled.elevation - truth).si().abs() < 0.008);
}

#[test]
fn a_parked_vehicle_is_no_bump() {
    let strip = MadeStrip { classified: false, bumps: vec![(30.0, 3.0, 2.0)], ..short() };
    let facts = made(&strip).facts;
    assert!(facts.objects > 0 && facts.unsurveyed > 0);
}

#[test]
fn points_beside_the_strip_are_told_where_they_lie() {
    let strip = short();
    let mut elsewhere = request(&strip);
    let by = |point: PlanePoint| PlanePoint { easting: point.easting + metres(5000.0), ..point };
    let ends =
        [metres(0.0), strip.length].map(|s: Length| by(elsewhere.axis.point(s, metres(0.0))));
    elsewhere.axis = StationAxis::between(ends[0], ends[1]).expect("an axis");
    let error = read(bytes(&strip, Compression::Las), &elsewhere).expect_err("no point");
    assert!(matches!(error, Error::OffTheStrip { .. }), "{error}");
}

#[test]
fn a_unit_is_never_guessed() {
    let request = CloudRequest { strip_length: metres(60.0), ..request(&short()) };
    let error = read(outside("simple.las"), &request).expect_err("no unit");
    assert!(matches!(error, Error::UnitUnknown { .. } | Error::UnitsDisagree { .. }), "{error}");
}

#[rstest]
#[case(Compression::Las)]
#[case(Compression::Laz)]
fn a_cloud_cut_anywhere_is_an_error(#[case] compression: Compression) {
    let strip = MadeStrip { density: 10.0, ..short() };
    let whole = bytes(&strip, compression);
    for share in 0..60 {
        let cut = whole[..whole.len() * share / 60].to_vec();
        read(cut, &request(&strip)).expect_err("cut short");
    }
}

#[test]
fn progress_ends_with_the_whole() {
    let strip = short();
    let mut told = Vec::new();
    let input = Box::new(Cursor::new(bytes(&strip, Compression::Laz)));
    read_cloud(input, &request(&strip), &mut |share| told.push(share)).expect("lines");
    assert!(told.is_sorted() && told.last() == Some(&1.0));
}

/// Bytes broken at random: a value or a sentence, never a panic of ours.
#[rstest]
#[case("simple.las")]
#[case("simple.laz")]
#[case("simple1_3.las")]
fn broken_clouds_are_refused_or_read(#[case] file: &str) {
    let whole = outside(file);
    let strip = short();
    let request = CloudRequest {
        horizontal_unit: Some(CloudUnit::Foot),
        vertical_unit: Some(CloudUnit::Foot),
        ..request(&strip)
    };
    let mut state = 7_u64;
    let mut roll = || {
        state =
            state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        usize::try_from(state >> 33).expect("31 bits")
    };
    for _ in 0..80 {
        let mut broken = whole.clone();
        for _ in 0..1 + roll() % 4 {
            let within = if roll() % 3 == 0 { broken.len() } else { 500 };
            let at = roll() % within;
            broken[at] = u8::try_from(roll() % 256).expect("a byte");
        }
        if let Err(error) = read(broken, &request) {
            assert!(!error.to_string().is_empty());
        }
    }
}

fn footprint(strip: &MadeStrip) -> Vec<PlanePoint> {
    let input = Box::new(Cursor::new(bytes(strip, Compression::Laz)));
    cloud_footprint(input, (None, None), &mut |_| ()).expect("a footprint")
}

/// A cloud cut to a strip carries its axis, whichever end is known.
#[test]
fn an_axis_is_laid_along_a_cloud_cut_to_the_strip() {
    let strip = MadeStrip { length: metres(400.0), width: metres(30.0), density: 8.0, ..short() };
    let axis = strip.axis().expect("an axis");
    let points = footprint(&strip);
    // 12 000 m², and half a square on each side of the edges.
    assert!((12_000..13_500).contains(&points.len()), "{}", points.len());
    let end = |station: Length| axis.point(station, metres(0.0));
    let size = (strip.length, strip.width);
    let starts = [
        AxisStart::Low(end(metres(0.0))),
        AxisStart::High(end(strip.length)),
        AxisStart::Bearing(axis.grid_bearing()),
    ];
    for start in starts {
        let fitted = covered_axis(&points, size, start).expect("an axis");
        assert!(fitted.spread.si() < 0.3, "{:?}", fitted.spread);
        for station in [0.0, 200.0, 400.0] {
            let (along, across) = fitted.axis.place(end(metres(station)));
            assert!((along.si() - station).abs() < 1.0, "{start:?}: {along:?}");
            assert!(across.si().abs() < 0.5, "{start:?}: {across:?} at {station}");
        }
    }
    let wider = covered_axis(&points, (strip.length, metres(18.0)), starts[0]);
    assert!(matches!(wider, Err(Error::CoveredWidth { .. })), "{wider:?}");
    let aside = AxisStart::Low(axis.point(metres(0.0), metres(6.0)));
    let beside = covered_axis(&points, size, aside);
    assert!(matches!(beside, Err(Error::ThresholdAside { .. })), "{beside:?}");
}
