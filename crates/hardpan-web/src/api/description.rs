//! The OpenAPI description, made of the schemas that the documents already have.

mod book;
mod mending;

use super::address;
use hardpan_assess::CAUTION;
use hardpan_book::Kind;
use serde_json::{Map, Value, json};

/// OpenAPI 3.1; its schemas are those of `hardpan schema`.
pub(super) fn description(changeable: &[&str]) -> Value {
    let mut whole = json!({
        "openapi": "3.1.0",
        "info": {
            "title": "hardpan",
            "summary": "Whether a transport aeroplane may use an unpaved strip today.",
            "description": CAUTION,
            "version": env!("CARGO_PKG_VERSION"),
        },
        "paths": {
            (address::DESCRIPTION): { "get": operation("describe", "This document.", &[], &any()) },
            (address::ENTRIES): { "get": operation(
                "entries", "Flights, strips, aeroplanes and books of the folder.", &[], &any(),
            ) },
            (address::FLIGHT): { "get": operation(
                "assess",
                "The assessment of a flight, as `hardpan assess --json` prints it; values of \
                 the flight may be stated again.",
                &flight_parameters(changeable),
                &reference("Assessment"),
            ) },
            (address::MASSES): { "get": operation(
                "masses",
                "Largest masses over a range of days, as `hardpan masses --json` prints them; \
                 values of the flight may be stated again.",
                &mass_parameters(changeable),
                &reference("Masses"),
            ) },
            (address::AEROPLANE): { "get": operation(
                "aeroplane",
                "What the file of an aeroplane states: masses, gear, tyres, flaps, equipment, \
                 approved limits and charts, each with its source.",
                &[slug()],
                &reference("Aeroplane"),
            ) },
            (address::STRIP): { "get": operation(
                "strip",
                "The dossier of a strip by itself, as `hardpan strip --json` prints it.",
                &[
                    slug(),
                    units(),
                    words("track", "Distance between the main wheels whose lanes the survey must \
                                    cover, such as `5.2 m`."),
                    words("flight", "Slug of a flight on this strip, to tell how its aeroplane \
                                     rides over it; without `track`."),
                    words("dated", "Date to print on the dossier; the moment of the request \
                                    without it."),
                ],
                &reference("Dossier"),
            ) },
            (address::BOOK): { "get": operation(
                "book", "A whole book, as `hardpan book FILE export` prints it.", &[slug()], &any(),
            ) },
            (address::LIST): { "get": of_type("text/csv", operation(
                "list",
                "Every entry of a kind, superseded ones too, as `hardpan book FILE list KIND` \
                 prints them.",
                &[slug(), kind()],
                &json!({ "type": "string" }),
            )) },
            (address::MAP): { "get": of_type("application/geo+json", operation(
                "map",
                "A strip with what the book tells of it, as `hardpan book FILE map STRIP` prints \
                 it; the strip file states where both ends lie on the globe.",
                &[
                    slug(),
                    json!({ "name": "strip", "in": "query", "required": true,
                        "schema": { "type": "string" }, "description": "Slug of the strip." }),
                    words("lane", "Half the distance between the main wheels, such as `2.6 m`, for \
                                   ruts by lane; on the axis without it."),
                ],
                &any(),
            )) },
            (address::KEPT): { "get": operation(
                "kept",
                "Versions of aeroplanes, strips, days and flights, as `hardpan book FILE kept \
                 --json` prints them.",
                &[slug()],
                &any(),
            ) },
            (address::STATUS): { "get": operation(
                "status",
                "State, passes, damage, grading and what is due of a strip, as `hardpan book \
                 FILE status --json` prints them.",
                &[
                    slug(),
                    words("strip", "Name of the strip."),
                    words("inspected-within", "Longest time since the last inspection, such as `7 d`; no \
                                     state but closed is told without it."),
                    words("surveyed-within", "Greatest age of a survey, such as `365 d`."),
                    words("rut", "Depth of a rut at which it is graded, such as `50 mm`; 3 in \
                                  without it."),
                    words("loose", "Depth of loose material at which it is graded; none is \
                                    published."),
                    words("flight", "Slug of a flight whose gear turns passes into coverages."),
                    several("tail", false, "Name of an aeroplane with that gear in the book; may \
                                            stand several times."),
                ],
                &any(),
            ) },
            (address::RULES): { "get": operation("rules", "Every rule in words.", &[], &any()) },
            (address::SESSION): { "get": operation(
                "session",
                "Who is signed in, and the token that a request that records must carry.",
                &[],
                &any(),
            ) },
            (address::RECORDS): { "post": recording() },
            (address::PICTURES): { "post": picturing() },
            (address::IMPORT): { "post": importing() },
            (address::KEEP): { "post": mending::keeping(changeable) },
            (address::CORRECT): { "post": mending::correcting() },
            (address::WITHDRAW): { "post": mending::withdrawing() },
            (address::STORED): { "get": operation(
                "entry",
                "One entry of a book; an assessment exactly as it was kept.",
                &[slug(), number()],
                &any(),
            ) },
            (address::COMPARE): { "get": operation(
                "compare",
                "Flights ranked, the best first, as `hardpan compare --json` prints them.",
                &comparison_parameters(changeable),
                &reference("Comparison"),
            ) },
        },
        "components": { "schemas": {
            "Assessment": document(hardpan_report::schema(), "Assessment"),
            "Aeroplane": document(read(&hardpan_report::aeroplane_schema()), "Aeroplane"),
            "Comparison": document(read(&hardpan_report::comparison_schema()), "Comparison"),
            "Dossier": document(read(&hardpan_report::dossier_schema()), "Dossier"),
            "Masses": document(read(&hardpan_report::masses_schema()), "Masses"),
            "Bearing": document(read(&hardpan_report::bearing_schema()), "Bearing"),
            "Weeks": document(read(&hardpan_report::weeks_schema()), "Weeks"),
            "Year": document(read(&hardpan_report::year_schema()), "Year"),
            "Remedies": document(read(&hardpan_report::ways_schema()), "Remedies"),
            "Confidence": document(read(&hardpan_report::confidence_schema()), "Confidence"),
            "Opened": document(read(&hardpan_report::opened_schema()), "Opened"),
            "Record": record(),
            "Trouble": trouble(),
        } },
    });
    for (address, item) in book::questions() {
        whole["paths"][address] = item;
    }
    for (name, item) in flight_commands(changeable) {
        whole["paths"][address::COMMAND.replace("{command}", name)] = item;
    }
    whole
}

