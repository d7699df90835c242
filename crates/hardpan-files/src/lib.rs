//! READ: from TOML, CSV, point clouds and weather reports to strip, aeroplane, day and
//! flight, or to diagnostics that say what is wrong, where, and how to put it
//! right. Many at once; a file with an error gives no value. Nothing is filled
//! in: a key that is not there stays `None`.

mod aeroplane;
mod change;
mod day;
mod diagnose;
mod flight;
#[doc(hidden)]
pub mod fuzz_entry;
mod metar;
mod paths;
mod read;
mod reading;
mod rows;
mod source;
mod strip;
mod table;
pub mod templates;
mod unread;

pub use aeroplane::fitted::fitted_text;
pub use change::{CHANGEABLE, CHANGES, change_flight, quoted};
pub use diagnose::catalogue::Code;
pub use diagnose::diagnostic::{Diagnostic, Related, Severity};
pub use diagnose::mistake::CODES;
pub use diagnose::render::render;
pub use metar::WeatherReport;
pub use read::{
    AnyFile, Glance, glance, read_aeroplane, read_aeroplane_as_stated, read_any, read_day,
    read_flight, read_strip,
};
pub use reading::{Reading, Sources};
pub use rows::chart::ChartRows;
pub use source::{Disk, FileReadError, FileSource, LARGEST_FILE, Memory};
pub use strip::axis_on_globe;
pub use unread::Unread;

pub use hardpan_survey::CloudInput;
