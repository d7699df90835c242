//! By when a strip must be graded, opened.

use super::formulas::{DAYS_OF_PASSES, PASSES_A_WEEK, PASSES_LEFT_BY_LINE};
use super::{
    ARITHMETIC, AS_RECORDED, Opened, computed, constant, count_of, entries, entry, figure,
    limits_of_count, number, of_step,
};
use crate::counts::day_of;
use crate::grading::CONFIDENCE;
use crate::{Found, GradingDue, GradingLimits, PassesPerWeek};
use hardpan_math::{poisson_limits, student_quantile};
use hardpan_model::{BasisInput, EntryRange, FigureBasis, Source, Step, Tier};
use hardpan_quantity::{Amount, Length, Quantity as _, Ratio};

const LEAST_SQUARES: Source =
    Source::new("NIST-STRD", "linear regression by least squares", Tier::Secondary);
const FIELLER: Source = Source::new("FIELLER-1954", "the interval of a ratio", Tier::Memory);
const LARGEST_RUT: Source =
    Source::new("CFR-14-139-307", "holes and depressions, 3 in", Tier::Published);
/// Names of the values of passes left and of days, in JSON and in words.
const ENDS: [(&str, &str, &str); 3] = [
    ("passes_left", "day", ""),
    ("passes_left_fewest", "earliest", ", fewest"),
    ("passes_left_most", "latest", ", most"),
];

impl PassesPerWeek {
    /// Its figures by the names that they have in JSON: `movements`, `days`, `per_week`,
    /// `lower` and `upper`.
    #[must_use]
    pub fn opened(&self) -> Opened {
        let name = "passes in a week";
        let days = Amount::coefficient(self.days);
        let over = || {
            let how =
                "since the oldest movement; at least 1, and a season of 91 at most (judgement)";
            computed("days", days, how)
        };
        let counted = || entries("passes", &self.entries, self.movements);
        let week = |name: &str, n: BasisInput, result: f64| {
            Step::of_formula(&PASSES_A_WEEK, name, vec![n, over()], Amount::coefficient(result))
        };
        let of = |name: &str, steps: Vec<Step>| figure(name.to_owned(), steps, days);
        let how = "landings and take-offs within the days";
        let window = Step::new(
            "days of the record from which passes are counted forward",
            "now less the oldest movement, between 1 and 91",
            ARITHMETIC,
            vec![over()],
            days,
        );
        let mut all = vec![
            ("movements", count_of("recent passes".into(), &self.entries, self.movements, how)),
            ("days", of("days over which passes were counted", vec![window])),
            ("per_week", of(name, vec![week(name, counted(), self.mean)])),
        ];
        let count = u32::try_from(self.movements).unwrap_or(u32::MAX);
        if let Some(both) = poisson_limits(count, CONFIDENCE) {
            let outside = Ratio::from_si(1.0 - CONFIDENCE);
            let of_mean = limits_of_count((self.movements, "passes"), outside, &self.entries, both);
            let ends = [("lower", self.lower), ("upper", self.upper)];
            for ((key, limit), mean) in ends.into_iter().zip(of_mean) {
                let name = format!("{name}, {key} limit");
                let n = of_step("limit of the mean count", mean.result, 0);
                let last = week(&name, n, limit);
                all.push((key, of(&name, vec![mean, last])));
            }
        }
        all
    }
}

impl GradingDue {
    /// Its figures by the names that they have in JSON, as far as they are told.
    #[must_use]
    pub fn opened(&self, week: Option<&PassesPerWeek>) -> Opened {
        let place = self.place();
        let inspections = EntryRange::of(self.told_from.found.iter().map(|one| one.entry));
        let how = "inspections with a depth there since it was mended";
        let name = format!("inspections of {place}");
        let growth = format!("growth in 1,000 passes of {place}");
        let [middle, height, slope] = self.line_steps(&growth);
        let mut all = vec![
            ("inspections", count_of(name, &inspections, self.inspections, how)),
            ("last_m", self.last_found(&place)),
            (
                "growth_m_per_1000_passes",
                figure(growth, vec![middle, height, slope], self.limit.into()),
            ),
            ("limit_m", self.limit_figure(&place)),
        ];
        for (at, (left_key, day_key, words)) in ENDS.into_iter().enumerate() {
            let Some(left) = self.passes_left[at] else { continue };
            let name = format!("passes left of {place}{words}");
            let steps = self.left_steps(at, &name, left);
            all.push((left_key, figure(name, steps.clone(), Amount::coefficient(left))));
            if let Some(day) = self.days[at] {
                let rate = week.map(|one| [one.mean, one.upper, one.lower][at]);
                all.push((day_key, self.day_figure((at, left), day, rate, steps)));
            }
        }
        all
    }

    fn last_found(&self, place: &str) -> FigureBasis {
        let name = format!("last found of {place}");
        let last = self.told_from.found.iter().max_by_key(|one| one.at);
        let found = format!("as found on {}", self.last.1);
        let inputs = last.map(|one| entry(&found, one.depth, one.entry)).into_iter().collect();
        let step = Step::new(&name, "the depth of the newest", AS_RECORDED, inputs, self.last.0);
        figure(name, vec![step], self.last.0.into())
    }

    fn limit_input(&self) -> BasisInput {
        let is_usual = self.what == "rut" && self.limit == GradingLimits::default().rut;
        if is_usual {
            constant("depth that is the limit", self.limit, LARGEST_RUT)
        } else {
            computed("depth that is the limit", self.limit, "as it was asked for")
        }
    }

