//! The groups of a weather report that are used, each from one word.
//!
//! Forms: [WMO-306] FM 15 METAR, FM 16 SPECI; remarks in tenths: [FMH-1] chapter 12.

use hardpan_model::Wind;
use hardpan_quantity::{
    Angle, Pressure, Speed, Temperature, celsius, degrees, hectopascals, kilometres_per_hour,
    knots, metres_per_second, pascals,
};
use std::ops::RangeInclusive;
use winnow::Parser;
use winnow::combinator::{alt, eof, opt, preceded};
use winnow::error::ContextError;
use winnow::token::take_while;

type Parsed<T> = Result<T, ContextError>;

/// A value that a report may leave open with slashes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Reported<T> {
    Value(T),
    Missing,
}

fn digits(count: RangeInclusive<usize>) -> impl FnMut(&mut &str) -> Parsed<u32> {
    move |input: &mut &str| {
        take_while(count.clone(), |c: char| c.is_ascii_digit())
            .verify_map(|text: &str| text.parse().ok())
            .parse_next(input)
    }
}

fn slashes(count: usize) -> impl FnMut(&mut &str) -> Parsed<()> {
    move |input: &mut &str| take_while(count..=count, '/').void().parse_next(input)
}

/// Place of issue: four letters or digits, a letter first.
pub(crate) fn is_station(word: &str) -> bool {
    let letters = word.bytes().all(|byte| byte.is_ascii_uppercase() || byte.is_ascii_digit());
    word.len() == 4 && letters && word.starts_with(|c: char| c.is_ascii_uppercase())
}

/// Day of the month, hour and minute, such as `251200Z`.
pub(crate) fn time(word: &str) -> Option<(u8, u8, u8)> {
    let read = (digits(2..=2), digits(2..=2), digits(2..=2), "Z").parse(word).ok()?;
    let (day, hour, minute, _) = read;
    let two = |number: u32| u8::try_from(number).ok();
    let sound = (1..=31).contains(&day) && hour < 24 && minute < 60;
    sound.then_some((two(day)?, two(hour)?, two(minute)?))
}

/// Whether a word is meant as wind.
pub(crate) fn is_like_wind(word: &str) -> bool {
    let unit = ["KT", "MPS", "KMH"].iter().any(|unit| word.ends_with(unit));
    unit && word.starts_with(|c: char| c.is_ascii_digit() || c == '/' || c == 'V')
}

/// Wind, such as `27025G40KT`, `VRB03KT`, `00000KT`, `18010MPS`.
///
/// # Errors
/// Why the word is no wind.
pub(crate) fn wind(word: &str) -> Result<Reported<Wind>, &'static str> {
    let direction = alt((
        "VRB".value(Some(None)),
        slashes(3).value(None),
        digits(3..=3).map(|d| Some(Some(d))),
    ));
    let speed = alt((slashes(2).value(None), digits(2..=3).map(Some)));
    let gust = opt(preceded('G', alt((slashes(2).value(None), digits(2..=3).map(Some)))))
        .map(Option::flatten);
    let unit = alt(("KT", "MPS", "KMH"));
    if word.contains('P') && !word.ends_with("MPS") || word.matches('P').count() > 1 {
        return Err("a speed above what the station measures is no number to reckon with");
    }
    let Ok((direction, speed, gust, unit)) = (direction, speed, gust, unit).parse(word) else {
        return Err("it is not direction, speed, gust and unit in that form");
    };
    let (Some(direction), Some(speed)) = (direction, speed) else {
        return Ok(Reported::Missing);
    };
    if direction.is_some_and(|direction| direction > 360) {
        return Err("the direction is above 360");
    }
    if gust.is_some_and(|gust| gust <= speed) {
        return Err("the gust is no greater than the mean speed");
    }
    let typed = |number: u32| speed_in(f64::from(number), unit);
    let from = direction.filter(|_| speed > 0).map(|from| degrees(f64::from(from % 360)));
    Ok(Reported::Value(Wind { from, speed: typed(speed), gust: gust.map(typed), between: None }))
}

