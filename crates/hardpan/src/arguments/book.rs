//! What can be done with a book.

use super::Show;
use clap::Subcommand;
use std::path::PathBuf;

/// One thing to do with a book.
#[derive(Debug, Subcommand)]
pub(crate) enum BookAction {
    /// Record something
    Add {
        /// movement, inspection, damage, repair, closure, equipment, survey or assessment;
        /// `keep` records aeroplanes, strips, days and flights, `photo` pictures
        kind: String,
        /// Fields as name=value with units
        #[arg(value_name = "NAME=VALUE", required = true)]
        values: Vec<String>,
        /// Who records it
        #[arg(long)]
        by: String,
    },
    /// Put a corrected record in the place of an entry, which stays readable
    Correct {
        /// Number of the entry
        id: i64,
        /// The fields that change, as name=value
        #[arg(value_name = "NAME=VALUE", required = true)]
        values: Vec<String>,
        /// Why it is corrected
        #[arg(long)]
        why: String,
        /// Who corrects it
        #[arg(long)]
        by: String,
    },
    /// Take an entry back with nothing in its place; it stays readable
    Withdraw {
        /// Number of the entry
        id: i64,
        /// Why it is taken back
        #[arg(long)]
        why: String,
        /// Who takes it back
        #[arg(long)]
        by: String,
    },
    /// Keep a picture of what an inspection, damage or a repair tells
    #[command(
        after_help = "JPEG, PNG or WebP, 8 MiB each, 12 for an entry. What a camera wrote into \
                      the file of place, time and owner is taken out; which side is up stays."
    )]
    Photo {
        /// Number of the entry that it shows something of
        id: i64,
        /// The file of the picture
        file: PathBuf,
        /// What it shows and where, in words
        #[arg(long, value_name = "TEXT")]
        shown: String,
        /// Who keeps it
        #[arg(long)]
        by: String,
    },
    /// Write the pictures of the book into a folder, each under its SHA-256
    Photos {
        /// The folder
        #[arg(long)]
        to: PathBuf,
        /// Those of one entry only
        #[arg(long, value_name = "ENTRY")]
        of: Option<i64>,
    },
    /// Keep an aeroplane, strip, day or flight with its files as a version
    #[command(after_help = "A flight is kept with its aeroplane, strip and day. What has not \
                            changed is not kept again; a newer version takes the place of the \
                            older, which stays readable.")]
    Keep {
        /// The file
        file: PathBuf,
        /// Name in the book, where it is not that of the file, such as the tail number
        #[arg(long)]
        name: Option<String>,
        /// Who keeps it
        #[arg(long)]
        by: String,
    },
    /// List the versions of aeroplanes, strips, days and flights that the book holds
    Kept {
        /// Print them as JSON
        #[arg(long)]
        json: bool,
    },
    /// Show one entry: its values, who recorded it, what it took the place of
    Show {
        /// Number of the entry
        id: i64,
        #[command(flatten)]
        show: Show,
    },
    /// Write the files of a kept version into a new folder
    Files {
        /// Number of the entry
        id: i64,
        /// The folder; it must not stand yet
        #[arg(long)]
        to: PathBuf,
    },
    /// Say whether a strip is open, restricted, closed or not known, and why
    Status {
        /// Name of the strip
        strip: String,
        /// Longest time since the last inspection, such as "7 d"
        #[arg(long)]
        inspected_within: String,
        /// Greatest age of levels, soundings and strength tests, such as "365 d"
        #[arg(long, value_name = "TIME")]
        surveyed_within: Option<String>,
        /// Print all that the record tells of the strip as JSON
        #[arg(long)]
        json: bool,
        /// With --json: file of a flight, whose gear turns passes into coverages
        #[arg(long, value_name = "FILE", requires = "json")]
        flight: Option<PathBuf>,
        /// Name of an aeroplane with that gear in the book; may stand several times
        #[arg(long, value_name = "NAME", requires = "flight")]
        tail: Vec<String>,
    },
    /// Say by when ruts and loose material meet their limits, with the interval
    #[command(after_help = "Growth is a straight line through three inspections or more since a \
                            place was mended, with 95 % limits; passes to come are those of the \
                            last 91 days, with 95 % limits.")]
    Grading {
        /// Name of the strip
        strip: String,
        /// Depth of a rut at which it is graded
        #[arg(long, value_name = "DEPTH", default_value = "76 mm")]
        rut: String,
        /// Depth of loose material at which it is graded; none is published
        #[arg(long, value_name = "DEPTH")]
        loose: Option<String>,
        /// Print it as CSV
        #[arg(long)]
        csv: bool,
        /// Print it as JSON
        #[arg(long, conflicts_with = "csv")]
        json: bool,
    },
    /// Say how often damage is done, by stretch and by zone, with the interval
    Damage {
        /// Name of the strip
        strip: String,
        /// Length of a stretch; 100 m, or more on a strip that has over 400 of them
        #[arg(long, value_name = "LENGTH")]
        step: Option<String>,
        /// File of the strip, for its length
        #[arg(long, value_name = "FILE")]
        file: Option<PathBuf>,
        /// Print it as CSV
        #[arg(long)]
        csv: bool,
        /// Print it as JSON
        #[arg(long, conflicts_with = "csv")]
        json: bool,
    },
    /// Open the figures that the book tells of a strip, down to the entries
    #[command(after_help = "Examples:\n  hardpan book north.book explain North\n  hardpan book \
                            north.book explain North \"passes left\"\n  hardpan book north.book \
                            explain North coverages --flight flight.toml --tail 101\n\nEach opens \
                            to its formula with the numbers in place, its source, and the entries \
                            that it was counted from; `show` tells an entry.")]
    Explain {
        /// Name of the strip
        strip: String,
        /// Words of the names of the figures, such as `damage`; every figure without them
        figure: Option<String>,
        /// Length of a stretch; 100 m, or more on a strip that has over 400 of them
        #[arg(long, value_name = "LENGTH")]
        step: Option<String>,
        /// File of the strip, for its length
        #[arg(long, value_name = "FILE")]
        file: Option<PathBuf>,
        /// File of a flight, whose gear turns passes into coverages of each lane
        #[arg(long, value_name = "FILE")]
        flight: Option<PathBuf>,
        /// Name of an aeroplane with that gear in the book; may stand several times
        #[arg(long, value_name = "NAME", requires = "flight")]
        tail: Vec<String>,
        /// Depth of a rut at which it is graded
        #[arg(long, value_name = "DEPTH", default_value = "76 mm")]
        rut: String,
        /// Depth of loose material at which it is graded; none is published
        #[arg(long, value_name = "DEPTH")]
        loose: Option<String>,
        #[command(flatten)]
        show: Show,
    },
    /// Say which equipment and surveys must be looked at again, and by when
    Due {
        /// Leave out what is due later than this, such as "30 d"
        #[arg(long, value_name = "TIME")]
        within: Option<String>,
        /// Print them as JSON
        #[arg(long)]
        json: bool,
    },
    /// Print the ruts of inspections as a file that a strip file can name
    Ruts {
        /// Name of the strip
        strip: String,
    },
    /// Make an assessment again from the files kept with it, and compare bit for bit
    Again {
        /// Number of the entry
        id: i64,
    },
    /// Take over records from CSV of one kind, from the JSON of another book, or a map
    #[command(after_help = "Examples:\n  hardpan book north.book import movements.csv --kind \
                            movement --by Ada\n  hardpan book north.book import old.json --by \
                            Ada\n  hardpan book north.book import seen.geojson --file strip.toml \
                            --by Ada\n\nHeadings are the names of the values, or those of an export. \
                            All of it is recorded, or nothing. Of the JSON of \
                            another book superseded entries are taken over too.")]
    Import {
        /// The file, CSV, JSON or GeoJSON
        from: PathBuf,
        /// File of the strip, for stations of a map's places
        #[arg(long, value_name = "FILE")]
        file: Option<PathBuf>,
        /// Kind of record that a CSV file holds
        #[arg(long)]
        kind: Option<String>,
        /// Folder with the pictures of another book, as `photos` writes them
        #[arg(long, value_name = "FOLDER")]
        pictures: Option<PathBuf>,
        /// Who records it
        #[arg(long)]
        by: String,
    },
    /// Print every entry of a kind as CSV, superseded ones too
    List {
        /// Kind of record
        kind: String,
    },
    /// Print the whole book as JSON
    Export,
    /// Count passes by stretch since each was last mended, beside the ruts found there
    Passes {
        /// Name of the strip
        strip: String,
        /// Length of a stretch; 100 m, or more on a strip that has over 400 of them
        #[arg(long, value_name = "LENGTH")]
        step: Option<String>,
        /// File of the strip, for its length
        #[arg(long, value_name = "FILE")]
        file: Option<PathBuf>,
        /// File of a flight, whose gear turns passes into coverages of each lane
        #[arg(long, value_name = "FILE")]
        flight: Option<PathBuf>,
        /// Name of an aeroplane with that gear in the book; may stand several times
        #[arg(long, value_name = "NAME", requires = "flight")]
        tail: Vec<String>,
        /// Print them as JSON
        #[arg(long)]
        json: bool,
        #[command(flatten)]
        show: Show,
    },
    /// Print the strip with its ruts, loose and wet places, repairs and damage as GeoJSON
    Map {
        /// File of the strip, which tells where on the globe it lies
        file: PathBuf,
        /// Half the distance between the main wheels, for ruts by lane
        #[arg(long, value_name = "LENGTH")]
        lane: Option<String>,
    },
    /// Check that every entry is as it was written
    Verify,
    /// Copy the book while it is in use, and verify the copy
    Backup {
        /// Where to
        to: PathBuf,
    },
}
