//! What a book tells of a strip, one question at a time.

use super::{any, operation, several, slug, words};
use crate::api::address;
use serde_json::{Value, json};

/// The addresses with their operations.
pub(super) fn questions() -> [(&'static str, Value); 4] {
    let strip = || words("strip", "Name of the strip; the first of the book without it.");
    let step = || words("step", "Length of a stretch, such as `100 m`.");
    let told = |name: &str, summary: &str, own: Vec<Value>| {
        let parameters: Vec<Value> = [slug()].into_iter().chain(own).collect();
        json!({ "get": operation(name, summary, &parameters, &any()) })
    };
    [
        (
            address::GRADING,
            told(
                "grading",
                "By when ruts and loose material meet their limits, as `hardpan book FILE grading \
             --json` prints it.",
                vec![
                    strip(),
                    words("rut", "Depth of a rut at which it is graded; 3 in without it."),
                    words("loose", "Depth of loose material at which it is graded."),
                ],
            ),
        ),
        (
            address::DAMAGE,
            told(
                "damage",
                "How often damage is done, by stretch and by zone, as `hardpan book FILE damage \
             --json` prints it.",
                vec![strip(), step()],
            ),
        ),
        (
            address::PASSES,
            told(
                "passes",
                "Passes by stretch since each was mended, as `hardpan book FILE passes --json` prints \
             them.",
                vec![
                    strip(),
                    step(),
                    words("flight", "Slug of a flight whose gear turns passes into coverages."),
                    several(
                        "tail",
                        false,
                        "Name of an aeroplane with that gear in the book; may stand several times.",
                    ),
                ],
            ),
        ),
        (
            address::DUE,
            told(
                "due",
                "Equipment and surveys to be looked at again, as `hardpan book FILE due --json` \
             prints them.",
                vec![words("within", "Leave out what is due later than this, such as `30 d`.")],
            ),
        ),
    ]
}
