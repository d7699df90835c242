//! Writing a finding: a draft of a rule takes its figures, then its verdict.

use crate::measured::Unavailable;
use crate::rule::Rule;
use hardpan_model::{
    Basis, BasisInput, Bound, Caveat, Finding, Given, InputFrom, Lane, Limit, Mark, Need, Phase,
    Place, Source, Step, Tier, Verdict, Weight,
};
use hardpan_quantity::{Amount, Length, Quantity, STANDARD_GRAVITY_M_PER_S2};

/// A finding in the making.
pub(crate) struct Draft {
    finding: Finding,
}

impl Draft {
    /// A draft that bears on safety and rests on measured facts.
    pub(crate) fn new(rule: &Rule, title: impl Into<String>, phase: Phase) -> Self {
        Self {
            finding: Finding {
                code: rule.code,
                title: title.into(),
                phase,
                weight: Weight::Safety,
                verdict: Verdict::Unproven,
                value: None,
                limit: None,
                place: None,
                because: String::new(),
                instruction: None,
                mark: Mark::Measured,
                needs: Vec::new(),
                caveats: Vec::new(),
                basis: Basis::default(),
            },
        }
    }

    pub(crate) fn advice(mut self) -> Self {
        self.finding.weight = Weight::Advice;
        self
    }

    pub(crate) fn mark(mut self, mark: Mark) -> Self {
        self.finding.mark = mark;
        self
    }

    pub(crate) fn value(mut self, amount: impl Into<Amount>) -> Self {
        self.finding.value = Some(amount.into());
        self
    }

    pub(crate) fn limit(mut self, bound: Bound, amount: impl Into<Amount>) -> Self {
        self.finding.limit = Some(Limit { bound, amount: amount.into() });
        self
    }

    pub(crate) fn at_most(self, amount: impl Into<Amount>) -> Self {
        self.limit(Bound::AtMost, amount)
    }

    pub(crate) fn at_least(self, amount: impl Into<Amount>) -> Self {
        self.limit(Bound::AtLeast, amount)
    }

    /// The same with no limit that the value is held to.
    pub(crate) fn held_to_nothing(mut self) -> Self {
        self.finding.limit = None;
        self
    }

    pub(crate) fn place(mut self, from: Length, to: Length, lane: Option<Lane>) -> Self {
        self.finding.place = Some(Place { from, to, lane });
        self
    }

    pub(crate) fn instruct(mut self, text: impl Into<String>) -> Self {
        self.finding.instruction = Some(text.into());
        self
    }

    pub(crate) fn caveat(mut self, text: impl Into<String>) -> Self {
        self.finding.caveats.push(Caveat { text: text.into() });
        self
    }

    pub(crate) fn step(mut self, step: Step) -> Self {
        self.finding.basis.steps.push(step);
        self
    }

    /// Steps whose references count from the first of them.
    pub(crate) fn steps(mut self, steps: impl IntoIterator<Item = Step>) -> Self {
        let base = self.finding.basis.steps.len();
        for mut step in steps {
            step.inputs.iter_mut().for_each(|input| shift(input, base));
            self.finding.basis.steps.push(step);
        }
        self
    }

    pub(crate) fn pass(self, because: impl Into<String>) -> Finding {
        self.end(Verdict::Pass, because)
    }

    pub(crate) fn conditional(self, because: impl Into<String>) -> Finding {
        self.end(Verdict::Conditional, because)
    }

    pub(crate) fn fail(self, because: impl Into<String>) -> Finding {
        self.end(Verdict::Fail, because)
    }

    pub(crate) fn unproven(
        mut self,
        because: impl Into<String>,
        needs: impl IntoIterator<Item = Need>,
    ) -> Finding {
        self.finding.needs.extend(needs);
        self.end(Verdict::Unproven, because)
    }

    /// Unproven for the reason that a measure gave.
    pub(crate) fn unavailable(self, why: &Unavailable) -> Finding {
        self.unproven(why.because.clone(), why.needs.iter().cloned())
    }

    /// By how much the value keeps the limit; none while either is not set.
    pub(crate) fn margin(&self) -> Option<Amount> {
        self.finding.margin()
    }

