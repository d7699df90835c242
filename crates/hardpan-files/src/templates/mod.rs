//! Starter files with every key of the format, commented out. They read
//! without an error and hold nothing, so that an assessment of them is unproven.

/// `aeroplane.toml`.
#[must_use]
pub const fn aeroplane() -> &'static str {
    include_str!("aeroplane.toml")
}

/// `strip.toml`.
#[must_use]
pub const fn strip() -> &'static str {
    include_str!("strip.toml")
}

/// `survey.csv`: the columns and no rows.
#[must_use]
pub const fn survey() -> &'static str {
    include_str!("survey.csv")
}

/// `soundings.csv`: the columns and no rows.
#[must_use]
pub const fn soundings() -> &'static str {
    include_str!("soundings.csv")
}

/// `strength_tests.csv`: the columns and no rows.
#[must_use]
pub const fn strength_tests() -> &'static str {
    include_str!("strength_tests.csv")
}

/// `chart.csv`: the columns and no rows.
#[must_use]
pub const fn chart() -> &'static str {
    include_str!("chart.csv")
}

/// `ruts.csv`: the columns and no rows.
#[must_use]
pub const fn ruts() -> &'static str {
    include_str!("ruts.csv")
}

/// `day.toml`.
#[must_use]
pub const fn day() -> &'static str {
    include_str!("day.toml")
}

/// `flight.toml`.
#[must_use]
pub const fn flight() -> &'static str {
    include_str!("flight.toml")
}

/// All starter files with the names under which they find each other.
#[must_use]
pub const fn all() -> [(&'static str, &'static str); 9] {
    [
        ("flight.toml", flight()),
        ("aeroplane.toml", aeroplane()),
        ("strip.toml", strip()),
        ("survey.csv", survey()),
        ("soundings.csv", soundings()),
        ("strength_tests.csv", strength_tests()),
        ("chart.csv", chart()),
        ("ruts.csv", ruts()),
        ("day.toml", day()),
    ]
}
