//! What a line of arithmetic gives with values in place of its symbols: sums, products,
//! powers, roots, the greatest and the least of several, and the rounding of the whole.

use hardpan_model::Step;
use hardpan_quantity::Amount;

/// Brackets within brackets that a line may have.
const DEEPEST: usize = 12;
const MINUTE_S: f64 = 60.0;

/// What words of a line do with one value, two, or all of several.
type OfOne = fn(f64) -> f64;
type OfTwo = fn(f64, f64) -> f64;
type OfAll = fn(&[f64]) -> f64;

/// What the line of a step gives when other amounts stand for its inputs, in their order;
/// none where the line is words, or an amount is missing.
#[must_use]
pub fn line_gives(step: &Step, amounts: &[Amount]) -> Option<Amount> {
    let named = step.inputs.iter().zip(amounts);
    let named = named.filter_map(|(input, amount)| Some((input.symbol?, amount.si)));
    let si = value(&step.expression, &named.collect::<Vec<_>>())?;
    Some(Amount::new(step.result.dimension, si))
}

/// The value in SI of a line up to its semicolon; none where it is no arithmetic over the
/// symbols, or has no finite value.
pub(super) fn value(expression: &str, symbols: &[(&str, f64)]) -> Option<f64> {
    let (line, _) = expression.split_once(';').unwrap_or((expression, ""));
    let (line, round) = rounding(line);
    let mut reading = Reading { rest: line, symbols, depth: 0, place: 0 };
    let value = reading.sum().map(round)?;
    (reading.rest.trim().is_empty() && value.is_finite()).then_some(value)
}

/// A line without what it says of rounding, and the rounding.
fn rounding(line: &str) -> (&str, fn(f64) -> f64) {
    let ways: [(&str, OfOne); 3] = [
        (", rounded up to whole minutes", |value| (value / MINUTE_S).ceil() * MINUTE_S),
        (", rounded up", f64::ceil),
        (", rounded down", f64::floor),
    ];
    let found = ways.iter().find_map(|(words, round)| Some((line.strip_suffix(words)?, *round)));
    found.unwrap_or((line, |value| value))
}

struct Reading<'l> {
    rest: &'l str,
    symbols: &'l [(&'l str, f64)],
    depth: usize,
    /// Which of several values of a symbol is read, in a line over all of them.
    place: usize,
}

impl Reading<'_> {
    /// Whether a mark or word comes next; it is then read.
    fn takes(&mut self, mark: &str) -> bool {
        let after = self.rest.trim_start().strip_prefix(mark);
        self.rest = after.unwrap_or(self.rest);
        after.is_some()
    }

    fn sum(&mut self) -> Option<f64> {
        let mut total = self.product()?;
        loop {
            if self.takes("+") {
                total += self.product()?;
            } else if self.takes("−") {
                total -= self.product()?;
            } else {
                return Some(total);
            }
        }
    }

    fn product(&mut self) -> Option<f64> {
        let mut total = self.power()?;
        loop {
            if self.takes("×") {
                total *= self.power()?;
            } else if self.takes("/") {
                total /= self.power()?;
            } else {
                return Some(total);
            }
        }
    }

    fn power(&mut self) -> Option<f64> {
        let base = self.base()?;
        Some(match () {
            () if self.takes("²") => base * base,
            () if self.takes("³") => base * base * base,
            () => base,
        })
    }

    fn base(&mut self) -> Option<f64> {
        if self.depth > DEEPEST {
            return None;
        }
        self.depth += 1;
        let value = self.symbol().or_else(|| self.number()).or_else(|| self.bracketed());
        self.depth -= 1;
        value
    }

    fn symbol(&mut self) -> Option<f64> {
        let rest = self.rest.trim_start();
        let stands = |(symbol, _): &&(&str, f64)| super::in_place::stands_at(rest, symbol, None);
        let found = self.symbols.iter().filter(stands).max_by_key(|(symbol, _)| symbol.len());
        let (symbol, only) = found?;
        self.rest = rest.get(symbol.len()..)?;
        let mut values = self.symbols.iter().filter(|(other, _)| other == symbol);
        Some(values.nth(self.place).map_or(*only, |(_, value)| *value))
    }

    fn number(&mut self) -> Option<f64> {
        let rest = self.rest.trim_start();
        if let Some(after) = rest.strip_prefix('π') {
            self.rest = after;
            return Some(std::f64::consts::PI);
        }
        let end = rest.find(|c: char| !c.is_ascii_digit() && c != '.').unwrap_or(rest.len());
        let (number, after) = rest.split_at(end);
        let value = number.parse().ok()?;
        self.rest = after;
        Some(value)
    }

    fn bracketed(&mut self) -> Option<f64> {
        let of: [(&str, OfOne); 7] = [
            ("(", |value| value),
            ("√(", f64::sqrt),
            ("exp(", f64::exp),
            ("ln(", f64::ln),
            ("cos(", f64::cos),
            ("sin(", f64::sin),
            ("tan(", f64::tan),
        ];
        if let Some((_, of)) = of.iter().find(|(mark, _)| self.takes(mark)) {
            let value = self.sum()?;
            return self.takes(")").then(|| of(value));
        }
        let choice: [(&str, OfTwo); 4] = [
            ("greatest of ", f64::max),
            ("greater of ", f64::max),
            ("least of ", f64::min),
            ("lesser of ", f64::min),
        ];
        if let Some((_, of)) = choice.iter().find(|(words, _)| self.takes(words)) {
            return self.list(*of);
        }
        if self.takes("|") {
            let value = self.sum()?;
            return self.takes("|").then(|| value.abs());
        }
        let series: [(&str, OfAll); 3] = [
            ("mean of ", mean),
            ("standard deviation of ", deviation),
            ("sum of ", |values| values.iter().sum()),
        ];
        let (_, of) = series.iter().find(|(words, _)| self.takes(words))?;
        self.series(*of)
    }

    /// What follows, worked with each value of its symbols in turn.
    fn series(&mut self, of: fn(&[f64]) -> f64) -> Option<f64> {
        let (begins, before) = (self.rest, self.place);
        let values = (0..self.most()).map(|place| {
            (self.rest, self.place) = (begins, place);
            self.power()
        });
        let values: Vec<f64> = values.collect::<Option<_>>()?;
        self.place = before;
        Some(of(&values))
    }

    /// How many values the symbol with the most of them has.
    fn most(&self) -> usize {
        let count =
            |symbol: &str| self.symbols.iter().filter(|(other, _)| *other == symbol).count();
        self.symbols.iter().map(|(symbol, _)| count(symbol)).max().unwrap_or(0)
    }

    /// Several values with commas or `and` between them, brought to one.
    fn list(&mut self, of: fn(f64, f64) -> f64) -> Option<f64> {
        let mut value = self.item()?;
        loop {
            let comma = self.takes(",");
            if !self.takes("and ") && !comma {
                return Some(value);
            }
            value = of(value, self.item()?);
        }
    }

    fn item(&mut self) -> Option<f64> {
        self.takes("the ");
        self.sum()
    }
}

