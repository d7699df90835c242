//! Every figure that the record tells of a strip, opened.

use super::{count_of, opened_due, opened_months};
use crate::counts::day_of;
use crate::{
    BookError, NameOf, Question, current, damage_places, damage_rate, due_dates, grading,
    measured_ruts, must_know, passes_by_stretch, passes_since_repair,
};
use crate::{Entry, Opened};
use hardpan_model::FigureBasis;
use hardpan_quantity::Quantity as _;

/// Every figure that a book tells of a strip, and of what is due, in the order in which
/// they are told. Names tell them apart.
///
/// # Errors
/// As [`crate::told_of_strip`].
pub fn opened_of_strip(
    entries: &[Entry],
    asked: &Question<'_>,
) -> Result<Vec<FigureBasis>, BookError> {
    let standing = current(entries);
    must_know(&standing, NameOf::Strip, asked.strip)?;
    let (strip, now) = (asked.strip, asked.now);
    let mut all: Vec<FigureBasis> = Vec::new();
    let mut take = |opened: Opened| all.extend(opened.into_iter().map(|(_, figure)| figure));
    take(passes_since_repair(&standing, strip).opened());
    take(damage_rate(&standing, strip, asked.confidence)?.opened(""));
    let found = grading(&standing, strip, now, &asked.limits)?;
    let week = found.passes.as_ref();
    week.into_iter().for_each(|week| take(week.opened()));
    found.places.iter().for_each(|place| take(place.opened(week)));
    opened_months(&standing, strip).into_values().for_each(&mut take);
    let places = damage_places(&standing, strip, asked.step, asked.end, asked.confidence)?;
    for one in &places.stretches {
        let place = format!("station {:.0} to {:.0} m", one.from.si(), one.to.si());
        take(one.rate.opened(&place));
    }
    take(places.opened());
    for (zone, rate) in &places.zones {
        take(rate.opened(&format!("zone {zone}")));
    }
    measured_ruts(&standing, strip).rows.iter().for_each(|row| take(row.opened()));
    let today = day_of(now);
    due_dates(&standing).iter().for_each(|due| take(opened_due(due, today)));
    for one in passes_by_stretch(&standing, strip, asked.step, asked.end)? {
        all.extend(one.opened().into_iter().map(|(_, figure)| figure));
        if let Some(of_one) = asked.coverages {
            all.extend(one.opened_passes(of_one).into_iter().map(|(_, figure)| figure));
            all.extend(one.opened_coverages(of_one));
        }
        all.extend(one.opened_ruts());
    }
    Ok(all)
}

impl crate::DamagePlaces {
    /// Its figure by the name that it has in JSON: `without_station`.
    #[must_use]
    pub fn opened(&self) -> Opened {
        let name = "damage reports without a station".to_owned();
        let how = "damage reports that state none";
        vec![("without_station", count_of(name, &self.entries_without, self.without_station, how))]
    }
}
