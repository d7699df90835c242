//! The forbidden words on lines that hold them and lines that only seem to.

use hardpan_dev::check::words;
use rstest::rstest;

#[rstest]
#[case("/home/anybody/strip.toml", true)]
#[case("in \"/Users/anybody/card.pdf\"", true)]
#[case("// TODO", true)]
#[case("mastodon", false)]
#[case("https://example.org/home/index.html", false)]
#[case("$folder/home/card.pdf", false)]
fn no_place_on_one_machine_and_no_loose_end(#[case] line: &str, #[case] found: bool) {
    assert_eq!(!words::forbidden("a.md", line).is_empty(), found);
}
