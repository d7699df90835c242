//! A survey that is brought is read by a process of its own: what it takes beyond its
//! bounds ends that process, and the page goes on.

use crate::driver::{Served, request_of};
use crate::{get, port, status};
use std::path::{Path, PathBuf};
use std::process::Command;

/// An invented scan and its strip, served.
struct Scanned {
    folder: tempfile::TempDir,
    served: Served,
}

impl Scanned {
    fn new(density: &str) -> Self {
        let folder = tempfile::tempdir().expect("a folder");
        let out = Command::new(env!("CARGO_BIN_EXE_hardpan"))
            .args(["new", "scan", "--density", density])
            .arg(folder.path())
            .output()
            .expect("the program starts");
        assert!(out.status.success(), "{}", String::from_utf8_lossy(&out.stderr));
        let served = Served::with(&[&folder.path().to_string_lossy()]);
        Self { folder, served }
    }

    fn path(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    fn scan(&self) -> Vec<u8> {
        std::fs::read(self.path("scan.laz")).expect("a scan")
    }

    fn bring(&self, name: &str, bytes: &[u8]) -> (String, String) {
        let (_, form) = get(&self.served, "/strips/strip/bring");
        let token = form.split("name=\"token\" value=\"").nth(1);
        let token = token.and_then(|rest| rest.split('"').next()).expect("a token");
        let mut body = Vec::new();
        for (name, value) in [("token", token), ("what", "levels"), ("date", "2026-06-19")] {
            let field = format!(
                "--x\r\nContent-Disposition: form-data; name=\"{name}\"\r\n\r\n{value}\r\n"
            );
            body.extend_from_slice(field.as_bytes());
        }
        let head = format!(
            "--x\r\nContent-Disposition: form-data; name=\"file\"; filename=\"{name}\"\r\n\r\n"
        );
        body.extend_from_slice(head.as_bytes());
        body.extend_from_slice(bytes);
        body.extend_from_slice(b"\r\n--x--\r\n");
        let headers = [
            ("Content-Type", "multipart/form-data; boundary=x"),
            ("Origin", self.served.url.as_str()),
        ];
        request_of(port(&self.served), ("POST", "/strips/strip/bring"), &headers, &body)
    }

    /// That nothing came of it, and the page answers.
    fn is_as_before(&self) {
        for folder in ["received", "received/.part"] {
            let left = names(&self.path(folder)).into_iter().filter(|name| name != ".part");
            assert_eq!(left.count(), 0, "something was left in {folder}");
        }
        assert_eq!(names(self.folder.path()), ["received", "scan.laz", "strip.toml"]);
        assert_eq!(status(&get(&self.served, "/")), "200");
    }
}

fn names(folder: &Path) -> Vec<String> {
    let all = std::fs::read_dir(folder).into_iter().flatten().flatten();
    let mut all: Vec<String> =
        all.map(|one| one.file_name().to_string_lossy().into_owned()).collect();
    all.sort();
    all
}

/// The bounds are those of any scan, here so low that an honest one exceeds them.
#[test]
#[cfg(target_os = "linux")]
fn a_scan_beyond_the_bounds_is_told_and_nothing_is_left() {
    let mut here = Scanned::new("30");
    for (bound, code) in [("--reader-memory=16", "E432"), ("--reader-time=1", "E433")] {
        here.served = Served::with(&[&here.folder.path().to_string_lossy(), bound]);
        let answer = here.bring("scan.laz", &here.scan());
        assert_eq!(status(&answer), "422", "{bound}: {}", answer.1);
        for words in [code, "thin out the scan", "received/2026-06-19-scan.laz"] {
            assert!(answer.1.contains(words), "{bound}: {words}: {}", answer.1);
        }
        here.is_as_before();
    }
}

#[test]
fn what_only_begins_as_a_scan_is_told_and_nothing_is_left() {
    let here = Scanned::new("10");
    let scan = here.scan();
    let mut changed = scan.clone();
    for byte in changed.iter_mut().skip(400).step_by(7) {
        *byte ^= 0x5a;
    }
    for bytes in [&scan[..scan.len() / 2], &changed, &scan[..400]] {
        let answer = here.bring("scan.laz", bytes);
        assert_eq!(status(&answer), "422", "{}", answer.1);
        here.is_as_before();
    }
}

/// The same file brought and named by the strip: what it makes of the strip is what the
/// command makes of it, and not a byte of it is another.
#[test]
fn a_scan_within_the_bounds_is_kept_byte_for_byte_and_judged_as_by_the_command() {
    let here = Scanned::new("10");
    let scan = here.scan();
    let answer = here.bring("scan.laz", &scan);
    assert_eq!(status(&answer), "200", "{}", answer.1);
    assert!(answer.1.contains("No check changes its verdict"), "{}", answer.1);
    let kept = std::fs::read(here.path("received/2026-06-19-scan.laz")).expect("it is kept");
    assert!(kept == scan, "the file that is kept is another");
    assert_eq!(names(&here.path("received/.part")), Vec::<String>::new());
}

/// Without its strip the page says what changes; the bounds change nothing of it.
#[test]
fn what_a_survey_changes_is_what_the_command_finds() {
    let here = Scanned::new("10");
    let strip = std::fs::read_to_string(here.path("strip.toml")).expect("a strip");
    let named = "survey = { value = \"scan.laz\", source = \"made by a generator\" }";
    assert!(strip.contains(named));
    std::fs::write(here.path("strip.toml"), strip.replace(named, "")).expect("it is written");
    let answer = here.bring("scan.laz", &here.scan());
    assert_eq!(status(&answer), "200", "{}", answer.1);
    std::fs::write(here.path("strip.toml"), strip).expect("it is written");
    let out = Command::new(env!("CARGO_BIN_EXE_hardpan"))
        .args(["strip", "--json"])
        .arg(here.path("strip.toml"))
        .output()
        .expect("the program starts");
    let told: serde_json::Value = serde_json::from_slice(&out.stdout).expect("JSON");
    let rows = answer.1.split("<tr>").skip(2).count();
    assert!(rows > 3, "{}", answer.1);
    for finding in told["findings"].as_array().expect("findings") {
        let code = finding["code"].as_str().expect("a code");
        let row = format!("<th scope=\"row\">{code} ");
        let Some(row) = answer.1.split(&row).nth(1) else { continue };
        let row = row.split("</tr>").next().unwrap_or_default();
        let verdicts: Vec<&str> = told["findings"]
            .as_array()
            .into_iter()
            .flatten()
            .filter(|one| one["code"] == code)
            .filter_map(|one| one["verdict"].as_str())
            .collect();
        let last = row.rsplit("<td>").next().unwrap_or_default();
        assert!(
            verdicts.iter().any(|verdict| last.contains(verdict)),
            "{code}: {verdicts:?} {row}"
        );
    }
}
