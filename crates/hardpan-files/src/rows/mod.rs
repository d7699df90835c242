//! Tables of rows in CSV: the columns by name, the cells with their places.

mod cells;
pub(crate) mod chart;
pub(crate) mod jumps;
pub(crate) mod positions;
pub(crate) mod ruts;
pub(crate) mod soundings;
pub(crate) mod strength_tests;
pub(crate) mod survey;
pub(crate) mod temperatures;

use crate::diagnose::mistake::Mistake;
use crate::diagnose::nearest::nearest;
use crate::diagnose::page::{Page, shortened};
use crate::table::plausible::Bounds;
use hardpan_quantity::{Amount, Dimension, UnitSystem};
use std::ops::Range;

/// What a column holds.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Column {
    /// Name without unit.
    pub(crate) name: &'static str,
    /// Endings that state a unit, with their factor to SI; none for words.
    pub(crate) units: &'static [(&'static str, f64)],
    /// Whether the table can do without it.
    pub(crate) optional: bool,
}

/// A table with its columns found.
pub(crate) struct Rows<'p> {
    page: &'p Page<'p>,
    delimiter: u8,
    header: String,
    /// First byte of the line that names the columns.
    header_at: usize,
    /// For each column of the format: its place in the file and its factor to SI.
    places: Vec<Option<(usize, f64)>>,
    width: usize,
    columns: &'static [Column],
}

/// One row.
pub(crate) struct Row<'r> {
    rows: &'r Rows<'r>,
    record: &'r csv::StringRecord,
    /// First byte of the row in the text.
    start: usize,
    /// Line, counted from 1.
    pub(crate) line: u32,
}

impl<'p> Rows<'p> {
    /// Find the columns in the first line that is not a remark.
    pub(crate) fn open(page: &'p Page<'p>, columns: &'static [Column]) -> Option<Self> {
        let expected = header_of(columns);
        if page.text.trim().is_empty() {
            page.report(
                0..0,
                &Mistake::EmptyFile { content: format!("a table with the columns {expected}") },
            );
            return None;
        }
        if page.has_endless_line() {
            return None;
        }
        let start = header_start(page)?;
        let span = page.lines.line_span(page.text, start);
        let line = page.text.get(span.clone()).unwrap_or("");
        let delimiter = delimiter_of(line);
        let names: Vec<&str> = line.split(char::from(delimiter)).map(plain).collect();
        if names.iter().all(|name| name.is_empty() || name.parse::<f64>().is_ok()) {
            page.report(span, &Mistake::NoHeader { columns: expected });
            return None;
        }
        let mut rows = Self {
            page,
            delimiter,
            header: expected,
            header_at: start,
            places: vec![None; columns.len()],
            width: names.len(),
            columns,
        };
        rows.match_columns(line, span.start, &names).then_some(rows)
    }

    fn match_columns(&mut self, line: &str, start: usize, names: &[&str]) -> bool {
        let mut sound = true;
        for (index, name) in names.iter().enumerate() {
            let cell = cell_span(line, self.delimiter, index);
            let span = start + cell.start..start + cell.end;
            match self.column(name) {
                Ok((column, factor)) => match self.places.get_mut(column) {
                    Some(place @ None) => *place = Some((index, factor)),
                    _ => {
                        self.page
                            .report(span, &Mistake::RepeatedColumn { column: shortened(name) });
                        sound = false;
                    }
                },
                Err(mistake) => {
                    self.page.report(span, &mistake);
                    sound = false;
                }
            }
        }
        if sound {
            for (column, place) in self.columns.iter().zip(&self.places) {
                if place.is_none() && !column.optional {
                    let column = choices(column);
                    let mistake = Mistake::MissingColumn { column, columns: self.header.clone() };
                    self.page.report(start..start + line.len(), &mistake);
                    sound = false;
                }
            }
        }
        sound
    }

    fn column(&self, name: &str) -> Result<(usize, f64), Mistake> {
        let lower = name.to_ascii_lowercase();
        for (index, column) in self.columns.iter().enumerate() {
            if column.units.is_empty() && lower == column.name {
                return Ok((index, 1.0));
            }
            let ending = lower.strip_prefix(column.name);
            let unit =
                ending.and_then(|ending| column.units.iter().find(|(unit, _)| *unit == ending));
            if let Some((_, factor)) = unit {
                return Ok((index, *factor));
            }
            if ending.is_some_and(|ending| ending.is_empty() || ending.starts_with('_')) {
                return Err(Mistake::ColumnUnit {
                    column: shortened(name),
                    choices: choices(column),
                });
            }
        }
        let known: Vec<String> = self.columns.iter().flat_map(full_names).collect();
        let advice = match nearest(&lower, known.iter().map(String::as_str)) {
            Some(near) => format!("name it `{near}`, if that is what is meant"),
            None => "remove it; remarks stand in lines that start with #".to_owned(),
        };
        Err(Mistake::UnknownColumn {
            column: shortened(name),
            columns: self.header.clone(),
            advice,
        })
    }

