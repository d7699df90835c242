//! Values of a table by kind: quantities with units, plain numbers, words.

use crate::diagnose::mistake::Mistake;
use crate::diagnose::nearest::{list, nearest};
use crate::diagnose::page::shortened;
use crate::table::cursor::{Entry, Table, type_name};
use crate::table::plausible::Bounds;
use crate::table::unit_advice::{example, in_units_of, number_with_units, unit_mistake, units};
use hardpan_model::Given;
use hardpan_quantity::{Amount, Dimension, Quantity, parse_amount};
use toml::de::DeValue;

impl<'p> Table<'p> {
    /// A quantity with its unit.
    pub(crate) fn quantity<Q: Quantity>(
        &mut self,
        key: &'static str,
        bounds: Bounds,
    ) -> Option<Given<Q>> {
        let amount = self.amount(key, Q::DIMENSION, bounds)?;
        Some(amount.map(|amount| Q::from_si(amount.si)))
    }

    /// A quantity written in the units of another kind that has the same SI unit.
    pub(crate) fn quantity_as<Q: Quantity>(
        &mut self,
        key: &'static str,
        written: Dimension,
        bounds: Bounds,
    ) -> Option<Given<Q>> {
        let amount = self.amount(key, written, bounds)?;
        Some(amount.map(|amount| Q::from_si(amount.si)))
    }

    fn amount(
        &mut self,
        key: &'static str,
        dimension: Dimension,
        bounds: Bounds,
    ) -> Option<Given<Amount>> {
        let entry = self.entry(key)?;
        let amount = self.amount_of(&entry, dimension, bounds)?;
        Some(self.given(&entry, amount))
    }

    /// The amount of an entry that is at hand.
    pub(crate) fn amount_of(
        &self,
        entry: &Entry<'p>,
        dimension: Dimension,
        bounds: Bounds,
    ) -> Option<Amount> {
        let page = self.page();
        match entry.value {
            DeValue::String(text) => match parse_amount(text, dimension) {
                Ok(amount) => self.plausible(entry, amount, bounds),
                Err(error) => {
                    let part = error.span().unwrap_or(0..text.len());
                    let span = page.within(&entry.span, text, part);
                    page.report(span, &unit_mistake(&entry.path, text, dimension, bounds, &error));
                    None
                }
            },
            DeValue::Integer(_) | DeValue::Float(_) => {
                let read = page.text.get(entry.span.clone()).unwrap_or("");
                let mistake = Mistake::NoUnit {
                    key: entry.path.clone(),
                    kind: dimension.with_article(),
                    units: units(dimension),
                    advice: number_with_units(read, dimension, bounds),
                };
                page.report(entry.span.clone(), &mistake);
                None
            }
            other => {
                let wanted = format!("{} with its unit, in quotes", dimension.with_article());
                self.wrong_type(
                    &entry.path,
                    entry.span.clone(),
                    other,
                    &wanted,
                    &example(dimension, bounds),
                );
                None
            }
        }
    }

    fn plausible(&self, entry: &Entry<'p>, amount: Amount, bounds: Bounds) -> Option<Amount> {
        if bounds.hold(amount.si) {
            return Some(amount);
        }
        let value = match entry.value {
            DeValue::String(text) => shortened(text.trim()),
            _ => shortened(self.page().text.get(entry.span.clone()).unwrap_or("")),
        };
        let (low, high) = in_units_of(&value, amount.dimension, bounds);
        let mistake = Mistake::OutOfRange { key: entry.path.clone(), value, low, high };
        self.page().report(entry.span.clone(), &mistake);
        None
    }

    /// A plain number.
    pub(crate) fn coefficient(&mut self, key: &'static str, bounds: Bounds) -> Option<Given<f64>> {
        let entry = self.entry(key)?;
        let value = self.number_of(&entry, bounds)?;
        Some(self.given(&entry, value))
    }

