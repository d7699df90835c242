//! `cargo dev check`, `cargo dev generate`, `cargo dev validate`.

use hardpan_dev::{Problem, Workspace, cases, check, generate};
use std::process::ExitCode;

const USAGE: &str = "\
usage: cargo dev <check | generate | validate>

check      fail on anything that the rules of the workspace forbid
generate   write the pages and lists that are made from code and data
validate   hold every formula against its published values";

fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let workspace = Workspace::here();
    let outcome = match arguments.iter().map(String::as_str).collect::<Vec<_>>().as_slice() {
        ["check"] => check::run(&workspace),
        ["generate"] => generate::write(&workspace),
        ["validate"] => cases::validate(&workspace),
        _ => {
            eprintln!("{USAGE}");
            return ExitCode::from(2);
        }
    };
    match outcome {
        Ok(report) => {
            println!("{report}");
            ExitCode::SUCCESS
        }
        Err(problems) => {
            print_all(&problems);
            ExitCode::FAILURE
        }
    }
}

fn print_all(problems: &[Problem]) {
    for problem in problems {
        eprintln!("{problem}");
    }
    eprintln!("{} to mend", problems.len());
}
