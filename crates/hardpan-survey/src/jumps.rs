//! Levels that lie far from their neighbours: a slip, or two units in one column.

use crate::Error;
use hardpan_model::{SurveyLine, SurveyPoint};
use hardpan_quantity::{Length, Quantity, metres};

/// A level that differs by more than this from its neighbour, and by more than
/// it is away from it, is a slip or of another unit. Source: judgement.
const JUMP_M: f64 = 10.0;
/// Feet in a metre, and how near to it the ratio of two levels of one place
/// comes that are told in the one and in the other. Source: judgement.
const FEET_IN_A_METRE: f64 = 1.0 / 0.3048;
const NEAR: f64 = 0.05;

/// Two levels side by side that cannot both be right.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LevelJump {
    /// The one that was read first, along its line or on the line before.
    pub earlier: SurveyPoint,
    /// The other.
    pub point: SurveyPoint,
    /// Offset of the line of the other.
    pub offset: Length,
    /// Distance between them.
    pub away: Length,
}

impl LevelJump {
    /// By how much they differ.
    #[must_use]
    pub fn apart(&self) -> Length {
        (self.point.elevation - self.earlier.elevation).abs()
    }

    /// Whether one is the other told in feet.
    fn is_of_two_units(&self) -> bool {
        let ratio = self.point.elevation.si() / self.earlier.elevation.si();
        ratio > 0.0 && (ratio.ln().abs() - FEET_IN_A_METRE.ln()).abs() < NEAR
    }
}

/// Levels that differ by more than 10 m from the one before on their line, or
/// the first of a line from the nearest on the line before it, and by more than
/// they are away from it.
#[must_use]
pub fn level_jumps(lines: &[SurveyLine]) -> Vec<LevelJump> {
    let along = lines.iter().flat_map(|line| {
        line.points.windows(2).filter_map(|pair| match pair {
            [earlier, point] => jump((*earlier, *point), line.offset, 0.0),
            _ => None,
        })
    });
    let across = lines.iter().zip(lines.iter().skip(1)).filter_map(|(one, next)| {
        let first = next.points.first()?;
        let from_first = |point: &SurveyPoint| (point.station - first.station).abs().si();
        let nearest = one.points.iter().min_by(|a, b| from_first(a).total_cmp(&from_first(b)))?;
        jump((*nearest, *first), next.offset, (next.offset - one.offset).si())
    });
    along.chain(across).collect()
}

fn jump(
    (earlier, point): (SurveyPoint, SurveyPoint),
    offset: Length,
    across: f64,
) -> Option<LevelJump> {
    let away = metres((point.station - earlier.station).si().hypot(across));
    let jump = LevelJump { earlier, point, offset, away };
    (jump.apart().si() > JUMP_M && jump.apart() > away).then_some(jump)
}

/// Levels that were laid on the strip by machine hold no slip; where one is the
/// neighbour told in feet, pieces of two units were put together.
pub(crate) fn one_unit(lines: &[SurveyLine]) -> Result<(), Error> {
    match level_jumps(lines).into_iter().find(LevelJump::is_of_two_units) {
        None => Ok(()),
        Some(jump) => Err(Error::TwoUnits {
            station_m: jump.point.station.si(),
            offset_m: jump.offset.si(),
            level_m: jump.point.elevation.si(),
            beside_m: jump.earlier.elevation.si(),
        }),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn line(offset: f64, levels: &[(f64, f64)]) -> SurveyLine {
        let point = |&(station, level): &(f64, f64)| SurveyPoint {
            station: metres(station),
            elevation: metres(level),
            line: 1,
        };
        SurveyLine { offset: metres(offset), points: levels.iter().map(point).collect() }
    }

    #[test]
    fn a_level_in_feet_jumps_along_and_across() {
        let sound = line(0.0, &[(0.0, 284.0), (2.0, 284.1), (4.0, 284.0)]);
        let along = line(2.0, &[(0.0, 284.0), (2.0, 284.1 / 0.3048)]);
        let across = line(2.0, &[(0.0, 284.0 / 0.3048), (2.0, 284.0 / 0.3048)]);
        assert!(level_jumps(std::slice::from_ref(&sound)).is_empty());
        assert_eq!(level_jumps(&[sound.clone(), along.clone()]).len(), 1);
        assert_eq!(level_jumps(&[sound.clone(), across.clone()])[0].offset, metres(2.0));
        for lines in [[sound.clone(), along], [sound, across]] {
            assert!(matches!(one_unit(&lines), Err(Error::TwoUnits { .. })));
        }
    }

    /// A tree of 15 m is a jump and no other unit; a fall of 12 m over a gap of
    /// 400 m is neither.
    #[test]
    fn what_stands_up_or_slopes_is_no_other_unit() {
        let tree = line(0.0, &[(0.0, 284.0), (2.0, 299.0)]);
        assert_eq!(level_jumps(std::slice::from_ref(&tree)).len(), 1);
        assert_eq!(one_unit(&[tree]), Ok(()));
        assert!(level_jumps(&[line(0.0, &[(0.0, 284.0), (400.0, 272.0)])]).is_empty());
    }
}
