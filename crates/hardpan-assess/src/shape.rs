//! The shape of a strip: everything that its survey says, measured once.

pub(crate) mod code;
pub(crate) mod gaps;
pub(crate) mod levels;
pub(crate) mod running_surface;
pub(crate) mod survey_noise;
pub(crate) mod survey_refusal;

use crate::measured::{Known, Unavailable};
use crate::shape::running_surface::{half_width, running_surface};
use hardpan_model::{EdgeKind, EdgeLimit, Strip, Survey};
use hardpan_quantity::{Amount, Length, Volume, metres};
use hardpan_surface::{
    DetailRules, Edge, EdgeRule, EvennessRules, Pond, Repair, SurfaceDetail, SurfaceReport, detail,
    measure, ponds, repairs, volumes,
};

/// What the shape of a strip is held against.
#[derive(Debug, Clone, PartialEq)]
pub struct ShapeRules {
    /// Chords, straightedges and slopes, with the offsets at which wheels run.
    pub evenness: EvennessRules,
    /// Roughness, single irregularities, washboard and standing water.
    pub detail: DetailRules,
}

impl ShapeRules {
    /// The rules of common practice and the limits that the strip file gives,
    /// for wheels at the centre and at half a `track` on each side; without a
    /// track no wheel path is asked for.
    #[must_use]
    pub fn of(strip: &Strip, track: Option<Length>) -> Self {
        let half = track.map(|track| 0.5 * track);
        let wheel_offsets = half.map_or_else(Vec::new, |half| vec![-half, metres(0.0), half]);
        let mut evenness = EvennessRules { wheel_offsets, ..EvennessRules::default() };
        evenness.edges.push(EdgeRule::depression_3_in());
        evenness.edges.extend(strip.evenness.iter().map(edge_rule));
        Self { evenness, detail: DetailRules::default() }
    }
}

/// The edge that a limit of the strip file stands for.
pub(crate) fn edge_rule(given: &EdgeLimit) -> EdgeRule {
    let (edge, word) = match given.edge.value {
        EdgeKind::Chord => (Edge::Chord, "chord"),
        EdgeKind::MidChord => (Edge::MidChord, "mid-chord"),
        EdgeKind::Straightedge => (Edge::Straightedge, "straightedge"),
    };
    let length = Amount::from(given.length.value).show(Default::default());
    EdgeRule::given(format!("{length} {word}"), edge, given.length.value, given.limit.value)
}

/// Everything that the survey of a strip says, each part or the reason why not.
#[derive(Debug, Clone, PartialEq)]
pub struct StripShape {
    /// Bumps and ruts under chords and straightedges, slopes, crossfall.
    pub surface: Known<SurfaceReport>,
    /// Roughness, single irregularities, washboard, standing water, by line.
    pub detail: Known<SurfaceDetail>,
    /// What to cut and fill, by rising station.
    pub repairs: Known<Vec<Repair>>,
    /// Where water would stand, by falling depth.
    pub ponds: Known<Vec<Pond>>,
}

impl StripShape {
    /// The shape while it is being measured.
    pub(crate) fn not_yet() -> Self {
        let why = || Unavailable::missing("the shape of the strip", Vec::new());
        Self { surface: Err(why()), detail: Err(why()), repairs: Err(why()), ponds: Err(why()) }
    }

    /// Volume to cut and volume to fill, where the repairs are known.
    #[must_use]
    pub fn volumes(&self) -> Option<(Volume, Volume)> {
        self.repairs.as_ref().ok().map(|repairs| volumes(repairs))
    }
}

/// Measure the shape of a strip: of its running surface, and where water stands
/// on it with the ground beside it for a rim.
#[must_use]
pub fn shape(strip: &Strip, rules: &ShapeRules) -> StripShape {
    let half = half_width(strip);
    let on_surface = |pond: &Pond| half.is_none_or(|half| pond.left <= half && pond.right >= -half);
    let surveyed = strip.survey.as_ref();
    let strip = &running_surface(strip);
    let (surface, (detail, ponds)) = rayon::join(
        || measure(strip, &rules.evenness).map_err(Unavailable::from),
        || {
            rayon::join(
                || detail(strip, &rules.detail).map_err(Unavailable::from),
                || standing_water(surveyed, &rules.detail),
            )
        },
    );
    let width = strip.width.as_ref().map(|width| width.value);
    StripShape {
        repairs: surface.as_ref().map_err(Clone::clone).map(|report| {
            strip.survey.as_ref().map_or_else(Vec::new, |survey| repairs(report, survey, width))
        }),
        ponds: ponds.map(|found| found.into_iter().filter(on_surface).collect()),
        surface,
        detail,
    }
}

/// Ponds of all lines, those beside the running surface included.
fn standing_water(survey: Option<&Survey>, rules: &DetailRules) -> Known<Vec<Pond>> {
    let survey = survey.ok_or(hardpan_surface::Error::NoSurvey)?;
    Ok(ponds(survey, rules.pond_step, rules.pond_interval, rules.pond_depth)?)
}
