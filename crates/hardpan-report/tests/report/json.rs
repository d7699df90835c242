//! The JSON keeps to its schema, and the schema in the documents is this one.

use crate::sample::{self, UnitSystem, report};
use hardpan_report::{FORMAT, VERSION, json, json_text, schema, schema_text};

#[test]
fn every_sample_keeps_to_the_schema() {
    let validator = jsonschema::validator_for(&schema()).unwrap();
    let samples = [
        sample::conditional(),
        sample::failing(),
        sample::unproven(),
        sample::overlong(hardpan_model::Verdict::Fail),
        sample::empty(),
        sample::not_finite(),
    ];
    for assessment in samples {
        let document = json(&report(&assessment, UnitSystem::Imperial));
        let faults: Vec<String> =
            validator.iter_errors(&document).map(|fault| fault.to_string()).collect();
        assert!(faults.is_empty(), "{faults:?}");
        assert_eq!(document["format"], FORMAT);
        assert_eq!(document["version"], VERSION);
    }
}

#[test]
fn the_schema_refuses_another_format() {
    let validator = jsonschema::validator_for(&schema()).unwrap();
    let mut document = json(&report(&sample::conditional(), UnitSystem::Metric));
    document["format"] = "another".into();
    assert!(!validator.is_valid(&document));
}

#[test]
fn the_text_begins_with_the_format_and_is_the_same_document() {
    let report = report(&sample::conditional(), UnitSystem::Metric);
    let text = json_text(&report);
    assert!(text.starts_with("{\n  \"format\": \"hardpan-assessment\",\n  \"version\": 1,"));
    let read: serde_json::Value = serde_json::from_str(&text).unwrap();
    assert_eq!(read["identity"], json(&report)["identity"]);
}

#[test]
fn values_are_si_whatever_the_units_of_the_report() {
    let assessment = sample::conditional();
    let [metric, imperial] = [UnitSystem::Metric, UnitSystem::Imperial].map(|units| {
        let mut told = json(&report(&assessment, units));
        // Sentences are in the units of the reader.
        let lines = told["card_lines"].as_array_mut().expect("lines");
        lines.iter_mut().for_each(|line| line["text"] = "".into());
        told
    });
    assert_eq!(metric, imperial);
    let largest = &metric["take_off_mass"]["largest"];
    assert_eq!(largest["value"], 44100.0);
    assert_eq!(largest["unit"], "kg");
    assert_eq!(largest["dimension"], "mass");
}

#[test]
fn the_schema_in_the_documents_is_this_one() {
    let kept = include_str!("../../../../docs/assessment.schema.json");
    let wanted = std::path::Path::new(env!("CARGO_TARGET_TMPDIR")).join("assessment.schema.json");
    std::fs::write(&wanted, schema_text()).unwrap();
    assert!(kept == schema_text(), "the schema has changed; copy {} there", wanted.display());
}
