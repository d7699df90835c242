//! What to cut and what to fill, and how much, where the surface stands off a
//! chord or straightedge by more than its limit.

use crate::chord::EventKind;
use crate::event::Event;
use crate::report::{Grade, SurfaceReport};
use hardpan_model::Survey;
use hardpan_quantity::{Area, Length, Quantity, Volume, metres};

/// What to do at one place.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum RepairAction {
    /// Take material away.
    Cut,
    /// Bring material in.
    Fill,
}

impl RepairAction {
    /// The word people see.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Cut => "cut",
            Self::Fill => "fill",
        }
    }
}

/// One place to mend: the surface brought to the chord that shows it.
#[derive(Debug, Clone, PartialEq)]
pub struct Repair {
    /// Cut or fill.
    pub action: RepairAction,
    /// First station.
    pub from: Length,
    /// Last station.
    pub to: Length,
    /// Least offset.
    pub left: Length,
    /// Greatest offset.
    pub right: Length,
    /// Greatest height to cut or depth to fill.
    pub greatest: Length,
    /// Station and offset of it.
    pub worst: (Length, Length),
    /// Volume in place, compacted.
    pub volume: Volume,
    /// Names of the chords and straightedges whose limit is passed there.
    pub checks: Vec<String>,
}

/// One event over its limit, on one line.
struct Piece<'a> {
    line: usize,
    event: &'a Event,
    grade: Grade,
    check: &'a str,
}

impl Piece<'_> {
    /// Whether both stand for one place of one line or of two side by side.
    fn meets(&self, other: &Self) -> bool {
        self.event.kind == other.event.kind
            && self.line.abs_diff(other.line) <= 1
            && self.event.from <= other.event.to
            && other.event.from <= self.event.to
    }
}

/// Half the distance from a line to its neighbours on either side, out to the
/// edge of the running surface beyond the last line where its width is known.
struct Breadths {
    /// Offset, then the two edges of what the line stands for.
    lines: Vec<(f64, f64, f64)>,
}

impl Breadths {
    fn of(survey: &Survey, width: Option<Length>) -> Self {
        let mut offsets: Vec<f64> = survey.lines.iter().map(|line| line.offset.si()).collect();
        offsets.sort_by(f64::total_cmp);
        offsets.dedup();
        let edge = width.map(|width| 0.5 * width.si());
        let at = |index: Option<usize>| index.and_then(|index| offsets.get(index)).copied();
        let lines = offsets.iter().enumerate().map(|(index, own)| {
            let left = at(index.checked_sub(1)).map(|next| 0.5 * (own + next));
            let right = at(Some(index + 1)).map(|next| 0.5 * (own + next));
            let left = left.unwrap_or_else(|| edge.map_or(*own, |edge| own.min(-edge)));
            let right = right.unwrap_or_else(|| edge.map_or(*own, |edge| own.max(edge)));
            (*own, left, right)
        });
        Self { lines: lines.collect() }
    }

    fn line(&self, offset: Length) -> Option<usize> {
        self.lines.iter().position(|line| line.0 == offset.si())
    }
}

