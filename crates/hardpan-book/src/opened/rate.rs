//! How often damage is done, opened.

use super::formulas::RATE_PER_THOUSAND;
use super::{Opened, count_of, entries, figure, limits_of_count, of_step};
use crate::{DamageRate, poisson_limits};
use hardpan_model::Step;
use hardpan_quantity::{Amount, Quantity as _, Ratio};

impl DamageRate {
    /// Its figures by the names that they have in JSON: `reports`, `movements`, and as far
    /// as they are told `per_1000`, `lower` and `upper`. `of` says what it is the rate of,
    /// such as `zone flap`.
    #[must_use]
    pub fn opened(&self, of: &str) -> Opened {
        let named = |what: &str| match of {
            "" => what.to_owned(),
            of => format!("{what}, {of}"),
        };
        let (reports, movements) = (&self.counted.reports, &self.counted.movements);
        let mut all = vec![
            (
                "reports",
                count_of(
                    named("damage reports"),
                    reports,
                    self.reports,
                    "damage reports that stand",
                ),
            ),
            (
                "movements",
                count_of(
                    named("movements"),
                    movements,
                    self.movements,
                    "landings and take-offs that stand and rolled there; one that states no \
                     stretch counts everywhere",
                ),
            ),
        ];
        let (Some(rate), Some(limits)) = (self.rate, self.limits) else { return all };
        let over = || entries("movements", movements, self.movements);
        let name = named("damage for each 1,000 movements");
        let inputs = vec![entries("reports", reports, self.reports), over()];
        let rate = Amount::coefficient(rate);
        let counted = Step::of_formula(&RATE_PER_THOUSAND, &name, inputs, rate);
        all.push(("per_1000", figure(name.clone(), vec![counted], rate)));
        let outside = Ratio::from_si(1.0 - self.confidence.si());
        let Ok(of_count) = u32::try_from(self.reports)
            .map_err(|_| ())
            .and_then(|count| poisson_limits(count, self.confidence).map_err(|_| ()))
        else {
            return all;
        };
        let both = (of_count.lower, of_count.upper);
        let steps = limits_of_count((self.reports, "reports"), outside, reports, both);
        let ends = [("lower", limits.lower), ("upper", limits.upper)];
        for ((key, limit), of_mean) in ends.into_iter().zip(steps) {
            let name = format!("{name}, {key} limit");
            let inputs = vec![of_step("limit of the mean count", of_mean.result, 0), over()];
            let limit = Amount::coefficient(limit);
            let scaled = Step::of_formula(&RATE_PER_THOUSAND, &name, inputs, limit);
            all.push((key, figure(name, vec![of_mean, scaled], limit)));
        }
        all
    }
}
