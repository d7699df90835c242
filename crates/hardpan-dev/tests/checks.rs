//! Each check on small texts that break it and small texts that keep it.

use hardpan_dev::check::{citations, doors, image, imports, licences, sizes};
use hardpan_dev::generate::{module_of, replaced};
use hardpan_dev::{Problem, SourceList};
use rstest::rstest;

const TABLE: &str = "\
words before

| crate | phase | holds | may depend on |
|---|---|---|---|
| `hardpan-quantity` | – | quantities | – |
| `hardpan-model` | – | nouns | quantity |
| `hardpan` | – | the command | quantity, model |

| another | table |
";

fn edge(from: &str, to: &str) -> imports::Edge {
    imports::Edge { from: from.to_owned(), to: to.to_owned() }
}

#[test]
fn the_crate_table_allows_what_it_lists() {
    let allowed = imports::table(TABLE).expect("the table is well formed");
    let crates = ["hardpan-quantity", "hardpan-model", "hardpan"].map(str::to_owned);
    let edges = [edge("hardpan-model", "hardpan-quantity"), edge("hardpan", "hardpan-model")];
    assert_eq!(imports::forbidden(&allowed, &crates, &edges), []);
}

#[test]
fn an_edge_or_crate_that_is_not_listed_is_named() {
    let allowed = imports::table(TABLE).expect("the table is well formed");
    let crates = ["hardpan-quantity", "hardpan-extra"].map(str::to_owned);
    let edges = [edge("hardpan-quantity", "hardpan-model")];
    let told: Vec<String> =
        imports::forbidden(&allowed, &crates, &edges).iter().map(Problem::to_string).collect();
    assert_eq!(
        told,
        [
            "ARCHITECTURE.md: hardpan-extra is missing from the crate table",
            "crates/hardpan-quantity/Cargo.toml: hardpan-quantity may not depend on \
             hardpan-model; see ARCHITECTURE.md",
        ]
    );
}

#[rstest]
#[case("no table at all", "ARCHITECTURE.md: has no table headed")]
#[case(&TABLE.replace("quantity, model", "maths"), "hardpan-maths has no row of its own")]
#[case(&TABLE.replace("| nouns |", "|"), "ARCHITECTURE.md:6: a row of the crate table has four")]
fn a_faulty_table_says_where(#[case] text: &str, #[case] says: &str) {
    let problems = imports::table(text).expect_err("the table is faulty");
    assert!(problems.iter().any(|p| p.to_string().contains(says)), "{problems:?}");
}

#[rstest]
#[case("a.rs", 600, true)]
#[case("a.rs", 601, false)]
#[case("crates/x/src/lib.rs", 60, true)]
#[case("crates/x/src/lib.rs", 61, false)]
fn files_are_small(#[case] file: &str, #[case] lines: usize, #[case] holds: bool) {
    assert_eq!(sizes::too_long(file, &"x\n".repeat(lines)).is_none(), holds);
}

#[rstest]
#[case("use std::fs;", true)]
#[case("    std::fs::read(path)", true)]
#[case("use std::{collections::BTreeMap, env};", true)]
#[case("let now = Timestamp::now();", true)]
#[case("// std::fs is not for us", false)]
#[case("use std::{fmt, sync::Arc};", false)]
#[case("let environment = known();", false)]
fn inner_crates_do_not_reach_outside(#[case] line: &str, #[case] reaches: bool) {
    assert_eq!(!doors::reaching("a.rs", line).is_empty(), reaches);
}

const IMAGE: &str = "\
FROM rust:1.95-slim AS build
COPY Cargo.toml Cargo.lock ./
COPY --chmod=644 crates crates
FROM debian
COPY --from=build /out /out
";

#[test]
fn what_the_first_stage_copies_is_found() {
    let found = image::copied(IMAGE);
    let found: Vec<(&str, usize)> = found.iter().map(|(path, line)| (&**path, *line)).collect();
    assert_eq!(found, [("Cargo.toml", 2), ("Cargo.lock", 2), ("crates", 3)]);
}

#[rstest]
#[case("rust-version = \"1.95\"", true)]
#[case("rust-version = \"1.96\"", false)]
#[case("rust-version = \"1.9\"", false)]
#[case("", false)]
fn the_image_has_the_toolchain_of_the_workspace(#[case] manifest: &str, #[case] same: bool) {
    assert_eq!(image::toolchain(IMAGE, manifest).is_empty(), same);
}

#[rstest]
#[case("include_str!(\"../a.txt\")", Ok("crates/x/a.txt"))]
#[case("x = include_bytes!(\n  \"b.png\")", Ok("crates/x/src/b.png"))]
#[case("include_str!(concat!(\"../../../demo/\", $name))", Ok("demo"))]
#[case("include_str!(NAME)", Err(1))]
fn what_a_source_takes_in_is_found(#[case] code: &str, #[case] wanted: Result<&str, usize>) {
    let found = image::included("crates/x/src/a.rs", code);
    let found = found.map(|paths| paths.join(" ")).map_err(|problem| problem.line.unwrap_or(0));
    assert_eq!(found, wanted.map(str::to_owned));
}