    /// Whether the file has a column.
    pub(crate) fn has(&self, column: usize) -> bool {
        self.places.get(column).is_some_and(Option::is_some)
    }

    /// Bytes of the line that names the columns.
    pub(crate) fn header(&self) -> Range<usize> {
        self.page.lines.line_span(self.page.text, self.header_at)
    }

    /// Call `each` with every row that has the right number of cells. Returns
    /// how many rows there are, sound or not.
    pub(crate) fn each(&self, mut each: impl FnMut(&Row<'_>)) -> usize {
        let mut reader = csv::ReaderBuilder::new()
            .delimiter(self.delimiter)
            .has_headers(false)
            .flexible(true)
            .comment(Some(b'#'))
            .trim(csv::Trim::All)
            .from_reader(self.page.text.as_bytes());
        let mut record = csv::StringRecord::new();
        let mut count = 0;
        while let Ok(true) = reader.read_record(&mut record) {
            let start = row_start(self.page.text, record.position());
            let line = self.page.lines.line(start);
            let end = usize::try_from(reader.position().byte()).unwrap_or(usize::MAX);
            if self.spans_lines(start, end) {
                let quote =
                    self.page.text.get(start..).and_then(|rest| rest.find('"')).unwrap_or(0);
                self.page.report(start + quote..start + quote + 1, &Mistake::OpenQuote {});
                return count + 1;
            }
            if start <= self.header_at {
                continue;
            }
            if record.iter().all(str::is_empty) {
                continue;
            }
            count += 1;
            let row = Row { rows: self, record: &record, start, line };
            if record.len() == self.width {
                each(&row);
            } else {
                let mistake = Mistake::CellCount { found: record.len(), wanted: self.width };
                self.page.report(row.span(), &mistake);
            }
        }
        count
    }

    fn spans_lines(&self, start: usize, end: usize) -> bool {
        let row = self.page.text.get(start..end.min(self.page.text.len())).unwrap_or("");
        row.trim_end_matches(['\r', '\n']).contains('\n')
    }
}

impl Rows<'_> {
    /// Name of a column as the file has it, or as the format does.
    pub(crate) fn name_of(&self, column: usize) -> String {
        let Some(known) = self.columns.get(column) else {
            return String::new();
        };
        let factor = self.factor(column);
        let unit =
            known.units.iter().find(|(_, other)| *other == factor).map_or("", |(unit, _)| unit);
        format!("{}{unit}", known.name)
    }

    /// Factor from the unit of a column to SI.
    pub(crate) fn factor(&self, column: usize) -> f64 {
        self.places.get(column).copied().flatten().map_or(1.0, |(_, factor)| factor)
    }

    /// A value in the unit of its column.
    pub(crate) fn shown(&self, column: usize, si: f64) -> String {
        let number = si / self.factor(column);
        format!("{}", (number * 1e6).round() / 1e6)
    }
}

impl<'r> Row<'r> {
    /// The table that the row stands in.
    pub(crate) fn rows(&self) -> &'r Rows<'r> {
        self.rows
    }
}

