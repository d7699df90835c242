//! A weather report, METAR or SPECI: wind, temperature and altimeter setting
//! with their places. Other groups are read past; a group that is not
//! understood is named.

mod groups;

use crate::diagnose::mistake::Mistake;
use crate::diagnose::page::{Page, shortened};
use crate::metar::groups::Reported;
use hardpan_model::{Given, Wind};
use hardpan_quantity::{Amount, Pressure, Quantity, Temperature, UnitSystem};
use std::ops::Range;
use std::sync::Arc;

const WIND_FORM: &str = "direction, speed, gust and unit, like 27025G40KT or VRB03KT";
const TEMPERATURE_FORM: &str = "temperature and dew point in whole degrees, like 14/09 or M02/M05";
const PRESSURE_FORM: &str = "an altimeter setting like Q0998 or A2992";
const TIME_FORM: &str = "day, hour and minute in UTC, like 251200Z";
const STATION_FORM: &str = "the four letters of the station";
/// Longest report that is read, in bytes.
const LONGEST: usize = 2000;
/// Temperatures of body and remarks agree within the rounding of both.
const ROUNDING_K: f64 = 0.6;

/// One weather report. The day is a day of the month without month and year.
#[derive(Debug, Clone, PartialEq)]
pub struct WeatherReport {
    /// Place of issue.
    pub station: Given<String>,
    /// Day of the month, UTC.
    pub day: u8,
    /// Hour, UTC.
    pub hour: u8,
    /// Minute.
    pub minute: u8,
    /// Whether no observer was there.
    pub automatic: bool,
    /// Wind, true directions.
    pub wind: Option<Given<Wind>>,
    /// Outside air temperature.
    pub temperature: Option<Given<Temperature>>,
    /// Altimeter setting, reduced to sea level.
    pub sea_level_pressure: Option<Given<Pressure>>,
    /// The first group that has something fall at the place, such as `+RA`.
    pub precipitation: Option<Given<String>>,
}

/// Where the text of a report stands in its file.
pub(crate) struct ReportText<'t> {
    pub(crate) text: &'t str,
    /// Bytes of the value with its quotes, or of the text itself.
    pub(crate) whole: Range<usize>,
    /// Key under which it stands.
    pub(crate) key: String,
    pub(crate) source: Option<Arc<str>>,
}

struct Word<'t> {
    text: &'t str,
    span: Range<usize>,
}

struct Reader<'r> {
    page: &'r Page<'r>,
    key: &'r str,
    source: Arc<str>,
    wind: Option<Given<Wind>>,
    temperature: Option<Given<Temperature>>,
    pressure: Option<Given<Pressure>>,
    precipitation: Option<Given<String>>,
    seen: [bool; 3],
}

/// Read one report; nothing when its head is not that of a report.
pub(crate) fn report(page: &Page<'_>, text: &ReportText<'_>) -> Option<WeatherReport> {
    if text.text.len() > LONGEST {
        let mistake = Mistake::ReportTooLong { length: text.text.len(), limit: LONGEST };
        page.report(text.whole.start..text.whole.start, &mistake);
        return None;
    }
    let words = words(page, text);
    let mut rest = words.iter();
    let mut next = rest.next();
    if next.is_some_and(|word| matches!(word.text, "METAR" | "SPECI")) {
        next = rest.next();
    }
    if next.is_some_and(|word| word.text == "COR") {
        next = rest.next();
    }
    let end = text.whole.end.saturating_sub(1).max(text.whole.start);
    let station = head(page, next, end, "station", STATION_FORM, |word| {
        groups::is_station(word).then_some(())
    })?;
    let next = rest.next();
    let (day, hour, minute) = head(page, next, end, "time", TIME_FORM, groups::time)?.1;
    let body: Vec<&Word<'_>> = rest.collect();
    let name = format!("weather report {} {day:02}{hour:02}{minute:02}Z", station.0.text);
    let source: Arc<str> = match &text.source {
        Some(source) => format!("{source}; {name}").into(),
        None => name.into(),
    };
    let given = |value: String| {
        let origin = page.origin(station.0.span.start, &text.key);
        Given { value, origin, source: Some(Arc::clone(&source)) }
    };
    let station = given(station.0.text.to_owned());
    let automatic = body.iter().any(|word| word.text == "AUTO");
    let mut reader = Reader {
        page,
        key: &text.key,
        source: Arc::clone(&source),
        wind: None,
        temperature: None,
        pressure: None,
        precipitation: None,
        seen: [false; 3],
    };
    reader.body(&body);
    reader.remarks(&body);
    reader.missing(&text.whole);
    let Reader { wind, temperature, pressure, precipitation, .. } = reader;
    Some(WeatherReport {
        station,
        day,
        hour,
        minute,
        automatic,
        wind,
        temperature,
        sea_level_pressure: pressure,
        precipitation,
    })
}