/// What to cut and fill, by rising station: every place where a chord or
/// straightedge of the report shows more than its limit.
///
/// The surface is brought to the chord, over the breadth that the line stands
/// for: half way to its neighbours, and beyond the outermost lines to the edge
/// of a running surface of known `width`. Of several readings of one place on
/// one line the one with the design grade removed counts, then the one with the
/// largest section. Places side by side on neighbouring lines are one repair.
#[must_use]
pub fn repairs(report: &SurfaceReport, survey: &Survey, width: Option<Length>) -> Vec<Repair> {
    let breadths = Breadths::of(survey, width);
    let mut pieces: Vec<Piece<'_>> = report
        .edges
        .iter()
        .flat_map(|edge| edge.exceedances().map(move |found| (edge.rule.name.as_ref(), found)))
        .filter_map(|(check, (event, grade))| {
            Some(Piece { line: breadths.line(event.offset)?, event, grade, check })
        })
        .collect();
    let left_in = |piece: &Piece<'_>| piece.grade == Grade::LeftIn;
    pieces.sort_by(|a, b| {
        left_in(a)
            .cmp(&left_in(b))
            .then(b.event.section.si().total_cmp(&a.event.section.si()))
            .then(a.event.from.si().total_cmp(&b.event.from.si()))
    });
    let mut counted: Vec<usize> = Vec::new();
    for (index, piece) in pieces.iter().enumerate() {
        let same = |other: &usize| {
            pieces.get(*other).is_some_and(|other| other.line == piece.line && other.meets(piece))
        };
        if !counted.iter().any(same) {
            counted.push(index);
        }
    }
    let mut found: Vec<Repair> = groups(&pieces, &counted)
        .iter()
        .filter_map(|group| repair(&pieces, group, &breadths))
        .collect();
    found.sort_by(|a, b| a.from.si().total_cmp(&b.from.si()).then(a.action.cmp(&b.action)));
    found
}

/// Pieces that meet each other, directly or through others.
fn groups(pieces: &[Piece<'_>], counted: &[usize]) -> Vec<Vec<usize>> {
    let mut groups: Vec<Vec<usize>> = Vec::new();
    for index in counted {
        let Some(piece) = pieces.get(*index) else { continue };
        let meets = |group: &Vec<usize>| {
            group.iter().any(|other| pieces.get(*other).is_some_and(|other| other.meets(piece)))
        };
        let (joined, mut apart): (Vec<_>, Vec<_>) = groups.into_iter().partition(meets);
        let mut whole: Vec<usize> = joined.into_iter().flatten().collect();
        whole.push(*index);
        apart.push(whole);
        groups = apart;
    }
    groups
}

fn repair(pieces: &[Piece<'_>], group: &[usize], breadths: &Breadths) -> Option<Repair> {
    let members: Vec<&Piece<'_>> = group.iter().filter_map(|index| pieces.get(*index)).collect();
    let worst = members
        .iter()
        .copied()
        .reduce(|most, next| if next.event.height > most.event.height { next } else { most })?;
    let mut repair = Repair {
        action: match worst.event.kind {
            EventKind::Bump => RepairAction::Cut,
            EventKind::Rut => RepairAction::Fill,
        },
        from: worst.event.from,
        to: worst.event.to,
        left: worst.event.offset,
        right: worst.event.offset,
        greatest: worst.event.height,
        worst: (worst.event.worst, worst.event.offset),
        volume: Volume::from_si(0.0),
        checks: Vec::new(),
    };
    for piece in &members {
        let (_, left, right) = *breadths.lines.get(piece.line)?;
        repair.from = repair.from.min(piece.event.from);
        repair.to = repair.to.max(piece.event.to);
        repair.left = repair.left.min(metres(left));
        repair.right = repair.right.max(metres(right));
        repair.volume += prism(piece.event.section, metres(right - left));
    }
    for piece in pieces.iter().filter(|piece| members.iter().any(|member| member.meets(piece))) {
        if !repair.checks.iter().any(|check| check == piece.check) {
            repair.checks.push(piece.check.to_owned());
        }
    }
    repair.checks.sort();
    Some(repair)
}

/// `A b`: volume of a section that runs on over a breadth.
pub(crate) fn prism(section: Area, breadth: Length) -> Volume {
    section * breadth
}

/// Volume to cut and volume to fill.
#[must_use]
pub fn volumes(repairs: &[Repair]) -> (Volume, Volume) {
    let sum = |action| {
        let of = repairs.iter().filter(|repair| repair.action == action);
        of.fold(Volume::from_si(0.0), |sum, repair| sum + repair.volume)
    };
    (sum(RepairAction::Cut), sum(RepairAction::Fill))
}
