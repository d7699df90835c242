//! `rules/mod.rs` of the assessment: one line for each rule file, so that a new
//! rule is one new file and nobody edits a central list.

use crate::{Problem, Workspace};

/// The file that is written.
pub(super) const FILE: &str = "crates/hardpan-assess/src/rules/mod.rs";
const FOLDER: &str = "crates/hardpan-assess/src/rules";
const MARK: &str = "const RULE: Rule";

/// The text of the file, from the names of the rule files.
pub(super) fn module(workspace: &Workspace) -> Result<String, Vec<Problem>> {
    let one = |problem| vec![problem];
    let files = workspace.files_in(FOLDER, ".rs").map_err(one)?;
    let mut names = Vec::new();
    let mut problems = Vec::new();
    for file in files.iter().filter(|file| *file != FILE) {
        let text = workspace.read(file).map_err(one)?;
        let name = file.trim_start_matches(FOLDER).trim_matches('/').trim_end_matches(".rs");
        if name.contains('/') || !text.contains(MARK) {
            problems.push(Problem::of_file(file, format!("a rule file holds one `{MARK}`")));
        } else if !text.contains(&code_line(name)) {
            problems.push(Problem::of_file(
                file,
                format!("is named for another rule; `{}` is wanted", code_line(name)),
            ));
        }
        names.push(name);
    }
    if !problems.is_empty() {
        return Err(problems);
    }
    let format = ["--edition", "2024", "--emit", "stdout", "--config-path", "rustfmt.toml"];
    workspace.run("rustfmt", &format, &module_of(&names)).map_err(one)
}

/// How a rule file states the code that it is named for.
fn code_line(name: &str) -> String {
    let code = name.split('_').next().unwrap_or_default().to_uppercase();
    format!("code: \"{code}\"")
}

/// The module of rule files, before it is formatted.
#[must_use]
pub fn module_of(names: &[&str]) -> String {
    let modules: String = names.iter().map(|name| format!("mod {name};\n")).collect();
    let rules: String = names.iter().map(|name| format!("{name}::RULE,")).collect();
    format!(
        "//! The rules, one a file, in the order of their codes.\n\
         //!\n\
         //! Written by `cargo dev generate` from the files of this folder.\n\n\
         {modules}\n\
         use crate::rule::Rule;\n\n\
         /// Every rule.\n\
         pub(crate) static RULES: &[Rule] = &[{rules}];\n"
    )
}
