//! Where stations lie between the points of a line along the strip.

/// For each of some rising stations the first piece between two points in a row that it
/// lies in, and its share of the way along that piece; points may go either way.
pub(super) fn pieces(stations: &[f64], points: &[f64]) -> Vec<Option<(usize, f64)>> {
    let mut found = vec![None; stations.len()];
    for (piece, ends) in points.windows(2).enumerate() {
        let [from, to] = ends else { continue };
        let (low, high) = (from.min(*to), from.max(*to));
        let first = stations.partition_point(|station| *station < low);
        let reached = stations.iter().zip(&mut found).skip(first);
        for (station, place) in reached.take_while(|(station, _)| **station <= high) {
            let share = (station - from) / (to - from);
            if place.is_none() && (0.0..=1.0).contains(&share) {
                *place = Some((piece, share));
            }
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::pieces;
    use proptest::prelude::*;

    /// Every piece is tried at every station.
    fn one_by_one(station: f64, points: &[f64]) -> Option<(usize, f64)> {
        points.windows(2).enumerate().find_map(|(piece, ends)| {
            let share = (station - ends[0]) / (ends[1] - ends[0]);
            (0.0..=1.0).contains(&share).then_some((piece, share))
        })
    }

    proptest! {
        #[test]
        fn prop_finds_the_first_piece(
            mut stations in proptest::collection::vec(-5i32..50, 0..40),
            points in proptest::collection::vec(prop_oneof![8 => (0i32..45).prop_map(f64::from), 1 => Just(f64::NAN)], 0..40),
        ) {
            stations.sort_unstable();
            let stations: Vec<f64> = stations.into_iter().map(f64::from).collect();
            let each = stations.iter().map(|station| one_by_one(*station, &points));
            prop_assert_eq!(pieces(&stations, &points), each.collect::<Vec<_>>());
        }
    }
}
