//! Every version and every point format that clouds come in, in metres and in
//! feet, plain and compressed, give the lines of one known ground. The writer is
//! a general-purpose library and knows nothing of strips.

use hardpan_model::GroundFrom;
use hardpan_quantity::{Quantity, metres};
use hardpan_survey::made::MadeStrip;
use hardpan_survey::{CloudRequest, CloudUnit, Error, GridSettings, Gridded, read_cloud};
use las::point::{Classification, Format, ScanDirection};
use las::{Builder, Color, Point, Transform, Vector, Vlr, Writer};
use rstest::rstest;
use std::io::{Cursor, Seek, SeekFrom, Write};
use std::sync::{Arc, Mutex};

fn strip() -> MadeStrip {
    MadeStrip {
        length: metres(40.0),
        width: metres(14.0),
        density: 60.0,
        bumps: vec![(20.0, 12.0, 0.08)],
        noise: metres(0.005),
        plants: 0.1,
        ..MadeStrip::default()
    }
}

fn request(strip: &MadeStrip, unit: Option<CloudUnit>) -> CloudRequest {
    CloudRequest {
        axis: strip.axis().expect("an axis"),
        strip_length: strip.length,
        strip_width: metres(10.0),
        settings: GridSettings::default(),
        horizontal_unit: unit,
        vertical_unit: unit,
    }
}

/// Who says in which unit the coordinates are.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Says {
    /// Keys of the GeoTIFF standard in the file.
    Keys,
    /// Well-known text in the file.
    Text,
    /// The user, and the file says nothing.
    User,
}

#[derive(Debug, Clone, Copy)]
struct Kind {
    version: (u8, u8),
    format: u8,
    compressed: bool,
    unit: CloudUnit,
    says: Says,
}

/// Memory that the writer may keep while it is read.
#[derive(Debug, Clone, Default)]
struct Shared(Arc<Mutex<Cursor<Vec<u8>>>>);

impl Write for Shared {
    fn write(&mut self, bytes: &[u8]) -> std::io::Result<usize> {
        self.0.lock().expect("one thread").write(bytes)
    }

    fn flush(&mut self) -> std::io::Result<()> {
        Ok(())
    }
}

impl Seek for Shared {
    fn seek(&mut self, to: SeekFrom) -> std::io::Result<u64> {
        self.0.lock().expect("one thread").seek(to)
    }
}

/// Codes of linear units, and keys. Source: [OGC-19-008] annexes.
fn keys(unit: CloudUnit) -> Vlr {
    let code = match unit {
        CloudUnit::Metre => 9001,
        CloudUnit::Foot => 9002,
        CloudUnit::SurveyFoot => 9003,
    };
    let keys: [u16; 16] = [1, 1, 0, 3, 1024, 0, 1, 1, 3076, 0, 1, code, 4099, 0, 1, code];
    Vlr {
        user_id: "LASF_Projection".to_owned(),
        record_id: 34735,
        description: String::new(),
        data: keys.iter().flat_map(|key| key.to_le_bytes()).collect(),
    }
}

fn text(unit: CloudUnit) -> Vec<u8> {
    let length = match unit {
        CloudUnit::Metre => "1",
        CloudUnit::Foot => "0.3048",
        CloudUnit::SurveyFoot => "0.3048006096012192",
    };
    let unit = format!("UNIT[\"length\",{length}]");
    format!(
        "COMPD_CS[\"invented\",PROJCS[\"plane\",GEOGCS[\"globe\",DATUM[\"datum\",\
         SPHEROID[\"ball\",6378137,298.257223563]],PRIMEM[\"Greenwich\",0],\
         UNIT[\"degree\",0.0174532925199433]],PROJECTION[\"Transverse_Mercator\"],{unit}],\
         VERT_CS[\"height\",VERT_DATUM[\"level\",2005],{unit}]]"
    )
    .into_bytes()
}

fn written(strip: &MadeStrip, kind: Kind) -> las::Result<Vec<u8>> {
    let mut builder = Builder::from(kind.version);
    let mut format = Format::new(kind.format)?;
    format.is_compressed = kind.compressed;
    builder.point_format = format;
    let scale = 0.001;
    let each = kind.unit.metres();
    let transform = |offset_m: f64| Transform { scale, offset: (offset_m / each).round() };
    builder.transforms =
        Vector { x: transform(500_000.0), y: transform(4_100_000.0), z: transform(0.0) };
    builder.date = None;
    if kind.says == Says::Keys {
        builder.vlrs.push(keys(kind.unit));
    }
    let mut header = builder.into_header()?;
    if kind.says == Says::Text {
        header.set_wkt_crs(text(kind.unit))?;
    }
    let memory = Shared::default();
    let mut writer = Writer::new(memory.clone(), header)?;
    let mut outcome = Ok(());
    strip
        .each(|x, y, z, class| {
            let class =
                if class == 2 { Classification::Ground } else { Classification::HighVegetation };
            let point = Point {
                x: x / each,
                y: y / each,
                z: z / each,
                intensity: 700,
                return_number: 1,
                number_of_returns: 2,
                scan_direction: ScanDirection::LeftToRight,
                classification: class,
                scan_angle: 7.0,
                user_data: 255,
                point_source_id: 65_535,
                gps_time: format.has_gps_time.then_some(1.0),
                color: format.has_color.then_some(Color::new(1, 2, 3)),
                nir: format.has_nir.then_some(9),
                waveform: format.has_waveform.then(Default::default),
                ..Point::default()
            };
            if outcome.is_ok() {
                outcome = writer.write_point(point);
            }
        })
        .expect("an axis");
    outcome?;
    writer.close()?;
    let bytes = memory.0.lock().expect("one thread").get_ref().clone();
    Ok(bytes)
}

