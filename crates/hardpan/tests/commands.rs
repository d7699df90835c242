//! The commands as a user runs them: exit codes, files written, errors told.

mod support;

use snapbox::cmd::{Command, cargo_bin};
use std::path::Path;
use support::{change, changed_files, demo_folder};

fn hardpan() -> Command {
    Command::new(cargo_bin!("hardpan")).env("NO_COLOR", "1")
}

fn lay_out(folder: &Path, changes: &[support::Change]) -> String {
    for (name, text) in changed_files(changes) {
        std::fs::write(folder.join(name), text).expect("a writable folder");
    }
    folder.join("flight.toml").to_string_lossy().into_owned()
}

fn text_of(bytes: &[u8]) -> String {
    String::from_utf8_lossy(bytes).into_owned()
}

#[test]
fn exit_code_tells_the_verdict() {
    let cases = [
        (4, vec![]),
        (1, vec![change("flight.toml", "mass = \"40.4 t\"", "mass = \"44 t\"")]),
        (3, vec![change("day.toml", "standing_water = \"none\"\n", "")]),
        (2, vec![change("flight.toml", "mass = \"40.4 t\"", "mass = \"40.4\"")]),
    ];
    for (code, changes) in cases {
        let folder = tempfile::tempdir().expect("a folder");
        let flight = lay_out(folder.path(), &changes);
        hardpan().args(["assess", &flight]).assert().code(code);
    }
}

#[test]
fn assess_says_the_answer_first_and_the_caution_last() {
    let folder = tempfile::tempdir().expect("a folder");
    let flight = lay_out(folder.path(), &[]);
    let output = hardpan().args(["assess", &flight]).output().expect("it runs");
    let text = text_of(&output.stdout);
    assert!(text.lines().next().is_some_and(|first| first.contains("CONDITIONAL")), "{text}");
    assert!(text.lines().nth(1).is_some());
    assert!(text.contains("Governed by"));
    assert!(text.trim_end().ends_with("Absence of data is never a pass."), "{text}");
}

#[test]
fn imperial_units_show_no_metres() {
    let folder = tempfile::tempdir().expect("a folder");
    let flight = lay_out(folder.path(), &[]);
    let output =
        hardpan().args(["assess", &flight, "--units", "imperial"]).output().expect("it runs");
    let text = text_of(&output.stdout);
    assert!(text.contains(" lb") && text.contains(" psi") && text.contains(" ft"));
    assert!(!text.contains(" kPa"), "{text}");
}

#[test]
fn json_fits_its_schema_and_carries_every_basis() {
    let folder = tempfile::tempdir().expect("a folder");
    let flight = lay_out(folder.path(), &[]);
    let output = hardpan().args(["assess", &flight, "--json"]).output().expect("it runs");
    let document: serde_json::Value =
        serde_json::from_slice(&output.stdout).expect("the output is JSON");
    let schema = hardpan().arg("schema").output().expect("it runs");
    let schema: serde_json::Value = serde_json::from_slice(&schema.stdout).expect("JSON");
    let validator = jsonschema::validator_for(&schema).expect("a valid schema");
    let errors: Vec<String> =
        validator.iter_errors(&document).map(|error| error.to_string()).collect();
    assert!(errors.is_empty(), "{errors:?}");
    assert_eq!(document["version"], 1);
    let findings = document["findings"].as_array().expect("findings");
    assert!(findings.len() > 40);
    let without: Vec<_> = findings
        .iter()
        .filter(|finding| !finding["value"].is_null())
        .filter(|finding| finding["basis"].as_array().is_none_or(std::vec::Vec::is_empty))
        .map(|finding| finding["title"].clone())
        .collect();
    assert!(without.is_empty(), "figures without a basis: {without:?}");
}

