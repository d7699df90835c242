//! Two masses that hold together in enough of the draws.

/// The greatest pair of values, each the same step of its own list by rising values,
/// that at least a share of the draws reach both of; `spared` steps are left unused on
/// the safe side. None where no pair does.
pub(super) fn both_at_level(draws: &[[f64; 2]], level: f64, spared: usize) -> Option<[f64; 2]> {
    let list = |of: usize| {
        let mut values: Vec<f64> = draws.iter().map(|draw| draw[of]).collect();
        values.sort_by(f64::total_cmp);
        values
    };
    let lists = [list(0), list(1)];
    let pair = |step: usize| Some([*lists[0].get(step)?, *lists[1].get(step)?]);
    // A hair on the safe side keeps 1 - 0.95 from rounding up.
    let may_miss = ((1.0 - level) * draws.len() as f64 - 1e-9).floor().max(0.0) as usize;
    let missed = |[first, second]: [f64; 2]| {
        draws.iter().filter(|draw| draw[0] < first || draw[1] < second).count()
    };
    let is_held = |step: usize| pair(step).is_some_and(|pair| missed(pair) <= may_miss);
    // Whatever both miss together, each by itself misses no more.
    let (mut good, mut bad) = (0, may_miss + 1);
    if !is_held(good) {
        return None;
    }
    while bad - good > 1 {
        let middle = good + (bad - good) / 2;
        if is_held(middle) { good = middle } else { bad = middle }
    }
    let found = pair(good.checked_sub(spared)?)?;
    found.iter().all(|value| value.is_finite()).then_some(found)
}

#[cfg(test)]
mod tests {
    use super::both_at_level;
    use hardpan_math::EvenPoints;

    fn draws(second: impl Fn(f64, f64) -> f64) -> Vec<[f64; 2]> {
        let points = EvenPoints::new(2, 7).expect("two axes");
        let point = |at| points.point(at).map(|point| [point[0], second(point[0], point[1])]);
        (0..8192).filter_map(point).collect()
    }

    /// Closed form: two even draws by themselves both reach q with (1 − q)², which is
    /// 0.95 at q = 1 − √0.95 = 0.02532.
    #[test]
    fn draws_by_themselves_multiply() {
        let [first, second] = both_at_level(&draws(|_, other| other), 0.95, 0).expect("found");
        for found in [first, second] {
            assert!((found - 0.02532).abs() < 6e-4, "{found}");
        }
    }

    /// Closed form: one that follows the other holds wherever that does; one against
    /// the other leaves half of what may fail to each.
    #[test]
    fn draws_that_follow_each_other_do_not() {
        for (second, wanted) in [(1.0, 0.05), (-1.0, 0.025)] {
            let follows = |first: f64, _| if second > 0.0 { first } else { 1.0 - first };
            let [first, _] = both_at_level(&draws(follows), 0.95, 0).expect("found");
            assert!((first - wanted).abs() < 3e-4, "{first}");
        }
    }

    #[test]
    fn a_draw_without_a_mass_holds_nothing() {
        let mut some = draws(|_, other| other);
        some.iter_mut().take(600).for_each(|draw| draw[1] = f64::NEG_INFINITY);
        assert_eq!(both_at_level(&some, 0.95, 0), None);
        assert_eq!(both_at_level(&[], 0.95, 0), None);
    }
}