    /// The plain number of an entry that is at hand.
    pub(crate) fn number_of(&self, entry: &Entry<'p>, bounds: Bounds) -> Option<f64> {
        let page = self.page();
        let number = match entry.value {
            DeValue::Integer(digits) => {
                i64::from_str_radix(digits.as_str(), digits.radix()).ok().map(|n| n as f64)
            }
            DeValue::Float(digits) => digits.as_str().parse::<f64>().ok(),
            DeValue::String(text) => {
                let lead: String = text
                    .trim()
                    .chars()
                    .take_while(|c| c.is_ascii_digit() || matches!(c, '.' | '-'))
                    .collect();
                let number = if lead.parse::<f64>().is_ok() { lead } else { "0.04".to_owned() };
                let example = format!("{} = {number}", last_key(&entry.path));
                page.report(
                    entry.span.clone(),
                    &Mistake::UnwantedUnit { key: entry.path.clone(), example },
                );
                return None;
            }
            other => {
                let example = format!("{} = 0.04", last_key(&entry.path));
                self.wrong_type(&entry.path, entry.span.clone(), other, "a plain number", &example);
                return None;
            }
        };
        match number.filter(|number| number.is_finite()) {
            Some(number) => {
                self.plausible(entry, Amount::coefficient(number), bounds).map(|amount| amount.si)
            }
            None => {
                page.report(entry.span.clone(), &Mistake::NotFinite { key: entry.path.clone() });
                None
            }
        }
    }

    /// How many: a whole number within bounds.
    pub(crate) fn count(&mut self, key: &'static str, least: u32, most: u32) -> Option<Given<u32>> {
        let entry = self.entry(key)?;
        let read = match entry.value {
            DeValue::Integer(digits) => i64::from_str_radix(digits.as_str(), digits.radix()).ok(),
            other => {
                let example = format!("{} = {}", last_key(&entry.path), least.max(2));
                self.wrong_type(&entry.path, entry.span.clone(), other, "a whole number", &example);
                return None;
            }
        };
        match read
            .and_then(|number| u32::try_from(number).ok())
            .filter(|n| (least..=most).contains(n))
        {
            Some(number) => Some(self.given(&entry, number)),
            None => {
                let value = shortened(self.page().text.get(entry.span.clone()).unwrap_or(""));
                let (low, high) = (least.to_string(), most.to_string());
                let mistake = Mistake::OutOfRange { key: entry.path.clone(), value, low, high };
                self.page().report(entry.span.clone(), &mistake);
                None
            }
        }
    }

    /// Text.
    pub(crate) fn text(&mut self, key: &'static str) -> Option<Given<String>> {
        let entry = self.entry(key)?;
        match entry.value {
            DeValue::String(text) => Some(self.given(&entry, text.trim().to_owned())),
            other => {
                let read = shortened(self.page().text.get(entry.span.clone()).unwrap_or(""));
                let example = match other {
                    DeValue::Integer(_) | DeValue::Float(_) => format!("\"{read}\""),
                    _ => format!("{} = \"...\"", last_key(&entry.path)),
                };
                self.wrong_type(&entry.path, entry.span.clone(), other, "text in quotes", &example);
                None
            }
        }
    }

    /// True or false.
    pub(crate) fn flag(&mut self, key: &'static str) -> Option<Given<bool>> {
        let entry = self.entry(key)?;
        match entry.value {
            DeValue::Boolean(flag) => Some(self.given(&entry, *flag)),
            other => {
                let example = format!("{} = true, or false", last_key(&entry.path));
                self.wrong_type(&entry.path, entry.span.clone(), other, "true or false", &example);
                None
            }
        }
    }

