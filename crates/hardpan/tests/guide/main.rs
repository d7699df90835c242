//! The guide for users: every command of it runs, in its order, and draws its
//! pictures, and its screens are those of the page.

#[path = "../browser/demo_book.rs"]
mod demo_book;
#[path = "../browser/driver.rs"]
#[allow(dead_code)]
mod driver;
mod screens;

use std::path::{Path, PathBuf};
use std::process::Command;

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

/// The demo and the examples as they stand beside the guide.
fn lay_out(to: &Path) {
    let top = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    copy(&top.join("demo"), &to.join("demo"));
    copy(&top.join("examples"), &to.join("examples"));
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
            // A server answers until it is ended; the tests of the page run it.
            if words[1] == "serve" {
                continue;
            }
            let output = Command::new(snapbox::cmd::cargo_bin!("hardpan"))
                .args(&words[1..])
                .current_dir(folder.path())
                .output()
                .expect("it runs");
            let refused = output.status.code().is_none_or(|code| code == 2);
            if refused {
                told.push(format!("{command}\n{}", String::from_utf8_lossy(&output.stderr)));
            }
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
        }
        assert!(page.ends_with("README.md") || text.starts_with("# "), "{page:?}");
    }
}