fn mean(values: &[f64]) -> f64 {
    values.iter().sum::<f64>() / values.len() as f64
}

/// With one fewer than there are values.
fn deviation(values: &[f64]) -> f64 {
    let mean = mean(values);
    let squares: f64 = values.iter().map(|value| (value - mean).powi(2)).sum();
    (squares / (values.len() as f64 - 1.0)).sqrt()
}

#[cfg(test)]
mod tests {
    use super::value;

    /// By hand.
    #[test]
    fn a_line_comes_out_as_by_hand() {
        let symbols = [("a", 6.0), ("b", 2.0), ("length of it", 4.0), ("θ", 0.0)];
        let cases = [
            ("a / b", 3.0),
            ("(a − b) / length of it; a caution", 1.0),
            ("a − b × 2 + 1.5", 3.5),
            ("a / b / 2", 1.5),
            ("√(a² − 2³ × b / 4) + cos(θ)", 32.0_f64.sqrt() + 1.0),
            ("greater of 0 and the b − a", 0.0),
            ("greatest of a, b + 5, and length of it", 7.0),
            ("least of a, b and length of it", 2.0),
            ("|b − a| × exp(ln(b))", 8.0),
            ("b × 35, rounded up to whole minutes", 120.0),
            ("a / length of it, rounded down", 1.0),
            ("a / length of it, rounded up", 2.0),
        ];
        for (line, wanted) in cases {
            let found = value(line, &symbols).unwrap_or_else(|| panic!("{line}: no value"));
            assert!((found - wanted).abs() < 1e-12, "{line}: {found}, not {wanted}");
        }
    }

    /// By hand: the rows are (1, 2), (3, 4) and (8, 16).
    #[test]
    fn a_line_over_rows_takes_each_in_turn() {
        let rows = [("a", 1.0), ("b", 2.0), ("a", 3.0), ("b", 4.0), ("a", 8.0), ("b", 16.0)];
        let cases = [
            ("mean of (a / b)", (0.5 + 0.75 + 0.5) / 3.0),
            ("sum of (a × b) × 2", 2.0 * (2.0 + 12.0 + 128.0)),
            ("standard deviation of a", 13.0_f64.sqrt()),
            ("mean of a − mean of b", 4.0 - 22.0 / 3.0),
        ];
        for (line, wanted) in cases {
            let found = value(line, &rows).unwrap_or_else(|| panic!("{line}: no value"));
            assert!((found - wanted).abs() < 1e-12, "{line}: {found}, not {wanted}");
        }
    }

    #[test]
    fn words_and_what_has_no_value_give_none() {
        let symbols = [("a", 6.0), ("b", 0.0)];
        let deep = "(".repeat(100_000);
        for line in ["as stated", "a / b", "a / c", "a b", "(a", "", "a ≤ b", &deep] {
            assert_eq!(value(line, &symbols), None, "{line}");
        }
    }
}
