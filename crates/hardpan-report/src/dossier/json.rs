//! The strip for a program: versioned, in SI units, with its schema.

use super::DossierReport;
use super::evenness_json::{self, EdgeJson, LengthJson};
use super::ride_json::{self, RideJson};
use crate::json::{FindingJson, ProducedJson, Quantity, VerdictJson, finite};
use hardpan_assess::{
    ColumnStrata, LineShape, Shown, SoundingColumn, StripDossier, StripFact, StripPlace,
    StripRepair,
};
use hardpan_quantity::{Quantity as Typed, UnitSystem};
use schemars::JsonSchema;
use serde::Serialize;

/// Name of the format, as it stands in `format`.
pub const DOSSIER_FORMAT: &str = "hardpan-strip";

/// Version of the format, as it stands in `version`. It rises when a key
/// changes its meaning or goes; new keys alone do not raise it.
pub const DOSSIER_VERSION: u32 = 1;

/// The dossier of one unpaved strip, without a flight.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(title = "hardpan strip dossier")]
struct Document {
    /// Always `hardpan-strip`.
    #[schemars(extend("const" = DOSSIER_FORMAT))]
    format: &'static str,
    /// Version of this format.
    #[schemars(extend("const" = DOSSIER_VERSION))]
    version: u32,
    /// What produced the document.
    produced: ProducedJson,
    /// What every reader must know.
    caution: String,
    /// Name of the strip.
    strip: String,
    /// Designators at station 0 and at the last station.
    designators: [String; 2],
    /// Length of the running surface.
    length: Option<Quantity>,
    /// Width of the running surface.
    width: Option<Quantity>,
    /// Worst verdict of the checks on safety.
    verdict: VerdictJson,
    /// The verdict in one sentence.
    sentence: String,
    /// What a surveyor says of it, in metric units.
    summary: Vec<String>,
    /// Checks of the strip alone.
    findings: Vec<FindingJson>,
    /// Checks that only the assessment of a flight can make.
    left_to_flights: Vec<CheckJson>,
    /// The worst places; the first is number 1.
    places: Vec<PlaceJson>,
    /// What to cut and fill, by rising station.
    repairs: Known<RepairJson>,
    /// What each chord and straightedge shows, bumps and ruts apart.
    edges: Vec<EdgeJson>,
    /// The table of single irregularities of paved runways, by length.
    irregularities_by_length: Known<LengthJson>,
    /// The strip as its files describe it.
    facts: Vec<FactJson>,
    /// How it was surveyed and sounded.
    survey: Vec<FactJson>,
    /// What is missing or would show more.
    missing: Vec<MissingJson>,
    /// By survey line, from left to right.
    lines: Vec<LineJson>,
    /// Crossfall by station.
    crossfall: Vec<CrossfallJson>,
    /// Where the shape would hold water.
    ponds: Known<PlaceJson>,
    /// How the aeroplane of a flight rides the strip; null without a flight.
    ride: Option<RideJson>,
    /// Soundings by station.
    soundings: Vec<SoundingJson>,
    /// Documents behind the limits.
    sources: Vec<String>,
}

/// A list, or why it is not known.
#[derive(Debug, Serialize, JsonSchema)]
struct Known<T> {
    /// The list; null when it is not known.
    known: Option<Vec<T>>,
    /// Why it is not known.
    unproven: Option<String>,
}

/// A check.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "CheckLeft")]
struct CheckJson {
    /// Code of the rule.
    code: &'static str,
    /// What it checks.
    title: String,
}

/// A place on the strip.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Place")]
pub(super) struct PlaceJson {
    /// What it is.
    kind: &'static str,
    /// First station, metres.
    from_m: Option<f64>,
    /// Last station, metres.
    to_m: Option<f64>,
    /// Station of the worst point, metres.
    worst_m: Option<f64>,
    /// Least and greatest offset, metres.
    offsets_m: [Option<f64>; 2],
    /// Its figure.
    size: Quantity,
    /// The limit on it.
    limit: Option<Quantity>,
    /// Whether it is over the limit.
    over: bool,
    /// What else is known, in metric units.
    words: String,
}

/// A place to mend.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Repair")]
struct RepairJson {
    /// `cut` or `fill`.
    action: &'static str,
    /// First station, metres.
    from_m: Option<f64>,
    /// Last station, metres.
    to_m: Option<f64>,
    /// Least and greatest offset, metres.
    offsets_m: [Option<f64>; 2],
    /// Greatest height to cut or depth to fill, metres.
    greatest_m: Option<f64>,
    /// Volume in place, compacted, cubic metres.
    volume_m3: Option<f64>,
    /// The chords and straightedges whose limit is passed there.
    checks: Vec<String>,
}