impl Row<'_> {
    fn page(&self) -> &Page<'_> {
        self.rows.page
    }

    /// Bytes of the row.
    pub(crate) fn span(&self) -> Range<usize> {
        self.page().lines.line_span(self.page().text, self.start)
    }

    /// Note a mistake that concerns the whole row.
    pub(crate) fn report(&self, mistake: &Mistake) {
        self.page().report(self.span(), mistake);
    }

    /// Note a mistake in one cell.
    pub(crate) fn report_cell(&self, column: usize, mistake: &Mistake) {
        self.page().report(self.cell_span(column), mistake);
    }

    /// Bytes of a cell.
    pub(crate) fn cell_span(&self, column: usize) -> Range<usize> {
        let row = self.span();
        let line = self.page().text.get(row.clone()).unwrap_or("");
        match self.rows.places.get(column) {
            Some(Some((index, _))) => {
                let cell = cell_span(line, self.rows.delimiter, *index);
                row.start + cell.start..row.start + cell.end
            }
            _ => row,
        }
    }

    /// Text of a cell; nothing when it is empty or the column is not there.
    pub(crate) fn text(&self, column: usize) -> Option<&str> {
        let (index, _) = self.rows.places.get(column).copied().flatten()?;
        self.record.get(index).filter(|cell| !cell.is_empty())
    }

    /// Text of a cell that must not be empty.
    pub(crate) fn must(&self, column: usize) -> Option<&str> {
        let cell = self.text(column);
        if cell.is_none() {
            self.report_cell(column, &Mistake::EmptyCell { column: self.name(column) });
        }
        cell
    }

    /// Number of a cell in SI units.
    pub(crate) fn number(
        &self,
        column: usize,
        dimension: Dimension,
        bounds: Bounds,
    ) -> Option<f64> {
        let cell = self.must(column)?;
        let factor =
            self.rows.places.get(column).copied().flatten().map_or(1.0, |(_, factor)| factor);
        let Ok(number) = cell.parse::<f64>() else {
            let mistake =
                Mistake::CellNumber { column: self.name(column), wanted: "a number".to_owned() };
            self.report_cell(column, &mistake);
            return None;
        };
        if !number.is_finite() {
            let wanted = "a finite number".to_owned();
            self.report_cell(column, &Mistake::CellNumber { column: self.name(column), wanted });
            return None;
        }
        let si = number * factor;
        if bounds.hold(si) {
            return Some(si);
        }
        let show = |si| Amount::new(dimension, si).show(UnitSystem::Metric);
        let (low, high) = (show(bounds.low), show(bounds.high));
        let mistake =
            Mistake::OutOfRange { key: self.name(column), value: shortened(cell), low, high };
        self.report_cell(column, &mistake);
        None
    }

    /// Name of a column as the file has it, or as the format does.
    pub(crate) fn name(&self, column: usize) -> String {
        self.rows.name_of(column)
    }
}

fn full_names(column: &Column) -> Vec<String> {
    if column.units.is_empty() {
        return vec![column.name.to_owned()];
    }
    column.units.iter().map(|(unit, _)| format!("{}{unit}", column.name)).collect()
}

fn choices(column: &Column) -> String {
    let names: Vec<String> =
        full_names(column).into_iter().map(|name| format!("`{name}`")).collect();
    crate::diagnose::nearest::list(&names.iter().map(String::as_str).collect::<Vec<_>>())
}

fn header_of(columns: &[Column]) -> String {
    let names = columns
        .iter()
        .filter(|column| !column.optional)
        .filter_map(|column| full_names(column).into_iter().next());
    names.collect::<Vec<_>>().join(",")
}

/// First byte of the first line that is neither empty nor a remark.
fn header_start(page: &Page<'_>) -> Option<usize> {
    let mut start = 0;
    for line in page.text.split_inclusive('\n') {
        if !line.trim().is_empty() && !line.starts_with('#') {
            return Some(start);
        }
        start += line.len();
    }
    let content = "a first line that names the columns".to_owned();
    page.report(0..0, &Mistake::EmptyFile { content });
    None
}

/// Columns of a table, for telling which table a file holds.
pub(crate) fn column_names(text: &str) -> Vec<String> {
    let line =
        text.lines().find(|line| !line.trim().is_empty() && !line.starts_with('#')).unwrap_or("");
    line.split(char::from(delimiter_of(line)))
        .map(|name| plain(name).to_ascii_lowercase())
        .collect()
}

fn delimiter_of(line: &str) -> u8 {
    if line.contains(',') {
        b','
    } else if line.contains(';') {
        b';'
    } else if line.contains('\t') {
        b'\t'
    } else {
        b','
    }
}

fn plain(cell: &str) -> &str {
    cell.trim().trim_matches('"').trim()
}

/// Bytes of the cell at a place in a line, blanks around it left out.
fn cell_span(line: &str, delimiter: u8, index: usize) -> Range<usize> {
    let (mut start, mut cell, mut quoted) = (0, 0, false);
    let mut end = line.len();
    for (at, byte) in line.bytes().enumerate() {
        match byte {
            b'"' => quoted = !quoted,
            _ if byte == delimiter && !quoted => {
                if cell == index {
                    end = at;
                    break;
                }
                cell += 1;
                start = at + 1;
            }
            _ => {}
        }
    }
    if cell < index {
        return line.len()..line.len();
    }
    let inside = line.get(start..end).unwrap_or("");
    let lead = inside.len() - inside.trim_start().len();
    let length = inside.trim().len();
    start + lead..start + lead + length
}

/// First byte of a row: the reader's position may stand before the line ends
/// of the row above, empty lines and remarks.
fn row_start(text: &str, position: Option<&csv::Position>) -> usize {
    let mut start = position.and_then(|at| usize::try_from(at.byte()).ok()).unwrap_or(0);
    while let Some(byte) = text.as_bytes().get(start) {
        match byte {
            b'\r' | b'\n' => start += 1,
            b'#' => {
                start +=
                    text.get(start..).and_then(|rest| rest.find('\n')).unwrap_or(text.len() - start)
            }
            _ => break,
        }
    }
    start
}
