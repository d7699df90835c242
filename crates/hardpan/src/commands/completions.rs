//! `hardpan completions`.

use crate::arguments::Arguments;
use clap::CommandFactory as _;

/// The completion script of a shell.
pub(crate) fn text(shell: clap_complete::Shell) -> String {
    let mut script = Vec::new();
    clap_complete::generate(shell, &mut Arguments::command(), "hardpan", &mut script);
    String::from_utf8_lossy(&script).into_owned()
}