/// A figure or word of the strip.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Fact")]
struct FactJson {
    /// What.
    label: &'static str,
    /// The value in words, in metric units.
    value: String,
    /// Where it comes from.
    source: String,
}

/// Something missing.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Missing")]
struct MissingJson {
    /// What.
    what: String,
    /// How to supply it, or why it is not known.
    how: String,
}

/// One survey line.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Line")]
struct LineJson {
    /// Offset, metres.
    offset_m: Option<f64>,
    /// Roughness index of the whole line, metres for each kilometre.
    roughness_index_overall_m_per_km: Option<f64>,
    /// Roughness index by 100 m.
    roughness_index: Known<IndexJson>,
    /// Class of the power spectrum; null when not known.
    spectrum_class: Option<String>,
    /// Density at a wavelength of 10 m, cubic metres.
    spectrum_at_ten_metres_m3: Option<f64>,
    /// How fast the spectrum falls with wave number.
    spectrum_exponent: Option<f64>,
    /// Why the spectrum is not known.
    spectrum_unproven: Option<String>,
    /// Washboard by station.
    washboard: Known<PlaceJson>,
    /// Worst single irregularities.
    irregularities: Known<PlaceJson>,
}

/// Roughness index over a stretch.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "RoughnessIndex")]
struct IndexJson {
    /// First station, metres.
    from_m: Option<f64>,
    /// Last station, metres.
    to_m: Option<f64>,
    /// Metres for each kilometre.
    index_m_per_km: Option<f64>,
}

/// Crossfall at one station, positive away from the centre.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Crossfall")]
struct CrossfallJson {
    /// Station, metres.
    station_m: Option<f64>,
    /// To the left, as a ratio.
    left: Option<f64>,
    /// To the right, as a ratio.
    right: Option<f64>,
    /// From the outermost line on the left to that on the right.
    across: Option<f64>,
}

/// One sounding with credited bearing ratios.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "SoundingShown")]
struct SoundingJson {
    /// Station, metres.
    station_m: Option<f64>,
    /// Offset, metres.
    offset_m: Option<f64>,
    /// Day of the test.
    date: String,
    /// Thickness of the surfacing, metres; null when its bottom was not met.
    surfacing_m: Option<f64>,
    /// Bearing ratio right under the surfacing, per cent.
    under_percent: Option<f64>,
    /// Bearing ratio of the weakest stratum, per cent.
    weakest_percent: Option<f64>,
    /// Depth reached, metres.
    known_to_m: Option<f64>,
    /// Whether the cone met refusal there.
    refusal: Option<bool>,
    /// Top and bottom in metres and bearing ratio in per cent, from the surface down.
    layers: Vec<[Option<f64>; 3]>,
    /// Why it cannot be used.
    unproven: Option<String>,
}

/// The dossier behind a report, whatever the report's units, as the text of a
/// file with a line feed at its end.
#[must_use]
pub fn dossier_json(report: &DossierReport) -> String {
    let text = serde_json::to_string_pretty(&document(report))
        .expect("the document is made of structs, strings and numbers, which always serialise");
    text + "\n"
}

/// The JSON schema of [`dossier_json`], as the text of a file.
#[must_use]
pub fn dossier_schema() -> String {
    let settings = schemars::generate::SchemaSettings::draft2020_12().for_serialize();
    format!("{:#}\n", settings.into_generator().into_root_schema_for::<Document>().to_value())
}

