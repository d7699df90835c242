//! What stands behind the question mark of an address: units, and values of the
//! flight stated again.

mod keyless;
mod own;

pub(crate) use keyless::without_keys;
pub(crate) use own::{Own, UNKNOWN_KEY};

use crate::trouble::Trouble;
use hardpan_quantity::UnitSystem;
use std::fmt::Write as _;

/// Most values that one address may state again.
const MOST: usize = 40;
/// Longest value, in bytes.
const LONGEST: usize = 80;

/// Units and changes of one address.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Query {
    pub(crate) units: UnitSystem,
    /// Keys of the files with texts; never blank.
    pub(crate) changes: Vec<(String, String)>,
}

impl Query {
    /// Read a query. A value left blank is one that is not stated again.
    pub(crate) fn read(text: Option<&str>) -> Result<Self, Trouble> {
        let mut query = Self { units: UnitSystem::Metric, changes: Vec::new() };
        for (key, value) in form_urlencoded::parse(text.unwrap_or_default().as_bytes()) {
            let value = value.trim();
            match (&*key, value) {
                ("units", "metric") => query.units = UnitSystem::Metric,
                ("units", "imperial") => query.units = UnitSystem::Imperial,
                ("units", other) => {
                    let said = format!("There are no units called “{}”.", short(other));
                    return Err(Trouble::Query(said + " Use metric or imperial."));
                }
                (_, "") => {}
                (key, value) => query.changes.push((key.to_owned(), value.to_owned())),
            }
        }
        let long = query.changes.iter().find(|(_, value)| value.len() > LONGEST);
        if let Some((key, _)) = long {
            let key = short(key);
            return Err(Trouble::Query(format!("The value of {key} has over {LONGEST} bytes.")));
        }
        if query.changes.len() > MOST {
            return Err(Trouble::Query(format!("Over {MOST} values are stated again at once.")));
        }
        Ok(query)
    }

    /// Read a query of a flight in which some keys are no values of the flight; these are
    /// given by themselves.
    pub(crate) fn read_with(text: Option<&str>, own: &[&str]) -> Result<(Self, Own), Trouble> {
        let mut found = Own::default();
        let mut rest = form_urlencoded::Serializer::new(String::new());
        for (key, value) in form_urlencoded::parse(text.unwrap_or_default().as_bytes()) {
            if !own.contains(&&*key) {
                rest.append_pair(&key, &value);
                continue;
            }
            let value = value.trim();
            if value.chars().count() > own::LONGEST {
                let said = format!("The value of {key} has over {} characters.", own::LONGEST);
                return Err(Trouble::Query(said));
            }
            if !value.is_empty() {
                found.0.push((key.into_owned(), value.to_owned()));
            }
        }
        if found.0.len() > own::MOST {
            return Err(Trouble::Query(format!("Over {} keys are stated at once.", own::MOST)));
        }
        Ok((Self::read(Some(&rest.finish()))?, found))
    }

    /// Read a query of something that is no flight: units, and keys of its own.
    pub(crate) fn of_own(text: Option<&str>, own: &[&str]) -> Result<(Self, Own), Trouble> {
        let (query, found) = Self::read_with(text, own)?;
        if query.changes.is_empty() {
            return Ok((query, found));
        }
        Err(own::unknown(&query.changes, own))
    }

    /// Read a query of something that is no flight and has no keys but the units.
    pub(crate) fn of_units(text: Option<&str>) -> Result<Self, Trouble> {
        Ok(Self::of_own(text, &[])?.0)
    }

    /// Refuse every key but the units and these: one that is dropped in silence may be
    /// taken for one that was heeded.
    pub(crate) fn only(text: Option<&str>, own: &[&str]) -> Result<(), Trouble> {
        let pairs = form_urlencoded::parse(text.unwrap_or_default().as_bytes());
        let pairs = pairs.filter(|(key, _)| key != "units" && !own.contains(&&**key));
        let unknown: Vec<(String, String)> =
            pairs.map(|(key, text)| (key.into_owned(), text.into_owned())).collect();
        if unknown.is_empty() { Ok(()) } else { Err(own::unknown(&unknown, own)) }
    }

