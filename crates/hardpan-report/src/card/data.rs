//! What the template prints: strings only, on the front cut to the level of the
//! card.

use super::blocks::{DayData, DistanceData, Figure, MassData, SpeedData, TyreData, WatchData};
use super::density::Density;
use super::lists::{self, ListData};
use super::overleaf::{OverleafData, Uncut};
use super::{blocks, places};
use crate::Report;
use crate::figure::describe;
use crate::report::verdict_symbol;
use crate::typeset::{glued, is_printable};
use hardpan_model::Verdict;
use serde::Serialize;

/// Everything on the card.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub(super) struct CardData {
    points: f64,
    title: String,
    aeroplane: String,
    head: Vec<NamedData>,
    answer: AnswerData,
    masses: Vec<MassData>,
    tyre: TyreData,
    watch: WatchData,
    speeds: Vec<SpeedData>,
    more_speeds: usize,
    distances: Vec<DistanceData>,
    more_distances: usize,
    day: Vec<DayData>,
    more_day: usize,
    turning: Vec<String>,
    conditions: ListData,
    missing: ListData,
    overleaf: Option<OverleafData>,
    sketch_words: String,
    basis: String,
    produced: String,
    caution: String,
}

/// A caption and its value.
#[derive(Debug, Clone, PartialEq, Serialize)]
struct NamedData {
    caption: &'static str,
    value: String,
}

/// The answer.
#[derive(Debug, Clone, PartialEq, Serialize)]
struct AnswerData {
    kind: &'static str,
    symbol: &'static str,
    word: &'static str,
    rider: &'static str,
    usable: bool,
    sentence: String,
    governing: String,
}

impl CardData {
    /// The front alone.
    pub(super) fn front(report: &Report, density: Density) -> Self {
        let cut = Cut { density };
        let basis = format!("{}.", report.basis.line());
        let produced = &report.produced;
        let produced = [&produced.by, &produced.at, &produced.identifier];
        let produced: Vec<String> = produced
            .into_iter()
            .filter(|part| !part.is_empty())
            .map(|part| cut.name(part))
            .collect();
        Self {
            points: density.points,
            title: cut.words(&report.title, 2 * density.name),
            aeroplane: aeroplane(report, cut),
            head: head(report, cut),
            answer: answer(report, cut),
            masses: blocks::masses(report, cut),
            tyre: blocks::tyre(report, cut),
            watch: places::watch(report, cut),
            speeds: blocks::speeds(report, cut),
            more_speeds: report.speeds.len().saturating_sub(density.speeds),
            distances: blocks::distances(report, cut),
            more_distances: report.distances.len().saturating_sub(density.distances),
            day: blocks::day(report, cut),
            more_day: report.day.len().saturating_sub(density.day),
            turning: blocks::turning(report, cut),
            conditions: lists::front(&lists::conditions(report), density.conditions, cut),
            missing: lists::front(&lists::missing(report), density.missing, cut),
            overleaf: None,
            sketch_words: cut.words(&describe(report), 600),
            basis,
            produced: produced.join(" · "),
            caution: report.caution.to_owned(),
        }
    }

    /// The front and what stands overleaf, in type of a size.
    pub(super) fn with_overleaf(self, report: &Report, points: f64) -> Self {
        let conditions = if self.conditions.cut { lists::conditions(report) } else { Vec::new() };
        let missing = if self.missing.cut { lists::missing(report) } else { Vec::new() };
        let uncut = Uncut { conditions, missing };
        let overleaf = OverleafData::new(&report.account, &report.phases, &uncut, points);
        Self { overleaf: Some(overleaf), ..self }
    }
}

fn aeroplane(report: &Report, cut: Cut) -> String {
    let row = report.identity.iter().find(|row| row.label == "Aeroplane");
    row.map_or(String::new(), |row| match row.value.as_str() {
        "not stated" => "aeroplane not stated".to_owned(),
        value => cut.name(value),
    })
}

/// What is not in the title already.
fn head(report: &Report, cut: Cut) -> Vec<NamedData> {
    let rows =
        report.identity.iter().filter(|row| !matches!(row.label, "Flight" | "Strip" | "Aeroplane"));
    let most = |label: &str| cut.density.name * if label == "Valid" { 2 } else { 1 };
    rows.map(|row| NamedData { caption: row.label, value: cut.words(&row.value, most(row.label)) })
        .collect()
}

fn answer(report: &Report, cut: Cut) -> AnswerData {
    let answer = &report.answer;
    let (word, rider) = match answer.verdict {
        Verdict::Pass => ("PASS", "holds without conditions"),
        Verdict::Conditional => ("CONDITIONAL", "holds while every condition is kept"),
        Verdict::Unproven => ("UNPROVEN", "not shown to hold: not for use"),
        Verdict::Fail => ("FAIL", "does not hold: not for use"),
    };
    AnswerData {
        kind: answer.verdict.word(),
        symbol: verdict_symbol(answer.verdict),
        word,
        rider,
        usable: report.is_usable(),
        sentence: cut.words(&answer.sentence, cut.density.answer),
        governing: match &answer.governing_line {
            Some(line) => cut.words(&format!("Governed by {line}"), cut.density.answer),
            None => String::new(),
        },
    }
}

/// Cuts text to the level of the card and to the signs that the type has.
#[derive(Debug, Clone, Copy)]
pub(super) struct Cut {
    pub(super) density: Density,
}

/// Longest run of characters without a place to break.
const LONGEST_WORD: usize = 18;

impl Cut {
    /// A line of text.
    pub(super) fn line(self, text: &str) -> String {
        self.words(text, self.density.characters)
    }

    /// A name in the head.
    pub(super) fn name(self, text: &str) -> String {
        self.words(text, self.density.name)
    }

    /// At most `most` characters, an ellipsis where text was left out, and
    /// places to break in long words.
    pub(super) fn words(self, text: &str, most: usize) -> String {
        let mut out = String::new();
        let mut unbroken = 0;
        for (count, c) in glued(text).chars().enumerate() {
            if count >= most {
                return format!("{}…", out.trim_end());
            }
            unbroken = if matches!(c, ' ' | '\u{a0}') { 0 } else { unbroken + 1 };
            if unbroken > LONGEST_WORD {
                out.push('\u{200b}');
                unbroken = 1;
            }
            out.push(if is_printable(c) { c } else { '□' });
        }
        out
    }

    /// A value with its unit as number and unit; a question mark when it is no
    /// number.
    pub(super) fn figure(self, text: &str) -> Figure {
        if !text.starts_with(|c: char| c.is_ascii_digit() || c == '−') {
            return Figure { number: "?".to_owned(), unit: String::new() };
        }
        match text.rsplit_once(' ') {
            Some((number, unit)) => {
                Figure { number: self.words(number, 24), unit: self.words(unit, 12) }
            }
            None => Figure { number: self.words(text, 24), unit: String::new() },
        }
    }
}
