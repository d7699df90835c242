//! What must be looked at again, opened.

use super::{ARITHMETIC, Opened, computed, entry, figure};
use crate::Due;
use hardpan_model::Step;
use hardpan_quantity::Amount;
use jiff::civil::Date;

/// The days that are left until something is due; none where no day is stated.
#[must_use]
pub fn opened_due(due: &Due, today: Date) -> Opened {
    let (Some(date), Some(days)) = (due.date, due.days_left(today)) else { return Vec::new() };
    let days = Amount::count(f64::from(days));
    let name = format!("days left of {}, {}", due.subject, due.what);
    let stated = format!("due {date}, as the newest record of it states");
    let since =
        |date: Date| Amount::count(f64::from((date - Date::constant(1970, 1, 1)).get_days()));
    let inputs = vec![
        entry(&stated, since(date), due.entry).under("D"),
        computed(&format!("today, {today}"), since(today), "the day of asking, UTC").under("T"),
    ];
    let rule = "D − T; in days since 1970-01-01, negative when it is overdue";
    let step = Step::new(&name, rule, ARITHMETIC, inputs, days);
    vec![("days_left", figure(name, vec![step], days))]
}
