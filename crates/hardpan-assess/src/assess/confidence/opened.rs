//! The figures of how sure an answer is, each opened: what was counted, how, and where
//! each spread stands.

use super::help::{PARTS, WORTH_KG};
use super::method::of_chance;
use super::summary::RANGE;
use super::{Confidence, Help, InputShare, LimitChance, MassChance, Moving, Raised};
use crate::assessment::FigureBasis;
use crate::draft::{beside, computed, derived, plain_step};
use hardpan_model::{BasisInput, Source, Step, Tier};
use hardpan_quantity::{Amount, Quantity, Ratio, UnitSystem, kilograms, ratio};

/// Shares of inputs below this are told together, and not opened.
const LEAST_SHARE: f64 = 0.01;
const SPREAD: Source = Source::new("", "as stated", Tier::Derived);
const SHARES: Source = Source::new("PLISCHKE-2013", "classes of one input by rank", Tier::Memory);
const PARTS_LEFT_OUT: Source =
    Source::new("SHAO-WU-1989", "leaving more than one observation out", Tier::Memory);

impl Confidence {
    /// Every figure that is told, with the steps behind it.
    #[must_use]
    pub fn opened(&self) -> Vec<FigureBasis> {
        let holds = match &self.fitted {
            Some(fitted) => fitted.worked.clone(),
            None => of_chance("share of the draws in which no limit is exceeded", &self.holds),
        };
        let mut all = vec![holds];
        all.extend(self.limits.iter().filter_map(exceeded));
        all.extend(self.masses.iter().flat_map(|mass| self.mass(mass)));
        all.extend(self.inputs.iter().map(spread));
        all.extend(self.inputs.iter().flat_map(|input| self.shares(input)));
        all.extend(self.help.iter().flat_map(helped));
        all
    }

    fn drawn(&self) -> BasisInput {
        beside("draws", Amount::count(f64::from(self.draws)), "as asked for, up to a power of two")
            .under("N")
    }

    /// The masses of a movement: what holds, by itself and beside the other, and its range.
    fn mass(&self, mass: &MassChance) -> Vec<FigureBasis> {
        let of = mass.moving.word();
        let level = BasisInput::new("level of the decision", self.level, self.level_from.clone())
            .under("P");
        let most = mass.assessed.map(|most| {
            computed("largest mass of the assessment", most, &format!("largest {of} mass"))
        });
        let least = (1.0 - self.level.si()) * f64::from(self.draws);
        let must = f64::from(self.draws) - (least - 1e-9).floor().max(0.0);
        let how = "N less P of it, down to whole draws";
        let must = beside("draws that must carry it", Amount::count(must), how);
        let inputs: Vec<BasisInput> = [self.drawn(), level, must].into_iter().chain(most).collect();
        let told = [
            (
                format!("{of} mass that holds"),
                mass.held,
                "the largest mass that so many draws carry, more of them by what a fit errs; down \
                 to 10 kg, and no more than the assessment's",
            ),
            (
                format!("{of} mass that holds together with the other movement"),
                mass.held_together,
                "the largest masses of both that so many draws carry together, each down to 10 kg \
                 and no more than what holds by itself",
            ),
        ];
        let held = told.into_iter().filter_map(|(name, held, how)| {
            let step = plain_step(&name, how, derived("sample quantile"), inputs.clone(), held?);
            Some(FigureBasis::new(name, held?, vec![step]))
        });
        let shares = [(RANGE.0, "lower end"), (0.5, "middle"), (RANGE.1, "upper end")];
        let range = mass.range.into_iter().zip(shares).filter_map(|(mass, (share, end))| {
            let name = format!("largest {of} mass of the draws, {end} of nine in ten");
            let share = beside("share of the draws below", ratio(share), "nine in ten, and half");
            let how = "the largest mass of the draw at that share of all, by rising mass, down to \
                       10 kg";
            let inputs = vec![self.drawn(), share];
            let step = plain_step(&name, how, derived("sample quantile"), inputs, mass?);
            Some(FigureBasis::new(name, mass?, vec![step]))
        });
        held.chain(range).collect()
    }

