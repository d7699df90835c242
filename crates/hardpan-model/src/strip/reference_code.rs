//! The aerodrome reference code: a number by field length, a letter by span.

/// The reference code that an aerodrome is laid out for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ReferenceCode {
    /// Code number, 1 to 4.
    pub number: u8,
    /// Code letter, `A` to `F`.
    pub letter: char,
}

impl ReferenceCode {
    /// All, with the word written in files.
    #[must_use]
    pub fn all() -> [(&'static str, Self); 24] {
        const WORDS: [&str; 24] = [
            "1A", "1B", "1C", "1D", "1E", "1F", "2A", "2B", "2C", "2D", "2E", "2F", "3A", "3B",
            "3C", "3D", "3E", "3F", "4A", "4B", "4C", "4D", "4E", "4F",
        ];
        WORDS.map(|word| {
            let mut parts = word.chars();
            let number = parts.next().and_then(|digit| digit.to_digit(10)).unwrap_or(1) as u8;
            (word, Self { number, letter: parts.next().unwrap_or('A') })
        })
    }
}
