//! The forbidden words on lines that hold them and lines that only seem to.

use hardpan_dev::check::words;
use rstest::rstest;

#[rstest]
#[case("see ../shared for more", true)]
#[case("in \"/tmp/card.pdf\"", true)]
#[case("/home/anybody/strip.toml", true)]
#[case("this session went well", true)]
#[case("obsession, possessions", false)]
#[case("https://example.org/home/index.html", false)]
#[case("$folder/tmp/card.pdf", false)]
fn no_place_on_one_machine(#[case] line: &str, #[case] found: bool) {
    assert_eq!(!words::forbidden("a.md", line).is_empty(), found);
}

#[test]
fn dependencies_come_from_crates_io() {
    let lock = "source = \"registry+https://example.org/index\"";
    assert_eq!(words::forbidden("Cargo.lock", lock).len(), 1);
}
