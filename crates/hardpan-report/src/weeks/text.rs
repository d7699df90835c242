//! The weeks at a terminal: a ribbon of the year, then the weeks that are alike.

use super::answer_word;
use crate::bearing::{MARK, place_text};
use crate::measure::{at_most_text, quantity_text, whole};
use crate::text::{Paint, TextStyle, table_text};
use crate::wrap::{hanging, plain};
use hardpan_assess::{CAUTION, CarryingWeeks, MovementWeeks, Week, WeekFrost, WetGround};
use hardpan_quantity::{Amount, Length, UnitSystem};

const LEGEND: &str = "Weeks run from 1 January, seven days each, the last with what is left. Under \
                      each mass stands the place that gives first beyond it: station and lane, L \
                      left, N nose, R right; with ? the ground is not known deep enough there.";
/// First week of each month in the ribbon.
const MONTHS: [(&str, usize); 12] = [
    ("J", 0),
    ("F", 4),
    ("M", 8),
    ("A", 13),
    ("M", 17),
    ("J", 21),
    ("J", 26),
    ("A", 30),
    ("S", 35),
    ("O", 39),
    ("N", 43),
    ("D", 48),
];

/// The weeks of the year that carry a mass, and the caution.
#[must_use]
pub fn weeks_text(weeks: &CarryingWeeks, units: UnitSystem, style: TextStyle) -> String {
    let paint = Paint::new(style);
    let named = |name: &str, otherwise: &str| {
        if name.is_empty() { otherwise.to_owned() } else { plain(name) }
    };
    let title = format!(
        "When {} carries {} ({MARK})",
        named(&weeks.strip, "the strip"),
        named(&weeks.aeroplane, "the aeroplane"),
    );
    let mut out = paint.heading(&title);
    for movement in &weeks.movements {
        out.push('\n');
        out.push_str(&one(movement, units, &paint));
    }
    out.push('\n');
    out.push_str(&hanging(LEGEND, paint.width(), ""));
    for caveat in &weeks.caveats {
        out.push_str(&hanging(caveat, paint.width(), "  - "));
    }
    out.push('\n');
    out.push_str(&hanging(CAUTION, paint.width(), ""));
    out
}

fn one(movement: &MovementWeeks, units: UnitSystem, paint: &Paint) -> String {
    let mass = quantity_text(movement.mass, units);
    let (main, nose) = movement.pressures;
    let title = format!(
        "{} at {mass}, main tyres {}, nose tyres {}",
        movement.movement,
        quantity_text(main, units),
        quantity_text(nose, units),
    );
    let names = ["Weeks", "Days", "Season", "Strength", "Frost", "Largest mass", mass.as_str()];
    let mut table = paint.table(&names, &[0, 3, 5]);
    let mut first = 0;
    while let Some(week) = movement.weeks.get(first) {
        let alike = |other: &&Week| {
            other.ground == week.ground && kind(other.frost.as_ref()) == kind(week.frost.as_ref())
        };
        let count = movement.weeks.iter().skip(first).take_while(alike).count();
        table.add_row(row(movement, (first, count), week, units));
        first += count;
    }
    paint.heading(&title) + &ribbon(movement) + &counts(movement, paint) + &table_text(&table)
}

fn row(
    movement: &MovementWeeks,
    (first, count): (usize, usize),
    week: &Week,
    units: UnitSystem,
) -> Vec<String> {
    let last = movement.weeks.get(first + count - 1).unwrap_or(week);
    let days = format!("{} to {}", week.from, last.to);
    let alike = movement.weeks.iter().skip(first).take(count);
    let frost = frost_text(alike.filter_map(|week| week.frost.as_ref()), units);
    let mut cells = vec![range(first, count), days];
    cells.extend(match &week.ground {
        Some(ground) => [
            plain(&ground.season),
            Amount::from(ground.share).show(units),
            frost,
            format!(
                "{}\n{}\n{}",
                ground.largest.map_or("none".to_owned(), |mass| at_most_text(mass, units)),
                place_text(&ground.stops, "end", units),
                wet_text(ground.wet.as_ref(), units),
            ),
        ],
        None => ["none stated".to_owned(), "not known".to_owned(), frost, "not known".to_owned()],
    });
    cells.push(answer_word(movement.carried(week)).to_owned());
    cells
}

/// The largest mass while the surface is wet.
fn wet_text(wet: Option<&WetGround>, units: UnitSystem) -> String {
    let Some(wet) = wet else { return "wet: not known".to_owned() };
    let largest = wet.largest.map_or("none".to_owned(), |mass| at_most_text(mass, units));
    format!("wet: {largest} at {}", Amount::from(wet.share).show(units))
}

/// Kind of frost, to put alike weeks together.
fn kind(frost: Option<&WeekFrost>) -> &'static str {
    match frost {
        None => "not stated",
        Some(WeekFrost::Thawed) => "none",
        Some(WeekFrost::Frozen(_)) => "frozen",
        Some(WeekFrost::Thawing(..)) => "thaws",
        Some(WeekFrost::NotKnown) => "not known",
    }
}

/// The frost of alike weeks with the greatest depth among them.
fn frost_text<'a>(frost: impl Iterator<Item = &'a WeekFrost>, units: UnitSystem) -> String {
    let mut deepest: Option<(&WeekFrost, Length)> = None;
    for one in frost {
        let depth = match one {
            WeekFrost::Frozen(depth) | WeekFrost::Thawing(_, depth) => *depth,
            WeekFrost::Thawed | WeekFrost::NotKnown => Length::default(),
        };
        if deepest.is_none_or(|(_, most)| depth > most) {
            deepest = Some((one, depth));
        }
    }
    let word = kind(deepest.map(|(one, _)| one)).to_owned();
    match deepest {
        Some((WeekFrost::Frozen(_), depth)) => format!("{word} to {}", quantity_text(depth, units)),
        Some((WeekFrost::Thawing(..), depth)) => {
            format!("{word} over frost\nto {}", quantity_text(depth, units))
        }
        _ => word,
    }
}

fn range(first: usize, count: usize) -> String {
    if count == 1 { (first + 1).to_string() } else { format!("{} to {}", first + 1, first + count) }
}

/// One sign a week under the months.
fn ribbon(movement: &MovementWeeks) -> String {
    let mut months = vec![' '; movement.weeks.len()];
    for (letter, week) in MONTHS {
        if let (Some(place), Some(letter)) = (months.get_mut(week), letter.chars().next()) {
            *place = letter;
        }
    }
    let signs = movement.weeks.iter().map(|week| match movement.carried(week) {
        Some(true) => '=',
        Some(false) => 'x',
        None => '?',
    });
    let months: String = months.into_iter().collect();
    format!(
        "  {}\n  {}\n  = carried, x not carried, ? not known\n",
        months.trim_end(),
        signs.collect::<String>()
    )
}

fn counts(movement: &MovementWeeks, paint: &Paint) -> String {
    let count = |wanted: Option<bool>| {
        let weeks = movement.weeks.iter().filter(|week| movement.carried(week) == wanted);
        whole(weeks.count() as f64)
    };
    let line = format!(
        "Of {} weeks {} are carried, {} not, {} not known.",
        movement.weeks.len(),
        count(Some(true)),
        count(Some(false)),
        count(None)
    );
    hanging(&line, paint.width(), "")
}
