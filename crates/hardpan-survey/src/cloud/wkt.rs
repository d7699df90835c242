//! As much of the well-known text of a coordinate frame as its unit needs.

/// The inside of one bracketed part.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Wkt<'t>(&'t str);

impl<'t> Wkt<'t> {
    /// The first part with one of these keywords, at any depth.
    pub(crate) fn find(text: &'t str, keywords: &[&str]) -> Option<Self> {
        parts(text)
            .find(|part| keywords.iter().any(|word| part.is(word)))
            .map(|part| Self(part.inside))
    }

    /// The last part directly inside with one of these keywords.
    fn child(self, keywords: &[&str]) -> Option<Self> {
        parts(self.0)
            .filter(|part| part.depth == 0 && keywords.iter().any(|word| part.is(word)))
            .last()
            .map(|part| Self(part.inside))
    }

    /// The second field: `0.3048` of `"foot",0.3048,AUTHORITY[...]`.
    fn factor(self) -> Option<f64> {
        let after = self.0.trim_start().strip_prefix('"')?.split_once('"')?.1;
        let field = after.trim_start().strip_prefix(',')?;
        let end = field.find([',', ']', ')']).unwrap_or(field.len());
        let value: f64 = field.get(..end)?.trim().parse().ok()?;
        (value.is_finite() && value > 0.0).then_some(value)
    }
}

/// The unit of a plane or vertical frame in metres.
pub(crate) fn unit_of(frame: Wkt<'_>) -> Option<f64> {
    const UNITS: [&str; 2] = ["UNIT", "LENGTHUNIT"];
    let own = frame.child(&UNITS);
    own.or_else(|| frame.child(&["AXIS"])?.child(&UNITS))?.factor()
}

struct Part<'t> {
    keyword: &'t str,
    inside: &'t str,
    depth: usize,
}

impl Part<'_> {
    fn is(&self, word: &str) -> bool {
        self.keyword.eq_ignore_ascii_case(word)
    }
}

/// All bracketed parts in the order of their opening; text in quotes is passed
/// over. A part that is never closed reaches to the end.
fn parts(text: &str) -> impl Iterator<Item = Part<'_>> {
    let mut open: Vec<usize> = Vec::new();
    let mut found: Vec<(usize, usize, usize)> = Vec::new();
    let mut quoted = false;
    for (at, letter) in text.char_indices() {
        match letter {
            '"' => quoted = !quoted,
            '[' | '(' if !quoted => {
                open.push(found.len());
                found.push((at, text.len(), open.len() - 1));
            }
            ']' | ')' if !quoted => {
                if let Some(part) = open.pop().and_then(|index| found.get_mut(index)) {
                    part.1 = at;
                }
            }
            _ => {}
        }
    }
    found.into_iter().filter_map(move |(from, to, depth)| {
        let before = text.get(..from)?.trim_end();
        let start = before
            .rfind(|letter: char| !(letter.is_ascii_alphanumeric() || letter == '_'))
            .map_or(0, |at| at + 1);
        Some(Part { keyword: before.get(start..)?, inside: text.get(from + 1..to)?, depth })
    })
}
