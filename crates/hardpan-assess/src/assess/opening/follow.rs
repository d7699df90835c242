//! The way down from a value that was computed elsewhere to the steps that gave it.

use super::{Further, Opening, Openings};
use hardpan_model::{BasisInput, InputFrom, Step};
use hardpan_quantity::{Amount, Dimension};

/// Whose basis a step belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Whose {
    Finding(usize),
    Figure(usize),
    Behind(usize),
}

/// A step of a basis.
type At = (Whose, usize);

/// Steps as they are laid out, each with where it came from.
struct Laid<'o> {
    of: &'o Openings,
    places: Vec<At>,
    steps: Vec<Step>,
    /// First step and name of what is not of the figure itself.
    parts: Vec<(usize, String)>,
    loose_ends: Vec<String>,
}

impl Openings {
    pub(super) fn followed(&self, whose: Whose) -> Opening {
        let mut laid = Laid {
            of: self,
            places: Vec::new(),
            steps: Vec::new(),
            parts: Vec::new(),
            loose_ends: Vec::new(),
        };
        (0..self.steps(whose).len()).for_each(|step| laid.lay((whose, step)));
        let own = laid.steps.len();
        let mut next = 0;
        while next < laid.steps.len() {
            laid.follow(next);
            next += 1;
        }
        laid.opening(own)
    }

    fn steps(&self, whose: Whose) -> &[Step] {
        let basis = match whose {
            Whose::Finding(index) => self.findings.get(index).map(|one| &one.basis),
            Whose::Figure(index) => self.figures.get(index).map(|one| &one.basis),
            Whose::Behind(index) => self.behind.get(index).map(|one| &one.basis),
        };
        basis.map_or(&[], |basis| &basis.steps)
    }

    fn name(&self, whose: Whose) -> String {
        match whose {
            Whose::Finding(index) => {
                self.findings.get(index).map(|one| format!("{} {}", one.code, one.title))
            }
            Whose::Figure(index) => self.figures.get(index).map(|one| one.name.clone()),
            Whose::Behind(index) => self.behind.get(index).map(|one| one.name.clone()),
        }
        .unwrap_or_default()
    }

    /// The step that gave an amount of a basis: one before it, else one of what the
    /// words name.
    fn origin_of(&self, (whose, at): At, amount: Amount, by: &str) -> Option<At> {
        let before = giving(self.steps(whose).get(..at)?, amount);
        if let Some(before) = before.filter(|_| is_telling(amount) || by.contains("step")) {
            return Some((whose, before));
        }
        let by = by.to_lowercase();
        let figures = (0..self.figures.len()).map(Whose::Figure);
        let findings = (0..self.findings.len()).map(Whose::Finding);
        let named = (0..self.behind.len()).map(Whose::Behind).chain(figures).chain(findings);
        let named = named.filter(|one| *one != whose && self.is_named(*one, &by));
        named.filter_map(|one| Some((one, giving(self.steps(one), amount)?))).next()
    }

    /// Whether words name a figure, or the rule of a finding by its code.
    fn is_named(&self, whose: Whose, by: &str) -> bool {
        match whose {
            Whose::Finding(index) => self.findings.get(index).is_some_and(|finding| {
                let mut words = by.split(|c: char| !c.is_alphanumeric());
                words.any(|word| word.eq_ignore_ascii_case(finding.code))
            }),
            Whose::Figure(_) | Whose::Behind(_) => by.contains(&self.name(whose).to_lowercase()),
        }
    }
}

/// The step that gives an amount; else the first into which it goes from outside.
fn giving(steps: &[Step], amount: Amount) -> Option<usize> {
    let gives = |step: &Step| is_same(step.result, amount);
    let takes = |step: &Step| {
        let from_outside = |input: &BasisInput| !matches!(input.from, InputFrom::Computed(_));
        step.inputs.iter().any(|input| is_same(input.amount, amount) && from_outside(input))
    };
    steps.iter().rposition(gives).or_else(|| steps.iter().position(takes))
}