fn speed_in(number: f64, unit: &str) -> Speed {
    match unit {
        "MPS" => metres_per_second(number),
        "KMH" => kilometres_per_hour(number),
        _ => knots(number),
    }
}

/// Bounds of a varying direction, such as `350V060`.
pub(crate) fn variation(word: &str) -> Option<(Angle, Angle)> {
    let (from, _, to) = (digits(3..=3), 'V', digits(3..=3)).parse(word).ok()?;
    let angle = |number: u32| degrees(f64::from(number % 360));
    (from <= 360 && to <= 360).then(|| (angle(from), angle(to)))
}

/// Whether a word is meant as temperature and dew point.
pub(crate) fn is_like_temperature(word: &str) -> bool {
    let middle = word.find('/').unwrap_or(usize::MAX);
    let starts =
        word.starts_with(|c: char| c.is_ascii_digit() || c == 'M') && !word.ends_with("SM");
    word.starts_with("//") && (5..=6).contains(&word.len())
        || (starts && (1..=3).contains(&middle) && word.len() <= 7)
}

/// Temperature and dew point, such as `M02/M05`, `14/09`, `14///`.
pub(crate) fn temperature(word: &str) -> Option<Reported<Temperature>> {
    let one = || alt((slashes(2).value(None), signed_two.map(Some)));
    let mut both = (one(), '/', opt(one()).map(Option::flatten));
    let (air, _, _) = both.parse(word).ok()?;
    Some(match air {
        Some(air) => Reported::Value(celsius(air)),
        None => Reported::Missing,
    })
}

/// `M02` is minus 2; `M00` is between minus 0.5 and 0 and counts as 0.
fn signed_two(input: &mut &str) -> Parsed<f64> {
    let (minus, number) = (opt('M'), digits(2..=2)).parse_next(input)?;
    let size = f64::from(number);
    Ok(if minus.is_some() && number > 0 { -size } else { size })
}

/// Whether a word is meant as pressure.
pub(crate) fn is_like_pressure(word: &str) -> bool {
    let rest = word.strip_prefix(['Q', 'A']);
    rest.is_some_and(|rest| rest.starts_with(|c: char| c.is_ascii_digit() || c == '/'))
}

/// Altimeter setting, such as `Q0998` in hectopascals or `A2992` in hundredths
/// of an inch of mercury.
///
/// # Errors
/// Why the word is no pressure.
pub(crate) fn pressure(word: &str) -> Result<Reported<Pressure>, &'static str> {
    let four = || alt((slashes(4).value(None), digits(4..=4).map(Some)));
    let Ok((scale, number, _)) = (alt(('Q', 'A')), four(), eof::<_, ContextError>).parse(word)
    else {
        return Err("it is not a letter and four digits");
    };
    let Some(number) = number.map(f64::from) else {
        return Ok(Reported::Missing);
    };
    let read = if scale == 'Q' { hectopascals(number) } else { inches_of_mercury(number / 100.0) };
    let si = hardpan_quantity::Quantity::si(read);
    if crate::table::plausible::SEA_LEVEL_PRESSURE.hold(si) {
        Ok(Reported::Value(read))
    } else {
        Err("no air pressure is like that")
    }
}

fn inches_of_mercury(inches: f64) -> Pressure {
    let unit = hardpan_quantity::units_of(hardpan_quantity::Dimension::AirPressure)
        .iter()
        .find(|unit| unit.symbol == "inHg");
    pascals(inches * unit.map_or(f64::NAN, |unit| unit.factor))
}

/// Temperature in tenths from the remarks, such as `T01391106` for 13.9 °C.
pub(crate) fn tenths(word: &str) -> Option<Temperature> {
    let one = || (alt(('0'.value(1.0), '1'.value(-1.0))), digits(3..=3));
    let (_, air, _) = ('T', one(), opt(one())).parse(word).ok()?;
    let (sign, number): (f64, u32) = air;
    Some(celsius(sign * f64::from(number) / 10.0))
}