    /// What an input explains of the spread of each largest mass.
    fn shares(&self, input: &InputShare) -> Vec<FigureBasis> {
        let draws = self.fitted.as_ref().map_or(self.draws, |fitted| fitted.in_full);
        let count = f64::from(draws);
        let classes = count.sqrt().round();
        let of = |(moving, share): &(Moving, Option<Ratio>)| {
            let share = share.filter(|share| share.si() >= LEAST_SHARE)?;
            let name = format!(
                "share of the spread of {} mass that {} explains",
                moving.word(),
                input.name
            );
            let squares = 1.0 - (1.0 - share.si()) * (count - classes) / (count - 1.0);
            let how = "squares between classes of the draws by rising input, over all squares";
            let inputs = vec![
                beside("correlation ratio", ratio(squares), how).under("η²"),
                beside("draws in full", Amount::count(count), "each assessed afresh").under("n"),
                beside("classes", Amount::count(classes), "the root of n").under("B"),
            ];
            let expression = "1 - (1 - η²) (n - 1)/(n - B)";
            let step = plain_step(&name, expression, SHARES, inputs, share);
            Some(FigureBasis::new(name, share, vec![step]))
        };
        input.shares.iter().filter_map(of).collect()
    }
}

fn exceeded(limit: &LimitChance) -> Option<FigureBasis> {
    let moving = limit.moving.map_or(String::new(), |moving| format!(", {}", moving.word()));
    let name = format!("{} {}{moving}: share of the draws over the limit", limit.code, limit.title);
    Some(of_chance(&name, limit.exceeded.as_ref()?))
}

/// The standard deviation of an input, from where it stands.
fn spread(input: &InputShare) -> FigureBasis {
    let name = format!("standard deviation of {}", input.name);
    let inputs = vec![BasisInput::new("standard deviation", input.deviation, input.from.clone())];
    let step = plain_step(&name, "as it is", SPREAD, inputs, input.deviation);
    FigureBasis::new(name, input.deviation, vec![step])
}

/// What a measurement or softer tyres would bring.
fn helped(help: &Help) -> Vec<FigureBasis> {
    let what = help.action.show(UnitSystem::Metric);
    let counted = "counted over the same draws, each assessed afresh";
    let name = format!("share of the draws over no limit, more by {what}");
    let more = Ratio::from_si((help.holds - help.without).si());
    let inputs = vec![
        beside("share without it", help.without, counted).under("p"),
        beside("share with it", help.holds, counted).under("q"),
        beside("standard error", help.error, "scatter of the differences, over the root of N"),
    ];
    let step = plain_step(&name, "q - p", derived("difference of shares"), inputs, more);
    let mut all = vec![FigureBasis::new(name, more, vec![step])];
    if let Some(raised) = &help.raised {
        let steps = raised_by(raised);
        all.push(FigureBasis::new(format!("mass gained by {what}"), raised.gain, steps));
    }
    all
}

fn raised_by(raised: &Raised) -> Vec<Step> {
    let (from, to) = raised.between;
    let held = "the largest mass that the level of the same draws carries";
    let error = plain_step(
        "standard error of the gain",
        "s² = (G - 1)/G Σ (θ_g - θ̄)²",
        PARTS_LEFT_OUT,
        vec![beside("parts", Amount::count(PARTS as f64), "draws by turns").under("G")],
        raised.error,
    );
    let inputs = vec![
        beside("mass with it", to, held).under("m'"),
        beside("mass without it", from, held).under("m"),
        beside("step", kilograms(WORTH_KG), "gains are told in whole steps").under("d"),
    ];
    let of = format!("gain of {} mass", raised.moving.word());
    let gain = plain_step(
        &of,
        "(m' - m) down to whole d",
        derived("difference of masses"),
        inputs,
        raised.gain,
    );
    vec![error, gain]
}
