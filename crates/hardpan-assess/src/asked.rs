//! What somebody asks for besides the files, under the long names of the command's
//! options, read alike for the command and for programs.

mod axes;
mod strip;

pub use axes::AxesAsked;
pub use strip::{flight_over, wheel_track};

/// Why what was asked for cannot be used.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum AskedError {
    /// A text cannot be read.
    #[error("{option}: {what}")]
    Value {
        /// Long name of the option.
        option: &'static str,
        /// What is wrong with it.
        what: String,
    },
    /// More places would have to be worked out than may be.
    #[error("the sheet would have {places} places; ask for at most {most}")]
    TooManyPlaces {
        /// How many it would have.
        places: usize,
        /// How many it may have.
        most: usize,
    },
    /// The flight goes to another strip.
    #[error("flight: it uses {flight}, and the strip file is of {strip}")]
    OtherStrip {
        /// Name of the strip of the flight.
        flight: String,
        /// Name of the strip that was asked about.
        strip: String,
    },
}