/// The JSON of opened figures: a step is named by its place among all of them, and a value
/// that comes from a step is the result of that step.
#[test]
fn opened_figures_fit_their_schema_and_hold_together() {
    let folder = tempfile::tempdir().expect("a folder");
    let flight = lay_out(folder.path(), &[]);
    let schema = hardpan().args(["schema", "explain"]).output().expect("it runs");
    let schema: serde_json::Value = serde_json::from_slice(&schema.stdout).expect("JSON");
    let validator = jsonschema::validator_for(&schema).expect("a valid schema");
    let ask = |words: &[&str]| {
        let all = [&["explain", flight.as_str()], words, &["--json"]].concat();
        let output = hardpan().args(all).output().expect("it runs");
        assert_eq!(output.status.code(), Some(0), "{words:?}");
        serde_json::from_slice::<serde_json::Value>(&output.stdout).expect("JSON")
    };
    for words in ["G20", "F50", "largest take-off mass", "V1"] {
        let document = ask(&[words]);
        let errors: Vec<String> =
            validator.iter_errors(&document).map(|error| error.to_string()).collect();
        assert!(errors.is_empty(), "{words}: {errors:?}");
        let lists = ["findings", "figures"].map(|key| document[key].as_array().expect("a list"));
        for one in lists.into_iter().flatten() {
            let parts = one["further"].as_array().expect("parts").iter();
            let further = parts.flat_map(|part| part["steps"].as_array().expect("steps"));
            let steps: Vec<_> =
                one["basis"].as_array().expect("steps").iter().chain(further).collect();
            let inputs = steps.iter().flat_map(|step| step["inputs"].as_array().expect("inputs"));
            let mut ends = 0;
            for input in inputs {
                ends += usize::from(input["from"]["file"]["line"].as_u64().is_some());
                let Some(step) = input["from"]["step"].as_u64() else { continue };
                let result = &steps[step as usize]["result"];
                let is_there = result["value"] == input["value"]["value"]
                    || steps[step as usize]["inputs"]
                        .as_array()
                        .is_some_and(|all| all.iter().any(|one| one["value"] == input["value"]));
                assert!(is_there, "{words}: {input:#} {result:#}");
            }
            assert!(ends > 0, "{words} comes from files");
        }
    }
    let names = ask(&[]);
    assert!(names["checks"].as_array().is_some_and(|all| all.len() > 40));
    let rule = hardpan().args(["explain", "G20", "--json"]).output().expect("it runs");
    let rule: serde_json::Value = serde_json::from_slice(&rule.stdout).expect("JSON");
    assert_eq!(rule["rules"][0]["code"], "G20");
}

#[test]
fn card_is_written_whole_and_named() {
    let folder = tempfile::tempdir().expect("a folder");
    let flight = lay_out(folder.path(), &[]);
    let card = folder.path().join("card.pdf");
    hardpan().args(["assess", &flight, "--card"]).arg(&card).assert().code(4);
    let bytes = std::fs::read(&card).expect("the card");
    assert!(bytes.starts_with(b"%PDF-") && bytes.len() > 10_000);
    let beside = std::fs::read_dir(folder.path()).expect("the folder");
    let left: Vec<_> = beside
        .filter_map(|entry| entry.ok()?.file_name().into_string().ok())
        .filter(|name| name.starts_with('.'))
        .collect();
    assert!(left.is_empty(), "left behind: {left:?}");
}

#[test]
fn card_into_a_missing_folder_is_refused_with_the_path() {
    let folder = tempfile::tempdir().expect("a folder");
    let flight = lay_out(folder.path(), &[]);
    let output = hardpan()
        .args(["assess", &flight, "--card", "/no/such/folder/card.pdf"])
        .output()
        .expect("it runs");
    assert_eq!(output.status.code(), Some(2));
    assert!(text_of(&output.stderr).contains("/no/such/folder/card.pdf"));
}

#[test]
fn an_invented_scan_is_read_as_a_strip() {
    let folder = tempfile::tempdir().expect("a folder");
    let target = folder.path().join("made");
    hardpan().args(["new", "scan", "--density", "10"]).arg(&target).assert().success();
    let strip = target.join("strip.toml");
    let output = hardpan().arg("strip").arg(&strip).output().expect("it runs");
    let text = String::from_utf8_lossy(&output.stdout).into_owned();
    // It is made with a bump of 90 mm over 30 m.
    assert_eq!(output.status.code(), Some(1), "{text}");
    assert!(text.contains("✗ R10"), "{text}");
    // Nothing was scanned from 1500 m to 1520 m; the cells around are cut.
    assert!(text.contains("stations 1499 m to 1521 m, offsets −9.50 m to 9.50 m"), "{text}");
    hardpan().args(["new", "scan"]).arg(&target).assert().code(2);
    hardpan().args(["new", "scan", "--density", "501"]).arg(&target).assert().code(2);
}