    /// Pass or fail by comparing the value with the limit; both must be set.
    pub(crate) fn judged(self, holds: impl Into<String>, broken: impl Into<String>) -> Finding {
        match self.finding.margin() {
            Some(margin) if margin.si >= 0.0 => self.pass(holds),
            Some(_) => self.fail(broken),
            None => self.unproven("no value or no limit is known", []),
        }
    }

    fn end(mut self, verdict: Verdict, because: impl Into<String>) -> Finding {
        self.finding.verdict = verdict;
        self.finding.because = because.into();
        self.finding
    }
}

fn shift(input: &mut BasisInput, base: usize) {
    if let InputFrom::Step(index) = &mut input.from {
        *index += base;
    }
}

/// An input of a step that somebody gave in a file.
pub(crate) fn given<T: Copy + Into<Amount>>(name: &str, given: &Given<T>) -> BasisInput {
    given_as(name, given, given.value.into())
}

/// An input of a step that somebody gave in a file, shown as another amount.
pub(crate) fn given_as<T>(name: &str, given: &Given<T>, amount: Amount) -> BasisInput {
    let source = given.source.as_deref().map(str::to_owned);
    let from = InputFrom::File { origin: given.origin.clone(), source };
    BasisInput::new(name, amount, from)
}

/// An input that a measure computed and another figure explains.
pub(crate) fn computed(name: &str, amount: impl Into<Amount>, by: &str) -> BasisInput {
    BasisInput::new(name, amount, InputFrom::Computed(by.to_owned()))
}

/// A value found on the way with the other inputs of the step, and how.
pub(crate) fn beside(name: &str, amount: impl Into<Amount>, how: &'static str) -> BasisInput {
    BasisInput::new(name, amount, InputFrom::Beside(how))
}

/// An input that is a constant of the product.
pub(crate) fn constant(name: &str, amount: impl Into<Amount>, source: Source) -> BasisInput {
    BasisInput::new(name, amount, InputFrom::Constant(source))
}

/// Standard gravity.
pub(crate) fn gravity() -> BasisInput {
    let gravity = Amount::coefficient(STANDARD_GRAVITY_M_PER_S2);
    let source = Source::new("TEXTBOOK-PHYSICS", "standard gravity, m/s²", Tier::Derived);
    constant("gravity", gravity, source)
}

/// No second wheel that a file does not state.
const NO_SUCH_WHEEL: Source =
    Source::new("", "the aeroplane file states none: no such wheel", Tier::CommonPractice);

/// The distance to a wheel beside or behind; none where the file states none.
pub(crate) fn wheel_distance(name: &str, distance: Option<&Given<Length>>) -> BasisInput {
    distance.map_or_else(
        || constant(name, Length::from_si(0.0), NO_SUCH_WHEEL),
        |distance| given(name, distance),
    )
}

/// The wheels of a leg; one where the file states none.
pub(crate) fn wheel_count(wheels: Option<&Given<u32>>) -> BasisInput {
    let count = |wheels: u32| Amount::count(f64::from(wheels));
    wheels.map_or_else(
        || constant("wheels", count(1), NO_SUCH_WHEEL),
        |wheels| given_as("wheels", wheels, count(wheels.value)),
    )
}

/// What a planned movement loses of a declared distance; nothing where the flight
/// states nothing.
pub(crate) fn lost(name: &str, lost: Option<&Given<Length>>) -> BasisInput {
    const NOTHING: Source =
        Source::new("", "the flight file states none: nothing is taken off", Tier::CommonPractice);
    let nothing = || constant(name, Length::from_si(0.0), NOTHING);
    lost.map_or_else(nothing, |lost| given(name, lost))
}

/// A step that is a comparison or a look-up rather than a catalogued formula.
pub(crate) fn plain_step(
    computes: &str,
    expression: &str,
    source: Source,
    inputs: Vec<BasisInput>,
    result: impl Into<Amount>,
) -> Step {
    Step::new(computes, expression, source, inputs, result)
}

/// A need for a key of a file.
pub(crate) fn need(what: &str, how: &str) -> Need {
    Need { what: what.to_owned(), how: how.to_owned() }
}

/// A source for what follows from the steps before.
pub(crate) fn derived(what: &'static str) -> Source {
    Source::new("", what, Tier::Derived)
}