/// Name, summary, parameters of its own, and schema.
type Command = (&'static str, &'static str, &'static [(&'static str, &'static str)], &'static str);

/// Keys without which a question about a flight has no answer.
const NEEDED: [&str; 3] = ["at", "from", "hour"];

/// The other commands about a flight.
fn flight_commands(changeable: &[&str]) -> Vec<(&'static str, Value)> {
    let commands: [Command; 9] = [
        (
            "confidence",
            "How sure the answer is, as `hardpan confidence --json`.",
            &[
                ("draws", "How many draws."),
                ("in-full", "How many of them are calculated in full."),
                ("seed", "Seed of the draws, a whole number."),
            ],
            "Confidence",
        ),
        ("remedies", "What would turn the answer, as `hardpan remedies --json`.", &[], "Remedies"),
        (
            "year",
            "Days and hours at which masses work, as `hardpan year --json`.",
            &[("landing", "Landing mass, with unit."), ("take-off", "Take-off mass, with unit.")],
            "Year",
        ),
        (
            "hour",
            "One hour of the calendar opened, as `hardpan year --open --json`.",
            &[
                ("landing", "Landing mass, with unit."),
                ("take-off", "Take-off mass, with unit."),
                ("from", "First day of its week, such as `6-18`."),
                ("hour", "Hour in UTC, 0 to 23."),
            ],
            "",
        ),
        (
            "weeks",
            "When the ground carries a mass, as `hardpan weeks --json`.",
            &[("mass", "The mass, with unit.")],
            "Weeks",
        ),
        (
            "bearing",
            "Mass against tyre pressure, as `hardpan bearing --json`.",
            &[("passes", "Numbers of passes, between commas.")],
            "Bearing",
        ),
        (
            "lesson",
            "Chapters and questions of the lesson, as `hardpan lesson`.",
            &[("without-answers", "`yes` leaves the answers out.")],
            "",
        ),
        (
            "explain",
            "Checks and figures opened down to the files, as `hardpan explain --json`; without \
             `figure` the names of what can be opened.",
            &[("figure", "Code of a check, or words of a title or of the name of a figure.")],
            "Opened",
        ),
        (
            "station",
            "What stands at a station of the strip, each reading opened, as `hardpan station \
             --json`.",
            &[("at", "The station, such as `640 m`.")],
            "",
        ),
    ];
    commands
        .into_iter()
        .map(|(name, summary, own, schema)| {
            let mut parameters = flight_parameters(changeable);
            parameters.extend(own.iter().map(|(key, said)| {
                let mut parameter = words(key, said);
                if NEEDED.contains(key) {
                    parameter["required"] = json!(true);
                }
                parameter
            }));
            let schema = if schema.is_empty() { any() } else { reference(schema) };
            (name, json!({ "get": operation(name, summary, &parameters, &schema) }))
        })
        .collect()
}