#[test]
fn starter_files_assess_as_unproven_with_a_list() {
    let folder = tempfile::tempdir().expect("a folder");
    let target = folder.path().join("start");
    hardpan().args(["new", "flight"]).arg(&target).assert().success();
    let flight = target.join("flight.toml");
    let output = hardpan().arg("assess").arg(&flight).output().expect("it runs");
    assert_eq!(output.status.code(), Some(3), "{}", text_of(&output.stderr));
    let text = text_of(&output.stdout);
    assert!(text.contains("UNPROVEN"), "{text}");
    for key in ["strip: soundings", "strip: survey", "mass.maximum_take_off"] {
        assert!(text.contains(key), "{key} is not asked for in\n{text}");
    }
    hardpan().args(["new", "flight"]).arg(&target).assert().code(2);
}

#[test]
fn check_shows_the_line_and_the_way_out() {
    let folder = tempfile::tempdir().expect("a folder");
    let changes = [
        change("flight.toml", "mass = \"40.4 t\"", "mass = \"40.4 kN\""),
        change("flight.toml", "flap = \"25\"", "flop = \"25\""),
    ];
    let flight = lay_out(folder.path(), &changes);
    let output = hardpan().args(["check", &flight]).output().expect("it runs");
    assert_eq!(output.status.code(), Some(2));
    let told = text_of(&output.stderr);
    for words in ["40.4 kN", "force", "flop", "flap", "flight.toml:"] {
        assert!(told.contains(words), "`{words}` is not in\n{told}");
    }
}

#[test]
fn check_names_what_can_be_used() {
    let folder = tempfile::tempdir().expect("a folder");
    lay_out(folder.path(), &[]);
    let files = support::FILES.map(|name| folder.path().join(name));
    let output = hardpan().arg("check").args(files).output().expect("it runs");
    assert_eq!(output.status.code(), Some(0), "{}", text_of(&output.stderr));
    assert_eq!(text_of(&output.stdout).lines().count(), support::FILES.len());
}

#[test]
fn missing_and_huge_files_are_told_not_read() {
    let folder = tempfile::tempdir().expect("a folder");
    hardpan().args(["assess", "no-such-flight.toml"]).assert().code(2);
    let garbage = folder.path().join("garbage.toml");
    let file = std::fs::File::create(&garbage).expect("a file");
    file.set_len(100_000_000).expect("100 MB");
    let output = hardpan().arg("check").arg(&garbage).output().expect("it runs");
    assert_eq!(output.status.code(), Some(2));
    assert!(text_of(&output.stderr).contains("garbage.toml"));
}

#[test]
fn explain_opens_a_figure_to_file_and_line() {
    let folder = tempfile::tempdir().expect("a folder");
    let flight = lay_out(folder.path(), &[]);
    let output = hardpan().args(["explain", &flight, "G20"]).output().expect("it runs");
    let text = text_of(&output.stdout);
    assert_eq!(output.status.code(), Some(0));
    for words in ["HAMMITT-1970", "soundings.csv:", "flight.toml:", "ASTM-D6951"] {
        assert!(text.contains(words), "`{words}` is not in\n{text}");
    }
    let output = hardpan().args(["explain", &flight, "Z99"]).output().expect("it runs");
    assert_eq!(output.status.code(), Some(2));
    assert!(text_of(&output.stderr).contains("G20"));
}

#[test]
fn explain_lists_what_it_can_open_one_to_a_line_in_the_units_of_the_reader() {
    let folder = tempfile::tempdir().expect("a folder");
    let flight = lay_out(folder.path(), &[]);
    for (units, unit) in [("metric", " m"), ("imperial", " ft")] {
        let output = hardpan()
            .args(["explain", &flight, "nonsense", "--units", units])
            .output()
            .expect("runs");
        let text = text_of(&output.stderr);
        assert_eq!(output.status.code(), Some(2));
        assert!(!text.contains('\u{2063}'), "{text}");
        assert!(text.lines().all(|line| line.chars().count() < 120), "{text}");
        let turning = text.lines().find(|line| line.contains("turning place at station"));
        assert!(turning.is_some_and(|line| line.ends_with(unit)), "{text}");
        for name in ["checks, landing:", "  G20 ground under the main wheels", "other figures:"] {
            assert!(text.lines().any(|line| line.trim_end() == name), "`{name}` is not in\n{text}");
        }
        let figures = text.lines().skip_while(|line| *line != "other figures:").skip(1);
        let figures: Vec<&str> = figures.filter_map(|line| line.strip_prefix("  ")).collect();
        assert!(figures.iter().any(|name| name.starts_with("V1")), "{figures:?}");
        let v1 =
            hardpan().args(["explain", &flight, "V1", "--units", units]).output().expect("runs");
        assert_eq!(v1.status.code(), Some(0));
    }
}

