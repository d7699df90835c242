//! The limits of evenness as data, each with its source and how sure that is.

use crate::event::Edge;
use hardpan_model::{Source, Tier};
use hardpan_quantity::{Length, Ratio, inches, metres, millimetres, percent};
use std::borrow::Cow;

/// Name of the edge that looks for holes.
pub(crate) const HOLES: &str = "depression-3-in";

/// A chord or straightedge, the limit on what it shows, and how dense a survey
/// must be to show it.
#[derive(Debug, Clone, PartialEq)]
pub struct EdgeRule {
    /// Permanent name, such as `chord-100-ft`; for a limit that somebody gives,
    /// the words that people see.
    pub name: Cow<'static, str>,
    /// What is laid on the ground.
    pub edge: Edge,
    /// Its length.
    pub length: Length,
    /// Greatest height or depth allowed.
    pub limit: Length,
    /// Longest distance between two levels at which the check can be made.
    pub survey_interval: Length,
    /// Where the limit comes from.
    pub source: Source,
}

/// Everything that [`measure`](crate::measure) holds the survey against.
#[derive(Debug, Clone, PartialEq)]
pub struct EvennessRules {
    /// Chords and straightedges.
    pub edges: Vec<EdgeRule>,
    /// Longest sample spacing.
    pub spacing: Length,
    /// Largest events of each kind to list even when inside the limit.
    pub list_worst: usize,
    /// Wavelength at which half of a wave counts as design grade.
    pub design_wavelength: Length,
    /// Greatest share of a limit that survey noise may imitate.
    pub noise_share: Ratio,
    /// Length over which a local slope is taken.
    pub slope_base: Length,
    /// Longest distance between levels over which slopes and elevations are interpolated.
    pub slope_interval: Length,
    /// Distance between the stations at which crossfall is given.
    pub crossfall_step: Length,
    /// Offsets at which wheels run; each needs a line within `wheel_reach`.
    pub wheel_offsets: Vec<Length>,
    /// Greatest distance between a wheel path and the line that stands for it.
    pub wheel_reach: Length,
}

/// Share of a bump as long as its chord that a survey with ten intervals to the
/// chord may miss between two levels: `1 − cos²(π/20)` = 2.4 %.
const INTERVALS_PER_CHORD: f64 = 10.0;

fn rule(name: &'static str, edge: Edge, length: Length, limit: Length, source: Source) -> EdgeRule {
    let survey_interval = length / INTERVALS_PER_CHORD;
    EdgeRule { name: name.into(), edge, length, limit, survey_interval, source }
}

impl EdgeRule {
    /// Its name in words, such as `100 ft chord`.
    #[must_use]
    pub fn told(&self) -> &str {
        match self.name.as_ref() {
            "chord-100-ft" => "100 ft chord",
            "chord-200-ft" => "200 ft chord",
            given => given,
        }
    }

    /// 3 in under a chord of 100 ft. Common practice without a source, read as
    /// a sliding chord.
    #[must_use]
    pub fn chord_100_ft() -> Self {
        let source = Source::new("", "3 in in 100 ft, read as a chord", Tier::CommonPractice);
        rule("chord-100-ft", Edge::Chord, metres(30.48), inches(3.0), source)
    }

    /// 4 in under a chord of 200 ft. Common practice without a source, read as
    /// a sliding chord.
    #[must_use]
    pub fn chord_200_ft() -> Self {
        let source = Source::new("", "4 in in 200 ft, read as a chord", Tier::CommonPractice);
        rule("chord-200-ft", Edge::Chord, metres(60.96), inches(4.0), source)
    }

    /// A limit that somebody gives for a chord or straightedge of any length.
    #[must_use]
    pub fn given(name: String, edge: Edge, length: Length, limit: Length) -> Self {
        let source = Source::new("", "limit given for the strip", Tier::Approved);
        let survey_interval = length / INTERVALS_PER_CHORD;
        Self { name: name.into(), edge, length, limit, survey_interval, source }
    }

