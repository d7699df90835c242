//! Surveys that are no table of levels, from the command line: the example of
//! two surveys, its places, and what an interrupted run leaves behind.

use snapbox::cmd::{Command, cargo_bin};
use std::path::{Path, PathBuf};
use std::time::Duration;

fn hardpan() -> Command {
    Command::new(cargo_bin!("hardpan"))
}

fn example() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples/05-two-surveys-of-one-strip")
}

fn copied(folder: &Path) {
    for name in ["scan.toml", "scan.laz", "walk.toml", "walk.csv", "places.geojson"] {
        std::fs::copy(example().join(name), folder.join(name)).expect("a copy");
    }
}

fn text_of(bytes: &[u8]) -> String {
    String::from_utf8_lossy(bytes).into_owned()
}

/// Words of a wrapped text, one blank between them.
fn words(bytes: &[u8]) -> String {
    text_of(bytes).split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn a_scan_shows_its_points_its_hole_and_the_places_of_others() {
    let output = hardpan().arg("strip").arg(example().join("scan.toml")).output().expect("it runs");
    let text = words(&output.stdout);
    assert_eq!(output.status.code(), Some(3), "{text}");
    assert!(text.contains("Points of the cloud"), "{text}");
    assert!(text.contains("where water stood"), "{text}");
    assert!(text.contains("Largest part without a level: stations 118"), "{text}");
}

#[test]
fn a_walk_says_that_its_axis_was_fitted_and_what_it_cannot_show() {
    let output = hardpan().arg("strip").arg(example().join("walk.toml")).output().expect("it runs");
    let text = words(&output.stdout);
    assert_eq!(output.status.code(), Some(3), "{text}");
    assert!(text.contains("fitted to the survey: true bearing 37°"), "{text}");
    assert!(text.contains("What is over the limit may be noise of the survey"), "{text}");
}

#[test]
fn places_are_written_and_taken_back() {
    let folder = tempfile::tempdir().expect("a folder");
    copied(folder.path());
    let found = folder.path().join("found.geojson");
    let strip = folder.path().join("scan.toml");
    let mut command = hardpan().arg("strip").arg(&strip);
    command = command.arg("--places").arg(&found);
    let output = command.output().expect("it runs");
    assert_eq!(output.status.code(), Some(3), "{}", text_of(&output.stderr));
    let text = std::fs::read_to_string(&found).expect("the places");
    let document: serde_json::Value = serde_json::from_str(&text).expect("JSON");
    assert_eq!(document["type"], "FeatureCollection");
    assert!(document["caution"].as_str().is_some_and(|text| text.contains("decide")));
    let features = document["features"].as_array().expect("features");
    let kinds: Vec<&str> =
        features.iter().filter_map(|feature| feature["properties"]["kind"].as_str()).collect();
    for kind in ["axis", "obstacle", "soft"] {
        assert!(kinds.contains(&kind), "{kinds:?}");
    }
    for feature in features {
        assert!(!feature["geometry"].is_null(), "{feature}");
    }
    let axis = features.iter().find(|feature| feature["properties"]["kind"] == "axis");
    let ends = &axis.expect("an axis")["geometry"]["coordinates"];
    let near = |value: &serde_json::Value, wanted: f64| {
        assert!((value.as_f64().expect("a number") - wanted).abs() < 1e-7, "{value} {wanted}");
    };
    near(&ends[0][0], -20.0);
    near(&ends[0][1], -30.0);
    near(&ends[1][0], -19.996_891);
    near(&ends[1][1], -29.996_391_7);
    // The file that was written takes the place of the one that was read: the
    // same strip, with what was reported and nothing of what was found.
    std::fs::rename(&found, folder.path().join("places.geojson")).expect("moved");
    let again = hardpan().arg("strip").arg(&strip).output().expect("it runs");
    let verdicts = |output: &[u8]| {
        let lines = text_of(output);
        lines.lines().filter(|line| line.contains(" S50")).map(str::to_owned).collect::<Vec<_>>()
    };
    assert_eq!(again.status.code(), Some(3), "{}", text_of(&again.stderr));
    assert_eq!(verdicts(&again.stdout), verdicts(&output.stdout));
}

#[test]
fn places_need_the_ends_on_the_globe() {
    let folder = tempfile::tempdir().expect("a folder");
    copied(folder.path());
    let strip = folder.path().join("walk.toml");
    let places = folder.path().join("found.geojson");
    let mut command = hardpan().arg("strip").arg(&strip);
    command = command.arg("--places").arg(&places);
    let output = command.output().expect("it runs");
    assert_eq!(output.status.code(), Some(2));
    assert!(text_of(&output.stderr).contains("latitude"), "{}", text_of(&output.stderr));
    assert!(!places.exists());
}

#[test]
fn a_cloud_cut_short_or_elsewhere_cannot_be_used() {
    let folder = tempfile::tempdir().expect("a folder");
    copied(folder.path());
    let strip = folder.path().join("scan.toml");
    let cloud = folder.path().join("scan.laz");
    let whole = std::fs::read(&cloud).expect("the scan");
    let refused = |word: &str| {
        let output = hardpan().arg("strip").arg(&strip).output().expect("it runs");
        assert_eq!(output.status.code(), Some(2));
        assert!(text_of(&output.stderr).contains(word), "{}", text_of(&output.stderr));
    };
    std::fs::write(&cloud, &whole[..whole.len() / 2]).expect("cut");
    refused("copy it again");
    std::fs::write(&cloud, &whole).expect("whole");
    let text = std::fs::read_to_string(&strip).expect("the strip");
    let elsewhere = text.replace("500000 m", "510000 m").replace("500300 m", "510300 m");
    std::fs::write(&strip, elsewhere).expect("written");
    refused("no point lies on the strip");
}

/// Interrupted at any time, a run leaves the file that stood there or the whole
/// new one, and no part of one.
#[cfg(unix)]
#[test]
fn an_interrupted_run_leaves_nothing_half_written() {
    let folder = tempfile::tempdir().expect("a folder");
    copied(folder.path());
    let out = folder.path().join("strip.pdf");
    let old = b"%PDF- an old dossier %%EOF".to_vec();
    let (mut stopped, mut ended) = (0, 0);
    for delay in [1, 30, 100, 250, 500, 900, 1500, 2500] {
        std::fs::write(&out, &old).expect("an old dossier");
        let mut child = std::process::Command::new(cargo_bin!("hardpan"))
            .args(["strip", "scan.toml", "--dossier", "strip.pdf", "--figures", "figures"])
            .current_dir(folder.path())
            .stdout(std::process::Stdio::null())
            .stderr(std::process::Stdio::null())
            .spawn()
            .expect("it starts");
        std::thread::sleep(Duration::from_millis(delay));
        let sent =
            std::process::Command::new("kill").args(["-INT", &child.id().to_string()]).status();
        assert!(sent.is_ok());
        match child.wait().expect("it ends").code() {
            // Before its first line a run ends by the signal itself.
            None | Some(130) => stopped += 1,
            Some(_) => ended += 1,
        }
        let left = std::fs::read_dir(folder.path()).into_iter().flatten().flatten();
        let parts = left.filter(|one| one.file_name().to_string_lossy().starts_with(".hardpan-"));
        assert_eq!(parts.count(), 0, "after {delay} ms a part was left");
        let bytes = std::fs::read(&out).expect("a dossier stands there");
        let end = bytes.len().saturating_sub(16);
        let whole = bytes.starts_with(b"%PDF-") && text_of(&bytes[end..]).contains("%%EOF");
        assert!(whole, "after {delay} ms: {} bytes", bytes.len());
        for figure in std::fs::read_dir(folder.path().join("figures")).into_iter().flatten() {
            let path = figure.expect("a figure").path();
            if path.extension().is_some_and(|ending| ending == "svg") {
                let svg = std::fs::read_to_string(&path).expect("text");
                assert!(svg.trim_end().ends_with("</svg>"), "{}", path.display());
            }
        }
    }
    assert!(stopped > 0, "no run was interrupted ({ended} ended)");
}
