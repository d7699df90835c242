//! `hardpan manual`: pages for `man`.

use crate::arguments::Arguments;
use crate::failure::Failure;
use crate::output::{make_folder, write_whole};
use crate::screen;
use clap::{Command, CommandFactory as _};
use std::path::Path;

/// Section of user commands.
const SECTION: &str = "1";

/// Write a page for the program and one for each of its commands.
pub(crate) fn run(folder: &Path) -> Result<u8, Failure> {
    make_folder(folder)?;
    let mut program = Arguments::command();
    program.build();
    let count = write(&program, "hardpan", folder)?;
    screen::say(&format!("{count} pages written: {}\n", folder.display()));
    Ok(0)
}

fn write(command: &Command, name: &str, folder: &Path) -> Result<usize, Failure> {
    let page = clap_mangen::Man::new(command.clone().disable_help_subcommand(true))
        .title(name.to_uppercase())
        .section(SECTION)
        .manual("Hardpan");
    let path = folder.join(format!("{name}.{SECTION}"));
    let mut text = Vec::new();
    page.render(&mut text).map_err(|cause| Failure::Write { path: path.clone(), cause })?;
    write_whole(&path, &text)?;
    let mut count = 1;
    let is_shown = |inner: &&Command| inner.get_name() != "help" && !inner.is_hide_set();
    for inner in command.get_subcommands().filter(is_shown) {
        count += write(inner, &format!("{name}-{}", inner.get_name()), folder)?;
    }
    Ok(count)
}
