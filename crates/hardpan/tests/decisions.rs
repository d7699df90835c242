//! Decisions as people can read them: each page of `decisions/` tells a story,
//! changes the demo or an example, and states what the answer must be.

mod made_survey;
mod support;

use hardpan_assess::assess;
use hardpan_model::{Finding, Verdict};
use hardpan_quantity::{UnitSystem, tell};
use support::{Change, assessed, finding, flight_beside};

struct Page {
    folder: String,
    changes: Vec<Change>,
    /// Files that the page has made: a survey of the demo strip.
    beside: Vec<(String, Vec<u8>)>,
    expected: Vec<(String, String)>,
}

/// Blocks fenced as `change FILE` hold lines `- old` and `+ new`; a block
/// fenced as `made FILE` says what a made survey holds, and one fenced as
/// `expect` holds lines `what: value`. An empty block fenced as `in FOLDER`
/// takes the files of another folder than the demo's.
fn page(text: &str) -> Page {
    let mut page = Page {
        folder: "demo".to_owned(),
        changes: Vec::new(),
        beside: Vec::new(),
        expected: Vec::new(),
    };
    let mut block: Option<String> = None;
    let mut body = Vec::new();
    for line in text.lines() {
        match (&block, line.strip_prefix("```")) {
            (None, Some(info)) => block = Some(info.trim().to_owned()),
            (Some(info), Some(_)) => {
                close(&mut page, info, &body);
                body.clear();
                block = None;
            }
            (Some(_), None) => body.push(line.to_owned()),
            (None, None) => {}
        }
    }
    page
}

fn close(page: &mut Page, info: &str, body: &[String]) {
    if let Some(file) = info.strip_prefix("change ") {
        let side = |mark: &str| {
            let lines = body.iter().filter_map(|line| line.strip_prefix(mark));
            lines.map(|line| line.strip_prefix(' ').unwrap_or(line)).collect::<Vec<_>>().join("\n")
        };
        page.changes.push(Change { file: file.to_owned(), from: side("-"), to: side("+") });
    } else if let Some(folder) = info.strip_prefix("in ") {
        page.folder = folder.to_owned();
    } else if let Some(file) = info.strip_prefix("made ") {
        page.beside.push((file.to_owned(), made_survey::of(file, body)));
    } else if info == "expect" {
        page.expected.extend(body.iter().filter_map(|line| {
            let (what, value) = line.split_once(':')?;
            Some((what.trim().to_owned(), value.trim().to_owned()))
        }));
    }
}

fn check(name: &str, text: &str) -> Vec<String> {
    let page = page(text);
    assert!(!page.expected.is_empty(), "{name} expects nothing");
    let assessment = assess(&flight_beside(&page.folder, &page.changes, &page.beside));
    let mass = |answer: &Option<hardpan_assess::MassAnswer>| {
        answer
            .as_ref()
            .and_then(|answer| answer.set_by())
            .map_or_else(|| "none".to_owned(), |limit| limit.code.to_owned())
    };
    let mut misses = Vec::new();
    for (what, wanted) in &page.expected {
        let got = match what.as_str() {
            "verdict" => assessment.answer.verdict.word().to_owned(),
            "governed by" => assessment.answer.governing.map_or_else(
                || "none".to_owned(),
                |index| assessment.findings[index].code.to_owned(),
            ),
            "card" => {
                let lines = assessment.card_lines.iter();
                let told: Vec<String> =
                    lines.map(|line| tell(&line.text, UnitSystem::Metric)).collect();
                let found = told.iter().any(|text| text.contains(wanted.as_str()));
                if found { wanted.clone() } else { format!("{told:?}") }
            }
            "take-off mass set by" => mass(&assessment.take_off_mass),
            "landing mass set by" => mass(&assessment.landing_mass),
            "missing" => {
                let lines = assessment.answer.missing.iter();
                let told: Vec<String> = lines.map(|line| tell(line, UnitSystem::Metric)).collect();
                let found = told.iter().any(|line| line.contains(wanted.as_str()));
                if found { wanted.clone() } else { format!("{told:?}") }
            }
            "remedy" => {
                let told: Vec<String> = assessment
                    .remedies
                    .iter()
                    .map(|remedy| remedy.action.show(UnitSystem::Metric))
                    .collect();
                let found = told.iter().any(|action| action.contains(wanted.as_str()));
                if found { wanted.clone() } else { format!("{told:?}") }
            }
            // The words of a finding, or of one of its needs, to the letter.
            code if code.ends_with(" says") || code.ends_with(" asks") => {
                let (code, part) = code.split_at(code.len() - 5);
                let findings = assessment.findings.iter().filter(|one| one.code == code);
                let told = findings.flat_map(|one| {
                    let needs = one.needs.iter().map(|need| format!("{}: {}", need.what, need.how));
                    let said = [format!("{}: {}", one.title, one.because)];
                    if part == " says" { said.into() } else { needs.collect::<Vec<_>>() }
                });
                let told: Vec<String> = told.map(|text| tell(&text, UnitSystem::Metric)).collect();
                if told.contains(wanted) { wanted.clone() } else { format!("{told:#?}") }
            }
            code => finding(&assessment, code).verdict.word().to_owned(),
        };
        if got != *wanted {
            let verdict = assessment.answer.verdict;
            let counts =
                |one: &&Finding| one.code == *what || what == "verdict" && one.verdict == verdict;
            let told = assessment.findings.iter().filter(counts);
            let why: Vec<String> =
                told.map(|one| format!("{} {}: {}", one.code, one.title, one.because)).collect();
            misses.push(format!("{name}: {what} is {got}, {wanted} is expected; {why:#?}"));
        }
    }
    misses
}

#[test]
fn every_decision_holds() {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/decisions");
    let mut pages: Vec<_> = std::fs::read_dir(folder)
        .expect("the folder of decisions")
        .map(|entry| entry.expect("a page").path())
        .filter(|path| path.extension().is_some_and(|ending| ending == "md"))
        .collect();
    pages.sort();
    assert!(pages.len() >= 14, "{} pages", pages.len());
    let misses: Vec<String> = pages
        .iter()
        .flat_map(|path| {
            let name = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
            check(&name, &std::fs::read_to_string(path).expect("a readable page"))
        })
        .collect();
    assert!(misses.is_empty(), "{}", misses.join("\n"));
}

#[test]
fn the_answer_is_never_better_than_its_worst_safety_finding() {
    let assessment = assessed(&[]);
    let worst = assessment
        .findings
        .iter()
        .filter(|finding| finding.weight == hardpan_model::Weight::Safety)
        .map(|finding| finding.verdict)
        .max();
    assert_eq!(worst.map(|worst| worst <= assessment.answer.verdict), Some(true));
    assert!(assessment.answer.verdict >= Verdict::Conditional, "model figures never give a pass");
}