    /// 3 mm under a straightedge of 3 m: a paved wearing course, shown for
    /// comparison only. Source: [ICAO-ANNEX-14] attachment A section 5.
    #[must_use]
    pub fn straightedge_3_m() -> Self {
        let source = Source::new("ICAO-ANNEX-14", "attachment A, section 5", Tier::Memory);
        rule("straightedge-3-m", Edge::Straightedge, metres(3.0), millimetres(3.0), source)
    }

    /// 3 in deep holes and depressions of an unpaved surface, under a
    /// straightedge of 3 m. The limit is the regulation's; that length of edge is
    /// a judgement, because the text speaks of breadth only. Source:
    /// [CFR-14-139-307].
    #[must_use]
    pub fn depression_3_in() -> Self {
        let source = Source::new("CFR-14-139-307", "holes or depressions", Tier::Published);
        rule(HOLES, Edge::Straightedge, metres(3.0), inches(3.0), source)
    }
}

impl Default for EvennessRules {
    /// The two chords of common practice; all other values are judgement.
    fn default() -> Self {
        Self {
            edges: vec![EdgeRule::chord_100_ft(), EdgeRule::chord_200_ft()],
            spacing: metres(0.5),
            list_worst: 5,
            design_wavelength: metres(240.0),
            noise_share: percent(50.0),
            slope_base: metres(30.0),
            slope_interval: metres(30.0),
            crossfall_step: metres(10.0),
            wheel_offsets: Vec::new(),
            wheel_reach: metres(1.5),
        }
    }
}

impl EvennessRules {
    /// The table of single irregularities of paved runways: length, greatest
    /// height or depth, and that accepted for a time.
    #[must_use]
    pub fn irregularity_table() -> [(Length, Length, Length); IRREGULARITIES.len()] {
        IRREGULARITIES
            .map(|(length, most, for_a_time)| (metres(length), metres(most), metres(for_a_time)))
    }
}

/// Whether the gap table's limits are kept.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum IrregularityGrade {
    /// Within the greatest height or depth.
    Within,
    /// Beyond it, yet within what may be accepted for a time; mend as soon as practicable.
    TemporarilyAccepted,
    /// Beyond both; mend at once or stop flying.
    Beyond,
}

/// Rows of length, greatest height or depth, and that accepted for a time, in
/// metres. Paved runways, single irregularities. Source: [ICAO-ANNEX-14]
/// attachment A section 5, from memory.
pub(crate) const IRREGULARITIES: [(f64, f64, f64); 9] = [
    (3.0, 0.030, 0.035),
    (6.0, 0.035, 0.055),
    (9.0, 0.040, 0.065),
    (12.0, 0.050, 0.075),
    (15.0, 0.055, 0.080),
    (20.0, 0.060, 0.090),
    (30.0, 0.065, 0.110),
    (45.0, 0.080, 0.130),
    (60.0, 0.100, 0.150),
];

/// The two limits on a single irregularity of `length_m`, linear between rows.
pub(crate) fn irregularity_limits(length_m: f64) -> Option<(f64, f64)> {
    IRREGULARITIES.windows(2).find_map(|pair| {
        let [(x0, low0, high0), (x1, low1, high1)] = pair else { return None };
        if !(*x0..=*x1).contains(&length_m) {
            return None;
        }
        let share = (length_m - x0) / (x1 - x0);
        Some((low0 + share * (low1 - low0), high0 + share * (high1 - high0)))
    })
}

/// Where a single irregularity stands in the table of [ICAO-ANNEX-14]
/// attachment A section 5 (from memory; paved runways). None outside its
/// lengths, 3 m to 60 m.
#[must_use]
pub fn irregularity_grade(length: Length, height: Length) -> Option<IrregularityGrade> {
    use hardpan_quantity::Quantity;
    let (greatest, for_a_time) = irregularity_limits(length.si())?;
    let height = height.si().abs();
    if height <= greatest {
        Some(IrregularityGrade::Within)
    } else if height <= for_a_time {
        Some(IrregularityGrade::TemporarilyAccepted)
    } else {
        (!height.is_nan()).then_some(IrregularityGrade::Beyond)
    }
}
