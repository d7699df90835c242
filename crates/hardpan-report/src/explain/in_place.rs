//! Numbers put in place of the symbols of a formula, with as many digits as the
//! line needs to come out when it is worked by hand.

use super::arithmetic;
use crate::measure::{Rounding, amount_text, rounded};
use crate::report::Needed;
use hardpan_model::{Argument, BasisInput, Formula, InputFrom, Step};
use hardpan_quantity::{Amount, Dimension, UnitSystem, units_of};

/// Most digits that are added to those usually shown.
const MOST_EXTRA: usize = 7;
/// Key of a level in the rows of a survey.
const LEVEL_KEY: &str = "elevation";
/// Figures of a value in the unit that the formula is printed for.
const FIGURES: i32 = 4;

/// A formula with numbers in place.
pub(crate) struct InPlace {
    /// The expression with the numbers, or why there is no such line.
    pub(crate) numbers: String,
    /// Each input of the step, such as `D = 93 mm deflection`; none for one that
    /// no symbol stands for.
    pub(crate) told: Vec<Option<String>>,
}

/// The step with the numbers in place of its symbols; none where neither a
/// formula of the catalogue nor a symbol belongs to it.
pub(crate) fn in_place(
    step: &Step,
    formula: Option<&Formula>,
    units: UnitSystem,
    needed: &Needed,
) -> Option<InPlace> {
    let is_plain = formula.is_none() && step.inputs.iter().all(|input| input.symbol.is_none());
    (!is_plain).then(|| put_in(step, formula, units, needed))
}

fn put_in(step: &Step, formula: Option<&Formula>, units: UnitSystem, needed: &Needed) -> InPlace {
    let arguments = formula.map_or(&[][..], |formula| formula.arguments);
    let named = step.inputs.iter().filter_map(|input| input.symbol.map(|symbol| (symbol, input)));
    let operand = |(symbol, input): (&'static str, &BasisInput)| {
        let is_needed = needed.holds(input.amount);
        Operand { is_needed, ..Operand::new(symbol, input.amount, arguments, units) }
    };
    let mut operands: Vec<Operand> = named.map(operand).collect();
    let value = |operands: &[Operand], si: fn(&Operand) -> f64| match formula {
        Some(formula) => evaluated(formula, operands, si),
        None => worked_out(&step.expression, operands, si),
    };
    let is_needed = needed.holds(step.result);
    add_digits(&mut operands, value, |si| {
        let amount = Amount::new(step.result.dimension, si);
        let told = if is_needed { rounded(amount, Rounding::Up, units) } else { amount };
        amount_text(told, units)
    });
    let mut in_order = operands.iter();
    let mut told = |input: &BasisInput| {
        let operand = input.symbol.and_then(|_| in_order.next());
        operand.map(|operand| operand.told(&input.name, units))
    };
    let told = step.inputs.iter().map(&mut told).collect();
    InPlace { numbers: filled(&step.expression, &operands), told }
}

/// A level of the survey as the surveyor wrote it, to the millimetre, since differences
/// of levels count; none for any other input.
pub(crate) fn level_text(input: &BasisInput, units: UnitSystem) -> Option<String> {
    let InputFrom::File { origin, .. } = &input.from else { return None };
    let is_level = &*origin.key == LEVEL_KEY && input.name.contains("level");
    let is_length = input.amount.dimension == Dimension::Length;
    let (unit, decimals) = match units {
        UnitSystem::Metric => ("m", 3),
        UnitSystem::Imperial => ("ft", 3),
    };
    let text = || format!("{} {unit}", input.amount.show_with(unit, decimals));
    (is_level && is_length).then(text)
}

/// One value in place of a symbol.
struct Operand {
    symbol: &'static str,
    amount: Amount,
    unit: &'static str,
    decimals: usize,
    /// Told to nobody shorter than it is.
    is_needed: bool,
}

/// As many digits as the line needs to give with them what it gives exactly.
fn add_digits(
    operands: &mut [Operand],
    value: impl Fn(&[Operand], fn(&Operand) -> f64) -> Option<f64>,
    shown: impl Fn(f64) -> String,
) {
    let Some(exact) = value(operands, |operand| operand.amount.si).map(&shown) else {
        operands.iter_mut().for_each(Operand::keep_few_figures);
        return;
    };
    for _ in 0..MOST_EXTRA {
        if value(operands, Operand::shown_si).map(&shown).as_ref() == Some(&exact) {
            break;
        }
        operands.iter_mut().for_each(Operand::add_a_digit);
    }
}

/// What a line of arithmetic gives; none where it is words.
fn worked_out(expression: &str, operands: &[Operand], si: impl Fn(&Operand) -> f64) -> Option<f64> {
    let named: Vec<_> = operands.iter().map(|operand| (operand.symbol, si(operand))).collect();
    arithmetic::value(expression, &named)
}

/// What the formula gives; none where the values are not those of its arguments.
fn evaluated(formula: &Formula, operands: &[Operand], si: impl Fn(&Operand) -> f64) -> Option<f64> {
    let arguments = operands.get(..formula.arguments.len())?;
    let fits = |(operand, argument): (&Operand, &Argument)| operand.symbol == argument.symbol;
    if !arguments.iter().zip(formula.arguments).all(fits) {
        return None;
    }
    let values: Vec<f64> = arguments.iter().map(si).collect();
    Some((formula.evaluate)(&values)).filter(|value| value.is_finite())
}

