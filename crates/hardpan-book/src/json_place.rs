//! Where in a text of JSON something stands.

use crate::import::Place;

/// A part of a text, such as an object of a list.
#[derive(Clone, Copy)]
pub(crate) struct Part<'t> {
    pub(crate) text: &'t str,
    /// Bytes at which it begins, and at which the next one does.
    pub(crate) from: usize,
    pub(crate) to: usize,
}

impl Part<'_> {
    /// Where it begins.
    pub(crate) fn at(&self) -> Place {
        place_of(self.text, self.from)
    }

    /// Where the first of these names stands in it; where it begins if none does.
    pub(crate) fn at_name(&self, names: &[&str]) -> Place {
        let mine = self.text.get(self.from..self.to).unwrap_or_default();
        let found = names.iter().find_map(|name| {
            let quoted = format!("\"{name}\"");
            let mut places = mine.match_indices(&quoted);
            places.find(|(at, _)| {
                let rest = mine.get(at + quoted.len()..).unwrap_or_default();
                rest.trim_start().starts_with(':')
            })
        });
        found.map_or_else(|| self.at(), |(at, _)| place_of(self.text, self.from + at))
    }
}

/// Line and column of a byte of a text.
pub(crate) fn place_of(text: &str, byte: usize) -> Place {
    let before = text.get(..byte).unwrap_or_default();
    let number = |count: usize| u64::try_from(count).unwrap_or(u64::MAX).saturating_add(1);
    let line = before.rsplit_once('\n').map_or(before, |(_, line)| line);
    Place {
        line: number(before.bytes().filter(|byte| *byte == b'\n').count()),
        column: number(line.chars().count()),
    }
}

/// The whole text.
pub(crate) const fn whole(text: &str) -> Part<'_> {
    Part { text, from: 0, to: text.len() }
}

/// The objects in the list of a name, which stands in the object that is the text. The
/// text is known to be JSON.
pub(crate) fn parts_of_list<'t>(text: &'t str, list: &str) -> Vec<Part<'t>> {
    let begins = begins(text, list);
    let ends = begins.iter().skip(1).copied().chain([text.len()]);
    begins.iter().zip(ends).map(|(from, to)| Part { text, from: *from, to }).collect()
}

/// Bytes at which they begin: an object is what begins with a brace in a list of the
/// first level.
fn begins(text: &str, list: &str) -> Vec<usize> {
    let mut depth = 0_u32;
    let (mut is_text, mut is_escaped) = (false, false);
    let mut key = String::new();
    let mut is_listed = false;
    let mut found = Vec::new();
    for (at, letter) in text.char_indices() {
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
                    found.push(at);
                }
            }
            ']' | '}' => depth = depth.saturating_sub(1),
            _ => {}
        }
    }
    found
}
