//! Dates and times of a table.

use crate::diagnose::mistake::Mistake;
use crate::diagnose::page::shortened;
use crate::table::cursor::{Entry, Table};
use crate::table::plausible::YEARS;
use hardpan_model::Given;
use jiff::ToSpan;
use jiff::civil::{Date, DateTime, Time};
use toml::de::DeValue;
use toml::value::{Datetime, Offset};

impl Table<'_> {
    /// A date, as a TOML date or in quotes.
    pub(crate) fn date(&mut self, key: &'static str) -> Option<Given<Date>> {
        let entry = self.entry(key)?;
        let date = match entry.value {
            DeValue::Datetime(Datetime { date: Some(date), time: None, offset: None }) => {
                civil_date(date.year, date.month, date.day)
            }
            DeValue::String(text) => date_of(text.trim()),
            _ => None,
        };
        let Some(date) = date else {
            self.page().report(entry.span.clone(), &Mistake::NotADate { key: entry.path.clone() });
            return None;
        };
        if !plausible(date) {
            let value = shortened(self.page().text.get(entry.span.clone()).unwrap_or(""));
            let (low, high) = (YEARS.0.to_string(), YEARS.1.to_string());
            let mistake = Mistake::OutOfRange { key: entry.path.clone(), value, low, high };
            self.page().report(entry.span.clone(), &mistake);
            return None;
        }
        Some(self.given(&entry, date))
    }

    /// A moment in UTC: a time alone is taken on `day`.
    pub(crate) fn moment(
        &mut self,
        key: &'static str,
        day: Option<Date>,
    ) -> Option<Given<DateTime>> {
        let entry = self.entry(key)?;
        let read = match entry.value {
            DeValue::Datetime(moment) => moment_of_toml(moment),
            DeValue::String(text) => moment_of_text(text.trim()),
            _ => None,
        };
        match (read, day) {
            (Some(Moment::Full(moment)), _) => Some(self.given(&entry, moment)),
            (Some(Moment::Time(time)), Some(day)) => {
                Some(self.given(&entry, day.to_datetime(time)))
            }
            (Some(Moment::Time(_)), None) => {
                self.undated(&entry);
                None
            }
            (None, _) => {
                self.page()
                    .report(entry.span.clone(), &Mistake::NotATime { key: entry.path.clone() });
                None
            }
        }
    }

    fn undated(&self, entry: &Entry<'_>) {
        let what = format!("`{}`", entry.path);
        self.page().report(entry.span.clone(), &Mistake::Undated { what });
    }
}

enum Moment {
    Time(Time),
    Full(DateTime),
}

/// A date written year-month-day, such as `2026-05-01`.
pub(crate) fn date_of(text: &str) -> Option<Date> {
    let mut parts = text.split('-');
    let (year, month, day) = (parts.next()?, parts.next()?, parts.next()?);
    let lengths = [year.len(), month.len(), day.len()] == [4, 2, 2];
    let digits = text.bytes().all(|byte| byte.is_ascii_digit() || byte == b'-');
    if !lengths || !digits || parts.next().is_some() {
        return None;
    }
    civil_date(year.parse().ok()?, month.parse().ok()?, day.parse().ok()?)
}

/// Whether a date lies in the years that files can speak of.
pub(crate) fn plausible(date: Date) -> bool {
    (YEARS.0..=YEARS.1).contains(&date.year())
}

fn civil_date(year: u16, month: u8, day: u8) -> Option<Date> {
    Date::new(i16::try_from(year).ok()?, i8::try_from(month).ok()?, i8::try_from(day).ok()?).ok()
}

fn civil_time(hour: u8, minute: u8, second: u8) -> Option<Time> {
    Time::new(i8::try_from(hour).ok()?, i8::try_from(minute).ok()?, i8::try_from(second).ok()?, 0)
        .ok()
}

/// A TOML date-time with an offset; without one it is not known to be UTC.
fn moment_of_toml(moment: &Datetime) -> Option<Moment> {
    let (date, time) = (moment.date?, moment.time?);
    let date = civil_date(date.year, date.month, date.day).filter(|date| plausible(*date))?;
    let local = date.to_datetime(civil_time(time.hour, time.minute, time.second.unwrap_or(0))?);
    match moment.offset? {
        Offset::Z => Some(Moment::Full(local)),
        Offset::Custom { minutes } => {
            local.checked_sub(i64::from(minutes).minutes()).ok().map(Moment::Full)
        }
    }
}

/// `14:30Z` or `2026-05-01T14:30Z`, with or without seconds.
fn moment_of_text(text: &str) -> Option<Moment> {
    let text = text.strip_suffix(['Z', 'z'])?;
    match text.split_once(['T', ' ']) {
        None => time_of(text).map(Moment::Time),
        Some((date, time)) => {
            let date = date_of(date).filter(|date| plausible(*date))?;
            Some(Moment::Full(date.to_datetime(time_of(time)?)))
        }
    }
}

fn time_of(text: &str) -> Option<Time> {
    if !text.bytes().all(|byte| byte.is_ascii_digit() || byte == b':') {
        return None;
    }
    let mut parts = text.split(':');
    let mut two =
        || parts.next().filter(|part| part.len() == 2).and_then(|part| part.parse::<u8>().ok());
    let (hour, minute) = (two()?, two()?);
    let second = two();
    let whole = text.len() == if second.is_some() { 8 } else { 5 };
    if whole { civil_time(hour, minute, second.unwrap_or(0)) } else { None }
}