/// A kind of record in an address.
fn kind() -> Value {
    let kinds: Vec<&str> = Kind::ALL.iter().map(|kind| kind.word()).collect();
    json!({
        "name": "kind", "in": "path", "required": true,
        "schema": { "type": "string", "enum": kinds },
        "description": "Kind of record.",
    })
}

/// An operation whose document is no JSON of this program's own.
fn of_type(media_type: &str, mut operation: Value) -> Value {
    let content = &mut operation["responses"]["200"]["content"];
    let schema = content["application/json"].take();
    *content = json!({ (media_type): schema });
    operation
}

fn number() -> Value {
    json!({
        "name": "id", "in": "path", "required": true, "schema": { "type": "integer" },
        "description": "Its number in the book.",
    })
}

fn words(name: &str, said: &str) -> Value {
    json!({
        "name": name, "in": "query", "required": false, "schema": { "type": "string" },
        "description": said,
    })
}

fn several(name: &str, is_needed: bool, said: &str) -> Value {
    json!({
        "name": name, "in": "query", "required": is_needed, "description": said,
        "schema": { "type": "array", "items": { "type": "string" } }, "explode": true,
    })
}

/// An option of the command that has no value there.
fn yes(name: &str, said: &str) -> Value {
    json!({
        "name": name, "in": "query", "required": false, "description": said,
        "schema": { "type": "string", "enum": ["yes", "no"] },
    })
}

fn units() -> Value {
    json!({
        "name": "units", "in": "query", "required": false,
        "schema": { "type": "string", "enum": ["metric", "imperial"] },
        "description": "Units of the sentences; figures are in SI units in any case.",
    })
}

fn read(schema: &str) -> Value {
    serde_json::from_str(schema).unwrap_or_default()
}

/// A schema that stands in this document: its references are taken along.
fn document(mut schema: Value, name: &str) -> Value {
    repoint(&mut schema, &format!("#/components/schemas/{name}/$defs/"));
    if let Some(map) = schema.as_object_mut() {
        map.remove("$schema");
    }
    schema
}

fn repoint(value: &mut Value, to: &str) {
    match value {
        Value::Object(map) => {
            for (key, inner) in map.iter_mut() {
                match inner {
                    Value::String(text) if key == "$ref" => {
                        if let Some(rest) = text.strip_prefix("#/$defs/") {
                            *text = format!("{to}{rest}");
                        }
                    }
                    inner => repoint(inner, to),
                }
            }
        }
        Value::Array(items) => items.iter_mut().for_each(|item| repoint(item, to)),
        _ => {}
    }
}

fn any() -> Value {
    json!({ "type": "object" })
}

fn reference(name: &str) -> Value {
    json!({ "$ref": format!("#/components/schemas/{name}") })
}

fn slug() -> Value {
    json!({
        "name": "slug", "in": "path", "required": true, "schema": { "type": "string" },
        "description": "Its name in addresses, as /api/entries lists it.",
    })
}

fn flight_parameters(changeable: &[&str]) -> Vec<Value> {
    [slug(), units()].into_iter().chain(changes(changeable)).collect()
}

