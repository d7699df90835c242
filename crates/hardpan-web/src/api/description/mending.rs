//! What takes the place of an entry, and keeping an assessment.

use super::{flight_parameters, number, operation, reference, slug};
use serde_json::{Value, json};

const SENT: &str = "Token and Origin as of a record.";

/// A correction.
pub(super) fn correcting() -> Value {
    let summary = format!(
        "Put a corrected record in the place of an entry, which stays readable, as `hardpan book \
         FILE correct` does. {SENT}"
    );
    let fields = json!({
        "type": "object", "additionalProperties": { "type": "string" },
        "description": "The values that change, with their units; a blank one is no longer stated.",
    });
    mended("correct", &summary, Some(fields))
}

/// Keeping an assessment.
pub(super) fn keeping(changeable: &[&str]) -> Value {
    let summary = format!(
        "Keep the assessment of a flight in a book with all that it was made from, as `hardpan \
         assess FLIGHT --keep BOOK --by NAME` does; values stated again are kept with it. {SENT}"
    );
    let said = |words: &str| json!({ "type": "string", "description": words });
    let told = json!({
        "type": "object",
        "required": ["entry", "address"],
        "properties": {
            "entry": { "type": "integer", "description": "Number of the entry." },
            "address": said("Where the assessment is given as it was kept."),
        },
    });
    let mut post = operation("keep", &summary, &flight_parameters(changeable), &told);
    post["requestBody"] = json!({
        "required": true,
        "content": { "application/json": { "schema": {
            "type": "object", "required": ["book", "identifier"], "additionalProperties": false,
            "properties": {
                "book": said("Slug of the book."),
                "identifier": said("That of the inputs that were assessed (`produced.identifier` \
                                    of the assessment): nothing is kept that nobody read."),
                "by": said("Who keeps it; with accounts it is whoever is signed in."),
            },
        } } },
    });
    answers(
        &mut post,
        "It is kept.",
        &[
            ("403", "The token is another, or the account may not keep assessments."),
            ("409", "Files, values or books are no longer as they were assessed."),
            ("422", "Files or values have mistakes, or the book takes nothing."),
        ],
    );
    post
}

/// A withdrawal.
pub(super) fn withdrawing() -> Value {
    let summary = format!(
        "Take an entry back with nothing in its place; it stays readable, as `hardpan book FILE \
         withdraw` does. {SENT}"
    );
    mended("withdraw", &summary, None)
}

fn mended(name: &str, summary: &str, fields: Option<Value>) -> Value {
    let said = |words: &str| json!({ "type": "string", "description": words });
    let mut properties = json!({
        "why": said("Why."),
        "by": said("Who records it; with accounts it is whoever is signed in."),
    });
    let mut needed = vec!["why"];
    if let Some(fields) = fields {
        properties["fields"] = fields;
        needed.push("fields");
    }
    let number_of = |words: &str| json!({ "type": "integer", "description": words });
    let told = json!({
        "type": "object",
        "required": ["entry", "supersedes"],
        "properties": {
            "entry": number_of("Number of what is recorded."),
            "supersedes": number_of("Number of the entry that no longer stands."),
        },
    });
    let mut post = operation(name, summary, &[slug(), number()], &told);
    post["requestBody"] = json!({
        "required": true,
        "content": { "application/json": { "schema": {
            "type": "object", "required": needed, "additionalProperties": false,
            "properties": properties,
        } } },
    });
    answers(
        &mut post,
        "It is recorded.",
        &[
            ("403", "The token is another, or the account may not record this."),
            (
                "409",
                "Something took the place of the entry already, or it is of a kind for which \
                     nothing does.",
            ),
            ("422", "A value does not fit, or none differs."),
        ],
    );
    post
}

/// What it answers: 201 in the place of 200, and why not.
fn answers(post: &mut Value, done: &str, refusals: &[(&str, &str)]) {
    let mut recorded = post["responses"]["200"].take();
    recorded["description"] = json!(done);
    let trouble = json!({ "application/json": { "schema": reference("Trouble") } });
    for (code, words) in refusals {
        post["responses"][*code] = json!({ "description": words, "content": trouble });
    }
    post["responses"]["201"] = recorded;
    if let Some(responses) = post["responses"].as_object_mut() {
        responses.remove("200");
    }
}