/// The words of a report up to its end mark, with their places in the file.
fn words<'t>(page: &Page<'_>, text: &ReportText<'t>) -> Vec<Word<'t>> {
    let mut words = Vec::new();
    let mut ended = false;
    let mut at = 0;
    for word in text.text.split_inclusive(char::is_whitespace) {
        let start = at;
        at += word.len();
        let word = word.trim_end();
        if word.is_empty() {
            continue;
        }
        let span = page.within(&text.whole, text.text, start..start + word.len());
        let again = matches!(word, "METAR" | "SPECI") && !words.is_empty();
        if ended || again {
            page.report(span, &Mistake::SeveralReports {});
            break;
        }
        let bare = word.trim_end_matches('=');
        ended = bare.len() < word.len();
        if !bare.is_empty() {
            words.push(Word {
                text: bare,
                span: span.start..span.end.saturating_sub(word.len() - bare.len()).max(span.start),
            });
        }
    }
    words
}

fn head<'w, 't, T>(
    page: &Page<'_>,
    word: Option<&'w Word<'t>>,
    end: usize,
    group: &str,
    form: &str,
    read: impl Fn(&str) -> Option<T>,
) -> Option<(&'w Word<'t>, T)> {
    let (group, form) = (group.to_owned(), form.to_owned());
    let Some(word) = word else {
        page.report(end..end, &Mistake::GroupMissing { group, form });
        return None;
    };
    let value = read(word.text);
    if value.is_none() {
        let why = format!("`{}` stands in its place", shortened(word.text));
        page.report(word.span.clone(), &Mistake::GroupBad { group, why, form });
    }
    Some((word, value?))
}

