//! The text form of a grid: six lines of header, then the levels row by row
//! from north to south.

use super::grid::{CELL_LIMIT, Grid};

/// Metres in the units that the file does not state.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GridUnits {
    /// Of the coordinates and the size of a cell.
    pub horizontal_m: f64,
    /// Of the levels.
    pub vertical_m: f64,
}

/// What is wrong in the text, and where.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[error("{why}")]
pub struct AsciiGridError {
    /// First byte of the word that it concerns.
    pub at: usize,
    /// Bytes of that word.
    pub length: usize,
    /// In one sentence.
    pub why: String,
    /// What was expected.
    pub wanted: String,
}

/// A word of the text and where it stands.
#[derive(Clone, Copy)]
struct Word<'t> {
    text: &'t str,
    at: usize,
}

impl Word<'_> {
    fn wrong(self, why: String, wanted: &str) -> AsciiGridError {
        let wanted = wanted.to_owned();
        AsciiGridError { at: self.at, length: self.text.len(), why, wanted }
    }

    fn number(self, what: &str) -> Result<f64, AsciiGridError> {
        let number = self.text.parse::<f64>().ok().filter(|number| number.is_finite());
        number.ok_or_else(|| self.wrong(format!("{what} is no number"), "a number"))
    }

    fn count(self, what: &str) -> Result<usize, AsciiGridError> {
        let count =
            self.text.parse::<usize>().ok().filter(|count| (1..=CELL_LIMIT).contains(count));
        count.ok_or_else(|| self.wrong(format!("{what} is no count of cells"), "a whole number"))
    }
}

#[derive(Default)]
struct Header {
    columns: Option<usize>,
    rows: Option<usize>,
    /// Easting and northing, and whether they are of a corner or a middle.
    west: Option<(f64, Anchor)>,
    south: Option<(f64, Anchor)>,
    cell: Option<f64>,
    no_level: Option<f64>,
}

#[derive(Clone, Copy, PartialEq)]
enum Anchor {
    Corner,
    Middle,
}

/// Read a grid from its text.
///
/// # Errors
/// [`AsciiGridError`] with the place in the text.
pub fn ascii_grid(text: &str, units: GridUnits) -> Result<Grid, AsciiGridError> {
    let mut words = words(text).peekable();
    let mut header = Header::default();
    while let Some(key) = words.peek().copied() {
        if !key.text.starts_with(|c: char| c.is_ascii_alphabetic()) {
            break;
        }
        words.next();
        let end = Word { text: "", at: text.len() };
        header.take(key, words.next().unwrap_or(end))?;
    }
    let first = words.peek().copied().unwrap_or(Word { text: "", at: text.len() });
    let made = header.made(first)?;
    let cells = made.columns.saturating_mul(made.rows);
    if cells > CELL_LIMIT {
        let why = format!("the grid has {cells} cells; at most {CELL_LIMIT} are read");
        return Err(first.wrong(why, "a grid cut to the strip"));
    }
    let mut levels = Vec::with_capacity(cells.min(text.len()));
    for word in words {
        let level = word.number("a level")?;
        if levels.len() == cells {
            let why =
                format!("more levels follow than {} columns by {} rows", made.columns, made.rows);
            return Err(word.wrong(why, "the end of the file"));
        }
        let missing = made.no_level == Some(level);
        levels.push(if missing { f64::NAN } else { level * units.vertical_m });
    }
    if levels.len() < cells {
        let end = Word { text: "", at: text.len() };
        let why = format!("the file ends after {} levels of {cells}", levels.len());
        return Err(end.wrong(why, "a level for each column of each row"));
    }
    let cell = made.cell * units.horizontal_m;
    let origin = (
        made.west * units.horizontal_m,
        made.south * units.horizontal_m + (made.rows - 1) as f64 * cell,
    );
    Grid::new((made.columns, made.rows), origin, (cell, 0.0), (0.0, -cell), levels)
        .map_err(|error| first.wrong(error.to_string(), "a grid of levels"))
}

fn words(text: &str) -> impl Iterator<Item = Word<'_>> {
    text.split_ascii_whitespace().map(|word| Word {
        text: word,
        // A word is a part of the text, so that their addresses count bytes.
        at: (word.as_ptr() as usize).saturating_sub(text.as_ptr() as usize),
    })
}

/// A whole header; west and south are of the middle of the south-west cell.
struct Made {
    columns: usize,
    rows: usize,
    west: f64,
    south: f64,
    cell: f64,
    no_level: Option<f64>,
}

impl Header {
    fn take(&mut self, key: Word<'_>, value: Word<'_>) -> Result<(), AsciiGridError> {
        let name = key.text.to_ascii_lowercase();
        let twice = match name.as_str() {
            "ncols" => self.columns.replace(value.count("`ncols`")?).is_some(),
            "nrows" => self.rows.replace(value.count("`nrows`")?).is_some(),
            "xllcorner" => self.west.replace((value.number(&name)?, Anchor::Corner)).is_some(),
            "xllcenter" => self.west.replace((value.number(&name)?, Anchor::Middle)).is_some(),
            "yllcorner" => self.south.replace((value.number(&name)?, Anchor::Corner)).is_some(),
            "yllcenter" => self.south.replace((value.number(&name)?, Anchor::Middle)).is_some(),
            "cellsize" => self.cell.replace(value.number(&name)?).is_some(),
            "nodata_value" => self.no_level.replace(value.number(&name)?).is_some(),
            _ => {
                let why = format!("`{}` is no key of a grid", shortened(key.text));
                return Err(
                    key.wrong(why, "ncols, nrows, xllcorner, yllcorner, cellsize or nodata_value")
                );
            }
        };
        if twice {
            return Err(key.wrong(format!("`{name}` stands twice"), "each key once"));
        }
        Ok(())
    }

    fn made(&self, first: Word<'_>) -> Result<Made, AsciiGridError> {
        let lacks = |key: &str| first.wrong(format!("the grid has no `{key}`"), key);
        let cell = self.cell.ok_or_else(|| lacks("cellsize"))?;
        if !(1e-3..=1e4).contains(&cell) {
            return Err(first.wrong(format!("`cellsize` is {cell}"), "0.001 to 10000"));
        }
        let middle = |(place, anchor): (f64, Anchor)| match anchor {
            Anchor::Corner => place + 0.5 * cell,
            Anchor::Middle => place,
        };
        Ok(Made {
            columns: self.columns.ok_or_else(|| lacks("ncols"))?,
            rows: self.rows.ok_or_else(|| lacks("nrows"))?,
            west: middle(self.west.ok_or_else(|| lacks("xllcorner"))?),
            south: middle(self.south.ok_or_else(|| lacks("yllcorner"))?),
            cell,
            no_level: self.no_level,
        })
    }
}

fn shortened(word: &str) -> String {
    word.chars().take(40).collect()
}