#[test]
fn a_number_out_of_its_range_is_told_with_the_range() {
    let folder = tempfile::tempdir().expect("a folder");
    let flight = lay_out(folder.path(), &[]);
    for option in ["--seed", "--draws", "--in-full"] {
        let output = hardpan().args(["confidence", &flight, option, "-1"]).output().expect("runs");
        let text = text_of(&output.stderr);
        assert_eq!(output.status.code(), Some(2));
        assert!(text.contains("-1 is not in 0..=4294967295"), "{text}");
        assert!(!text.contains("tip:"), "{text}");
    }
}

#[test]
fn every_rule_explains_itself_with_the_caution() {
    for rule in hardpan_assess::rules() {
        let output = hardpan().args(["explain", rule.code]).output().expect("it runs");
        let text = text_of(&output.stdout);
        assert_eq!(output.status.code(), Some(0), "{}", rule.code);
        assert!(text.contains(rule.name) && text.contains("Planning aid only"), "{text}");
    }
    hardpan().args(["explain", "Q77"]).assert().code(2);
}

#[test]
fn formulas_are_listed_and_evaluated() {
    let list = text_of(&hardpan().arg("formula").output().expect("it runs").stdout);
    for formula in hardpan_assess::formulas() {
        assert!(list.contains(formula.name), "{} is not listed", formula.name);
    }
    // ASTM D6951 table 1, row 15 mm/blow: 14 (from memory of the table).
    let output = hardpan()
        .args(["formula", "cbr-webster-1992", "penetration_rate=15 mm/blow"])
        .output()
        .expect("it runs");
    assert!(text_of(&output.stdout).contains("14.1 %"), "{}", text_of(&output.stdout));
    for bad in [
        vec!["formula", "cbr-webster-1993"],
        vec!["formula", "cbr-webster-1992", "rate=15 mm/blow"],
        vec!["formula", "cbr-webster-1992", "penetration_rate=15 mm"],
        vec!["formula", "cbr-webster-1992", "penetration_rate=900 mm/blow"],
        vec!["formula", "cbr-webster-1992", "penetration_rate"],
    ] {
        let output = hardpan().args(&bad).output().expect("it runs");
        assert_eq!(output.status.code(), Some(2), "{bad:?}");
        assert!(!output.stderr.is_empty());
    }
}

#[test]
fn every_command_has_a_page_of_the_manual_with_the_caution() {
    let folder = tempfile::tempdir().expect("a folder");
    let pages = folder.path().join("man1");
    hardpan().arg("manual").arg(&pages).assert().code(0);
    let page = |name: &str| std::fs::read_to_string(pages.join(name)).expect(name);
    assert!(page("hardpan.1").contains("Planning aid only"));
    assert!(page("hardpan-assess.1").contains("hardpan assess flight.toml"));
    assert!(page("hardpan-book-import.1").contains("movements.csv"));
    let help = text_of(&hardpan().arg("--help").output().expect("it runs").stdout);
    // What is indented further goes on with a line above.
    let commands = help.lines().filter_map(|line| line.strip_prefix("  "));
    let commands = commands.filter(|line| !line.starts_with(' '));
    for word in commands.filter_map(|line| line.split_whitespace().next()) {
        if word.chars().all(|c| c.is_ascii_lowercase()) && word != "help" {
            assert!(pages.join(format!("hardpan-{word}.1")).exists(), "{word}");
        }
    }
}

#[test]
fn completions_and_help_have_examples() {
    for shell in ["bash", "zsh", "fish", "elvish", "powershell"] {
        let output = hardpan().args(["completions", shell]).output().expect("it runs");
        assert!(text_of(&output.stdout).contains("hardpan"));
    }
    for command in ["assess", "new", "check", "explain", "formula", "demo"] {
        let text = text_of(&hardpan().args([command, "--help"]).output().expect("it runs").stdout);
        assert!(text.contains("Example"), "{text}");
    }
}