fn changes(changeable: &[&str]) -> impl Iterator<Item = Value> {
    let change = |key: &&str| {
        words(key, "Stated again for this answer, with its unit; the files stay as they are.")
    };
    changeable.iter().map(change)
}

fn comparison_parameters(changeable: &[&str]) -> Vec<Value> {
    let own = [
        several("flight", true, "Slug of a flight; may stand up to six times."),
        yes("both-ends", "`yes` for every choice of ends."),
        units(),
    ];
    own.into_iter().chain(changes(changeable)).collect()
}

fn mass_parameters(changeable: &[&str]) -> Vec<Value> {
    let mut parameters = flight_parameters(changeable);
    for (name, said) in [
        ("temperatures", "Outside temperatures with units; -20 degC to 30 degC without it."),
        ("headwinds", "Headwinds with units, negative from behind; -5 kt to 20 kt without it."),
        ("pressures", "Main tyre pressures with units; as the flight has it without."),
        ("states", "States of the surface, such as `dry,wet`; as the day has it without."),
        ("air-pressures", "Air pressures reduced to sea level; as the day has it without."),
    ] {
        parameters.push(words(name, &format!("{said} Between commas.")));
    }
    parameters.push(yes("best-flap", "`yes` takes in each place the flap with the largest mass."));
    parameters
}

fn operation(name: &str, summary: &str, parameters: &[Value], schema: &Value) -> Value {
    let mut responses = Map::new();
    let body = |schema: &Value| json!({ "application/json": { "schema": schema } });
    responses.insert(
        "200".to_owned(),
        json!({ "description": "The document.", "content": body(schema) }),
    );
    if !parameters.is_empty() {
        let said = [
            ("400", "The query is not understood."),
            ("404", "There is no such entry."),
            ("422", "The files or the values stated again have mistakes."),
        ];
        for (code, words) in said {
            let content = body(&reference("Trouble"));
            responses.insert(code.to_owned(), json!({ "description": words, "content": content }));
        }
    }
    json!({
        "operationId": name, "summary": summary, "parameters": parameters,
        "responses": responses,
    })
}

fn recording() -> Value {
    let mut post = operation(
        "record",
        "Record one thing in a book, once: the same mark sent again answers with the entry that \
         stands. The header x-hardpan-token carries the token of /api/session, and Origin this \
         address.",
        &[slug()],
        &any(),
    );
    post["requestBody"] = json!({
        "required": true,
        "content": { "application/json": { "schema": reference("Record") } },
    });
    let trouble = json!({ "application/json": { "schema": reference("Trouble") } });
    for (code, words) in [
        ("201", "It is recorded."),
        ("403", "The token is another, or the account may not record this."),
        ("409", "Something in the book stands against it: look, and send it again with anyway."),
        ("422", "A value does not fit."),
    ] {
        let content = if code == "201" {
            json!({ "application/json": { "schema": any() } })
        } else {
            trouble.clone()
        };
        post["responses"][code] = json!({ "description": words, "content": content });
    }
    post["responses"]["200"]["description"] = json!("It was recorded before, under the same mark.");
    post
}

fn picturing() -> Value {
    let said = |name: &str, is_needed: bool, words: &str| {
        json!({ "name": name, "in": "query", "required": is_needed,
            "schema": { "type": "string" }, "description": words })
    };
    let mut post = operation(
        "picture",
        "Keep a picture of an inspection, damage or a repair, once: the body is its bytes, \
         at most 8 MiB, told by their beginning; 12 for an entry. Token and Origin as of a \
         record. What a camera wrote into it of place, time and owner is taken out, so that \
         sha256 is that of what is kept. It stands then at /books/{slug}/pictures/{sha256}.",
        &[
            slug(),
            number(),
            said(
                "mark",
                true,
                "Made by the sender, another for each picture: 8 to 64 letters, \
                                digits and hyphens.",
            ),
            said("shown", true, "What it shows, for who cannot see it."),
            said("file", false, "Name of its file."),
            said("by", false, "Who records it; with accounts it is whoever is signed in."),
        ],
        &any(),
    );
    let bytes = json!({ "schema": { "type": "string", "format": "binary" } });
    post["requestBody"] = json!({
        "required": true,
        "content": { "image/jpeg": bytes, "image/png": bytes, "image/webp": bytes },
    });
    let trouble = json!({ "application/json": { "schema": reference("Trouble") } });
    for (code, words) in [
        ("201", "It is kept."),
        ("403", "The token is another, or the account may not record this."),
        ("409", "The mark is that of something else."),
        ("413", "It is too large, or did not arrive whole."),
        ("422", "It is no picture, or the entry takes none or no more."),
    ] {
        let content = if code == "201" {
            json!({ "application/json": { "schema": any() } })
        } else {
            trouble.clone()
        };
        post["responses"][code] = json!({ "description": words, "content": content });
    }
    post["responses"]["200"]["description"] = json!("It was kept before, under the same mark.");
    post
}

