//! How sure an answer is, as people and programs read it: text, JSON and a page
//! to print.

mod json;
mod pdf;
mod text;

pub use json::{CONFIDENCE_FORMAT, CONFIDENCE_VERSION, confidence_json, confidence_schema};
pub use pdf::confidence_pdf;
pub use text::{confidence_opened_text, confidence_text};

use crate::Produced;
use crate::measure::{
    Rounding, amount_text, difference_text, quantity_text, rounded, stretch_text,
};
use crate::wrap::plain;
use hardpan_assess::{
    Chance, Confidence, FigureBasis, Help, InputShare, LimitChance, MassChance, Moving, NotDrawn,
    not_drawn,
};
use hardpan_model::Verdict;
use hardpan_quantity::{Amount, Mass, Quantity, Ratio, UnitSystem, tell};

/// What the draws leave as it is.
const AS_IT_IS: &str = "Approved limits and charts and the factors of the rules stay as they are; \
    what is drawn is the flight. The strength of the ground is drawn about the mean of the law in \
    place of the share that the assessment credits. Checks that no number bounds, such as \
    equipment and inspections, count as assessed.";

/// What advice counts for, and what counts of a limit of which a draw says nothing.
const ADVICE: &str = "Advice counts for no answer. A draw of which nothing can be said counts as \
    exceeding the limit.";

/// Part of a spread, per cent, that cannot be told from none. Judgement.
const LEAST_PART: f64 = 2.0;
/// Shares of inputs below this are told together.
const LEAST_SHARE: f64 = 0.01;

/// How sure an answer is, in the reader's units.
#[derive(Debug, Clone, PartialEq)]
pub struct ConfidenceReport {
    units: UnitSystem,
    produced: Produced,
    found: Confidence,
}

/// One limit as people read it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LimitRow {
    /// Code of the rule.
    pub code: &'static str,
    /// What it limits.
    pub title: String,
    /// Share of the draws that exceed it.
    pub exceeded: String,
    /// Upper limit of that probability; empty where nothing is known of it.
    pub at_most: String,
}

/// What is uncertain, as a table.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct InputRows {
    /// Names of the columns.
    pub header: Vec<String>,
    /// One row for each input, those that explain most first.
    pub rows: Vec<Vec<String>>,
    /// How many soundings explain too little to be told.
    pub left: usize,
}

impl ConfidenceReport {
    /// What the draws say in one system of units.
    #[must_use]
    pub fn new(found: &Confidence, units: UnitSystem, produced: Produced) -> Self {
        let produced = Produced {
            by: plain(&produced.by),
            at: plain(&produced.at),
            identifier: plain(&produced.identifier),
        };
        Self { units, produced, found: found.clone() }
    }

    /// The worse of the assessment and of what the draws say.
    #[must_use]
    pub fn verdict(&self) -> Verdict {
        self.found.verdict
    }

    /// Which aeroplane and strip.
    #[must_use]
    pub fn title(&self) -> String {
        let identity = &self.found.identity;
        format!("How sure: {} at {}", plain(&identity.aeroplane), plain(&identity.strip))
    }

    /// Which flight and runways.
    #[must_use]
    pub fn subtitle(&self) -> String {
        let identity = &self.found.identity;
        format!("{}; {}", plain(&identity.flight), plain(&identity.directions))
    }

    /// Why the answer is what it is.
    #[must_use]
    pub fn sentence(&self) -> String {
        plain(&self.found.sentence.show(self.units))
    }

    /// How the draws were made, in one sentence.
    #[must_use]
    pub fn drawn(&self) -> String {
        let (low, high) = self.found.holds.between;
        format!(
            "{} draws, seed {}; the probability that no limit is exceeded lies between {} and {}, \
             each with 95 % certainty.{}",
            self.found.draws,
            self.found.seed,
            share_down(low),
            share_up(high),
            self.fitted().unwrap_or_default(),
        )
    }

    /// Which draws are told by a fit, and what it errs; none where none is.
    fn fitted(&self) -> Option<String> {
        let fitted = self.found.fitted.as_ref()?;
        let error = |(moving, error): &(Moving, Mass)| {
            let error = amount_text(rounded((*error).into(), Rounding::Up, self.units), self.units);
            format!("{error} of {} mass", moving.word())
        };
        let errors: Vec<String> = fitted.mass_errors.iter().map(error).collect();
        let errors = match errors.is_empty() {
            true => String::new(),
            false => format!(" and errs by {} (root mean square)", errors.join(" and ")),
        };
        Some(format!(
            " {} of the draws are calculated in full and the rest told by a smooth fit to them, \
             which at draws that it was not fitted to judges {} otherwise{errors}; that is \
             within those limits. Shares of the spread rest on the draws in full, whatever would \
             make it surer on {} each.",
            fitted.in_full,
            share_up(fitted.misjudged),
            fitted.help_draws,
        ))
    }