#[test]
fn examples_answer_as_their_pages_say() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples");
    for (name, code, word) in
        [("02-short-grass-strip", 1, "FAIL"), ("03-missing-data", 3, "UNPROVEN")]
    {
        let flight = folder.join(name).join("flight.toml");
        let output = hardpan().arg("assess").arg(flight).output().expect("it runs");
        assert_eq!(output.status.code(), Some(code), "{name}");
        assert!(text_of(&output.stdout).contains(word), "{name}");
    }
}

#[test]
fn strip_tells_its_verdict_and_writes_dossier_and_figures() {
    let folder = tempfile::tempdir().expect("a folder");
    lay_out(folder.path(), &[]);
    let strip = folder.path().join("strip.toml");
    let (dossier, figures) = (folder.path().join("strip.pdf"), folder.path().join("figures"));
    let run = |dossier: &Path| {
        let mut command = hardpan().arg("strip").arg(&strip).args(["--track", "5.2 m"]);
        command = command.arg("--dossier").arg(dossier).arg("--figures").arg(&figures);
        command.output().expect("it runs")
    };
    let output = run(&dossier);
    let text = text_of(&output.stdout);
    assert_eq!(output.status.code(), Some(0), "{text}");
    assert!(text.starts_with("✓ PASS"), "{text}");
    assert!(text.contains("Left to the assessment of a flight"), "{text}");
    assert!(text.contains("Absence of data is never a pass."), "{text}");
    let bytes = std::fs::read(&dossier).expect("the dossier");
    assert!(bytes.starts_with(b"%PDF-") && bytes.len() > 30_000);
    let again = folder.path().join("again.pdf");
    run(&again);
    assert!(bytes == std::fs::read(&again).expect("the second dossier"), "other bytes");
    let svg = std::fs::read_to_string(figures.join("evenness.svg")).expect("a figure");
    assert!(svg.starts_with("<svg"));
    let hidden = |folder: &Path| {
        let files = std::fs::read_dir(folder).expect("the folder").filter_map(Result::ok);
        files.filter(|file| file.file_name().to_string_lossy().starts_with('.')).count()
    };
    assert_eq!(hidden(folder.path()) + hidden(&figures), 0, "something was left behind");
}

#[test]
fn strip_without_a_survey_is_unproven_and_says_what_to_measure() {
    let folder = tempfile::tempdir().expect("a folder");
    let survey = "survey = { value = \"survey.csv\", source = \"Levelling of 20 May 2026 \
                  (invented)\" }\n";
    lay_out(folder.path(), &[change("strip.toml", survey, "")]);
    let strip = folder.path().join("strip.toml");
    let output = hardpan().arg("strip").arg(&strip).output().expect("it runs");
    let text = text_of(&output.stdout);
    assert_eq!(output.status.code(), Some(3), "{text}");
    assert!(text.contains("UNPROVEN") && text.contains("strip: survey"), "{text}");
}

#[test]
fn strip_json_fits_its_schema() {
    let folder = tempfile::tempdir().expect("a folder");
    lay_out(folder.path(), &[]);
    let strip = folder.path().join("strip.toml");
    let output = hardpan().arg("strip").arg(&strip).arg("--json").output().expect("it runs");
    let document: serde_json::Value =
        serde_json::from_slice(&output.stdout).expect("the output is JSON");
    let schema = hardpan().args(["schema", "strip"]).output().expect("it runs");
    let schema: serde_json::Value = serde_json::from_slice(&schema.stdout).expect("JSON");
    let validator = jsonschema::validator_for(&schema).expect("a valid schema");
    let errors: Vec<String> =
        validator.iter_errors(&document).map(|error| error.to_string()).collect();
    assert!(errors.is_empty(), "{errors:?}");
    assert_eq!(document["format"], "hardpan-strip");
}