fn importing() -> Value {
    let mut post = operation(
        "import",
        "Take over a file into a book, as `hardpan book FILE import` does: all of it, or nothing. \
         The values come before the file, and the file before its pictures. Token and Origin as \
         of a record. Each entry keeps who first wrote it, where the file says so.",
        &[slug()],
        &any(),
    );
    let text = |words: &str| json!({ "type": "string", "description": words });
    let bytes = json!({ "type": "string", "format": "binary" });
    post["requestBody"] = json!({
        "required": true,
        "content": { "multipart/form-data": { "schema": {
            "type": "object",
            "required": ["file"],
            "properties": {
                "by": text("Who takes it over; with accounts it is whoever is signed in."),
                "kind": text("Kind of record of a CSV file; without it the file is JSON of a book \
                              or GeoJSON."),
                "strip": text("Slug of the strip that places of GeoJSON lie on."),
                "file": bytes,
                "picture": { "type": "array", "items": bytes },
            },
        } } },
    });
    let trouble = json!({ "application/json": { "schema": reference("Trouble") } });
    for (code, words) in [
        ("403", "The token is another, or the account may not record some of it."),
        ("413", "The file or a picture is too large."),
        ("422", "Something in the file does not fit; all of it is told, by line and column."),
        ("503", "Two files are on their way already."),
    ] {
        post["responses"][code] = json!({ "description": words, "content": trouble });
    }
    let numbers = json!({
        "type": "object",
        "required": ["count", "known"],
        "properties": {
            "first": { "type": "integer" }, "last": { "type": "integer" },
            "count": { "type": "integer" },
            "known": { "type": "integer",
                "description": "How many records stood in the book already, word for word." },
        },
    });
    for (code, words) in [
        ("200", "Nothing was recorded: all of it stands in the book, word for word."),
        ("201", "It is recorded: numbers of the first and the last entry."),
    ] {
        let content = json!({ "application/json": { "schema": numbers } });
        post["responses"][code] = json!({ "description": words, "content": content });
    }
    post
}

fn record() -> Value {
    let kinds: Vec<&str> = crate::pages::book::KINDS.iter().map(|kind| kind.word()).collect();
    json!({
        "type": "object",
        "required": ["mark", "record", "fields"],
        "additionalProperties": false,
        "properties": {
            "mark": { "type": "string", "pattern": "^[0-9A-Za-z-]{8,64}$",
                "description": "Made by the sender, another for each record." },
            "record": { "type": "string", "enum": kinds },
            "fields": { "type": "object", "additionalProperties": { "type": "string" },
                "description": "Values with their units, as `hardpan book FILE add` takes them." },
            "by": { "type": "string",
                "description": "Who records it; with accounts it is whoever is signed in." },
            "anyway": { "type": "boolean",
                "description": "Record it although something in the book stands against it." },
        },
    })
}

fn trouble() -> Value {
    let text = json!({ "type": "string" });
    json!({
        "type": "object",
        "required": ["error", "mistakes"],
        "properties": {
            "error": { "type": "string", "description": "What stands in the way, in a sentence." },
            "mistakes": { "type": "array", "items": {
                "type": "object",
                "properties": {
                    "code": text, "file": text, "line": { "type": "integer" },
                    "column": { "type": "integer" }, "key": { "type": ["string", "null"] },
                    "message": text, "expected": text, "hint": text,
                },
            } },
            "more": { "type": "integer", "description": "How many mistakes there are besides." },
        },
    })
}