    /// The word of the units.
    pub(crate) const fn units_word(&self) -> &'static str {
        match self.units {
            UnitSystem::Metric => "metric",
            UnitSystem::Imperial => "imperial",
        }
    }

    /// The text stated again for a key.
    pub(crate) fn change(&self, key: &str) -> Option<&str> {
        self.changes.iter().find(|(known, _)| known == key).map(|(_, value)| value.as_str())
    }

    /// The same query as it stands in an address, the question mark included;
    /// empty when there is nothing to say.
    pub(crate) fn text(&self) -> String {
        self.text_with(&Own::default())
    }

    /// The same with keys of its own behind it.
    pub(crate) fn text_with(&self, own: &Own) -> String {
        let mut out = form_urlencoded::Serializer::new(String::new());
        if self.units == UnitSystem::Imperial {
            out.append_pair("units", "imperial");
        }
        for (key, value) in self.changes.iter().chain(own.pairs()) {
            out.append_pair(key, value);
        }
        match out.finish() {
            text if text.is_empty() => text,
            text => format!("?{text}"),
        }
    }

    /// The same changes in the other units.
    pub(crate) fn in_other_units(&self) -> Self {
        let units = match self.units {
            UnitSystem::Metric => UnitSystem::Imperial,
            UnitSystem::Imperial => UnitSystem::Metric,
        };
        Self { units, ..self.clone() }
    }

    /// The same units without changes.
    pub(crate) fn unchanged(&self) -> Self {
        Self { changes: Vec::new(), ..self.clone() }
    }

    /// The changes in words, such as `take-off mass 38 t`.
    pub(crate) fn words(&self) -> String {
        let mut out = String::new();
        for (key, value) in &self.changes {
            let comma = if out.is_empty() { "" } else { ", " };
            let _ = write!(out, "{comma}{} {value}", key_words(key));
        }
        out
    }
}

/// A key of the files in words.
pub(crate) fn key_words(key: &str) -> String {
    key.replace("take_off", "take-off").replace(['.', '_'], " ")
}

fn short(text: &str) -> String {
    text.chars().take(40).collect()
}

#[cfg(test)]
mod tests {
    use super::{Query, Trouble};
    use hardpan_quantity::UnitSystem;

    #[test]
    fn a_query_is_read_and_written() {
        let query = Query::read(Some("units=imperial&take_off.mass=38+t&temperature="));
        let query = query.expect("it is a good query");
        assert_eq!(query.units, UnitSystem::Imperial);
        assert_eq!(query.change("take_off.mass"), Some("38 t"));
        assert_eq!(query.change("temperature"), None);
        assert_eq!(query.text(), "?units=imperial&take_off.mass=38+t");
        assert_eq!(query.words(), "take-off mass 38 t");
        assert_eq!(query.unchanged().in_other_units().text(), "");
    }

    #[test]
    fn what_is_too_much_is_refused_in_a_sentence() {
        for text in ["units=furlongs".to_owned(), format!("a={}", "9".repeat(200))] {
            let trouble = Query::read(Some(&text)).expect_err("it is refused");
            assert!(trouble.sentence().ends_with('.'), "{}", trouble.sentence());
        }
        let many: String = (0..60).map(|n| format!("k{n}=1&")).collect();
        assert!(Query::read(Some(&many)).is_err());
    }
    #[test]
    fn keys_of_its_own_stand_apart_from_values_of_the_flight() {
        let text = Some("take_off.mass=38+t&take-off=40+t&landing=&best-flap=yes&tail=1&tail=2");
        let own = ["take-off", "landing", "best-flap", "tail"];
        let (query, own) = Query::read_with(text, &own).expect("it is a good query");
        assert_eq!(query.change("take_off.mass"), Some("38 t"));
        assert_eq!(own.one("take-off").expect("it stands once"), Some("40 t"));
        assert_eq!(own.one("landing").expect("it is blank"), None);
        assert!(own.is_asked("best-flap").expect("it is asked for"));
        assert!(own.is_asked("take-off").is_err() && own.one("tail").is_err());
        assert_eq!(own.all("tail"), ["1", "2"]);
        let again = query.text_with(&own);
        assert_eq!(again, "?take_off.mass=38+t&take-off=40+t&best-flap=yes&tail=1&tail=2");
    }

    #[test]
    fn what_is_no_flight_knows_its_own_keys_and_names_them() {
        let known = ["strip", "inspected-within"];
        assert!(Query::of_own(Some("units=imperial&strip=North"), &known).is_ok());
        let text = Some("strip=North&inspectedwithin=7+d&tail=1");
        let refused = Query::of_own(text, &known).expect_err("two keys are unknown");
        let Trouble::Refused(refusal) = refused else { panic!("{refused:?}") };
        let keys: Vec<_> = refusal.places.iter().filter_map(|one| one.key.as_deref()).collect();
        assert_eq!(keys, ["inspectedwithin", "tail"]);
        assert!(refusal.places.iter().all(|one| one.code == "E206"));
        assert!(refusal.text.contains("the keys here are units, strip, inspected-within"));
    }
}
