//! Passes, movements by month and coverages, opened.

use super::{ARITHMETIC, AS_RECORDED, Opened, count_of, entries, entry, figure, number};
use crate::counts::{day_of, movement_entries};
use crate::{Entry, MovementKind, PassCoverages, Passes, StretchPasses};
use hardpan_model::{BasisInput, EntryRange, InputFrom, Lane, Step};
use hardpan_quantity::{Amount, Quantity as _};
use std::collections::BTreeMap;

/// Coverages that one pass makes of the busiest point of a lane, and how that came about.
#[derive(Debug, Clone, PartialEq)]
pub struct LaneCoverage {
    /// The lane.
    pub lane: Lane,
    /// Coverages of one pass.
    pub coverages: f64,
    /// The steps behind them; the last gives them.
    pub steps: Vec<Step>,
}

/// The repair that passes are counted from, as an input that says so.
fn mended(day: Option<jiff::civil::Date>, by: Option<i64>) -> Vec<BasisInput> {
    let both = day.zip(by);
    let name = |day| format!("repair of {day}, from whose day on they count");
    both.map(|(day, id)| entry(&name(day), number(1), id)).into_iter().collect()
}

impl Passes {
    /// Its figure by the name that it has in JSON: `passes`.
    #[must_use]
    pub fn opened(&self) -> Opened {
        let name = "passes since the strip was mended".to_owned();
        let inputs = [entries("landings and take-offs", &self.entries, self.count)];
        let inputs = inputs.into_iter().chain(mended(self.since, self.mended_by)).collect();
        let how = "landings and take-offs from the day of the last repair on";
        let counted = Step::new(&name, how, super::COUNTED, inputs, number(self.count));
        vec![("passes", figure(name, vec![counted], number(self.count)))]
    }
}

impl StretchPasses {
    fn place(&self) -> String {
        format!("station {:.0} to {:.0} m", self.from.si(), self.to.si())
    }

    /// Its figures by the names that they have in JSON: `passes`, `without_stretch`, and
    /// the depth of each rut under the name of its lane.
    #[must_use]
    pub fn opened(&self) -> Opened {
        let place = self.place();
        let all = EntryRange::of(self.tails.values().flatten().copied());
        let name = format!("passes over {place}");
        let inputs = [entries("landings and take-offs", &all, self.passes)];
        let inputs = inputs.into_iter().chain(mended(self.since, self.mended_by)).collect();
        let how = "landings and take-offs that rolled over it since it was mended whole, each once; \
                   one that states no stretch counts everywhere";
        let counted = Step::new(&name, how, super::COUNTED, inputs, number(self.passes));
        let everywhere = count_of(
            format!("passes over {place} that state no stretch"),
            &self.entries_everywhere,
            self.everywhere,
            "those of its passes that do not say over which stretch they rolled",
        );
        vec![
            ("passes", figure(name, vec![counted], number(self.passes))),
            ("without_stretch", everywhere),
        ]
    }

    /// The depth of each rut last found in it, in their order.
    #[must_use]
    pub fn opened_ruts(&self) -> Vec<hardpan_model::FigureBasis> {
        let opened = |rut: &crate::LastRut| {
            let name = format!("last rut of {}, {}", rut.lane, self.place());
            let found = format!("as found on {}", rut.date);
            let inputs = vec![entry(&found, rut.depth, rut.entry)];
            let how = "the depth that the newest inspection with a rut there records";
            let step = Step::new(&name, how, AS_RECORDED, inputs, rut.depth);
            figure(name, vec![step], rut.depth.into())
        };
        self.ruts.iter().map(opened).collect()
    }

    /// Passes that make coverages, and those of others, by the names that they have in JSON:
    /// `passes` and `passes_of_others`.
    #[must_use]
    pub fn opened_passes(&self, of_one: &PassCoverages) -> Opened {
        let mine = self.of_aeroplanes(&of_one.tails);
        let all = self.tails.values().flatten().copied();
        let others: Vec<i64> = all.filter(|id| !mine.contains(id)).collect();
        let (place, tails) = (self.place(), of_one.tails.join(", "));
        let told = |whose: String, ids: &[i64]| {
            let name = format!("passes of {whose} over {place}");
            let how = "its passes, by the name of the aeroplane";
            count_of(name, &EntryRange::of(ids.iter().copied()), ids.len(), how)
        };
        vec![
            ("passes", told(tails, &mine)),
            ("passes_of_others", told("other aeroplanes".to_owned(), &others)),
        ]
    }

    /// Coverages of each lane, in the order of the lanes.
    #[must_use]
    pub fn opened_coverages(&self, of_one: &PassCoverages) -> Vec<hardpan_model::FigureBasis> {
        let mine = self.of_aeroplanes(&of_one.tails);
        let (count, mine) = (mine.len(), EntryRange::of(mine));
        let opened = |of: &LaneCoverage| {
            let name = format!("coverages of {}, {}", of.lane.word(), self.place());
            let one = Amount::coefficient(of.coverages);
            let from = match of.steps.len().checked_sub(1) {
                Some(last) => InputFrom::Step(last),
                None => InputFrom::Computed("gear of the flight's aeroplane".to_owned()),
            };
            let passes = format!("passes of {}", of_one.tails.join(", "));
            let inputs = vec![
                entries(&passes, &mine, count).under("N"),
                BasisInput::new("coverages of one pass", one, from).under("c"),
            ];
            let made = Amount::coefficient(of.coverages * count as f64);
            let rule = "N × c; the busiest point is in the same place for all passes";
            let last = Step::new(&name, rule, ARITHMETIC, inputs, made);
            let steps = of.steps.iter().cloned().chain([last]).collect();
            figure(name, steps, made)
        };
        of_one.lanes.iter().map(opened).collect()
    }
}

/// Landings and take-offs of each month, by the month and the names that they have in JSON.
#[must_use]
pub fn opened_months(of: &[&Entry], strip: &str) -> BTreeMap<String, Opened> {
    let mut months: BTreeMap<String, [Vec<i64>; 2]> = BTreeMap::new();
    for (id, one) in movement_entries(of, strip) {
        let day = day_of(one.at);
        let month = format!("{:04}-{:02}", day.year(), day.month());
        months.entry(month).or_default()[usize::from(one.kind == MovementKind::TakeOff)].push(id);
    }
    let opened = |(month, [down, up]): (String, [Vec<i64>; 2])| {
        let told = |word: &str, ids: Vec<i64>| {
            let how = "by the day of the movement, UTC";
            count_of(
                format!("{word} in {month}"),
                &EntryRange::of(ids.iter().copied()),
                ids.len(),
                how,
            )
        };
        let both = vec![("landings", told("landings", down)), ("take_offs", told("take-offs", up))];
        (month, both)
    };
    months.into_iter().map(opened).collect()
}