    /// Limits that some draw exceeds, and those that cannot be judged.
    #[must_use]
    pub fn limits(&self) -> Vec<LimitRow> {
        let told = self.found.limits.iter().filter(|limit| !is_never(limit));
        told.map(|limit| self.limit_row(limit)).collect()
    }

    /// The limits that no draw exceeds, in one sentence.
    #[must_use]
    pub fn never(&self) -> Option<String> {
        let never: Vec<&LimitChance> =
            self.found.limits.iter().filter(|limit| is_never(limit)).collect();
        let at_most = never.iter().filter_map(|limit| Some(limit.exceeded?.between.1));
        let most = at_most.reduce(|a, b| if b > a { b } else { a })?;
        let names: Vec<String> = never
            .iter()
            .map(|limit| {
                let row = self.limit_row(limit);
                format!("{} {}", row.code, row.title)
            })
            .collect();
        Some(format!(
            "In no draw, and so with at most {} each: {}.",
            share_up(most),
            names.join("; ")
        ))
    }

    /// What is told no probability, by the reason why.
    #[must_use]
    pub fn without(&self) -> Vec<(String, &'static str)> {
        let mut by_reason: Vec<(Vec<String>, &'static str)> = Vec::new();
        for NotDrawn { code, name, part, because } in not_drawn() {
            let rule = match part {
                Some(part) => format!("{code} {name}, {part}"),
                None => format!("{code} {name}"),
            };
            match by_reason.iter_mut().find(|(_, reason)| *reason == because) {
                Some((rules, _)) => rules.push(rule),
                None => by_reason.push((vec![rule], because)),
            }
        }
        by_reason.into_iter().map(|(rules, because)| (rules.join("; "), because)).collect()
    }

    fn limit_row(&self, limit: &LimitChance) -> LimitRow {
        let title = self.told(&limit.title);
        let mut title = match limit.moving {
            Some(moving) => format!("{}: {title}", moving.word()),
            None => title,
        };
        if limit.advises {
            title.push_str(" (advice)");
        }
        if let Some(share) = limit.not_judged.filter(|share| share.si() > 0.0) {
            title.push_str(&format!("; {} of the draws not known", share_up(share)));
        }
        let (exceeded, at_most) = match limit.exceeded {
            Some(Chance { share, between, .. }) => (share_up(share), share_up(between.1)),
            None => ("? unproven".to_owned(), String::new()),
        };
        LimitRow { code: limit.code, title, exceeded, at_most }
    }

    /// Words in the reader's units.
    fn told(&self, text: &str) -> String {
        plain(&tell(text, self.units))
    }

    /// Movement, mass planned, assessed, that holds at the level, middle draw and range.
    #[must_use]
    pub fn mass_rows(&self) -> Vec<[String; 6]> {
        self.found.masses.iter().map(|mass| self.mass_row(mass)).collect()
    }

    fn mass_row(&self, mass: &MassChance) -> [String; 6] {
        let [low, middle, high] = mass.range;
        let range = match (low, high) {
            (Some(low), Some(high)) => format!("{} to {}", self.down(low), self.down(high)),
            _ => "no mass holds in some draws".to_owned(),
        };
        let or_none = |mass: Option<Mass>| mass.map_or("none".to_owned(), |mass| self.down(mass));
        [
            mass.moving.word().to_owned(),
            mass.planned.map_or("not stated".to_owned(), |mass| quantity_text(mass, self.units)),
            or_none(mass.assessed),
            or_none(mass.held),
            or_none(middle),
            range,
        ]
    }

    /// How the masses are meant, and which hold together where two movements are planned.
    #[must_use]
    pub fn meant(&self) -> Vec<String> {
        let mut lines = vec![
            "Each mass is tried at the least tyre pressure that it allows; the plan, above, with the \
             tyres as the assessment sets them."
                .to_owned(),
        ];
        if let [first, second] = self.found.masses.as_slice() {
            lines.push("Each is with the other movement as it is planned.".to_owned());
            lines.extend(self.together(first, second));
        }
        lines
    }

    fn together(&self, first: &MassChance, second: &MassChance) -> Option<String> {
        let told = |mass: &MassChance| {
            Some(format!("{} at {}", mass.moving.word(), self.down(mass.held_together?)))
        };
        let level = share_text(self.found.level);
        Some(format!("Both together hold at {level}: {} and {}.", told(first)?, told(second)?))
    }

    fn down(&self, mass: Mass) -> String {
        amount_text(rounded(mass.into(), Rounding::Down, self.units), self.units)
    }

    /// Heading of the masses that hold.
    #[must_use]
    pub fn held_heading(&self) -> String {
        format!("Holds at {}", share_text(self.found.level))
    }

    /// Inputs that explain most first, and how many are left out of the list.
    fn inputs(&self) -> (Vec<&InputShare>, usize) {
        let most = |input: &InputShare| {
            let shares = input.shares.iter().filter_map(|(_, share)| *share);
            shares.map(Quantity::si).fold(0.0, f64::max)
        };
        let mut inputs: Vec<&InputShare> = self.found.inputs.iter().collect();
        inputs.sort_by(|a, b| most(b).total_cmp(&most(a)));
        let is_shown = |input: &&InputShare| input.stretch.is_none() || most(input) >= LEAST_SHARE;
        let shown: Vec<&InputShare> = inputs.iter().copied().filter(is_shown).collect();
        let left = inputs.len() - shown.len();
        (shown, left)
    }

    /// What is uncertain, as a table.
    #[must_use]
    pub fn input_rows(&self) -> InputRows {
        let (inputs, left) = self.inputs();
        let mut header = vec!["Input".to_owned(), "Deviation".to_owned()];
        header.extend(self.found.masses.iter().map(|mass| capital(mass.moving.word())));
        header.push("Source".to_owned());
        let row = |input: &InputShare| {
            let mut row = vec![self.told(&input.name), self.deviation(input)];
            let shares = input.shares.iter();
            row.extend(shares.map(|(_, share)| share.map_or("–".to_owned(), part_text)));
            row.push(plain(&input.source));
            row
        };
        InputRows { header, rows: inputs.into_iter().map(row).collect(), left }
    }

    /// What the draws leave as it is, and what advice counts for.
    #[must_use]
    pub const fn left_alone() -> [&'static str; 2] {
        [ADVICE, AS_IT_IS]
    }

    fn deviation(&self, input: &InputShare) -> String {
        let shown = difference_text(input.deviation, self.units);
        if input.is_share { format!("{shown} of it") } else { shown }
    }

    /// What would make the answer surer or raise the mass that holds, one sentence each.
    #[must_use]
    pub fn help(&self) -> Vec<String> {
        self.found.help.iter().map(|help| self.help_line(help)).collect()
    }

    fn help_line(&self, help: &Help) -> String {
        let what = capital(&plain(&help.action.show(self.units)));
        let (now, then) = (share_text(help.without), share_text(help.holds));
        let error = share_up(help.error);
        let Some(raised) = &help.raised else {
            return format!(
                "{what} would raise the share of the draws in which no limit is exceeded from \
                 {now} to {then} (±{error}).",
            );
        };
        let up = rounded(raised.error.into(), Rounding::Up, self.units);
        format!(
            "{what} would raise the {} mass that holds by about {} (±{}); no limit is then \
             exceeded in {then} of the draws, and in {now} of the same draws without (±{error}).",
            raised.moving.word(),
            quantity_text(raised.gain, self.units),
            amount_text(up, self.units),
        )
    }

    /// Every figure told, with the steps behind it.
    #[must_use]
    pub fn opened(&self) -> Vec<FigureBasis> {
        self.found.opened()
    }

    /// What is missing, and what supplies it.
    #[must_use]
    pub fn missing(&self) -> Vec<(String, String)> {
        let missing = self.found.missing.iter();
        missing.map(|need| (self.told(&need.what), self.told(&need.how))).collect()
    }
}

/// Whether a limit can be judged and no draw exceeds it.
fn is_never(limit: &LimitChance) -> bool {
    limit.exceeded.is_some_and(|chance| chance.share.si() == 0.0)
}

/// A share to a tenth of a per cent, as it is.
fn share_text(share: Ratio) -> String {
    amount_text(Amount::from(share), UnitSystem::Metric)
}

/// A part of a spread: so few draws tell it to whole per cents, and none from one that is
/// next to nothing.
fn part_text(share: Ratio) -> String {
    let percent = share.si() * 100.0;
    if percent < LEAST_PART {
        format!("under {LEAST_PART:.0}\u{a0}%")
    } else {
        format!("{percent:.0}\u{a0}%")
    }
}

/// A share to a tenth of a per cent, rounded so that it promises no less risk.
fn share_up(share: Ratio) -> String {
    format!("{:.1}\u{a0}%", (share.si() * 1000.0 - 1e-9).ceil().max(0.0) / 10.0 + 0.0)
}

fn share_down(share: Ratio) -> String {
    format!("{:.1}\u{a0}%", (share.si() * 1000.0 + 1e-9).floor() / 10.0)
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    match letters.next() {
        Some(first) => first.to_uppercase().chain(letters).collect(),
        None => String::new(),
    }
}

fn stretch(input: &InputShare, units: UnitSystem) -> String {
    input.stretch.map_or_else(String::new, |(from, to)| stretch_text(from, to, units))
}