fn document(report: &DossierReport) -> Document {
    let dossier: &StripDossier = &report.dossier;
    let left = dossier.left_to_flights.iter();
    Document {
        format: DOSSIER_FORMAT,
        version: DOSSIER_VERSION,
        produced: ProducedJson::of(&report.produced),
        caution: report.caution(),
        strip: dossier.name.clone(),
        designators: [dossier.designators.0.clone(), dossier.designators.1.clone()],
        length: dossier.length.map(Quantity::of),
        width: dossier.width.map(Quantity::of),
        verdict: dossier.verdict.into(),
        sentence: dossier.sentence.clone(),
        summary: dossier.summary.iter().map(|said| said.show(UnitSystem::Metric)).collect(),
        findings: dossier.findings.iter().map(FindingJson::new).collect(),
        left_to_flights: left
            .map(|(code, title)| CheckJson { code, title: title.clone() })
            .collect(),
        places: dossier.places.iter().map(place).collect(),
        repairs: known(&dossier.repairs, repair),
        edges: evenness_json::edges(dossier),
        irregularities_by_length: known(&dossier.irregularities, evenness_json::length),
        facts: dossier.facts.iter().map(fact).collect(),
        survey: dossier.survey.iter().map(fact).collect(),
        missing: dossier
            .missing
            .iter()
            .map(|(what, how)| MissingJson { what: what.clone(), how: how.clone() })
            .collect(),
        lines: dossier.lines.iter().map(line).collect(),
        crossfall: dossier
            .crossfall
            .iter()
            .map(|fall| CrossfallJson {
                station_m: number(fall.station),
                left: fall.left.and_then(number),
                right: fall.right.and_then(number),
                across: number(fall.across),
            })
            .collect(),
        ponds: known(&dossier.ponds, place),
        ride: ride_json::of(dossier),
        soundings: dossier.soundings.iter().map(sounding).collect(),
        sources: dossier.sources.clone(),
    }
}

fn number<Q: Typed>(quantity: Q) -> Option<f64> {
    finite(quantity.si())
}

fn known<A, B>(shown: &Shown<Vec<A>>, each: impl Fn(&A) -> B) -> Known<B> {
    match shown {
        Ok(all) => Known { known: Some(all.iter().map(each).collect()), unproven: None },
        Err(why) => Known { known: None, unproven: Some(why.clone()) },
    }
}

pub(super) fn place(place: &StripPlace) -> PlaceJson {
    PlaceJson {
        kind: place.kind.word(),
        from_m: number(place.from),
        to_m: number(place.to),
        worst_m: number(place.worst),
        offsets_m: [number(place.offsets.0), number(place.offsets.1)],
        size: Quantity::new(place.size),
        limit: place.limit.map(Quantity::new),
        over: place.over,
        words: place.words.show(UnitSystem::Metric),
    }
}

fn repair(one: &StripRepair) -> RepairJson {
    RepairJson {
        action: one.action,
        from_m: number(one.from),
        to_m: number(one.to),
        offsets_m: [number(one.offsets.0), number(one.offsets.1)],
        greatest_m: number(one.greatest),
        volume_m3: number(one.volume),
        checks: one.checks.clone(),
    }
}

fn fact(fact: &StripFact) -> FactJson {
    FactJson {
        label: fact.label,
        value: fact.value.show(UnitSystem::Metric),
        source: fact.source.clone(),
    }
}

fn line(line: &LineShape) -> LineJson {
    let spectrum = line.spectrum.as_ref();
    LineJson {
        offset_m: number(line.offset),
        roughness_index_overall_m_per_km: line
            .overall_index
            .and_then(number)
            .map(|slope| slope * 1e3),
        roughness_index: known(&line.index, |one| IndexJson {
            from_m: number(one.from),
            to_m: number(one.to),
            index_m_per_km: number(one.index).map(|slope| slope * 1e3),
        }),
        spectrum_class: spectrum.ok().map(|one| one.class.to_string()),
        spectrum_at_ten_metres_m3: spectrum.ok().and_then(|one| number(one.at_ten_metres)),
        spectrum_exponent: spectrum.ok().and_then(|one| finite(one.exponent)),
        spectrum_unproven: spectrum.err().cloned(),
        washboard: known(&line.washboard, place),
        irregularities: known(&line.irregularities, place),
    }
}

fn sounding(one: &SoundingColumn) -> SoundingJson {
    let strata: Option<&ColumnStrata> = one.strata.as_ref().ok();
    let layers = strata.map_or(&[][..], |strata| strata.layers.as_slice());
    SoundingJson {
        station_m: number(one.station),
        offset_m: number(one.offset),
        date: one.date.clone(),
        surfacing_m: strata.and_then(|strata| number(strata.surfacing?)),
        under_percent: strata.and_then(|strata| number(strata.under)),
        weakest_percent: strata.and_then(|strata| number(strata.weakest)),
        known_to_m: strata.and_then(|strata| number(strata.known_to)),
        refusal: strata.map(|strata| strata.refusal),
        layers: layers
            .iter()
            .map(|(top, bottom, ratio)| [number(*top), number(*bottom), number(*ratio)])
            .collect(),
        unproven: one.strata.as_ref().err().cloned(),
    }
}
