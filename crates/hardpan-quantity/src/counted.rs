//! How many there are of something, in words.

use std::fmt::Display;

/// A count with the word for one or for several, as `1 report` and `2 reports`.
#[must_use]
pub fn counted(count: impl Display, one: &str, several: &str) -> String {
    let count = count.to_string();
    let word = if count == "1" { one } else { several };
    format!("{count} {word}")
}

#[cfg(test)]
mod tests {
    use super::counted;

    #[test]
    fn one_takes_the_singular_and_nothing_else_does() {
        assert_eq!(counted(0, "pass", "passes"), "0 passes");
        assert_eq!(counted(1, "pass", "passes"), "1 pass");
        assert_eq!(counted(format!("{:.0}", 1.2), "pass", "passes"), "1 pass");
        assert_eq!(counted(11, "pass", "passes"), "11 passes");
    }
}
