//! The `hardpan` command.

mod apart;
mod arguments;
mod commands;
mod failure;
mod frozen;
mod output;
mod progress;
mod recorded;
mod screen;
mod shelf;

use arguments::{Arguments, Command, Schemas};
use clap::Parser as _;
use failure::Failure;
use std::process::ExitCode;

/// Answers ask for much in small pieces, on several threads at once.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

/// Exit code when the command or a file cannot be used.
const UNUSABLE: u8 = 2;

fn main() -> ExitCode {
    output::leave_nothing_half_written();
    match run(Arguments::parse()) {
        Ok(code) => ExitCode::from(code),
        Err(failure) => {
            anstream::eprintln!("hardpan: {failure}");
            ExitCode::from(UNUSABLE)
        }
    }
}

fn run(arguments: Arguments) -> Result<u8, Failure> {
    match arguments.command {
        Command::Demo { card, show } => commands::demo::run(&card, show.system()),
        Command::Assess {
            flight,
            card,
            figure,
            stones,
            climb,
            runs,
            decision_speed,
            change,
            book,
            keep,
            by,
            json,
            show,
        } => {
            let wanted = commands::assess::Wanted {
                card,
                figure,
                stones,
                climb,
                runs,
                decision_speed,
                change: change.all,
                book,
                keep: keep.zip(by),
                json,
                system: show.system(),
            };
            commands::assess::run(&flight, &wanted)
        }
        Command::Strip { strip, dossier, figures, places, track, flight, dated, json, show } => {
            let system = show.system();
            let wanted = commands::strip::Wanted {
                dossier,
                figures,
                places,
                track,
                flight,
                dated,
                json,
                system,
            };
            commands::strip::run(&strip, &wanted)
        }
        Command::Compare { flights, both_ends, change, json, show } => {
            commands::compare::run(&flights, both_ends, &change, json, show.system())
        }
        Command::Fit { aeroplane, write, show } => {
            commands::fit::run(&aeroplane, write.as_deref(), show.system())
        }
        Command::Confidence(wanted) => commands::confidence::run(&wanted),
        Command::Year(wanted) => commands::year::run(&wanted),
        Command::Remedies { flight, change, open, json, show } => {
            commands::remedies::run(&flight, &change, (open.as_deref(), json), show.system())
        }
        Command::Masses(wanted) => commands::masses::run(&wanted),
        Command::Lesson { flight, change, pack, without_answers, show } => commands::lesson::run(
            &flight,
            &change,
            pack.as_deref(),
            !without_answers,
            show.system(),
        ),
        Command::Bearing { flight, change, passes, figure, json, show } => {
            let wanted =
                commands::bearing::Wanted { change, passes, figure, json, system: show.system() };
            commands::bearing::run(&flight, &wanted)
        }
        Command::Weeks { flight, change, mass, json, show } => {
            commands::weeks::run(&flight, &change, mass.as_deref(), json, show.system())
        }
        Command::New { what, folder, density } => commands::new::run(what, &folder, density),
        Command::Check { files } => commands::check::run(&files),
        Command::Explain { subject, finding, change, json, show } => {
            commands::explain::run(&commands::explain::Wanted {
                subject: &subject,
                words: finding.as_deref(),
                change: &change.all,
                json,
                system: show.system(),
            })
        }
        Command::Station { flight, at, reading, change, json, show } => {
            let told = match (json, reading) {
                (true, _) => commands::station::Told::Json,
                (false, None) => commands::station::Told::Each,
                (false, Some(words)) => commands::station::Told::Down(words),
            };
            commands::station::run(&flight, &at, &change.all, &told, show.system())
        }
        Command::Formula { name, values, show } => {
            let text = commands::formula::run(name.as_deref(), &values, show.system())?;
            screen::say(&text);
            Ok(0)
        }
        Command::Book { file, action } => commands::book::run(&file, &action),
        Command::Serve { folder, listen, accounts, certificate, key, limits } => {
            let files = accounts.zip(certificate).zip(key);
            let files = files.map(|((accounts, certificate), key)| [accounts, certificate, key]);
            commands::serve::run(folder.as_deref(), listen, files, limits.limits())
        }
        Command::ReadSurvey { memory, time } => apart::run(apart::Limits { memory, seconds: time }),
        Command::Account { file, action } => commands::account::run(&file, &action),
        Command::Schema { of } => {
            screen::say(&match of {
                Schemas::Assess => hardpan_report::schema_text(),
                Schemas::Strip => hardpan_report::dossier_schema(),
                Schemas::Confidence => hardpan_report::confidence_schema(),
                Schemas::Remedies => hardpan_report::ways_schema(),
                Schemas::Year => hardpan_report::year_schema(),
                Schemas::Masses => hardpan_report::masses_schema(),
                Schemas::Bearing => hardpan_report::bearing_schema(),
                Schemas::Weeks => hardpan_report::weeks_schema(),
                Schemas::Compare => hardpan_report::comparison_schema(),
                Schemas::Explain => hardpan_report::opened_schema(),
                Schemas::Aeroplane => hardpan_report::aeroplane_schema(),
            });
            Ok(0)
        }
        Command::Manual { folder } => commands::manual::run(&folder),
        Command::Completions { shell } => {
            screen::say(&commands::completions::text(shell));
            Ok(0)
        }
    }
}
