//! What would turn an answer, as people and programs read it.

mod json;
mod rows;
mod text;

pub use json::{WAYS_FORMAT, WAYS_VERSION, ways_json, ways_schema};
pub use rows::{
    SINGLES_HEADER, TRADE_HEADER, ways_heading, ways_list, ways_opening, ways_singles, ways_trade,
};
pub use text::{ways_opened_text, ways_text};

use crate::wrap::plain;
use hardpan_assess::{Phrase, WaysOut};
use hardpan_quantity::{UnitSystem, tell};

/// Sentences in one system of units, joined as steps of a list.
fn actions(actions: &[Phrase], units: UnitSystem) -> Vec<String> {
    actions.iter().map(|action| plain(&tell(&action.show(units), units))).collect()
}

/// A cost with the unit of money that the user names.
fn money(found: &WaysOut, cost: Option<f64>) -> String {
    match cost {
        _ if found.unit.is_empty() => "–".to_owned(),
        None => "not stated".to_owned(),
        Some(cost) => format!("{cost:.0} {}", plain(&found.unit)),
    }
}
