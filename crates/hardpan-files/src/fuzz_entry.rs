//! One function a parser, for fuzzing: any bytes go in, nothing comes out, and
//! nothing may panic, hang or run out of stack.

use crate::{Memory, read_aeroplane, read_any, read_day, read_flight, read_strip, render};

fn shown<T>(reading: &crate::Reading<T>) {
    let plain = render(&reading.diagnostics, &reading.sources, false);
    let coloured = render(&reading.diagnostics, &reading.sources, true);
    assert!(reading.value.is_some() || !plain.is_empty(), "no value and no word why");
    assert_eq!(plain.is_empty(), coloured.is_empty());
}

/// An aeroplane file.
pub fn fuzz_aeroplane(data: &[u8]) {
    shown(&read_aeroplane(&Memory::default().with("a.toml", data), "a.toml"));
}

/// A strip file that may name the same bytes as its survey and soundings.
pub fn fuzz_strip(data: &[u8]) {
    let names = ["s.toml", "survey.csv", "soundings.csv", "strength_tests.csv"];
    let files = names.iter().fold(Memory::default(), |files, name| files.with(name, data));
    shown(&read_strip(&files, "s.toml"));
}

/// A day file.
pub fn fuzz_day(data: &[u8]) {
    shown(&read_day(&Memory::default().with("d.toml", data), "d.toml"));
}

/// A flight file that may name the same bytes as its other files.
pub fn fuzz_flight(data: &[u8]) {
    let names = ["f.toml", "aeroplane.toml", "strip.toml", "day.toml"];
    let files = names.iter().fold(Memory::default(), |files, name| files.with(name, data));
    shown(&read_flight(&files, "f.toml"));
}

/// A survey.
pub fn fuzz_survey(data: &[u8]) {
    let strip = "kind = \"strip\"\nlength = \"1980 m\"\nsurvey = \"s.csv\"\n";
    shown(&read_strip(
        &Memory::default().with("strip.toml", strip).with("s.csv", data),
        "strip.toml",
    ));
}

/// A point cloud.
pub fn fuzz_cloud(data: &[u8]) {
    let strip = "kind = \"strip\"\nlength = \"120 m\"\nwidth = \"10 m\"\nsurvey = \"s.las\"\n\
                 [survey_info]\nhorizontal_unit = \"m\"\nvertical_unit = \"m\"\n\
                 [low_end]\neasting = \"500000 m\"\nnorthing = \"4100000 m\"\n\
                 [high_end]\neasting = \"500072 m\"\nnorthing = \"4100096 m\"\n";
    shown(&read_strip(
        &Memory::default().with("strip.toml", strip).with("s.las", data),
        "strip.toml",
    ));
}

/// Places as GeoJSON.
pub fn fuzz_places(data: &[u8]) {
    let strip = "kind = \"strip\"\nlength = \"1957 m\"\nplaces = \"p.geojson\"\n\
                 [low_end]\nlatitude = \"52.1 deg\"\nlongitude = \"-1.3 deg\"\n\
                 [high_end]\nlatitude = \"52.1064 deg\"\nlongitude = \"-1.2734 deg\"\n";
    let files = Memory::default().with("strip.toml", strip).with("p.geojson", data);
    shown(&read_strip(&files, "strip.toml"));
}

/// A grid as text, and as an image.
pub fn fuzz_grid(data: &[u8]) {
    for name in ["g.asc", "g.tif"] {
        let strip = format!(
            "kind = \"strip\"\nlength = \"120 m\"\nwidth = \"10 m\"\nsurvey = \"{name}\"\n\
             [survey_info]\nhorizontal_unit = \"m\"\nvertical_unit = \"m\"\n\
             [low_end]\neasting = \"500000 m\"\nnorthing = \"4100000 m\"\n\
             [high_end]\neasting = \"500072 m\"\nnorthing = \"4100096 m\"\n"
        );
        let files = Memory::default().with("strip.toml", strip).with(name, data);
        shown(&read_strip(&files, "strip.toml"));
    }
}

/// Positions of a satellite receiver, on thresholds and along themselves.
pub fn fuzz_positions(data: &[u8]) {
    let low = "[low_end]\nlatitude = \"52.1 deg\"\nlongitude = \"-1.3 deg\"\n";
    let high = "[high_end]\nlatitude = \"52.1064 deg\"\nlongitude = \"-1.2734 deg\"\n";
    let top = "kind = \"strip\"\nlength = \"1957 m\"\nbearing = \"69 deg\"\nsurvey = \"p.csv\"\n";
    let fitted = "[survey_info]\naxis = \"fitted\"\n";
    for strip in
        [format!("{top}{low}{high}"), format!("{top}{fitted}{low}"), format!("{top}{fitted}")]
    {
        let files = Memory::default().with("strip.toml", strip).with("p.csv", data);
        shown(&read_strip(&files, "strip.toml"));
    }
}

/// Soundings.
pub fn fuzz_soundings(data: &[u8]) {
    let strip = "kind = \"strip\"\nlength = \"1980 m\"\nsoundings = \"s.csv\"\n";
    shown(&read_strip(
        &Memory::default().with("strip.toml", strip).with("s.csv", data),
        "strip.toml",
    ));
}

/// Strength tests besides the penetrometer.
pub fn fuzz_strength_tests(data: &[u8]) {
    let strip = "kind = \"strip\"\nlength = \"1980 m\"\nstrength_tests = \"t.csv\"\n";
    shown(&read_strip(
        &Memory::default().with("strip.toml", strip).with("t.csv", data),
        "strip.toml",
    ));
}

/// An approved chart.
pub fn fuzz_chart(data: &[u8]) {
    let aeroplane = "kind = \"aeroplane\"\n[[chart]]\ngives = \"take-off distance\"\n\
                     wind = \"reported\"\nfile = \"c.csv\"\n";
    let files = Memory::default().with("a.toml", aeroplane).with("c.csv", data);
    shown(&read_aeroplane(&files, "a.toml"));
}

/// Measured ruts.
pub fn fuzz_ruts(data: &[u8]) {
    let strip = "kind = \"strip\"\nlength = \"1980 m\"\nruts = \"r.csv\"\n";
    shown(&read_strip(
        &Memory::default().with("strip.toml", strip).with("r.csv", data),
        "strip.toml",
    ));
}

/// Temperatures of the air day by day.
pub fn fuzz_temperatures(data: &[u8]) {
    let strip = "kind = \"strip\"\n[frost]\ndaily = \"t.csv\"\n";
    shown(&read_strip(
        &Memory::default().with("strip.toml", strip).with("t.csv", data),
        "strip.toml",
    ));
}

/// A weather report.
pub fn fuzz_metar(data: &[u8]) {
    shown(&read_any(&Memory::default().with("r.metar", data), "r.metar"));
}

/// A file of any kind.
pub fn fuzz_any(data: &[u8]) {
    for path in ["x.toml", "x.csv", "x.txt"] {
        shown(&read_any(&Memory::default().with(path, data), path));
    }
}

/// Values of a flight stated again: any bytes as one key and one value, and a
/// glance at the same bytes.
pub fn fuzz_changes(data: &[u8]) {
    let text = String::from_utf8_lossy(data);
    let _ = crate::glance(&Memory::default().with("g.toml", data), "g.toml");
    let (key, value) = text.split_once('=').unwrap_or((crate::CHANGEABLE[1], &text));
    let changes = [(key.to_owned(), value.to_owned())];
    let flight = hardpan_model::Flight {
        landing: Some(hardpan_model::Landing::default()),
        ..hardpan_model::Flight::default()
    };
    shown(&crate::change_flight(flight, &changes));
}
