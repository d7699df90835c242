//! Where in a text of JSON something stands.

use crate::Place;

/// A part of a text, such as an object of a list.
#[derive(Clone, Copy)]
pub(crate) struct Part<'t> {
    text: &'t str,
    at: Place,
}

impl Part<'_> {
    /// Where it begins.
    pub(crate) const fn at(&self) -> Place {
        self.at
    }

    /// Where the first of these names stands in it; where it begins if none does.
    pub(crate) fn at_name(&self, names: &[&str]) -> Place {
        let found = names.iter().find_map(|name| {
            let quoted = format!("\"{name}\"");
            let mut places = self.text.match_indices(&quoted);
            places.find(|(at, _)| {
                let rest = self.text.get(at + quoted.len()..).unwrap_or_default();
                rest.trim_start().starts_with(':')
            })
        });
        found.map_or(self.at, |(at, _)| behind(self.at, self.text.get(..at).unwrap_or_default()))
    }
}

/// The place behind a text that begins at a place.
pub(crate) fn behind(at: Place, text: &str) -> Place {
    let number = |count: usize| u64::try_from(count).unwrap_or(u64::MAX);
    let lines = number(text.bytes().filter(|byte| *byte == b'\n').count());
    let (line, column) = match text.rsplit_once('\n') {
        Some((_, last)) => (
            at.line.saturating_add(lines),
            Place::BEGIN.column.saturating_add(number(last.chars().count())),
        ),
        None => (at.line, at.column.saturating_add(number(text.chars().count()))),
    };
    Place { line, column }
}

/// Line and column of a byte of a text.
pub(crate) fn place_of(text: &str, byte: usize) -> Place {
    behind(Place::BEGIN, text.get(..byte).unwrap_or_default())
}

/// The whole text.
pub(crate) const fn whole(text: &str) -> Part<'_> {
    Part { text, at: Place::BEGIN }
}

/// The objects in the list of a name, which stands in the object that is the text. The
/// text is known to be JSON. An object is what stands in braces in a list of the first
/// level.
pub(crate) fn parts_of_list<'t>(text: &'t str, list: &str) -> Vec<Part<'t>> {
    let mut depth = 0_u32;
    let (mut is_text, mut is_escaped) = (false, false);
    let mut key = String::new();
    let mut is_listed = false;
    let (mut begun, mut told, mut at) = (0, 0, Place::BEGIN);
    let mut found = Vec::new();
    for (byte, letter) in text.char_indices() {
        if is_text {
            match letter {
                _ if is_escaped => is_escaped = false,
                '\\' => is_escaped = true,
                '"' => is_text = false,
                other if depth == 1 => key.push(other),
                _ => {}
            }
            continue;
        }
        match letter {
            '"' => {
                is_text = true;
                if depth == 1 {
                    key.clear();
                }
            }
            '[' | '{' => {
                is_listed = if depth == 1 { letter == '[' && key == list } else { is_listed };
                depth += 1;
                if letter == '{' && depth == 3 && is_listed {
                    begun = byte;
                }
            }
            ']' | '}' => {
                if letter == '}' && depth == 3 && is_listed {
                    at = behind(at, text.get(told..begun).unwrap_or_default());
                    told = begun;
                    found.push(Part { text: text.get(begun..=byte).unwrap_or_default(), at });
                }
                depth = depth.saturating_sub(1);
            }
            _ => {}
        }
    }
    found
}
