//! Small pieces of Markdown.

/// The line that every generated page opens with.
pub(super) const GENERATED: &str =
    "<!-- Written by `cargo dev generate`; edit what it is made from. -->";

/// A table of cells that are Markdown already.
pub(super) fn table(head: &[&str], rows: &[Vec<String>]) -> String {
    let mut text = format!("| {} |\n|{}\n", head.join(" | "), "---|".repeat(head.len()));
    for row in rows {
        let cells: Vec<String> = row.iter().map(|cell| cell.replace('|', "\\|")).collect();
        text.push_str(&format!("| {} |\n", cells.join(" | ")));
    }
    text
}

/// Text on one line that no star or angle bracket turns into something else.
pub(super) fn escaped(text: &str) -> String {
    let mut out = String::new();
    for c in text.chars() {
        match c {
            '\n' => out.push(' '),
            '*' | '<' | '\\' => out.extend(['\\', c]),
            _ => out.push(c),
        }
    }
    out
}

/// Text set as code; a back-tick inside becomes an apostrophe.
pub(super) fn code(text: &str) -> String {
    format!("`{}`", text.replace('`', "'"))
}
