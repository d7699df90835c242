//! A sentence with figures in it, written out in the reader's units.

use hardpan_quantity::{Amount, UnitSystem, tell};

/// Words with a mark `{}` for each amount.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Phrase {
    words: String,
    amounts: Vec<Amount>,
}

impl Phrase {
    /// Words with an amount for each mark `{}`, in order. A mark without an
    /// amount stays as it is; an amount without a mark is not shown.
    #[must_use]
    pub fn new(words: impl Into<String>, amounts: impl IntoIterator<Item = Amount>) -> Self {
        Self { words: words.into(), amounts: amounts.into_iter().collect() }
    }

    /// Several sentences as one, with words between them.
    pub(crate) fn joined(phrases: &[Self], between: &str) -> Self {
        let words: Vec<&str> = phrases.iter().map(|phrase| phrase.words.as_str()).collect();
        let amounts = phrases.iter().flat_map(|phrase| phrase.amounts.iter().copied());
        Self::new(words.join(between), amounts)
    }

    /// The sentence with each amount as [`Amount::told`] tells it.
    #[must_use]
    pub fn told(&self) -> String {
        self.filled(|amount| amount.told())
    }

    /// The sentence in one system of units.
    #[must_use]
    pub fn show(&self, system: UnitSystem) -> String {
        tell(&self.filled(|amount| amount.show(system)), system)
    }

    fn filled(&self, shown: impl Fn(&Amount) -> String) -> String {
        let mut parts = self.words.split("{}");
        let mut out = parts.next().unwrap_or_default().to_owned();
        let mut amounts = self.amounts.iter();
        for part in parts {
            match amounts.next() {
                Some(amount) => out.push_str(&shown(amount)),
                None => out.push_str("{}"),
            }
            out.push_str(part);
        }
        out
    }
}

impl From<&str> for Phrase {
    fn from(words: &str) -> Self {
        Self::new(words, [])
    }
}

impl From<String> for Phrase {
    fn from(words: String) -> Self {
        Self::new(words, [])
    }
}

#[cfg(test)]
mod tests {
    use super::Phrase;
    use hardpan_quantity::{UnitSystem, metres, tonnes};

    #[test]
    fn amounts_are_shown_in_the_units_of_the_reader() {
        let phrase = Phrase::new("from {} at {}", [metres(100.0).into(), tonnes(40.0).into()]);
        assert_eq!(phrase.show(UnitSystem::Metric), "from 100 m at 40\u{a0}000 kg");
        assert_eq!(phrase.show(UnitSystem::Imperial), "from 328 ft at 88\u{a0}185 lb");
    }

    #[test]
    fn marks_without_amounts_stay() {
        assert_eq!(Phrase::from("a {} b").show(UnitSystem::Metric), "a {} b");
    }
}