#[rstest]
#[case("*\n!crates\n!demo", &["crates", "demo"], 0)]
#[case("# all\n*\n!crates\n!demo", &["crates"], 1)]
#[case("*\n!crates", &["crates", "demo"], 1)]
#[case("target\n.git", &["crates", "demo"], 0)]
#[case("target", &["crates", "demo"], 1)]
#[case("*\n!crates\n!demo\ncrates/x", &["crates", "demo"], 1)]
#[case("*\n!crates\n!demo\n**/x", &["crates", "demo"], 1)]
fn what_does_not_reach_the_build_is_told(
    #[case] ignored: &str,
    #[case] copied: &[&str],
    #[case] problems: usize,
) {
    let needed = ["crates/x/src/a.txt", "demo"].map(str::to_owned);
    let found = image::reaching(&needed, copied, ignored);
    assert_eq!(found.len(), problems, "{found:?}");
}

#[test]
fn keys_are_found_in_code_and_comments() {
    let constant = "pub(crate) const TABLE: &str = \"HAND-BOOK\";\nlet x = 1;";
    let names = citations::named_keys(constant);
    let in_code = |code: &str| citations::in_code(&format!("{code} // Tier"), &names);
    let call = "const A: Source = Source::new(\n    \"ISO-2533\", \"table\", tier);";
    assert_eq!(in_code(call), Ok(vec![("ISO-2533".to_owned(), 1)]));
    assert_eq!(in_code("\nSource::new(TABLE, \"\", t)"), Ok(vec![("HAND-BOOK".to_owned(), 2)]));
    assert_eq!(in_code("Source::new(\"\", \"practice\", tier)"), Ok(vec![]));
    assert_eq!(in_code("Source::new(RULE.source.key, \"place\", tier)"), Ok(vec![]));
    assert_eq!(in_code("\nSource::new(OTHER, \"\", tier)"), Err(2));
    assert_eq!(citations::in_code("Source::new(path, text)", &names), Ok(vec![]));
    let comment = "/// By [ISO-2533] and [`Error`], not [i-1].\nlet x = a[N-1];";
    assert_eq!(citations::in_comments(comment), [("ISO-2533".to_owned(), 1)]);
}

#[test]
fn two_files_describe_a_source_alike() {
    let entry = "[A-1]\ntitle = \"t\"\nauthors = \"a\"\nyear = \"2000\"\nobtained = \"read\"\n";
    let mut list = SourceList::default();
    assert_eq!(list.add("one.toml", entry), Ok(()));
    assert_eq!(list.add("two.toml", entry), Ok(()));
    let problems = list.add("three.toml", &entry.replace("2000", "2001"));
    assert_eq!(problems.map_err(|found| found.len()), Err(1));
}

#[test]
fn every_rule_file_is_a_module_and_a_rule() {
    let text = module_of(&["g10_strength", "g20_ruts"]);
    assert!(text.contains("mod g10_strength;\nmod g20_ruts;\n"), "{text}");
    assert!(text.contains("&[g10_strength::RULE,g20_ruts::RULE,]"), "{text}");
}

#[rstest]
#[case("MIT", true)]
#[case("GPL-3.0", false)]
#[case("GPL-3.0 OR MIT", true)]
#[case("GPL-3.0/MIT", true)]
#[case("MIT AND GPL-3.0", false)]
#[case("(MIT OR GPL-3.0) AND Unicode-3.0", true)]
#[case("GPL-3.0 OR MIT AND Unicode-3.0", true)]
#[case("Apache-2.0", false)]
#[case("Apache-2.0 WITH LLVM-exception", true)]
#[case("(MIT", false)]
#[case("no licence", false)]
fn a_licence_must_be_allowed(#[case] expression: &str, #[case] holds: bool) {
    let allowed = ["MIT", "Unicode-3.0", "Apache-2.0 WITH LLVM-exception"].map(str::to_owned);
    assert_eq!(licences::is_allowed(expression, &allowed), holds);
}

#[test]
fn only_the_words_between_the_marks_change() {
    let marks = [
        "<!-- validation count: written by cargo dev generate -->",
        "<!-- end of validation count -->",
    ];
    let page = |words: &str| format!("before\n{}\n{words}\n{}\nafter\n", marks[0], marks[1]);
    assert_eq!(replaced(&page("old"), "new"), Some(page("new")));
    assert_eq!(replaced(&page("new"), "new"), Some(page("new")));
    assert_eq!(replaced("no marks", "new"), None);
}