    /// One of the words of the format.
    pub(crate) fn word<T: Copy>(
        &mut self,
        key: &'static str,
        words: &[(&'static str, T)],
    ) -> Option<Given<T>> {
        let entry = self.entry(key)?;
        let value = self.word_of(&entry, words)?;
        Some(self.given(&entry, value))
    }

    /// The word of an entry that is at hand.
    pub(crate) fn word_of<T: Copy>(
        &self,
        entry: &Entry<'p>,
        words: &[(&'static str, T)],
    ) -> Option<T> {
        let known: Vec<&str> = words.iter().map(|(word, _)| *word).collect();
        let DeValue::String(text) = entry.value else {
            let wanted = format!("one of the words {}", list(&known));
            let example = format!("\"{}\"", known.first().unwrap_or(&""));
            self.wrong_type(&entry.path, entry.span.clone(), entry.value, &wanted, &example);
            return None;
        };
        let found = words.iter().find(|(word, _)| *word == text.trim()).map(|(_, value)| *value);
        if found.is_none() {
            let advice = match nearest(text, known.iter().copied()) {
                Some(word) => format!("write \"{word}\", if that is what is meant"),
                None => format!("write one of {}", list(&known)),
            };
            let mistake = Mistake::UnknownWord {
                key: entry.path.clone(),
                word: shortened(text),
                words: list(&known),
                advice,
            };
            self.page().report(entry.span.clone(), &mistake);
        }
        found
    }

    /// A list of words, or one word alone.
    pub(crate) fn words<T: Copy>(
        &mut self,
        key: &'static str,
        words: &[(&'static str, T)],
    ) -> Vec<T> {
        let Some(entry) = self.entry(key) else {
            return Vec::new();
        };
        let DeValue::Array(array) = entry.value else {
            return self.word_of(&entry, words).into_iter().collect();
        };
        let one = |(index, value): (usize, &'p toml::Spanned<DeValue<'p>>)| {
            let path = format!("{}[{}]", entry.path, index + 1);
            let entry = Entry { path, value: value.get_ref(), span: value.span(), source: None };
            self.word_of(&entry, words)
        };
        array.iter().enumerate().filter_map(one).collect()
    }

    /// A list of tables that may be known to be empty: `"none"`, or entries.
    pub(crate) fn list_or_none<R>(
        &mut self,
        key: &'static str,
        mut read: impl FnMut(&mut Table<'p>) -> Option<R>,
    ) -> Option<Vec<R>> {
        if !self.has(key) {
            self.list(key, read);
            self.page().note_absent(self.path_of(key));
            return None;
        }
        let entry = self.entry(key)?;
        match entry.value {
            DeValue::Array(array) if array.is_empty() => {
                let key = key.to_owned();
                self.page().report(entry.span, &Mistake::EmptyList { key });
                None
            }
            DeValue::Array(_) => Some(self.list(key, &mut read)),
            _ => self.word_of(&entry, &[("none", ())]).map(|()| Vec::new()),
        }
    }

    /// A list of quantities, so many of them.
    pub(crate) fn quantities<Q: Quantity, const N: usize>(
        &mut self,
        key: &'static str,
        bounds: Bounds,
    ) -> Option<Given<[Q; N]>> {
        let entry = self.entry(key)?;
        let values: &[toml::Spanned<DeValue<'p>>] = match entry.value {
            DeValue::Array(array) => array,
            _ => &[],
        };
        if values.len() != N {
            let one = example(Q::DIMENSION, bounds);
            let is = match type_name(entry.value) {
                "a list" => format!("a list of {}", values.len()),
                other => other.to_owned(),
            };
            let mistake = Mistake::WrongType {
                key: entry.path.clone(),
                is,
                wanted: format!("a list of {N} values"),
                example: format!("{} = [{one}, {one}, ...]", last_key(&entry.path)),
            };
            self.page().report(entry.span.clone(), &mistake);
            return None;
        }
        let read = values.iter().map(|value| {
            let (path, span) = (entry.path.clone(), value.span());
            let one = Entry { path, value: value.get_ref(), span, source: None };
            self.amount_of(&one, Q::DIMENSION, bounds).map(|amount| Q::from_si(amount.si))
        });
        let read: Vec<Q> = read.collect::<Vec<_>>().into_iter().collect::<Option<_>>()?;
        Some(self.given(&entry, read.try_into().ok()?))
    }

    /// Two quantities in a list.
    pub(crate) fn pair<Q: Quantity>(
        &mut self,
        key: &'static str,
        bounds: Bounds,
    ) -> Option<(Q, Q)> {
        let entry = self.entry(key)?;
        let both: &[toml::Spanned<DeValue<'p>>] = match entry.value {
            DeValue::Array(array) => array,
            _ => &[],
        };
        let [first, second] = both else {
            let example = format!("{} = [\"220 deg\", \"280 deg\"]", last_key(&entry.path));
            let (span, is) = (entry.span.clone(), type_name(entry.value));
            let is =
                if is == "a list" { format!("a list of {}", both.len()) } else { is.to_owned() };
            let wanted = "a list of two values".to_owned();
            self.page()
                .report(span, &Mistake::WrongType { key: entry.path.clone(), is, wanted, example });
            return None;
        };
        let one = |value: &'p toml::Spanned<DeValue<'p>>| {
            let entry = Entry {
                path: entry.path.clone(),
                value: value.get_ref(),
                span: value.span(),
                source: None,
            };
            self.amount_of(&entry, Q::DIMENSION, bounds).map(|amount| Q::from_si(amount.si))
        };
        one(first).zip(one(second))
    }
}

/// The key without the tables above it.
pub(crate) fn last_key(path: &str) -> &str {
    path.rsplit('.').next().unwrap_or(path)
}