impl Reader<'_> {
    /// Groups up to the trend or the remarks, which say nothing of now.
    fn body(&mut self, words: &[&Word<'_>]) {
        for word in words {
            match word.text {
                "RMK" | "BECMG" | "TEMPO" => break,
                "AUTO" | "COR" => {}
                "NIL" => {
                    self.page.report(word.span.clone(), &Mistake::NilReport {});
                    self.seen = [true; 3];
                }
                text if groups::is_like_wind(text) => self.wind(word),
                text if text.len() == 7 && text.as_bytes().get(3) == Some(&b'V') => {
                    self.variation(word)
                }
                text if groups::falls(text) => {
                    let given = self.given(word, text.to_owned());
                    self.precipitation.get_or_insert(given);
                }
                text if groups::is_passed_over(text) => {}
                text if groups::is_like_temperature(text) => self.temperature(word),
                text if groups::is_like_pressure(text) => self.pressure(word),
                text => self
                    .page
                    .report(word.span.clone(), &Mistake::GroupUnknown { group: shortened(text) }),
            }
        }
    }

    fn given<T>(&self, word: &Word<'_>, value: T) -> Given<T> {
        let origin = self.page.origin(word.span.start, self.key);
        Given { value, origin, source: Some(Arc::clone(&self.source)) }
    }

    /// Whether this is the first group of its kind; a second one is a mistake.
    fn first(&mut self, kind: usize, word: &Word<'_>, group: &str, form: &str) -> bool {
        let Some(seen) = self.seen.get_mut(kind) else {
            return false;
        };
        let first = !std::mem::replace(seen, true);
        if !first {
            self.bad(word, group, "it stands twice", form);
        }
        first
    }

    fn bad(&self, word: &Word<'_>, group: &str, why: &str, form: &str) {
        let (group, why, form) = (group.to_owned(), why.to_owned(), form.to_owned());
        self.page.report(word.span.clone(), &Mistake::GroupBad { group, why, form });
    }

    fn wind(&mut self, word: &Word<'_>) {
        if !self.first(0, word, "wind", WIND_FORM) {
            return;
        }
        match groups::wind(word.text) {
            Ok(Reported::Value(wind)) if crate::table::plausible::WIND.hold(wind.speed.si()) => {
                self.wind = Some(self.given(word, wind));
            }
            Ok(Reported::Value(_)) => self.bad(word, "wind", "no wind is like that", WIND_FORM),
            Ok(Reported::Missing) => self.not_reported(word.span.clone(), "wind"),
            Err(why) => self.bad(word, "wind", why, WIND_FORM),
        }
    }

    fn variation(&mut self, word: &Word<'_>) {
        match (groups::variation(word.text), &mut self.wind) {
            (Some(between), Some(wind)) => wind.value.between = Some(between),
            _ => self.bad(
                word,
                "varying direction",
                "it is not two directions after a wind",
                "like 350V060",
            ),
        }
    }

    fn temperature(&mut self, word: &Word<'_>) {
        if !self.first(1, word, "temperature", TEMPERATURE_FORM) {
            return;
        }
        match groups::temperature(word.text) {
            Some(Reported::Value(air)) if crate::table::plausible::TEMPERATURE.hold(air.si()) => {
                self.temperature = Some(self.given(word, air));
            }
            Some(Reported::Value(_)) => {
                self.bad(word, "temperature", "no air is like that", TEMPERATURE_FORM)
            }
            Some(Reported::Missing) => self.not_reported(word.span.clone(), "temperature"),
            None => self.bad(word, "temperature", "it is not two temperatures", TEMPERATURE_FORM),
        }
    }

    fn pressure(&mut self, word: &Word<'_>) {
        if self.pressure.is_some() {
            return;
        }
        self.seen[2] = true;
        match groups::pressure(word.text) {
            Ok(Reported::Value(pressure)) => self.pressure = Some(self.given(word, pressure)),
            Ok(Reported::Missing) => self.not_reported(word.span.clone(), "sea_level_pressure"),
            Err(why) => self.bad(word, "pressure", why, PRESSURE_FORM),
        }
    }

    /// Tenths of a degree from the remarks take the place of whole degrees.
    fn remarks(&mut self, words: &[&Word<'_>]) {
        let remarks = words.iter().skip_while(|word| word.text != "RMK");
        let Some((word, exact)) =
            remarks.filter_map(|word| Some((word, groups::tenths(word.text)?))).next()
        else {
            return;
        };
        if let Some(body) = &self.temperature
            && (body.value.si() - exact.si()).abs() > ROUNDING_K
        {
            let show = |value| Amount::from(value).show(UnitSystem::Metric);
            let mistake =
                Mistake::TemperaturesApart { body: show(body.value), remark: show(exact) };
            self.page.report(word.span.clone(), &mistake);
            if body.value.si() > exact.si() {
                return;
            }
        }
        if crate::table::plausible::TEMPERATURE.hold(exact.si()) {
            self.temperature = Some(self.given(word, exact));
        }
    }

    fn not_reported(&self, span: Range<usize>, what: &str) {
        self.page.report(span, &Mistake::NotReported { what: what.to_owned() });
    }

    fn missing(&self, whole: &Range<usize>) {
        for (seen, what) in self.seen.iter().zip(["wind", "temperature", "sea_level_pressure"]) {
            let given = what == "temperature" && self.temperature.is_some();
            if !seen && !given {
                self.not_reported(whole.clone(), what);
            }
        }
    }
}
