//! Loose stones: how they are counted in a table, and the strip's own count
//! where the day found a patch and counted none of it.

use crate::aeroplane::checks::in_order;
use crate::table::cursor::Table;
use crate::table::plausible;
use hardpan_model::{Given, LooseStones, Patch, StoneSize};
use hardpan_quantity::Length;

/// Stones as a table counts them.
pub(crate) struct CountedStones {
    pub(crate) per_square_metre: Option<Given<f64>>,
    pub(crate) largest: Option<Given<Length>>,
    pub(crate) sizes: Vec<StoneSize>,
}

impl CountedStones {
    /// Number, largest and sizes; the first two follow from the sizes where
    /// they are not stated.
    pub(crate) fn read(t: &mut Table<'_>) -> Self {
        let stated = t.coefficient("stones_per_square_metre", plausible::STONES_PER_SQUARE_METRE);
        let largest_stone = t.quantity("largest_stone", plausible::STONE);
        let sizes = t.list("size", stone_size);
        for size in &sizes {
            in_order(t.page(), &Some(size.up_to.clone()), &largest_stone);
        }
        let counted = || {
            let sum = sizes.iter().map(|size| size.stones_per_square_metre.value).sum();
            Some(sizes.first()?.stones_per_square_metre.clone().map(|_: f64| sum))
        };
        let largest = || sizes.iter().map(|size| size.up_to.clone()).reduce(larger);
        Self {
            per_square_metre: stated.or_else(counted),
            largest: largest_stone.or_else(largest),
            sizes,
        }
    }
}

fn larger(a: Given<Length>, b: Given<Length>) -> Given<Length> {
    if b.value > a.value { b } else { a }
}

fn stone_size(t: &mut Table<'_>) -> Option<StoneSize> {
    let up_to = t.quantity("up_to", plausible::STONE);
    let count = t.coefficient("stones_per_square_metre", plausible::STONES_PER_SQUARE_METRE);
    for (key, example) in [("up_to", "\"16 mm\""), ("stones_per_square_metre", "30")] {
        if !t.has(key) {
            t.lacks(key, example);
        }
    }
    Some(StoneSize { up_to: up_to?, stones_per_square_metre: count? })
}

/// One stretch of the strip's own count.
pub(crate) fn loose_stones(t: &mut Table<'_>) -> Option<LooseStones> {
    let from: Option<Given<Length>> = t.quantity("from", plausible::STATION);
    let to: Option<Given<Length>> = t.quantity("to", plausible::STATION);
    for (key, example) in [("from", "\"0 m\""), ("to", "\"600 m\"")] {
        if !t.has(key) {
            t.lacks(key, example);
        }
    }
    in_order(t.page(), &from, &to);
    let CountedStones { per_square_metre, largest, sizes } = CountedStones::read(t);
    Some(LooseStones {
        from: from?,
        to: to?.value,
        stones_per_square_metre: per_square_metre,
        largest_stone: largest,
        sizes,
    })
}

/// Patches of the day, cut where the strip's count changes: what nobody counted
/// on the day is taken from the strip, and nothing else is.
pub(crate) fn counted_by_strip(patches: Vec<Patch>, strip: &[LooseStones]) -> Vec<Patch> {
    let is_counted = |patch: &Patch| {
        patch.stones_per_square_metre.is_some()
            || patch.largest_stone.is_some()
            || !patch.sizes.is_empty()
    };
    let mut all = Vec::new();
    for patch in patches {
        if is_counted(&patch) {
            all.push(patch);
        } else {
            all.extend(cut(&patch, strip));
        }
    }
    all
}

fn cut(patch: &Patch, strip: &[LooseStones]) -> Vec<Patch> {
    let (first, last) = (patch.from.value, patch.to);
    let inside = |station: &Length| *station > first && *station < last;
    let edges = strip.iter().flat_map(|stretch| [stretch.from.value, stretch.to]).filter(inside);
    let mut stations: Vec<Length> = [first, last].into_iter().chain(edges).collect();
    stations.sort_by(|a, b| a.partial_cmp(b).unwrap_or(std::cmp::Ordering::Equal));
    stations.dedup();
    let piece = |pair: &[Length]| {
        let [from, to] = pair else { return None };
        let there = strip.iter().find(|one| one.from.value <= *from && *to <= one.to);
        Some(Patch {
            from: patch.from.clone().map(|_: Length| *from),
            to: *to,
            depth: patch.depth.clone(),
            stones_per_square_metre: there.and_then(|one| one.stones_per_square_metre.clone()),
            largest_stone: there.and_then(|one| one.largest_stone.clone()),
            sizes: there.map(|one| one.sizes.clone()).unwrap_or_default(),
            rolling: patch.rolling.clone(),
        })
    };
    let pieces: Vec<Patch> = stations.windows(2).filter_map(piece).collect();
    if pieces.is_empty() { vec![patch.clone()] } else { pieces }
}

#[cfg(test)]
mod tests {
    use super::counted_by_strip;
    use hardpan_model::{Given, LooseStones, Origin, Patch};
    use hardpan_quantity::{Length, Quantity, metres};

    fn given<T>(value: T) -> Given<T> {
        let origin = Origin { file: "a.toml".into(), line: 1, column: 1, key: "from".into() };
        Given { value, origin, source: None }
    }

    fn patch(from: f64, to: f64, count: Option<f64>) -> Patch {
        Patch {
            from: given(metres(from)),
            to: metres(to),
            depth: given(metres(0.01)),
            stones_per_square_metre: count.map(given),
            largest_stone: None,
            sizes: Vec::new(),
            rolling: None,
        }
    }

    fn strip(from: f64, to: f64, count: f64) -> LooseStones {
        LooseStones {
            from: given(metres(from)),
            to: metres(to),
            stones_per_square_metre: Some(given(count)),
            largest_stone: Some(given(Length::from_si(0.02))),
            sizes: Vec::new(),
        }
    }

    #[test]
    fn a_patch_is_cut_where_the_count_of_the_strip_changes() {
        let counted = [strip(0.0, 100.0, 5.0), strip(100.0, 200.0, 50.0)];
        let found = counted_by_strip(vec![patch(60.0, 260.0, None)], &counted);
        let told: Vec<_> = found
            .iter()
            .map(|one| {
                let count = one.stones_per_square_metre.as_ref().map(|given| given.value);
                (one.from.value.si(), one.to.si(), count)
            })
            .collect();
        let wanted = [(60.0, 100.0, Some(5.0)), (100.0, 200.0, Some(50.0)), (200.0, 260.0, None)];
        assert_eq!(told, wanted);
    }

    #[test]
    fn a_count_of_the_day_stands() {
        let of_day = vec![patch(60.0, 260.0, Some(7.0))];
        assert_eq!(counted_by_strip(of_day.clone(), &[strip(0.0, 300.0, 5.0)]), of_day);
        let spot = vec![patch(60.0, 60.0, None)];
        assert_eq!(counted_by_strip(spot.clone(), &[]), spot);
        assert_eq!(counted_by_strip(Vec::new(), &[strip(0.0, 300.0, 5.0)]), Vec::new());
    }
}
