//! The terminal: its width, whether it takes colour, and writing to it.

use std::io::{IsTerminal as _, Write as _};

/// Columns to fill when the output is not a terminal.
const WIDTH: usize = 100;
/// Widest text that is still easy to read.
const WIDEST: usize = 140;

/// Columns of the terminal, within what reads well.
pub(crate) fn width() -> usize {
    match terminal_size::terminal_size() {
        Some((terminal_size::Width(columns), _)) => usize::from(columns).clamp(60, WIDEST),
        None => WIDTH,
    }
}

/// Whether results may be coloured; `NO_COLOR` and pipes turn it off.
pub(crate) fn colour() -> bool {
    let choice = anstream::AutoStream::choice(&std::io::stdout());
    choice != anstream::ColorChoice::Never && std::io::stdout().is_terminal()
}

/// Whether messages may be coloured.
pub(crate) fn colour_of_messages() -> bool {
    let choice = anstream::AutoStream::choice(&std::io::stderr());
    choice != anstream::ColorChoice::Never && std::io::stderr().is_terminal()
}

/// Write a result; a reader that goes away is no failure.
pub(crate) fn say(text: &str) {
    let mut out = std::io::stdout().lock();
    let _ = out.write_all(text.as_bytes()).and_then(|()| out.flush());
}

/// Write a message beside the result.
pub(crate) fn note(text: &str) {
    let mut out = std::io::stderr().lock();
    let _ = out.write_all(text.as_bytes()).and_then(|()| out.flush());
}
