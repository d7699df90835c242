//! The records that a strip's book holds.

use crate::against::{contradictions, happened};
use crate::bounds::out_of_bounds;
use crate::cell::{Cell, ClosureAction, DamagePhase, EquipmentState, MovementKind, SurveyedThing};
use crate::picture::PictureFormat;
use crate::{BookError, Version};
use hardpan_model::Verdict;
use hardpan_quantity::{Length, Mass, Pressure};
use jiff::Timestamp;
use jiff::civil::Date;
use rusqlite::types::Value;
use std::collections::BTreeMap;

/// Values of a record by name, as text with units.
pub type Fields = BTreeMap<String, String>;

macro_rules! records {
    ($($(#[$doc:meta])* $kind:ident, $name:ident, $word:literal {
        $($(#[$field_doc:meta])* $field:ident: $type:ty, $column:literal;)*
    })+) => {
        $($(#[$doc])*
        #[derive(Debug, Clone, PartialEq)]
        pub struct $name {
            $($(#[$field_doc])* pub $field: $type,)*
        })+

        /// Kind of a record, which is also the table that holds it.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
        pub enum Kind {
            $($(#[$doc])* $kind,)+
        }

        /// One record.
        #[derive(Debug, Clone, PartialEq)]
        pub enum Record {
            $($(#[$doc])* $kind($name),)+
        }

        impl Kind {
            /// Every kind, in the order of the tables.
            pub const ALL: &[Self] = &[$(Self::$kind,)+];

            /// The word for it.
            #[must_use]
            pub const fn word(self) -> &'static str {
                match self { $(Self::$kind => $word,)+ }
            }

            /// Names of its values.
            #[must_use]
            pub const fn fields(self) -> &'static [&'static str] {
                match self { $(Self::$kind => &[$(stringify!($field),)*],)+ }
            }

            /// Headings of its columns: the names with the SI unit, if there is one.
            #[must_use]
            pub const fn columns(self) -> &'static [&'static str] {
                match self { $(Self::$kind => &[$($column,)*],)+ }
            }
        }

        impl Record {
            /// Its kind.
            #[must_use]
            pub const fn kind(&self) -> Kind {
                match self { $(Self::$kind(_) => Kind::$kind,)+ }
            }

            /// Its values as text with units; what is not stated is left out.
            #[must_use]
            pub fn fields(&self) -> Fields {
                let mut fields = Fields::new();
                let mut put = |name: &str, text: Option<String>| {
                    text.map(|text| fields.insert(name.to_owned(), text));
                };
                match self {
                    $(Self::$kind(_record) => {
                        $(put(stringify!($field), _record.$field.write());)*
                    })+
                }
                fields
            }

            pub(crate) fn store(&self) -> Vec<Value> {
                match self {
                    $(Self::$kind(_record) => vec![$(_record.$field.store(),)*],)+
                }
            }

            pub(crate) fn restore(kind: Kind, values: Vec<Value>) -> Result<Self, String> {
                let mut values = values.into_iter();
                let mut _next = || values.next().unwrap_or(Value::Null);
                Ok(match kind {
                    $(Kind::$kind => Self::$kind($name {
                        $($field: Cell::restore(_next())
                            .map_err(|what| format!("{}: {what}", $column))?,)*
                    }),)+
                })
            }

            /// The record, unless a value of it cannot be read; each that cannot is
            /// told.
            fn read(kind: Kind, fields: &Fields, wrong: &mut Vec<BookError>) -> Option<Self> {
                let _text = |name: &str| fields.get(name).map(String::as_str);
                Some(match kind {
                    $(Kind::$kind => {
                        $(let $field = Cell::read(_text(stringify!($field)))
                            .map_err(|what| {
                                let field = stringify!($field);
                                wrong.push(BookError::Value { kind, field, what });
                            })
                            .ok();)*
                        Self::$kind($name { $($field: $field?,)* })
                    })+
                })
            }
        }
    };
}

records! {
    /// A landing or a take-off.
    Movement, Movement, "movement" {
        /// Which strip.
        strip: String, "strip";
        /// Registration of the aeroplane.
        tail: String, "tail";
        /// Landing or take-off.
        kind: MovementKind, "kind";
        /// When.
        at: Timestamp, "at";
        /// Mass of the aeroplane.
        mass: Mass, "mass_kg";
        /// Main tyre pressure.
        pressure: Option<Pressure>, "pressure_pa";
        /// Runway designator used.
        direction: Option<String>, "direction";
        /// One end of the stretch that its wheels rolled over, backtrack included;
        /// the whole strip where it is not stated.
        rolled_from: Option<Length>, "rolled_from_m";
        /// The other end.
        rolled_to: Option<Length>, "rolled_to_m";
        /// In words.
        remarks: Option<String>, "remarks";
    }
    /// An inspection of a strip. A depth of zero says that none was found.
    Inspection, Inspection, "inspection" {
        /// Which strip.
        strip: String, "strip";
        /// When.
        at: Timestamp, "at";
        /// Deepest rut.
        rut: Length, "rut_m";
        /// Station of the deepest rut.
        rut_station: Option<Length>, "rut_station_m";
        /// Lane of the deepest rut.
        rut_lane: Option<String>, "rut_lane";
        /// Greatest depth of loose material, if measured.
        loose: Option<Length>, "loose_m";
        /// Its station.
        loose_station: Option<Length>, "loose_station_m";
        /// Greatest depth of standing water.
        water: Length, "water_m";
        /// Its station.
        water_station: Option<Length>, "water_station_m";
        /// Names of its photographs.
        photos: Option<String>, "photos";
        /// In words.
        remarks: Option<String>, "remarks";
    }
    /// Damage to an aeroplane.
    Damage, Damage, "damage" {
        /// Registration of the aeroplane.
        tail: String, "tail";
        /// Which strip.
        strip: String, "strip";
        /// Day on which it was done.
        date: Date, "date";
        /// Where on the aeroplane.
        zone: String, "zone";
        /// Phase in which it was done.
        phase: DamagePhase, "phase";
        /// Its greatest extent.
        size: Option<Length>, "size_m";
        /// Size of the stone, if found.
        stone: Option<Length>, "stone_m";
        /// Station at which it was done, if known.
        station: Option<Length>, "station_m";
        /// Names of its photographs.
        photos: Option<String>, "photos";
        /// In words.
        remarks: Option<String>, "remarks";
    }
    /// A repair of a stretch.
    Repair, Repair, "repair" {
        /// Which strip.
        strip: String, "strip";
        /// Day on which it was done.
        date: Date, "date";
        /// First station.
        from: Length, "from_m";
        /// Last station.
        to: Length, "to_m";
        /// What was done.
        what: String, "what";
    }
    /// A closure or a reopening.
    Closure, Closure, "closure" {
        /// Which strip.
        strip: String, "strip";
        /// Closed or reopened.
        action: ClosureAction, "action";
        /// From when on.
        from: Timestamp, "from_time";
        /// Why.
        reason: String, "reason";
    }
    /// An assessment as it was made, frozen.
    Assessment, AssessmentRecord, "assessment" {
        /// Name of the flight.
        flight: String, "flight";
        /// Which strip.
        strip: String, "strip";
        /// Registration of the aeroplane.
        tail: String, "tail";
        /// When it was made.
        at: Timestamp, "at";
        /// The verdict of the whole.
        verdict: Verdict, "verdict";
        /// Digest of the files that it was made from.
        identifier: String, "identifier";
        /// All of it, as JSON text.
        json: String, "json";
        /// Program and version.
        program: String, "program";
        /// The files that it was made from, as JSON text; see `docs/book.md`.
        inputs: Option<String>, "inputs";
        /// Digests of the versions of its aeroplane, strip, day and flight, as JSON
        /// text.
        versions: Option<String>, "versions";
    }
    /// State of one piece of equipment of an aeroplane.
    Equipment, Equipment, "equipment" {
        /// Registration of the aeroplane.
        tail: String, "tail";
        /// Which piece, in the words of the aeroplane file.
        item: String, "item";
        /// Its state.
        state: EquipmentState, "state";
        /// When it was found or brought into that state.
        at: Timestamp, "at";
        /// Day by which it must be looked at again.
        due: Option<Date>, "due";
        /// In words.
        remarks: Option<String>, "remarks";
    }
    /// A survey or a set of tests of a strip, in one version.
    Survey, Survey, "survey" {
        /// Which strip.
        strip: String, "strip";
        /// What was measured.
        what: SurveyedThing, "what";
        /// Day on which it was measured.
        date: Date, "date";
        /// File that holds it.
        file: String, "file";
        /// SHA-256 of the file, in hexadecimal digits.
        digest: Option<String>, "sha256";
        /// Day by which it must be measured again.
        due: Option<Date>, "due";
        /// In words.
        remarks: Option<String>, "remarks";
    }
    /// An aeroplane as its file had it, in one version.
    Aeroplane, AeroplaneVersion, "aeroplane" {
        /// Registration or name of the aeroplane.
        tail: String, "tail";
        /// The file that was read.
        file: String, "file";
        /// SHA-256 over the list of its files with their digests.
        digest: String, "sha256";
        /// The file and those that it names, as JSON text.
        files: String, "files";
    }
    /// A strip as its file had it, with its survey and soundings, in one version.
    Strip, StripVersion, "strip" {
        /// Which strip.
        strip: String, "strip";
        /// The file that was read.
        file: String, "file";
        /// SHA-256 over the list of its files with their digests.
        digest: String, "sha256";
        /// The file and those that it names, as JSON text.
        files: String, "files";
    }
    /// A day as its file had it, in one version.
    Day, DayVersion, "day" {
        /// Its date, or its name.
        day: String, "day";
        /// The strip, where it was kept with a flight.
        strip: Option<String>, "strip";
        /// The file that was read.
        file: String, "file";
        /// SHA-256 over the list of its files with their digests.
        digest: String, "sha256";
        /// The file and those that it names, as JSON text.
        files: String, "files";
    }
    /// A flight as its file had it, in one version.
    Flight, FlightVersion, "flight" {
        /// Name of the flight.
        flight: String, "flight";
        /// Which strip.
        strip: Option<String>, "strip";
        /// Registration or name of the aeroplane.
        tail: Option<String>, "tail";
        /// The file that was read.
        file: String, "file";
        /// SHA-256 over the list of its files with their digests.
        digest: String, "sha256";
        /// The file and those that it names, as JSON text.
        files: String, "files";
    }
    /// A picture of what an entry records; its bytes stand beside it by their digest.
    Picture, Picture, "picture" {
        /// Which strip.
        strip: String, "strip";
        /// Number of the entry that it shows something of.
        of_entry: i64, "of_entry";
        /// What it shows, for who cannot see it.
        shown: String, "shown";
        /// Name under which it was handed in.
        file: Option<String>, "file";
        /// How its bytes are written.
        format: PictureFormat, "format";
        /// Picture elements from left to right.
        width: i64, "width_px";
        /// Picture elements from top to bottom.
        height: i64, "height_px";
        /// Number of its bytes.
        bytes: i64, "bytes";
        /// SHA-256 of its bytes, in hexadecimal digits.
        digest: String, "sha256";
    }
    /// An entry taken back without another in its place.
    Withdrawal, Withdrawal, "withdrawal" {}
}

/// Values by which records find each other.
const NAMES: [&str; 7] = ["strip", "tail", "item", "direction", "rut_lane", "flight", "day"];

/// Texts in the writer's own words.
pub(crate) const FREE_TEXTS: [&str; 6] = ["remarks", "what", "reason", "photos", "zone", "shown"];

fn is_spaced_name(fields: &Fields, name: &str) -> bool {
    NAMES.contains(&name) && fields.get(name).is_some_and(|text| text.trim() != text)
}

/// Whether a record is to stand, or was superseded before it was taken over.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Standing {
    Stands,
    Superseded,
}

impl std::fmt::Display for Kind {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(self.word())
    }
}

impl Kind {
    /// The kind of a word.
    #[must_use]
    pub fn of_word(word: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|kind| kind.word() == word)
    }

    /// One of it, in words.
    #[must_use]
    pub fn with_article(self) -> String {
        match (self, self.word()) {
            (Self::Damage | Self::Equipment, word) => word.to_owned(),
            (_, word) if word.starts_with(['a', 'e', 'i', 'o', 'u']) => format!("an {word}"),
            (_, word) => format!("a {word}"),
        }
    }
}

impl Record {
    /// A record of values that are text with units.
    ///
    /// # Errors
    /// [`BookError::NoSuchField`] and [`BookError::Value`]: a name that the kind
    /// does not have, a value that is missing, cannot be read, is out of range,
    /// or contradicts another.
    pub fn from_fields(kind: Kind, fields: &Fields) -> Result<Self, BookError> {
        let mut wrong = Vec::new();
        let record = Self::of_fields(kind, fields, &mut wrong);
        match wrong.into_iter().next() {
            Some(first) => Err(first),
            None => record.ok_or(BookError::NotSaid { what: "every value" }),
        }
    }

    /// As [`Record::from_fields`] for what is recorded at a moment, which what happened
    /// must not lie ahead of.
    ///
    /// # Errors
    /// Everything that stands in its way, in the order of the values.
    pub fn from_fields_at(
        kind: Kind,
        fields: &Fields,
        at: Timestamp,
    ) -> Result<Self, Vec<BookError>> {
        Self::read_at(kind, fields, at, Standing::Stands)
    }

    pub(crate) fn read_at(
        kind: Kind,
        fields: &Fields,
        at: Timestamp,
        standing: Standing,
    ) -> Result<Self, Vec<BookError>> {
        let mut wrong = Vec::new();
        let record = Self::read_as(kind, fields, standing, &mut wrong);
        if let Some((field, happened)) = happened(kind, fields).filter(|(_, one)| *one > at) {
            let what = format!("{happened} lies ahead of the time of recording, {at}");
            wrong.push(BookError::Value { kind, field, what });
        }
        match record {
            Some(record) if wrong.is_empty() => Ok(record),
            None if wrong.is_empty() => Err(vec![BookError::NotSaid { what: "every value" }]),
            _ => Err(wrong),
        }
    }

    /// As [`Record::from_fields`]; everything that stands in its way is told.
    pub(crate) fn of_fields(
        kind: Kind,
        fields: &Fields,
        wrong: &mut Vec<BookError>,
    ) -> Option<Self> {
        Self::read_as(kind, fields, Standing::Stands, wrong)
    }

    /// The same; what was superseded long ago may lie outside all bounds.
    pub(crate) fn read_as(
        kind: Kind,
        fields: &Fields,
        standing: Standing,
        wrong: &mut Vec<BookError>,
    ) -> Option<Self> {
        let before = wrong.len();
        let unknown = fields.keys().filter(|name| !kind.fields().contains(&name.as_str()));
        wrong.extend(unknown.map(|field| {
            let known = kind.fields().to_vec();
            BookError::NoSuchField { kind, field: field.clone(), known }
        }));
        let record = Self::read(kind, fields, wrong);
        let spaced = kind.fields().iter().filter(|name| is_spaced_name(fields, name));
        wrong.extend(spaced.map(|field| {
            let what = "begins or ends with a space, and names must be the same everywhere";
            BookError::Value { kind, field, what: what.to_owned() }
        }));
        let of_version = record.as_ref().and_then(Self::contradiction);
        let bounded = match standing {
            Standing::Stands => out_of_bounds(kind, fields),
            Standing::Superseded => Vec::new(),
        };
        let against = contradictions(kind, fields).into_iter().chain(of_version).chain(bounded);
        wrong.extend(against.map(|(field, what)| BookError::Value { kind, field, what }));
        record.filter(|_| wrong.len() == before)
    }

    /// The strip that it is about.
    #[must_use]
    pub fn strip(&self) -> Option<&str> {
        match self {
            Self::Movement(one) => Some(&one.strip),
            Self::Inspection(one) => Some(&one.strip),
            Self::Damage(one) => Some(&one.strip),
            Self::Repair(one) => Some(&one.strip),
            Self::Closure(one) => Some(&one.strip),
            Self::Assessment(one) => Some(&one.strip),
            Self::Survey(one) => Some(&one.strip),
            Self::Picture(one) => Some(&one.strip),
            Self::Strip(one) => Some(&one.strip),
            Self::Day(one) => one.strip.as_deref(),
            Self::Flight(one) => one.strip.as_deref(),
            Self::Equipment(_) | Self::Aeroplane(_) | Self::Withdrawal(_) => None,
        }
    }

    /// The aeroplane that it is about, by registration or name.
    #[must_use]
    pub fn tail(&self) -> Option<&str> {
        match self {
            Self::Movement(one) => Some(&one.tail),
            Self::Damage(one) => Some(&one.tail),
            Self::Assessment(one) => Some(&one.tail),
            Self::Equipment(one) => Some(&one.tail),
            Self::Aeroplane(one) => Some(&one.tail),
            Self::Flight(one) => one.tail.as_deref(),
            _ => None,
        }
    }

    /// What stands against a version that was read.
    fn contradiction(&self) -> Option<(&'static str, String)> {
        Version::of(self).and_then(|version| version.contradiction())
    }
}