/// Whether a word is weather that falls at the place now: drizzle, rain, snow, grains,
/// pellets or hail; neither what fell before nor what falls in the vicinity.
pub(crate) fn falls(word: &str) -> bool {
    const FALLING: [&str; 8] = ["DZ", "RA", "SN", "SG", "PL", "GR", "GS", "UP"];
    let bare = word.strip_prefix(['+', '-']).unwrap_or(word);
    let mut pairs = bare.as_bytes().chunks(2);
    let now = !word.starts_with("RE") && !bare.starts_with("VC") && !blown(bare);
    now && is_weather(word) && pairs.any(|pair| FALLING.iter().any(|one| one.as_bytes() == pair))
}

/// Snow that the wind lifts off the ground.
fn blown(bare: &str) -> bool {
    bare.starts_with("BL") || bare.starts_with("DR")
}

/// Whether a word is a group of visibility, runway visual range, weather,
/// cloud, wind shear, sea or runway state: read past, not used.
pub(crate) fn is_passed_over(word: &str) -> bool {
    is_visibility(word) || is_runway(word) || is_cloud(word) || is_weather(word) || is_other(word)
}

fn is_visibility(word: &str) -> bool {
    let metres =
        || (digits(4..=4), opt(alt(("NDV", "NE", "NW", "SE", "SW", "N", "E", "S", "W")))).void();
    let whole = || digits(1..=2).void();
    let fraction = || (opt('M'), digits(1..=2), '/', digits(1..=2)).void();
    let miles = || (opt(alt(('P', 'M'))), alt((fraction(), whole())), "SM").void();
    let open = || (slashes(4), opt("SM")).void();
    alt((miles(), metres(), open(), whole(), "CAVOK".void())).parse(word).is_ok()
}

fn is_runway(word: &str) -> bool {
    let runway = word.strip_prefix('R').and_then(|rest| rest.split_at_checked(2));
    let numbered = runway.is_some_and(|(number, rest)| {
        number.bytes().all(|byte| byte.is_ascii_digit())
            && (rest.contains('/') || matches!(rest, "" | "L" | "C" | "R"))
    });
    numbered || word == "R/SNOCLO" || word == "SNOCLO"
}

fn is_cloud(word: &str) -> bool {
    let height = || alt((digits(3..=3).void(), slashes(3)));
    let amount = alt(("FEW", "SCT", "BKN", "OVC", "VV", "///"));
    let kind = opt(alt(("CB", "TCU", "///")));
    matches!(word, "SKC" | "CLR" | "NSC" | "NCD") || (amount, height(), kind).parse(word).is_ok()
}

fn is_weather(word: &str) -> bool {
    const CODES: [&str; 35] = [
        "MI", "BC", "PR", "DR", "BL", "SH", "TS", "FZ", "VC", "DZ", "RA", "SN", "SG", "IC", "PL",
        "GR", "GS", "UP", "BR", "FG", "FU", "VA", "DU", "SA", "HZ", "PO", "SQ", "FC", "SS", "DS",
        "PY", "JP", "NS", "XX", "TP",
    ];
    if matches!(word, "//" | "NSW") {
        return true;
    }
    let bare = word.strip_prefix("RE").unwrap_or(word);
    let bare = bare.strip_prefix(['+', '-']).unwrap_or(bare);
    let pairs =
        bare.as_bytes().chunks(2).all(|pair| CODES.iter().any(|code| code.as_bytes() == pair));
    pairs && (2..=10).contains(&bare.len())
}

fn is_other(word: &str) -> bool {
    let sea = word.starts_with('W') && word.contains("/S");
    let state = word.len() == 8 && word.bytes().all(|byte| byte.is_ascii_digit() || byte == b'/');
    sea || state
        || matches!(
            word,
            "WS" | "ALL" | "RWY" | "NOSIG" | "BLU" | "WHT" | "GRN" | "YLO" | "AMB" | "RED"
        )
}