fn read(bytes: Vec<u8>, request: &CloudRequest) -> Result<Gridded, Error> {
    read_cloud(Box::new(Cursor::new(bytes)), request, &mut |_| ())
}

/// The lines of the ground itself, from what every format must give alike.
fn agrees(strip: &MadeStrip, found: &Gridded, kind: Kind) {
    assert_eq!(found.facts.ground, GroundFrom::Classes, "{kind:?}");
    assert_eq!(found.facts.points, strip.points(), "{kind:?}");
    // One point in ten is a plant; the seeded dice of the maker say which.
    let mut plants = 0;
    strip.each(|_, _, _, class| plants += u64::from(class != 2)).expect("an axis");
    assert_eq!(found.facts.excluded, plants, "{kind:?}");
    assert_eq!(found.lines.len(), 11, "{kind:?}");
    for line in found.lines.iter().filter(|line| line.offset.si() != 0.0) {
        for point in &line.points {
            let miss = (point.elevation - strip.ground(point.station, line.offset)).si();
            // 27 points of 5 mm and the curve of the bump within a cell; at the
            // ends half of them, on one side.
            assert!(miss.abs() < 0.009, "{kind:?}: {miss} at {:?}", point.station);
        }
    }
}

#[rstest]
fn every_format_of_every_version_gives_the_known_ground(
    #[values((1, 2), (1, 3), (1, 4))] version: (u8, u8),
    #[values(CloudUnit::Metre, CloudUnit::Foot, CloudUnit::SurveyFoot)] unit: CloudUnit,
) {
    let strip = strip();
    // Formats that came with each version. Source: [LAS-14-R15] revision history.
    let formats = match version {
        (1, 2) => 0..=3_u8,
        (1, 3) => 0..=5,
        _ => 0..=10,
    };
    for format in formats {
        for says in [Says::Keys, Says::Text, Says::User] {
            // Text came with version 1.4; from format 6 on it is the only way.
            if says == Says::Text && version != (1, 4) || says == Says::Keys && format > 5 {
                continue;
            }
            let kind = Kind { version, format, compressed: false, unit, says };
            let bytes = written(&strip, kind).unwrap_or_else(|why| panic!("{kind:?}: {why}"));
            assert_eq!((bytes[24], bytes[25], bytes[104]), (version.0, version.1, format));
            let stated = (says == Says::User).then_some(unit);
            let found = read(bytes.clone(), &request(&strip, stated));
            agrees(&strip, &found.unwrap_or_else(|why| panic!("{kind:?}: {why}")), kind);
            if says == Says::User {
                let error = read(bytes, &request(&strip, None)).expect_err("no unit");
                assert_eq!(error, Error::UnitUnknown { which: "horizontal" }, "{kind:?}");
            }
        }
    }
}

/// The compressing library knows no waveforms: formats 4, 5, 9 and 10 exist as
/// plain records only.
#[rstest]
fn compressed_formats_give_the_lines_of_plain_ones(
    #[values(0, 1, 2, 3, 6, 7, 8)] format: u8,
    #[values(CloudUnit::Metre, CloudUnit::Foot)] unit: CloudUnit,
) {
    let strip = strip();
    let versions: &[(u8, u8)] = if format < 6 { &[(1, 2), (1, 3), (1, 4)] } else { &[(1, 4)] };
    for &version in versions {
        let plain = Kind { version, format, compressed: false, unit, says: Says::User };
        let lines = |kind| {
            let bytes = written(&strip, kind).unwrap_or_else(|why| panic!("{kind:?}: {why}"));
            read(bytes, &request(&strip, Some(unit)))
                .unwrap_or_else(|why| panic!("{kind:?}: {why}"))
        };
        let compressed = Kind { compressed: true, ..plain };
        let found = lines(compressed);
        agrees(&strip, &found, compressed);
        assert_eq!(found, lines(plain), "{compressed:?}");
    }
}

/// A surveyor's foot taken for a foot would move a strip by 16 m at these
/// northings; the file and the user must agree.
#[test]
fn two_feet_are_not_one() {
    let strip = strip();
    let kind = Kind {
        version: (1, 4),
        format: 6,
        compressed: false,
        unit: CloudUnit::SurveyFoot,
        says: Says::Text,
    };
    let bytes = written(&strip, kind).expect("a cloud");
    let error = read(bytes, &request(&strip, Some(CloudUnit::Foot))).expect_err("two feet");
    assert!(matches!(error, Error::UnitsDisagree { which: "horizontal", .. }), "{error}");
}
