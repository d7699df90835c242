//! Cells that hold a word or a date.

use crate::diagnose::mistake::Mistake;
use crate::diagnose::nearest::{list, nearest};
use crate::diagnose::page::shortened;
use crate::rows::Row;
use crate::table::moments::{date_of, plausible as plausible_date};
use jiff::civil::Date;

impl Row<'_> {
    /// The date of a cell; an empty cell is an unknown date.
    pub(crate) fn date(&self, column: usize) -> Option<Option<Date>> {
        let Some(cell) = self.text(column) else {
            return Some(None);
        };
        let date = date_of(cell).filter(|date| plausible_date(*date));
        if date.is_none() {
            self.report_cell(column, &Mistake::NotADate { key: self.name(column) });
        }
        date.map(Some)
    }

    /// One of the words that a cell may hold.
    pub(crate) fn word<T: Copy>(&self, column: usize, words: &[(&'static str, T)]) -> Option<T> {
        let known: Vec<&str> = words.iter().map(|(word, _)| *word).collect();
        self.one_of(column, words, format!("write one of {}", list(&known)))
    }

    /// The same for a cell that is as a rule left empty.
    pub(crate) fn word_or_nothing<T: Copy>(
        &self,
        column: usize,
        words: &[(&'static str, T)],
    ) -> Option<T> {
        let advice = "leave it empty; remarks stand in lines that start with #";
        self.one_of(column, words, advice.to_owned())
    }

    fn one_of<T: Copy>(
        &self,
        column: usize,
        words: &[(&'static str, T)],
        otherwise: String,
    ) -> Option<T> {
        let cell = self.text(column)?;
        let squeezed = cell.split_whitespace().collect::<Vec<_>>().join(" ");
        if let Some((_, value)) = words.iter().find(|(word, _)| *word == squeezed) {
            return Some(*value);
        }
        let known: Vec<&str> = words.iter().map(|(word, _)| *word).collect();
        let advice = match nearest(cell, known.iter().copied()) {
            Some(near) => format!("write `{near}`, if that is what is meant"),
            None => otherwise,
        };
        let mistake = Mistake::UnknownWord {
            key: self.name(column),
            word: shortened(cell),
            words: list(&known),
            advice,
        };
        self.report_cell(column, &mistake);
        None
    }
}