/// The same amount; a ratio may stand as a coefficient.
fn is_same(one: Amount, other: Amount) -> bool {
    let plain =
        |amount: Amount| matches!(amount.dimension, Dimension::Ratio | Dimension::Coefficient);
    one.si == other.si && (one.dimension == other.dimension || plain(one) && plain(other))
}

/// Whether an amount is so particular that two that are alike are the same.
fn is_telling(amount: Amount) -> bool {
    amount.dimension != Dimension::Count && amount.si != 0.0 && amount.si != 1.0
}

impl Laid<'_> {
    fn lay(&mut self, at: At) {
        if let Some(step) = self.of.steps(at.0).get(at.1) {
            self.places.push(at);
            self.steps.push(step.clone());
        }
    }

    fn place_of(&self, at: At) -> Option<usize> {
        self.places.iter().position(|place| *place == at)
    }

    /// Lay out what the inputs of a step were computed by.
    fn follow(&mut self, index: usize) {
        let (Some(at), Some(step)) = (self.places.get(index).copied(), self.steps.get(index))
        else {
            return;
        };
        let mut inputs = step.inputs.clone();
        for input in &mut inputs {
            match &input.from {
                InputFrom::Step(before) => {
                    let place = self.place_of((at.0, *before));
                    input.from = InputFrom::Step(place.unwrap_or(*before));
                }
                InputFrom::Computed(by) => self.follow_computed(at, input, &by.clone()),
                InputFrom::File { .. }
                | InputFrom::Constant(_)
                | InputFrom::Beside(_)
                | InputFrom::Entries(_) => {}
            }
        }
        if let Some(step) = self.steps.get_mut(index) {
            step.inputs = inputs;
        }
    }

    fn follow_computed(&mut self, at: At, input: &mut BasisInput, by: &str) {
        let Some(origin) = self.of.origin_of(at, input.amount, by) else {
            let step = self.of.steps(at.0).get(at.1).map_or("", |step| step.computes.as_str());
            self.loose_ends.push(format!(
                "{}, {step}: {} = {}, {by}",
                self.of.name(at.0),
                input.name,
                input.amount.told()
            ));
            return;
        };
        if self.place_of(origin).is_none() {
            self.parts.push((self.steps.len(), self.of.name(origin.0)));
            for needed in self.needed_for(origin) {
                if self.place_of((origin.0, needed)).is_none() {
                    self.lay((origin.0, needed));
                }
            }
        }
        if let Some(place) = self.place_of(origin) {
            input.from = InputFrom::Step(place);
        }
    }

    /// The steps of a basis that one of them rests on, and itself, rising.
    fn needed_for(&self, (whose, last): At) -> Vec<usize> {
        let steps = self.of.steps(whose);
        let mut needed = vec![false; steps.len()];
        let mut asked = vec![last];
        while let Some(one) = asked.pop() {
            let (Some(step), Some(mark)) = (steps.get(one), needed.get_mut(one)) else { continue };
            if std::mem::replace(mark, true) {
                continue;
            }
            asked.extend(step.inputs.iter().filter_map(|input| match input.from {
                InputFrom::Step(before) => Some(before),
                _ => None,
            }));
        }
        needed.iter().enumerate().filter(|(_, needed)| **needed).map(|(at, _)| at).collect()
    }

    fn opening(mut self, own: usize) -> Opening {
        let mut further = Vec::new();
        while let Some((from, of)) = self.parts.pop() {
            let steps = self.steps.split_off(from.min(self.steps.len()));
            further.push(Further { of, steps });
        }
        further.reverse();
        further.dedup_by(|next: &mut Further, before: &mut Further| {
            let same = next.of == before.of;
            if same {
                before.steps.append(&mut next.steps);
            }
            same
        });
        debug_assert!(self.steps.len() == own);
        Opening { own: self.steps, further, loose_ends: self.loose_ends }
    }
}
