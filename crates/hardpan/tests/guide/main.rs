//! The guide for users: every command of it runs, in its order, and draws its
//! pictures, and its screens are those of the page.

#[path = "../browser/demo_book.rs"]
mod demo_book;
#[path = "../browser/driver.rs"]
#[allow(dead_code)]
mod driver;
mod screens;

use std::io::{BufRead as _, BufReader, Write as _};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

fn guide() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../docs/guide/src")
}

/// The pages in the order of the summary.
fn pages() -> Vec<PathBuf> {
    let summary = std::fs::read_to_string(guide().join("SUMMARY.md")).expect("a summary");
    let names = summary.lines().filter_map(|line| line.split_once("](")?.1.strip_suffix(')'));
    names.map(|name| guide().join(name)).collect()
}

/// Commands in the shell blocks of a page.
fn commands(page: &str) -> Vec<&str> {
    let mut is_shell = false;
    let mut found = Vec::new();
    for line in page.lines() {
        if line.starts_with("```") {
            is_shell = line == "```sh";
        } else if is_shell {
            found.push(line);
        }
    }
    found
}

/// The words of a command: text in quotes is one word.
fn words(command: &str) -> Vec<String> {
    let mut words = vec![String::new()];
    let mut is_quoted = false;
    for letter in command.chars() {
        match letter {
            '"' => is_quoted = !is_quoted,
            ' ' if !is_quoted => words.push(String::new()),
            other => words.last_mut().expect("a word").push(other),
        }
    }
    words
}

/// What a command says that is refused; it is given a password in case it asks.
fn not_run(words: &[String], place: &Path) -> Option<String> {
    let mut child = Command::new(snapbox::cmd::cargo_bin!("hardpan"))
        .args(words)
        .current_dir(place)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("it starts");
    // A command that asks for none may have ended before it is given.
    let _ = writeln!(child.stdin.take().expect("a pipe"), "gravel, grass and dirt");
    let output = child.wait_with_output().expect("it runs");
    let is_refused = output.status.code().is_none_or(|code| code == 2);
    is_refused.then(|| String::from_utf8_lossy(&output.stderr).into_owned())
}

/// What a server says that does not begin to answer, on any free port; one that does is
/// ended.
fn not_served(words: &[String], place: &Path) -> Option<String> {
    let mut free = words.to_vec();
    match free.iter().position(|word| word == "--listen") {
        Some(at) => {
            let address = free[at + 1].rsplit_once(':').expect("an address has a port").0;
            free[at + 1] = format!("{address}:0");
        }
        None => free.extend(["--listen".to_owned(), "127.0.0.1:0".to_owned()]),
    }
    let mut child = Command::new(snapbox::cmd::cargo_bin!("hardpan"))
        .args(&free)
        .current_dir(place)
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("it starts");
    let mut line = String::new();
    let out = child.stdout.take().expect("its output is piped");
    BufReader::new(out).read_line(&mut line).expect("it is read");
    let _ = child.kill();
    let output = child.wait_with_output().expect("it ends");
    (!line.starts_with("http")).then(|| String::from_utf8_lossy(&output.stderr).into_owned())
}

/// The demo and the examples as they stand beside the guide, and a certificate.
fn lay_out(to: &Path) {
    let top = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    copy(&top.join("demo"), &to.join("demo"));
    copy(&top.join("examples"), &to.join("examples"));
    let certificate = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/certificate");
    for ending in ["pem", "key"] {
        let from = certificate.join(format!("for_tests_only.{ending}"));
        std::fs::copy(from, to.join(format!("strip.{ending}"))).expect("a copy");
    }
}

fn copy(from: &Path, to: &Path) {
    std::fs::create_dir_all(to).expect("a folder");
    for file in std::fs::read_dir(from).expect("files").flatten() {
        let target = to.join(file.file_name());
        if file.path().is_dir() {
            copy(&file.path(), &target);
        } else {
            std::fs::copy(file.path(), target).expect("a copy");
        }
    }
}

#[test]
fn every_command_of_the_guide_runs_and_draws_what_the_guide_shows() {
    let folder = tempfile::tempdir().expect("a folder");
    lay_out(folder.path());
    std::fs::create_dir(folder.path().join("pictures")).expect("a folder");
    let mut told = Vec::new();
    for page in pages() {
        let text = std::fs::read_to_string(&page).expect("a page");
        for command in commands(&text) {
            let words = words(command);
            assert_eq!(words[0], "hardpan", "{command}");
            let refused = match words[1].as_str() {
                "serve" => not_served(&words[1..], folder.path()),
                _ => not_run(&words[1..], folder.path()),
            };
            told.extend(refused.map(|said| format!("{command}\n{said}")));
        }
    }
    assert!(told.is_empty(), "{}", told.join("\n"));
    let mut drawn = 0;
    for picture in std::fs::read_dir(guide().join("pictures")).expect("pictures").flatten() {
        let now = folder.path().join("pictures").join(picture.file_name());
        let now = std::fs::read_to_string(&now)
            .unwrap_or_else(|error| panic!("no command draws {now:?}: {error}"));
        // `SNAPSHOTS=overwrite` takes the new pictures over; look at them.
        snapbox::Assert::new()
            .action_env("SNAPSHOTS")
            .eq(now, snapbox::Data::read_from(&picture.path(), None));
        drawn += 1;
    }
    assert_eq!(drawn, 9);
}

#[test]
fn every_link_and_picture_of_the_guide_leads_somewhere() {
    for page in pages() {
        let text = std::fs::read_to_string(&page).expect("a page");
        for target in text.split("](").skip(1).filter_map(|rest| rest.split(')').next()) {
            let path = page.parent().expect("a folder").join(target);
            assert!(path.exists(), "{page:?}: {target}");
            // What lies outside is not in the book that is made of it.
            let (whole, guide) = (path.canonicalize(), guide().canonicalize());
            let (whole, guide) = (whole.expect("it stands"), guide.expect("it stands"));
            assert!(whole.starts_with(guide), "{page:?}: {target} leads out of the guide");
        }
        assert!(page.ends_with("README.md") || text.starts_with("# "), "{page:?}");
    }
}
