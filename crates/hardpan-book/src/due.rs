//! What must be looked at or measured again, and by when.

use crate::{Entry, EquipmentState, Record};
use hardpan_quantity::{Quantity as _, Time};
use jiff::civil::Date;
use std::collections::BTreeMap;

/// Seconds of a day.
const DAY: f64 = 86_400.0;

/// Something with a day by which it must be looked at again.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Due {
    /// The aeroplane or the strip.
    pub subject: String,
    /// The piece of equipment, or what was measured.
    pub what: String,
    /// The day; none if nobody stated one.
    pub date: Option<Date>,
    /// The entry that states it.
    pub entry: i64,
}

impl Due {
    /// Days from `today` to the day; negative when it is past.
    #[must_use]
    pub fn days_left(&self, today: Date) -> Option<i32> {
        self.date.map(|date| (date - today).get_days())
    }
}

/// Whether something is due within a time; what has no day stays, since nobody knows.
#[must_use]
pub fn is_near(days: Option<i32>, within: Option<Time>) -> bool {
    let longest = within.map(|longest| longest.si());
    days.zip(longest).is_none_or(|(days, longest)| f64::from(days) * DAY <= longest)
}

/// By when equipment that is fitted and surveys must be looked at again, the
/// earliest first; what has no day stands last. Of each piece and of each kind
/// of survey the newest record counts.
#[must_use]
pub fn due_dates(entries: &[&Entry]) -> Vec<Due> {
    let mut equipment = BTreeMap::new();
    let mut surveys = BTreeMap::new();
    for entry in entries {
        match &entry.record {
            Record::Equipment(one) => {
                let newest = equipment.entry((&one.tail, &one.item)).or_insert((entry.id, one));
                if one.at >= newest.1.at {
                    *newest = (entry.id, one);
                }
            }
            Record::Survey(one) => {
                let newest =
                    surveys.entry((&one.strip, one.what.to_string())).or_insert((entry.id, one));
                if one.date >= newest.1.date {
                    *newest = (entry.id, one);
                }
            }
            _ => {}
        }
    }
    let fitted = equipment.into_iter().filter(|(_, (_, one))| one.state != EquipmentState::Removed);
    let of_equipment = fitted.map(|((tail, item), (entry, one))| Due {
        subject: tail.clone(),
        what: item.clone(),
        date: one.due,
        entry,
    });
    let of_surveys = surveys.into_iter().map(|((strip, what), (entry, one))| Due {
        subject: strip.clone(),
        what,
        date: one.due,
        entry,
    });
    let mut due: Vec<Due> = of_equipment.chain(of_surveys).collect();
    due.sort_by_key(|one| (one.date.is_none(), one.date));
    due
}
