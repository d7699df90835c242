//! Which rule is told a probability, by what, and which is not, and why.

use crate::rules::RULES;

/// What tells how likely a limit of a rule is exceeded.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Told {
    /// The limits that the largest masses are searched with, those on the weather, and
    /// what holds the aeroplane straight.
    Limit,
    /// Figures of the survey, by the noise of its levels.
    Levels,
    /// The rule itself, asked of each draw.
    Rule,
    /// Nothing, for this reason.
    Not(&'static str),
}

/// A rule that no probability is told of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct NotDrawn {
    /// Code of the rule.
    pub code: &'static str,
    /// Its name.
    pub name: &'static str,
    /// Which part of it; none where it is all of it.
    pub part: Option<&'static str>,
    /// Why.
    pub because: &'static str,
}

/// What tells of the rule of a code; none where no rule has it.
pub(super) fn told(code: &str) -> Option<Told> {
    let not = |because| Some(Told::Not(because));
    match code {
        "A10" | "A15" | "F10" | "F15" | "F20" | "F35" | "F40" | "F45" | "F50" | "F52" | "F57"
        | "F60" | "F65" | "G20" | "G28" | "G30" | "G70" | "L10" | "S65" | "T10" | "T30" => {
            Some(Told::Limit)
        }
        "D60" | "R10" | "R20" | "R30" | "R40" | "R70" | "R80" | "R90" | "W30" => Some(Told::Levels),
        "F25" | "F54" | "G22" | "G24" | "G26" | "G40" | "G50" | "G52" | "G55" | "G60" | "T20"
        | "T40" | "W40" => Some(Told::Rule),
        "A20" => not("the centre of gravity is not drawn; G26 judges the ground over its range"),
        "D10" | "D15" | "D20" | "D25" | "D30" | "D50" | "D55" | "D70" | "D80" | "R50" | "R60"
        | "S40" => not("it advises, and holds nothing to a limit"),
        "D40" => not("its speeds rest on the efflux of the reverser, which is not drawn"),
        "D65" => not("how a cable bounces and how fast it may be crossed are judgement"),
        "F37" => not("widths, and the swing that is stated, are not drawn"),
        "G10" => not("a sounding is drawn in its strength, not in the depth at which that changes"),
        "S10" | "S20" | "S30" => not("dates and places of what was measured are not drawn"),
        "S45" => not(
            "it is G20 on ground that is less sure away from its soundings; where the strip states \
             how far its ground is alike, G20 itself is drawn so",
        ),
        "S60" => not("the state of the ground when it was tested is not drawn"),
        "S80" => not("the hour of the movement is not drawn"),
        "E10" | "F30" | "L20" | "S35" | "S50" | "S70" | "W10" | "W20" => {
            not("what is fitted, approved, recorded or seen on the day is not drawn")
        }
        _ => None,
    }
}

/// Parts of rules that are told otherwise: code, which part, why.
const PARTS: [(&str, &str, &str); 7] = [
    ("D60", "with a leg down", "it tells what to do after a flat tyre or a broken strut"),
    ("G22", "on gravel", "no law of its shear was read, so that there is no limit"),
    ("G55", "deepest rut measured", "it is as it was measured"),
    ("L10", "slope, surfacing and width", "they are as surveyed, sounded and stated"),
    (
        "R80",
        "but for the slopes",
        "curves and sight are of the smooth grade, which evens the noise out",
    ),
    ("T20", "where the flange of the tyre is not stated", "without it there is no limit"),
    ("W30", "depressions", "none of them is held to a limit"),
];

/// The rules that no probability is told of, by code, and why.
#[must_use]
pub fn not_drawn() -> Vec<NotDrawn> {
    let not = |rule: &crate::rule::Rule| match told(rule.code)? {
        Told::Not(because) => {
            Some(NotDrawn { code: rule.code, name: rule.name, part: None, because })
        }
        _ => None,
    };
    let part = |(code, part, because): &(&'static str, &'static str, &'static str)| {
        let rule = RULES.iter().find(|rule| rule.code == *code)?;
        Some(NotDrawn { code, name: rule.name, part: Some(part), because })
    };
    let mut all: Vec<NotDrawn> = RULES.iter().filter_map(not).collect();
    all.extend(PARTS.iter().filter_map(part));
    all.sort_by_key(|one| one.code);
    all
}

#[cfg(test)]
mod tests {
    use super::{PARTS, Told, not_drawn, told};
    use crate::assess::ADVISORY;
    use crate::rules::RULES;

    #[test]
    fn every_rule_is_told_by_something_or_has_a_reason_why_not() {
        for rule in RULES {
            assert!(told(rule.code).is_some(), "{} is in no list", rule.code);
        }
        let not = not_drawn();
        assert!(not.windows(2).all(|pair| pair[0].code <= pair[1].code));
        assert!(PARTS.iter().all(|(code, ..)| !matches!(told(code), Some(Told::Not(_)) | None)));
        assert_eq!(not.iter().filter(|one| one.part.is_some()).count(), PARTS.len());
    }

    /// What holds nothing to a limit can turn no answer.
    #[test]
    fn what_holds_nothing_to_a_limit_only_advises() {
        for rule in RULES {
            if let Some(Told::Not(because)) = told(rule.code)
                && because.contains("holds nothing to a limit")
            {
                assert!(ADVISORY.contains(&rule.code) || rule.code == "D30", "{}", rule.code);
            }
        }
    }
}
