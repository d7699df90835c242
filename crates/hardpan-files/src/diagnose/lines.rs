//! From a byte of a text to its line and column.

use std::ops::Range;

/// Starts of all lines of one text.
#[derive(Debug, Clone)]
pub(crate) struct Lines {
    starts: Vec<usize>,
}

impl Lines {
    pub(crate) fn of(text: &str) -> Self {
        let after_breaks = text.bytes().enumerate().filter(|(_, byte)| *byte == b'\n');
        let starts = std::iter::once(0).chain(after_breaks.map(|(at, _)| at + 1)).collect();
        Self { starts }
    }

    /// Index of the line that holds a byte.
    fn index(&self, byte: usize) -> usize {
        self.starts.partition_point(|start| *start <= byte).saturating_sub(1)
    }

    /// Line and column in characters, both counted from 1.
    pub(crate) fn locate(&self, text: &str, byte: usize) -> (u32, u32) {
        let index = self.index(byte);
        let start = self.starts.get(index).copied().unwrap_or(0);
        let before = text.get(start..floor(text, byte)).unwrap_or("");
        (whole(index + 1), whole(before.chars().count() + 1))
    }

    /// Line of a byte, counted from 1.
    pub(crate) fn line(&self, byte: usize) -> u32 {
        whole(self.index(byte) + 1)
    }

    /// Bytes of the line that holds a byte, its end-of-line mark left out.
    pub(crate) fn line_span(&self, text: &str, byte: usize) -> Range<usize> {
        let index = self.index(byte);
        let start = self.starts.get(index).copied().unwrap_or(0);
        let next = self.starts.get(index + 1).copied().unwrap_or(text.len() + 1);
        let end = next.saturating_sub(1).clamp(start, text.len().max(start));
        let line = text.get(start..end).unwrap_or("");
        start..start + line.trim_end_matches('\r').len()
    }

    /// Line, counted from 1, and length of the longest line in bytes.
    pub(crate) fn longest(&self, text: &str) -> (u32, usize) {
        let ends = self.starts.iter().skip(1).map(|start| start - 1).chain([text.len()]);
        let lengths = self.starts.iter().zip(ends).map(|(start, end)| end.saturating_sub(*start));
        let longest =
            lengths.enumerate().max_by_key(|(index, length)| (*length, usize::MAX - index));
        longest.map_or((1, 0), |(index, length)| (whole(index + 1), length))
    }

    /// First byte of a line that is counted from 1.
    pub(crate) fn start(&self, line: u32) -> usize {
        let index = usize::try_from(line).unwrap_or(usize::MAX).saturating_sub(1);
        self.starts.get(index).copied().unwrap_or(0)
    }
}

/// The last character boundary at or before a byte.
pub(crate) fn floor(text: &str, byte: usize) -> usize {
    text.floor_char_boundary(byte.min(text.len()))
}

fn whole(number: usize) -> u32 {
    u32::try_from(number).unwrap_or(u32::MAX)
}