impl Operand {
    /// In the unit that the formula is printed for, if there is one; a value that
    /// is no argument follows the arguments of its kind.
    fn new(
        symbol: &'static str,
        amount: Amount,
        arguments: &[Argument],
        units: UnitSystem,
    ) -> Self {
        let own = arguments.iter().find(|argument| argument.symbol == symbol);
        let alike = || arguments.iter().find(|one| one.dimension == amount.dimension);
        let printed = own.or_else(alike).and_then(|argument| argument.unit);
        let (number, readers) = amount.show_parts(units);
        let decimals = number.split_once('.').map_or(0, |(_, fraction)| fraction.len());
        let unit = printed.unwrap_or(readers);
        let mut operand = Self { symbol, amount, unit, decimals, is_needed: false };
        if operand.unit != readers {
            let size = operand.in_unit().abs();
            let places = if size > 0.0 { FIGURES - 1 - size.log10().floor() as i32 } else { 0 };
            operand.decimals = usize::try_from(places).unwrap_or(0);
        }
        operand
    }

    fn scale(&self) -> (f64, f64) {
        let found = units_of(self.amount.dimension).iter().find(|unit| unit.symbol == self.unit);
        found.map_or((1.0, 0.0), |unit| (unit.factor, unit.offset))
    }

    fn in_unit(&self) -> f64 {
        let (factor, offset) = self.scale();
        (self.amount.si - offset) / factor
    }

    /// The value that its digits show, in SI.
    fn shown_si(&self) -> f64 {
        let (factor, offset) = self.scale();
        let step = 10_f64.powi(self.decimals as i32);
        let steps = self.in_unit() * step;
        let whole = if self.is_needed { (steps - 1e-6).ceil() } else { steps.round() };
        whole / step * factor + offset
    }

    fn add_a_digit(&mut self) {
        let is_exact = (self.shown_si() - self.amount.si).abs() <= self.amount.si.abs() * 1e-12;
        if !is_exact {
            self.decimals += 1;
        }
    }

    /// Three figures, where fewer are usually shown.
    fn keep_few_figures(&mut self) {
        let size = self.in_unit().abs();
        let places = if size > 0.0 { 2 - size.log10().floor() as i32 } else { 0 };
        for _ in self.decimals..usize::try_from(places).unwrap_or(0) {
            self.add_a_digit();
        }
    }

    fn number(&self) -> String {
        let shown = Amount::new(self.amount.dimension, self.shown_si());
        let number = shown.show_with(self.unit, self.decimals);
        let plain = matches!(self.amount.dimension, Dimension::Coefficient | Dimension::Count);
        match plain && number.contains('.') {
            true => number.trim_end_matches('0').trim_end_matches('.').to_owned(),
            false => number,
        }
    }

    fn text(&self) -> String {
        let number = self.number();
        match self.unit {
            "" => number,
            "°" => format!("{number}°"),
            unit => format!("{number} {unit}"),
        }
    }

    /// In the expression; a bearing ratio stands there as a number of per cent, and
    /// several values of a symbol one after the other.
    fn in_expression(&self, operands: &[Self]) -> String {
        let text = |operand: &Self| match operand.amount.dimension {
            Dimension::BearingRatio => operand.number(),
            _ => operand.text(),
        };
        let same = operands.iter().filter(|other| other.symbol == self.symbol);
        format!("({})", same.map(text).collect::<Vec<_>>().join("; "))
    }

    fn told(&self, name: &str, units: UnitSystem) -> String {
        let readers = self.amount.show_parts(units).1;
        let also = match self.unit == readers {
            true => String::new(),
            false => format!(" ({})", amount_text(self.amount, units)),
        };
        let name = match name == self.symbol {
            true => String::new(),
            false => format!(" {}", name.replace('_', " ")),
        };
        format!("{} = {}{also}{name}", self.symbol, self.text())
    }
}

/// The expression with every symbol replaced, up to what is to be minded.
fn filled(expression: &str, operands: &[Operand]) -> String {
    let (line, _) = expression.split_once(';').unwrap_or((expression, ""));
    let mut by_length: Vec<&Operand> = operands.iter().collect();
    by_length.sort_by_key(|operand| std::cmp::Reverse(operand.symbol.len()));
    let mut out = String::new();
    let mut rest = line;
    let (mut before, mut found) = (None, false);
    while let Some(first) = rest.chars().next() {
        let stands = |operand: &&&Operand| stands_at(rest, operand.symbol, before);
        let length = match by_length.iter().find(stands) {
            Some(operand) => {
                out.push_str(&operand.in_expression(operands));
                found = true;
                operand.symbol.len()
            }
            None => {
                out.push(first);
                first.len_utf8()
            }
        };
        before = rest.get(..length).and_then(|taken| taken.chars().next_back());
        rest = rest.get(length..).unwrap_or_default();
    }
    match found {
        true => out,
        false if line.starts_with("table") => format!("read from the {line}"),
        false => "no line to fill in: found by the method named, from what stands below".to_owned(),
    }
}

/// Whether a symbol stands at the beginning of a text, not as a part of a word.
pub(super) fn stands_at(text: &str, symbol: &str, before: Option<char>) -> bool {
    let Some(rest) = text.strip_prefix(symbol).filter(|_| !symbol.is_empty()) else {
        return false;
    };
    let joins = |one: Option<char>, other: Option<char>| {
        one.is_some_and(is_of_word) && other.is_some_and(is_of_word)
    };
    !joins(before, symbol.chars().next()) && !joins(symbol.chars().next_back(), rest.chars().next())
}

/// A power stands beside a symbol, not in it.
fn is_of_word(c: char) -> bool {
    (c.is_alphanumeric() || c == '_' || c == '\'') && !matches!(c, '²' | '³')
}
