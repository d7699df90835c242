//! The strip judged by itself, before any flight: what its survey and its
//! soundings show, where, against which limits, and what they do not show.

mod build;
mod deviations;
pub mod evenness_shape;
mod facts;
mod findings;
mod lines;
mod places;
mod repairs;
pub mod ride_sheet;
mod sections;
mod strength;
mod summary;

pub use build::{dossier, dossier_of_flight};

use crate::phrase::Phrase;
use evenness_shape::{EdgeShape, IrregularityRow};
use hardpan_model::{Finding, Verdict};
use hardpan_quantity::{Amount, BearingRatio, Length, Ratio, Volume};
use ride_sheet::RideSheet;

/// A part of the dossier, or the reason why the strip's files do not show it.
pub type Shown<T> = Result<T, String>;

/// Everything that is told of a strip without a flight.
#[derive(Debug, Clone, PartialEq)]
pub struct StripDossier {
    /// Name of the strip.
    pub name: String,
    /// Designator at station 0 and at the last station.
    pub designators: (String, String),
    /// Length of the running surface.
    pub length: Option<Length>,
    /// Width of the running surface.
    pub width: Option<Length>,
    /// Worst verdict of the checks on safety.
    pub verdict: Verdict,
    /// The verdict in one sentence.
    pub sentence: String,
    /// What a surveyor says of the strip, most important first.
    pub summary: Vec<Phrase>,
    /// Checks that need no flight, by rule code.
    pub findings: Vec<Finding>,
    /// Code and title of checks that only the assessment of a flight can make.
    pub left_to_flights: Vec<(&'static str, String)>,
    /// The worst places, by falling importance; the first is number 1.
    pub places: Vec<StripPlace>,
    /// What to cut and fill, by rising station.
    pub repairs: Shown<Vec<StripRepair>>,
    /// What each chord and straightedge shows, bumps and ruts apart.
    pub edges: Vec<EdgeShape>,
    /// The table of single irregularities by their length.
    pub irregularities: Shown<Vec<IrregularityRow>>,
    /// The strip as its files describe it.
    pub facts: Vec<StripFact>,
    /// How it was surveyed and sounded.
    pub survey: Vec<StripFact>,
    /// What is missing or would prove more, without repetition.
    pub missing: Vec<(String, String)>,
    /// By survey line, from left to right.
    pub lines: Vec<LineShape>,
    /// Cross-sections along the strip.
    pub sections: Vec<SectionShape>,
    /// Crossfall by station.
    pub crossfall: Vec<CrossfallAt>,
    /// Bumps and ruts from above.
    pub deviations: Shown<DeviationMap>,
    /// Standing water that the shape would hold, by falling depth.
    pub ponds: Shown<Vec<StripPlace>>,
    /// The same from above.
    pub water: Shown<WaterMap>,
    /// How the aeroplane of a flight rides the strip; none without a flight.
    pub ride: Option<Shown<RideSheet>>,
    /// Soundings by station.
    pub soundings: Vec<SoundingColumn>,
    /// Documents behind the limits, each with its place and how sure it is.
    pub sources: Vec<String>,
}

/// A figure or word of the strip and where it comes from.
#[derive(Debug, Clone, PartialEq)]
pub struct StripFact {
    /// What.
    pub label: &'static str,
    /// The value in words.
    pub value: Phrase,
    /// The user's source, or the file; empty for what is counted here.
    pub source: String,
}

/// What makes a place worth naming.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum PlaceKind {
    /// Stands over a chord.
    Bump,
    /// Lies under a chord or straightedge.
    Rut,
    /// A single bump or rut, held against a curve by its length.
    Irregularity,
    /// Short waves in a row.
    Washboard,
    /// Holds water.
    Pond,
    /// Weakest ground.
    Soft,
    /// Thinnest surfacing.
    Thin,
}

impl PlaceKind {
    /// The word people see.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Bump => "bump",
            Self::Rut => "rut",
            Self::Irregularity => "single irregularity",
            Self::Washboard => "washboard",
            Self::Pond => "pond",
            Self::Soft => "soft ground",
            Self::Thin => "thin surfacing",
        }
    }
}

/// One place on the strip.
#[derive(Debug, Clone, PartialEq)]
pub struct StripPlace {
    /// What it is.
    pub kind: PlaceKind,
    /// First station.
    pub from: Length,
    /// Last station.
    pub to: Length,
    /// Station of the worst point.
    pub worst: Length,
    /// Least and greatest offset.
    pub offsets: (Length, Length),
    /// Its figure.
    pub size: Amount,
    /// The limit on that figure, if there is one.
    pub limit: Option<Amount>,
    /// Whether it is over the limit.
    pub over: bool,
    /// What else is known, in words.
    pub words: Phrase,
}