    fn limit_figure(&self, place: &str) -> FigureBasis {
        let name = format!("limit of {place}");
        let how = "the depth at which it is graded";
        let step = Step::new(&name, how, AS_RECORDED, vec![self.limit_input()], self.limit);
        figure(name, vec![step], self.limit.into())
    }

    /// Mean of the passes, mean of the depths, and growth in 1,000 passes.
    fn line_steps(&self, growth: &str) -> [Step; 3] {
        let (found, line) = (&self.told_from.found, &self.told_from.line);
        let passes = |one: &Found| {
            entries(&format!("passes until {}", day_of(one.at)), &one.passes, one.count)
        };
        let depth =
            |one: &Found| entry(&format!("depth on {}", day_of(one.at)), one.depth, one.entry);
        let middle = Amount::coefficient(line.middle);
        let height = Length::from_si(line.height);
        let both = found.iter().flat_map(|one| [passes(one), depth(one)]);
        let means = [
            of_step("mean of the passes", middle, 0).under("X"),
            of_step("mean of the depths", height, 1).under("Y"),
        ];
        [
            Step::new(
                "mean of the passes",
                "sum of the passes until each inspection / inspections",
                ARITHMETIC,
                found.iter().map(passes).collect(),
                middle,
            ),
            Step::new(
                "mean of the depths",
                "sum of the depths / inspections",
                ARITHMETIC,
                found.iter().map(depth).collect(),
                height,
            ),
            Step::new(
                growth,
                "1000 × Σ (x − X) (y − Y) / Σ (x − X)²; x the passes and y the depth of each \
                 inspection",
                LEAST_SQUARES,
                means.into_iter().chain(both).collect(),
                self.growth,
            ),
        ]
    }

    /// How the passes that are left are told: the best value, the fewest or the most.
    fn left_steps(&self, at: usize, name: &str, left: f64) -> Vec<Step> {
        let (line, so_far) = (&self.told_from.line, &self.told_from);
        let result = Amount::coefficient(left);
        let growth = format!("growth in 1,000 passes of {}", self.place());
        if self.last.0 >= self.limit {
            let last = entry("last found", self.last.0, self.newest()).under("L");
            let inputs = vec![last, self.limit_input().under("D")];
            let rule = "0, since L is at least D; the limit is met";
            return vec![Step::new(name, rule, ARITHMETIC, inputs, result)];
        }
        let mut steps = self.line_steps(&growth).to_vec();
        let middle = || of_step("mean of the passes", Amount::coefficient(line.middle), 0);
        let height = || of_step("mean of the depths", Length::from_si(line.height), 1);
        let slope = || of_step("growth in 1,000 passes", self.growth, 2);
        let until = || entries("passes so far", &so_far.so_far, so_far.passes);
        if at == 0 {
            let inputs = vec![middle(), self.limit_input(), height(), slope(), until()];
            steps.push(Step::of_formula(&PASSES_LEFT_BY_LINE, name, inputs, result));
            return steps;
        }
        let sign = if at == 1 { "+" } else { "−" };
        let quantile = student_quantile(line.points as f64 - 2.0, 0.5 + 0.5 * CONFIDENCE);
        let scatter = Length::from_si(line.scatter);
        let of_line = "least squares, of the depths about the line";
        let meets = Amount::coefficient(left + so_far.passes as f64);
        let edge = format!(
            "Y + B × (x − X) / 1000 {sign} t × s × √(1 / k + (x − X)² / Q) = D; the x beyond the \
             passes so far at which this edge of the band of the mean meets the limit, or the \
             passes so far where it is past"
        );
        let inputs = vec![
            height().under("Y"),
            slope().under("B"),
            middle().under("X"),
            computed(
                "quantile of Student's t",
                Amount::coefficient(quantile.unwrap_or(f64::NAN)),
                "k − 2 degrees of freedom, 95 % in the middle",
            )
            .under("t"),
            computed("standard deviation", scatter, of_line).under("s"),
            computed("inspections", number(line.points), "as counted").under("k"),
            computed("Σ (x − X)²", Amount::coefficient(line.spread), "of the passes").under("Q"),
            self.limit_input().under("D"),
        ];
        steps.push(Step::new(
            "passes at which the edge of the band meets the limit",
            &edge,
            FIELLER,
            inputs,
            meets,
        ));
        let inputs = vec![of_step("that", meets, 3).under("x"), until().under("P")];
        steps.push(Step::new(name, "x − P", ARITHMETIC, inputs, result));
        steps
    }

    fn newest(&self) -> i64 {
        self.told_from.found.iter().max_by_key(|one| one.at).map_or(0, |one| one.entry)
    }

    fn day_figure(
        &self,
        (at, left): (usize, f64),
        day: jiff::civil::Date,
        rate: Option<f64>,
        mut steps: Vec<Step>,
    ) -> FigureBasis {
        let today = self.told_from.today;
        let (_, word, _) = ENDS[at];
        let word = if at == 0 { "day" } else { word };
        let name = format!("{word} of {}, {day}: days from {today}", self.place());
        let days = Amount::count(f64::from((day - today).get_days()));
        let before = steps.len().saturating_sub(1);
        let passes = of_step("passes left", Amount::coefficient(left), before);
        let last = match rate.filter(|_| left > 0.0) {
            Some(rate) => {
                let which = [
                    "passes in a week",
                    "passes in a week, upper limit",
                    "passes in a week, lower limit",
                ][at];
                let by = computed(which, Amount::coefficient(rate), "a figure of its own");
                Step::of_formula(&DAYS_OF_PASSES, &name, vec![passes, by], days)
            }
            None => {
                Step::new(&name, "today, since no pass is left", ARITHMETIC, vec![passes], days)
            }
        };
        steps.push(last);
        figure(name, steps, days)
    }
}
