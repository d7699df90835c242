//! Keys of an address that are no values of a flight. They have the long names of the
//! options of the command.

use super::short;
use crate::shelf::{Refusal, RefusedPlace};
use crate::trouble::Trouble;

/// Longest text of one key, in characters.
pub(super) const LONGEST: usize = 400;
/// Most keys that one address may hold.
pub(super) const MOST: usize = 60;
/// Code of a key that is not known, as readers of files have it.
pub(crate) const UNKNOWN_KEY: &str = "E206";

/// Keys with their texts, in the order of the address; none is blank.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(crate) struct Own(pub(super) Vec<(String, String)>);

impl Own {
    /// The text of a key that may stand once.
    pub(crate) fn one(&self, key: &str) -> Result<Option<&str>, Trouble> {
        let mut found = self.0.iter().filter(|(known, _)| known == key).map(|(_, text)| &**text);
        match (found.next(), found.next()) {
            (text, None) => Ok(text),
            (_, Some(_)) => Err(Trouble::Query(format!("{key} is stated more than once."))),
        }
    }

    /// Every text of a key that may stand several times, each once.
    pub(crate) fn all(&self, key: &str) -> Vec<String> {
        let mut found: Vec<String> = Vec::new();
        for (known, text) in &self.0 {
            if known == key && !found.contains(text) {
                found.push(text.clone());
            }
        }
        found
    }

    /// Whether an option without a value is asked for: `yes`, or `no` as without it.
    pub(crate) fn is_asked(&self, key: &str) -> Result<bool, Trouble> {
        match self.one(key)? {
            None | Some("no") => Ok(false),
            Some("yes") => Ok(true),
            Some(other) => {
                let said = format!("{key}: `{}` is neither yes nor no.", short(other));
                Err(Trouble::Query(said))
            }
        }
    }

    /// Keys and texts.
    pub(crate) fn pairs(&self) -> &[(String, String)] {
        &self.0
    }
}

/// The refusal of keys that an address does not know.
pub(super) fn unknown(keys: &[(String, String)], known: &[&str]) -> Trouble {
    let hint = format!("the keys here are {}", [&["units"], known].concat().join(", "));
    let place = |(key, _): &(String, String)| RefusedPlace {
        code: UNKNOWN_KEY,
        file: "address".to_owned(),
        line: 0,
        column: 0,
        key: Some(short(key)),
        message: format!("`{}` is no key of this address", short(key)),
        expected: "a key of this address".to_owned(),
        hint: hint.clone(),
    };
    let places: Vec<RefusedPlace> = keys.iter().map(place).collect();
    let said = |one: &RefusedPlace| format!("error[{UNKNOWN_KEY}]: {}\n", one.message);
    let text: String = places.iter().map(said).collect();
    Trouble::Refused(Refusal { text: format!("{text}  = help: {hint}\n"), places })
}