#[test]
fn strip_refuses_a_track_that_no_aeroplane_has() {
    let folder = tempfile::tempdir().expect("a folder");
    lay_out(folder.path(), &[]);
    let strip = folder.path().join("strip.toml");
    for track in ["52 m", "5.2", "nonsense"] {
        let mut command = hardpan().arg("strip").arg(&strip);
        command = command.args(["--track", track]);
        let output = command.output().expect("it runs");
        assert_eq!(output.status.code(), Some(2), "{track}");
        assert!(text_of(&output.stderr).contains("--track"), "{track}");
    }
}

/// Whatever is asked about a flight can be asked with values stated again.
#[test]
fn every_question_about_a_flight_takes_values_stated_again() {
    let folder = tempfile::tempdir().expect("a folder");
    let flight = lay_out(folder.path(), &[]);
    let questions: [&[&str]; 8] = [
        &["confidence", "--draws", "128"],
        &["remedies"],
        &["masses", "--temperatures", "14 degC", "--headwinds", "9 kt"],
        &["lesson"],
        &["bearing"],
        &["weeks"],
        &["year", "--csv"],
        &["explain"],
    ];
    for question in questions {
        let ask = |change: &str| {
            let change = ["--change", change];
            let all = [&question[..1], &[flight.as_str()], &question[1..], &change].concat();
            hardpan().args(all).output().expect("it runs")
        };
        let [fore, aft] = ["18 %", "27 %"].map(|set| {
            let answer = ask(&format!("take_off.centre_of_gravity={set}"));
            assert_ne!(answer.status.code(), Some(2), "{question:?} {}", text_of(&answer.stderr));
            text_of(&answer.stdout)
        });
        let is_names = question[0] == "explain";
        assert!(is_names || fore != aft, "{question:?} drops the change");
        assert_eq!(ask("tyres=soft").status.code(), Some(2), "{question:?}");
    }
}

#[test]
fn compare_ranks_the_ends_and_says_why() {
    let folder = tempfile::tempdir().expect("a folder");
    let flight = lay_out(folder.path(), &[]);
    let heavy = tempfile::tempdir().expect("a folder");
    let heavy =
        lay_out(heavy.path(), &[change("flight.toml", "mass = \"40.4 t\"", "mass = \"44 t\"")]);
    let output =
        hardpan().args(["compare", &heavy, &flight, "--both-ends"]).output().expect("it runs");
    let text = text_of(&output.stdout);
    assert_eq!(output.status.code(), Some(4), "{text}");
    assert_eq!(text.matches("planned)").count(), 16, "two masses of eight choices: {text}");
    let first = text.lines().find(|line| line.starts_with("1") || line.trim().starts_with("1 "));
    assert!(first.is_some_and(|line| line.contains("conditional")), "{text}");
    assert!(text.contains("to spare, then G20"), "{text}");
    assert!(text.trim_end().ends_with("Absence of data is never a pass."), "{text}");
    let output =
        hardpan().args(["compare", &flight, "--both-ends", "--json"]).output().expect("it runs");
    let ranked: serde_json::Value = serde_json::from_slice(&output.stdout).expect("JSON");
    let schema = hardpan().args(["schema", "compare"]).output().expect("it runs");
    let schema: serde_json::Value = serde_json::from_slice(&schema.stdout).expect("JSON");
    let validator = jsonschema::validator_for(&schema).expect("a valid schema");
    let wrong: Vec<String> = validator.iter_errors(&ranked).map(|e| e.to_string()).collect();
    assert!(wrong.is_empty(), "{wrong:#?}");
    assert_eq!(ranked["flights"].as_array().map(Vec::len), Some(4));
}

#[test]
fn a_value_stated_again_changes_the_answer_and_the_name() {
    let demo = demo_folder().join("flight.toml");
    let changed = |value: &str| {
        let out = std::process::Command::new(env!("CARGO_BIN_EXE_hardpan"))
            .args(["assess", "--json", "--change", value])
            .arg(&demo)
            .output()
            .expect("the program starts");
        (out.status.code(), String::from_utf8_lossy(&out.stdout).into_owned())
    };
    let (code, text) = changed("take_off.mass=44 t");
    assert_eq!(code, Some(1), "44 t is too heavy for the ground");
    assert!(text.contains("(changed: take-off mass 44 t)"));
    assert!(text.contains("\"file\": \"changes\""));
    for refused in ["take_off.mass", "take_off.mass=44", "strip.length=9 km"] {
        assert_eq!(changed(refused), (Some(2), String::new()), "{refused}");
    }
}
