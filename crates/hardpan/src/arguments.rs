//! The command line: one place for every command, option and example.

mod book;
mod changes;
mod listen;
mod masses;
mod reader;

pub(crate) use book::BookAction;
pub(crate) use changes::Changes;
pub(crate) use masses::Masses;
pub(crate) use reader::{READER, ReaderLimits};

use clap::{Parser, Subcommand, ValueEnum};
use hardpan_assess::CURVE_PASSES;
use hardpan_quantity::UnitSystem;
use std::net::SocketAddr;
use std::path::PathBuf;

const CAUTION: &str = "Planning aid only: the approved flight manual and its supplements, the \
operator's procedures, the aerodrome authority, local rules and licensed engineers decide.";

const EXIT_CODES: &str = "Exit codes of assess: 0 pass, 1 fail, 2 the command or a file cannot be \
used, 3 unproven, 4 conditional.";

/// Decide, with numbers and reasons, whether a transport aeroplane may use an
/// unpaved strip today: how heavy, at which tyre pressure, on which conditions.
#[derive(Debug, Parser)]
#[command(name = "hardpan", version, after_help = CAUTION, max_term_width = 100)]
pub(crate) struct Arguments {
    #[command(subcommand)]
    pub(crate) command: Command,
}

#[derive(Debug, Subcommand)]
pub(crate) enum Command {
    /// Assess the invented flight that ships with the program, and write its card
    #[command(after_help = "Example:\n  hardpan demo --card demo-card.pdf")]
    Demo {
        /// Where to write the crew card
        #[arg(long, value_name = "FILE", default_value = "hardpan-demo-card.pdf")]
        card: PathBuf,
        #[command(flatten)]
        show: Show,
    },
    /// Assess a flight: may it go, how heavy, at which tyre pressure, and why
    #[command(after_help = assess_help())]
    Assess {
        /// The flight file; it names the aeroplane, strip and day files
        flight: PathBuf,
        /// Write the crew card, a front and a back, as PDF
        #[arg(long, value_name = "FILE")]
        card: Option<PathBuf>,
        /// Write the strip on its station axis as SVG
        #[arg(long, value_name = "FILE")]
        figure: Option<PathBuf>,
        /// Write thrown stones at the aeroplane, from the side and from above, as SVG
        #[arg(long, value_name = "FILE")]
        stones: Option<PathBuf>,
        /// Write the climb with one engine out over the obstacles ahead as SVG
        #[arg(long, value_name = "FILE")]
        climb: Option<PathBuf>,
        /// Write speed, thrust, friction and wheel load of the runs by station as SVG
        #[arg(long, value_name = "FILE")]
        runs: Option<PathBuf>,
        /// Write the distances to go on and to stop by decision speed as SVG
        #[arg(long, value_name = "FILE")]
        decision_speed: Option<PathBuf>,
        #[command(flatten)]
        change: Changes,
        /// Ask the book of the strip whether it is closed or restricted at the time of the
        /// flight, and take the strikes and movements so far from it
        #[arg(long, value_name = "FILE")]
        book: Option<PathBuf>,
        /// Keep the assessment in a book, with the files that it is made from
        #[arg(long, value_name = "FILE", requires = "by")]
        keep: Option<PathBuf>,
        /// Who keeps it
        #[arg(long, value_name = "NAME", requires = "keep")]
        by: Option<String>,
        /// Print the assessment as JSON instead of text
        #[arg(long)]
        json: bool,
        #[command(flatten)]
        show: Show,
    },
    /// Judge a strip by itself, without a flight: shape, water, surfacing, strength
    #[command(after_help = strip_help())]
    Strip {
        /// The strip file; it names the survey and the soundings
        strip: PathBuf,
        /// Write the dossier as PDF
        #[arg(long, value_name = "FILE")]
        dossier: Option<PathBuf>,
        /// Write every figure as SVG into a folder; it is made if it does not exist
        #[arg(long, value_name = "FOLDER")]
        figures: Option<PathBuf>,
        /// Write worst places, repairs, areas and obstacles as GeoJSON for a map
        #[arg(long, value_name = "FILE")]
        places: Option<PathBuf>,
        /// Distance between the main wheels whose lanes the survey must cover
        #[arg(long, value_name = "LENGTH", conflicts_with = "flight")]
        track: Option<String>,
        /// A flight on this strip: tell how its aeroplane rides over it
        #[arg(long, value_name = "FILE")]
        flight: Option<PathBuf>,
        /// Date to print on the dossier; without it, it bears none
        #[arg(long, value_name = "DATE")]
        dated: Option<String>,
        /// Print the dossier as JSON instead of text
        #[arg(long)]
        json: bool,
        #[command(flatten)]
        show: Show,
    },
    /// Rank flights: ends of a strip, aeroplanes or strips for the same load
    #[command(
        after_help = "Examples:\n  hardpan compare flight.toml --both-ends\n  hardpan compare \
                            north.toml south.toml\n  hardpan compare one.toml other.toml --change \
                            landing.load=\"7 t\"\n\nA load stated for all is summed with each \
                            aeroplane's operating mass and the fuel of its flight. The best comes first: by verdict, then by the \
                            mass to spare over the plan. The exit code is that of the best."
    )]
    Compare {
        /// Flight files
        #[arg(required = true)]
        flights: Vec<PathBuf>,
        /// Try every choice of ends for landing and take-off
        #[arg(long)]
        both_ends: bool,
        /// State a value again for every flight, such as the same load
        #[arg(long, value_name = "KEY=VALUE")]
        change: Vec<String>,
        /// Print JSON instead of text
        #[arg(long)]
        json: bool,
        #[command(flatten)]
        show: Show,
    },
    /// How sure the answer is: probabilities of each limit, and masses that hold at 95 %
    #[command(after_help = confidence_help())]
    Confidence(Sure),
    /// The days and hours of the year at which masses work: warmth, ground and daylight
    #[command(after_help = "Examples:\n  hardpan year flight.toml\n  hardpan year flight.toml \
                            --take-off \"42 t\" --sheet year.pdf\n  hardpan year flight.toml \
                            --change landing.load=\"7 t\"\n  hardpan year flight.toml --csv \
                            > year.csv\n\nExit code 0 when the year is known, 3 when inputs are \
                            missing, 2 when files cannot be used.")]
    Year(Year),
    /// What would turn the answer: the shortest list of changes, the cheapest, mass against repair
    #[command(after_help = remedies_help())]
    Remedies {
        /// The flight file; its `[options]` says what else may be changed, and what changes cost
        flight: PathBuf,
        #[command(flatten)]
        change: Changes,
        /// Open the figures whose names have these words, such as "cost"; every figure
        /// without words
        #[arg(long, value_name = "WORDS", num_args = 0..=1, default_missing_value = "",
              conflicts_with = "json")]
        open: Option<String>,
        /// Print JSON
        #[arg(long)]
        json: bool,
        #[command(flatten)]
        show: Show,
    },
    /// Largest masses of a flight over temperature, wind, tyre pressure and state
    #[command(visible_alias = "table", after_help = masses_help())]
    Masses(Masses),
    /// Calibrate the model's free constants to the operator's approved charts
    #[command(
        after_help = "Examples:\n  hardpan fit aeroplane.toml\n  hardpan fit aeroplane.toml \
                            --write fitted.toml\n\nPrints thrust, lift, drag, rolling and braking \
                            with which the runs come nearest to the charts of the file, and how \
                            near. The aeroplane's file takes in what is written by fitted = \
                            \"fitted.toml\"; the charts bind."
    )]
    Fit {
        /// Aeroplane file with charts of take-off, accelerate-stop or landing distance
        aeroplane: PathBuf,
        /// Write the fitted constants to a file that the aeroplane's file can take in
        #[arg(long, value_name = "FILE")]
        write: Option<PathBuf>,
        #[command(flatten)]
        show: Show,
    },
    /// Make a briefing pack from a flight: principles, worked lines, questions and answers
    #[command(after_help = "Examples:\n  hardpan lesson flight.toml --pack lesson.pdf\n  hardpan \
                            lesson flight.toml --pack handout.pdf --without-answers\n\nEvery \
                            figure and every answer is of this very flight. The exit code is the \
                            flight's.")]
    Lesson {
        /// Flight file
        flight: PathBuf,
        #[command(flatten)]
        change: Changes,
        /// Write the pack as PDF instead of text on the screen
        #[arg(long, value_name = "FILE")]
        pack: Option<PathBuf>,
        /// Leave the answers out, for handing out
        #[arg(long)]
        without_answers: bool,
        #[command(flatten)]
        show: Show,
    },
    /// Show what the ground carries: mass against tyre pressure by numbers of passes
    #[command(after_help = "Examples:\n  hardpan bearing flight.toml\n  hardpan bearing \
                            flight.toml --passes 20,200 --figure bearing.svg\n\nExit codes: 0 \
                            computed, 2 a file cannot be used, 3 unproven.")]
    Bearing {
        /// The flight file; it names the aeroplane, strip and day files
        flight: PathBuf,
        #[command(flatten)]
        change: Changes,
        /// Numbers of passes, separated by commas
        #[arg(long, value_name = "NUMBERS", value_delimiter = ',', default_values_t = CURVE_PASSES)]
        passes: Vec<f64>,
        /// Write the curves as SVG
        #[arg(long, value_name = "FILE")]
        figure: Option<PathBuf>,
        /// Print the curves as JSON instead of text
        #[arg(long)]
        json: bool,
        #[command(flatten)]
        show: Show,
    },
    /// Show the weeks of the year in which the ground carries a mass
    #[command(after_help = "Examples:\n  hardpan weeks flight.toml\n  hardpan weeks flight.toml \
                            --mass \"42 t\"\n\nThe strip file states the strength of each \
                            season. Exit codes: 0 computed, 2 a file cannot be used, 3 unproven.")]
    Weeks {
        /// The flight file; it names the aeroplane, strip and day files
        flight: PathBuf,
        #[command(flatten)]
        change: Changes,
        /// Mass, such as "42 t"; without it the masses planned
        #[arg(long, value_name = "MASS", allow_hyphen_values = true)]
        mass: Option<String>,
        /// Print JSON instead of text
        #[arg(long)]
        json: bool,
        #[command(flatten)]
        show: Show,
    },
    /// Write commented starter files into a folder
    #[command(after_help = "Examples:\n  hardpan new flight my-flight\n  hardpan new scan made \
                            --density 200\n\n`new flight` writes all four files.")]
    New {
        /// What to start
        what: Starter,
        /// Folder to write into; it is made if it does not exist
        folder: PathBuf,
        /// Points of each square metre of an invented scan, 10 to 500
        #[arg(long, default_value_t = 50, value_parser = clap::value_parser!(u16).range(10..=500))]
        density: u16,
    },
    /// Read files and explain every error with the line shown
    #[command(after_help = "Examples:\n  hardpan check strip.toml survey.csv\n  hardpan check \
                            flights/*.toml\n\nExit code 0 when every file can be used, 2 when not.")]
    Check {
        /// Files to read: TOML of any kind, survey, soundings, strength tests or chart CSV, METAR text
        #[arg(required = true)]
        files: Vec<PathBuf>,
    },
    /// Open a figure: formula, source, inputs, and the file and line of each
    #[command(after_help = "Examples:\n  hardpan explain flight.toml G20\n  hardpan explain \
                            G20          (the rule itself)\n  hardpan explain flight.toml \
                            (what can be opened)\n  hardpan explain flight.toml \"largest \
                            landing mass\" --json")]
    Explain {
        /// A flight file, or the code of a rule
        subject: String,
        /// Code of a finding, such as G20, or words of its title; or a figure, such as V1
        finding: Option<String>,
        #[command(flatten)]
        change: Changes,
        /// Print JSON instead of text
        #[arg(long)]
        json: bool,
        #[command(flatten)]
        show: Show,
    },
    /// Open what stands at a station of the strip: level, ground, water, stones and runs
    #[command(after_help = "Examples:\n  hardpan station flight.toml \"640 m\"\n  hardpan \
                            station flight.toml \"640 m\" \"bearing ratio needed\"\n  hardpan \
                            station flight.toml \"2100 ft\" --change landing.mass=\"38 t\" --json")]
    Station {
        /// A flight file
        flight: PathBuf,
        /// The station, with unit
        at: String,
        /// Words of a reading to open down to the files, such as "ground speed"
        #[arg(conflicts_with = "json")]
        reading: Option<String>,
        #[command(flatten)]
        change: Changes,
        /// Print JSON instead of text
        #[arg(long)]
        json: bool,
        #[command(flatten)]
        show: Show,
    },
    /// List the published formulas in use, or evaluate one by hand
    #[command(after_help = "Examples:\n  hardpan formula\n  hardpan formula cbr-webster-1992\n  \
                            hardpan formula cbr-webster-1992 penetration_rate=\"15 mm/blow\"")]
    Formula {
        /// Name of the formula
        name: Option<String>,
        /// Arguments as name=value with units
        #[arg(value_name = "NAME=VALUE")]
        values: Vec<String>,
        #[command(flatten)]
        show: Show,
    },
    /// Keep the record of a strip: movements, inspections, damage, repairs, closures
    #[command(after_help = "Examples:\n  hardpan book north.book add movement strip=North \
                            tail=101 kind=landing at=2026-06-18T15:00:00Z mass=\"39.6 t\" --by \
                            Ada\n  hardpan book north.book status North --inspected-within \"7 \
                            d\"\n  hardpan book north.book backup north-copy.book\n\nThe kinds \
                            and their fields stand in docs/book.md.")]
    Book {
        /// The book, one file; the first record makes it
        file: PathBuf,
        #[command(subcommand)]
        action: BookAction,
    },
    /// Serve the page on this machine: sheets of flights, strips, cards, JSON
    #[command(after_help = "Examples:\n  hardpan serve              (the demo)\n  hardpan serve \
                            my-flights\n  hardpan serve my-flights --listen \
                            127.0.0.1:9000\n  hardpan serve my-flights --listen \
                            0.0.0.0:8642 --accounts accounts.json --certificate strip.pem --key \
                            strip.key\n\nThe page needs no network and reaches none. Without \
                            accounts it answers to this machine only. What it does stands in \
                            docs/page.md.")]
    Serve {
        /// Folder with flight, strip and aeroplane files; the demo if none is named
        folder: Option<PathBuf>,
        /// Address and port on this machine; port 0 takes any free one
        #[arg(
            long,
            value_name = "ADDRESS",
            default_value = "127.0.0.1:8642",
            value_parser = listen::address
        )]
        listen: SocketAddr,
        /// Who may sign in; needed where other machines can reach the address
        #[arg(long, value_name = "FILE", requires_all = ["certificate", "key"])]
        accounts: Option<PathBuf>,
        /// Certificate of this machine and those above it, PEM
        #[arg(long, value_name = "FILE", requires = "accounts")]
        certificate: Option<PathBuf>,
        /// Key of the certificate, PEM
        #[arg(long, value_name = "FILE", requires = "accounts")]
        key: Option<PathBuf>,
        #[command(flatten)]
        limits: ReaderLimits,
    },
    /// Read what was brought to the page; the page starts it
    #[command(name = READER, hide = true)]
    ReadSurvey {
        /// Most memory, MiB
        #[arg(long)]
        memory: u32,
        /// Most time of the processor, seconds
        #[arg(long)]
        time: u32,
    },
    /// Keep the accounts of the page: who may read and record
    #[command(
        after_help = "Examples:\n  hardpan account accounts.json add Ada --role dispatcher\n  \
                            hardpan account accounts.json list\n\nThe password is asked for, or \
                            read as one line from standard input. Only its hash is kept. A server \
                            that runs takes changes when it is started again."
    )]
    Account {
        /// File of accounts; the first one makes it
        file: PathBuf,
        #[command(subcommand)]
        action: AccountAction,
    },
    /// Print the JSON schema of what `--json` prints
    Schema {
        /// Of what
        #[arg(value_enum, default_value_t = Schemas::Assess)]
        of: Schemas,
    },
    /// Write a page for `man` on each command
    #[command(after_help = "Example:\n  hardpan manual ~/.local/share/man/man1")]
    Manual {
        /// Folder to write into; it is made if it does not exist
        folder: PathBuf,
    },
    /// Print shell completions
    #[command(after_help = "Example:\n  hardpan completions bash > \
                            ~/.local/share/bash-completion/completions/hardpan")]
    Completions {
        /// The shell
        shell: clap_complete::Shell,
    },
}

/// How to draw a flight, and what to make of it.
#[derive(Debug, clap::Args)]
pub(crate) struct Sure {
    /// The flight file; its `[uncertainty]` says how sure each input is
    pub(crate) flight: PathBuf,
    #[command(flatten)]
    pub(crate) change: Changes,
    /// How many draws, 128 to 65536; the next power of two is made
    #[arg(long, value_name = "NUMBER", default_value_t = 1024, allow_negative_numbers = true)]
    pub(crate) draws: u32,
    /// How many of them are calculated in full, likewise; a smooth fit to these
    /// tells the rest, and what it errs is counted in [default: all of up to 1024
    /// draws, 512 of more]
    #[arg(long, value_name = "NUMBER", allow_negative_numbers = true)]
    pub(crate) in_full: Option<u32>,
    /// Any whole number, 0 to 4294967295; the same gives the same draws
    #[arg(long, value_name = "NUMBER", default_value_t = 1, allow_negative_numbers = true)]
    pub(crate) seed: u32,
    /// Open the figures whose names have these words, such as "F50" or "gained"; every
    /// figure without words
    #[arg(long, value_name = "WORDS", num_args = 0..=1, default_missing_value = "",
          conflicts_with_all = ["sheet", "json"])]
    pub(crate) open: Option<String>,
    /// Write it as PDF to print
    #[arg(long, value_name = "FILE")]
    pub(crate) sheet: Option<PathBuf>,
    /// Print JSON
    #[arg(long)]
    pub(crate) json: bool,
    #[command(flatten)]
    pub(crate) show: Show,
}

/// Which masses to look for in the year, and what to make of it.
#[derive(Debug, clap::Args)]
pub(crate) struct Year {
    /// The flight file; its strip states `[climate]` and `[[season]]`
    pub(crate) flight: PathBuf,
    #[command(flatten)]
    pub(crate) change: Changes,
    /// Landing mass in place of the one planned
    #[arg(long, value_name = "MASS")]
    pub(crate) landing: Option<String>,
    /// Take-off mass in place of the one planned
    #[arg(long, value_name = "MASS")]
    pub(crate) take_off: Option<String>,
    /// Open one hour down to the files: month, day and hour in UTC, such as "6-18 12"
    #[arg(long, value_name = "HOUR", conflicts_with_all = ["sheet", "csv"])]
    pub(crate) open: Option<String>,
    /// Check or figure of that hour to open, such as F50 or "largest landing mass", in place of
    /// the checks that set its masses
    #[arg(long, value_name = "WORDS", requires = "open", conflicts_with = "json")]
    pub(crate) figure: Option<String>,
    /// Write it as PDF to print
    #[arg(long, value_name = "FILE")]
    pub(crate) sheet: Option<PathBuf>,
    /// Print a table of values
    #[arg(long, conflicts_with = "json")]
    pub(crate) csv: bool,
    /// Print JSON
    #[arg(long)]
    pub(crate) json: bool,
    #[command(flatten)]
    pub(crate) show: Show,
}

#[derive(Debug, Subcommand)]
pub(crate) enum AccountAction {
    /// Add somebody, or give them another password and role
    Add {
        /// Name; it stands as author of what they record
        name: String,
        /// viewer, surveyor, dispatcher or admin
        #[arg(long)]
        role: String,
    },
    /// Take somebody out
    Remove {
        /// Name
        name: String,
    },
    /// Say who there is
    List,
}

fn strip_help() -> String {
    format!(
        "Examples:\n  hardpan strip strip.toml\n  hardpan strip strip.toml --dossier strip.pdf \
         --units imperial\n  hardpan strip strip.toml --track \"5.2 m\" --figures figures\n\n{}",
        EXIT_CODES.replace("of assess", "of strip")
    )
}

fn confidence_help() -> String {
    format!(
        "Examples:\n  hardpan confidence flight.toml\n  hardpan confidence flight.toml --draws 4096 \
         --sheet sure.pdf\n\nAn input that nobody says how sure it is leaves the certainty \
         unproven.\n\n{}",
        EXIT_CODES.replace("of assess", "of confidence")
    )
}

fn remedies_help() -> String {
    format!(
        "Examples:\n  hardpan remedies flight.toml\n  hardpan remedies flight.toml --json\n\nEvery \
         list of changes is assessed afresh; the exit code is that of the flight as planned.\n\n{}",
        EXIT_CODES.replace("of assess", "of remedies")
    )
}

fn masses_help() -> String {
    format!(
        "Examples:\n  hardpan masses flight.toml\n  hardpan masses flight.toml --temperatures \"0 \
         degC, 15 degC, 30 degC\" --headwinds \"-5 kt, 0 kt\" --states dry,wet\n  hardpan masses \
         flight.toml --pressures \"80 psi, 100 psi\" --sheet masses.pdf\n\nEvery place is judged \
         by every rule at its largest mass and names the check that limits it.\n{}",
        EXIT_CODES.replace("of assess", "of masses, by its best place")
    )
}

fn assess_help() -> String {
    format!(
        "Examples:\n  hardpan assess flight.toml\n  hardpan assess flight.toml --card card.pdf \
         --units imperial\n  hardpan assess flight.toml --change take_off.mass=\"38 t\"\n  \
         hardpan assess flight.toml --json > assessment.json\n  hardpan assess \
         flight.toml --keep north.book --by Ada\n\n{EXIT_CODES}"
    )
}

/// How to show figures.
#[derive(Debug, Clone, Copy, clap::Args)]
#[group(skip)]
pub(crate) struct Show {
    /// Units to show; files may use either
    #[arg(long, value_enum, default_value_t = Units::Metric)]
    pub(crate) units: Units,
}

impl Show {
    pub(crate) fn system(self) -> UnitSystem {
        match self.units {
            Units::Metric => UnitSystem::Metric,
            Units::Imperial => UnitSystem::Imperial,
        }
    }
}

#[derive(Debug, Clone, Copy, ValueEnum)]
pub(crate) enum Units {
    /// Metres, kilograms, kilopascals, degrees Celsius
    Metric,
    /// Feet, pounds, pounds per square inch, degrees Fahrenheit
    Imperial,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum Schemas {
    /// The assessment of a flight
    Assess,
    /// The dossier of a strip
    Strip,
    /// How sure the answer to a flight is
    Confidence,
    /// What would turn the answer to a flight
    Remedies,
    /// The year of a flight
    Year,
    /// The largest masses of a flight
    Masses,
    /// What the ground carries
    Bearing,
    /// When the ground carries a mass
    Weeks,
    /// Flights ranked
    Compare,
    /// Figures of a flight opened
    Explain,
    /// An aeroplane by itself, as the page gives it to programs
    Aeroplane,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum Starter {
    /// aeroplane.toml with chart.csv
    Aeroplane,
    /// strip.toml with survey.csv, soundings.csv, strength_tests.csv and ruts.csv
    Strip,
    /// flight.toml with all the files that it names
    Flight,
    /// The invented flight of the demo, complete, to change and learn from
    Demo,
    /// strip.toml with scan.laz, an invented cloud of 2000 m by 45 m
    Scan,
}
