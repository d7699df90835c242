//! Width and colour. Colour only repeats what sign and word already say.

use crate::report::verdict_symbol;
use crate::wrap::{LEAST_WIDTH, hanging};
use anstyle::{AnsiColor, Style};
use comfy_table::{
    CellAlignment, ContentArrangement, ContentLineStyle, LineStyle, Table, TableStyle,
};
use hardpan_model::Verdict;

/// How the text is set.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct TextStyle {
    /// Columns of the terminal.
    pub width: usize,
    /// Whether colour and bold type are used in addition.
    pub colour: bool,
}

impl Default for TextStyle {
    fn default() -> Self {
        Self { width: 100, colour: false }
    }
}

/// Lines between the header and the rows, and nothing else.
const QUIET: TableStyle = TableStyle::new()
    .header_lines(ContentLineStyle::none())
    .header_separator(LineStyle::none().fill('─'))
    .content_lines(ContentLineStyle::none());

pub(crate) struct Paint {
    style: TextStyle,
}

impl Paint {
    pub(crate) fn new(style: TextStyle) -> Self {
        Self { style: TextStyle { width: style.width.max(LEAST_WIDTH), ..style } }
    }

    pub(crate) fn width(&self) -> usize {
        self.style.width
    }

    fn styled(&self, text: &str, style: Style) -> String {
        if self.style.colour { format!("{style}{text}{style:#}") } else { text.to_owned() }
    }

    pub(crate) fn heading(&self, text: &str) -> String {
        format!("{}\n", self.styled(text, Style::new().bold()))
    }

    /// Sign and word of the verdict in capitals, and the answer after it.
    pub(crate) fn answer(&self, verdict: Verdict, sentence: &str) -> String {
        let word = format!("{} {}", verdict_symbol(verdict), verdict.word().to_uppercase());
        let lines = hanging(&format!("{word}   {sentence}"), self.width(), "");
        lines.replacen(&word, &self.styled(&word, verdict_style(verdict).bold()), 1)
    }

    /// The same lines with every `sign word` of a verdict coloured.
    pub(crate) fn verdicts(&self, lines: &str) -> String {
        let mut out = lines.to_owned();
        if self.style.colour {
            for verdict in [Verdict::Pass, Verdict::Conditional, Verdict::Unproven, Verdict::Fail] {
                let word = verdict_text(verdict);
                out = out.replace(&word, &self.styled(&word, verdict_style(verdict)));
            }
        }
        out
    }

    /// A table without frames that keeps within the width.
    pub(crate) fn table(&self, header: &[&str], right: &[usize]) -> Table {
        let mut table = Table::new();
        table.load_style(QUIET);
        table.set_content_arrangement(ContentArrangement::Dynamic);
        table.set_width(u16::try_from(self.style.width).unwrap_or(u16::MAX));
        table.set_header(header.iter().copied());
        for column in table.column_iter_mut() {
            column.set_padding((0, 2));
        }
        for column in right {
            if let Some(column) = table.column_mut(*column) {
                column.set_cell_alignment(CellAlignment::Right);
            }
        }
        table
    }
}

/// The lines of a table, without trailing spaces.
pub(crate) fn table_text(table: &Table) -> String {
    let mut out = String::new();
    for line in table.lines() {
        out.push_str(line.trim_end());
        out.push('\n');
    }
    out
}

/// Sign and word of a verdict.
pub(crate) fn verdict_text(verdict: Verdict) -> String {
    format!("{} {}", verdict_symbol(verdict), verdict.word())
}

fn verdict_style(verdict: Verdict) -> Style {
    let colour = match verdict {
        Verdict::Pass => AnsiColor::Green,
        Verdict::Conditional => AnsiColor::Yellow,
        Verdict::Unproven => AnsiColor::Magenta,
        Verdict::Fail => AnsiColor::Red,
    };
    Style::new().fg_color(Some(colour.into()))
}