/// One place to mend: the surface brought to the chord that shows it.
#[derive(Debug, Clone, PartialEq)]
pub struct StripRepair {
    /// `cut` or `fill`.
    pub action: &'static str,
    /// First station.
    pub from: Length,
    /// Last station.
    pub to: Length,
    /// Least and greatest offset.
    pub offsets: (Length, Length),
    /// Greatest height to cut or depth to fill.
    pub greatest: Length,
    /// Volume in place, compacted.
    pub volume: Volume,
    /// The chords and straightedges whose limit is passed there.
    pub checks: Vec<String>,
}

/// One survey line.
#[derive(Debug, Clone, PartialEq)]
pub struct LineShape {
    /// Offset.
    pub offset: Length,
    /// Levels by station, thinned where they are many.
    pub levels: Vec<(Length, Length)>,
    /// The design grade under them.
    pub grade: Vec<(Length, Length)>,
    /// Mean roughness index by segments of 100 m.
    pub index: Shown<Vec<IndexSegment>>,
    /// The index of the whole line, of its gapless stretches by their length.
    pub overall_index: Option<Ratio>,
    /// Power spectrum and its class.
    pub spectrum: Shown<LineSpectrum>,
    /// Washboard by station.
    pub washboard: Shown<Vec<StripPlace>>,
    /// Worst single irregularities.
    pub irregularities: Shown<Vec<StripPlace>>,
}

/// Roughness index over a stretch.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct IndexSegment {
    /// First station.
    pub from: Length,
    /// Last station.
    pub to: Length,
    /// The index; 0.1 % is one metre for each kilometre.
    pub index: Ratio,
}

/// Power spectrum of one line.
#[derive(Debug, Clone, PartialEq)]
pub struct LineSpectrum {
    /// Wavelength and displacement density, by falling wavelength.
    pub lines: Vec<(Length, Volume)>,
    /// Density at a wavelength of 10 m of the straight line fitted.
    pub at_ten_metres: Volume,
    /// How fast it falls with wave number.
    pub exponent: f64,
    /// Letter of the class.
    pub class: char,
    /// Wavelengths between which the line is fitted.
    pub fitted: (Length, Length),
}

/// Upper bound of each class at a wavelength of 10 m, with its letter.
#[must_use]
pub fn class_bounds() -> Vec<(char, Volume)> {
    lines::class_bounds()
}

/// One cross-section.
#[derive(Debug, Clone, PartialEq)]
pub struct SectionShape {
    /// Station.
    pub station: Length,
    /// Offset and elevation from left to right.
    pub levels: Vec<(Length, Length)>,
    /// Form in a word, such as `crowned`; none where it cannot be told.
    pub form: Option<&'static str>,
}

/// Crossfall at one station; positive away from the centre.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CrossfallAt {
    /// Station.
    pub station: Length,
    /// From the centre to the left.
    pub left: Option<Ratio>,
    /// From the centre to the right.
    pub right: Option<Ratio>,
    /// From the outermost line on the left to that on the right.
    pub across: Ratio,
}

/// Bumps and ruts from above: how far the ground stands off the middle of a
/// sliding chord, positive above it.
#[derive(Debug, Clone, PartialEq)]
pub struct DeviationMap {
    /// The chord.
    pub chord: Length,
    /// The limit under that chord.
    pub limit: Length,
    /// First station of the first column.
    pub first: Length,
    /// Length of a column.
    pub step: Length,
    /// Rows from left to right.
    pub rows: Vec<MapRow>,
}

/// Depth of water from above.
#[derive(Debug, Clone, PartialEq)]
pub struct WaterMap {
    /// First station of the first column.
    pub first: Length,
    /// Length of a column.
    pub step: Length,
    /// Rows from left to right; none where the ground stands dry.
    pub rows: Vec<MapRow>,
}

/// A row of a map: the band that one survey line, or several, stand for.
#[derive(Debug, Clone, PartialEq)]
pub struct MapRow {
    /// Edges of the band.
    pub band: (Length, Length),
    /// The value of greatest size in each column; none where nothing is known.
    pub cells: Vec<Option<Length>>,
}

/// What one sounding shows.
#[derive(Debug, Clone, PartialEq)]
pub struct SoundingColumn {
    /// Station.
    pub station: Length,
    /// Offset.
    pub offset: Length,
    /// Day of the test, ISO form; empty when not stated.
    pub date: String,
    /// Strata, or why there are none.
    pub strata: Shown<ColumnStrata>,
}

/// The strata of one sounding. Bearing ratios are credited: the mean of the
/// law less its scatter.
#[derive(Debug, Clone, PartialEq)]
pub struct ColumnStrata {
    /// Top, bottom and credited bearing ratio from the surface down.
    pub layers: Vec<(Length, Length, BearingRatio)>,
    /// Thickness of the surfacing; none when its bottom was not met.
    pub surfacing: Option<Length>,
    /// Weakest stratum right under the surfacing or, without one, anywhere.
    pub under: BearingRatio,
    /// Weakest stratum of all.
    pub weakest: BearingRatio,
    /// Depth reached.
    pub known_to: Length,
    /// The cone met refusal there.
    pub refusal: bool,
}
