//! What `hardpan masses` is asked.

use super::Changes;
use super::Show;
use std::path::PathBuf;

/// What to put on a sheet of masses, and what to make of it.
#[derive(Debug, clap::Args)]
pub(crate) struct Masses {
    /// The flight file; masses in it are shown beside the largest
    pub(crate) flight: PathBuf,
    #[command(flatten)]
    pub(crate) change: Changes,
    /// Outside temperatures, such as "0 degC, 15 degC"
    #[arg(long, value_name = "LIST", value_delimiter = ',', allow_hyphen_values = true)]
    pub(crate) temperatures: Vec<String>,
    /// Headwinds along the movement, such as "-5 kt, 0 kt, 10 kt"; tailwinds are negative
    #[arg(long, value_name = "LIST", value_delimiter = ',', allow_hyphen_values = true)]
    pub(crate) headwinds: Vec<String>,
    /// Main tyre pressures, such as "80 psi, 100 psi"; without it as the flight has it
    #[arg(long, value_name = "LIST", value_delimiter = ',')]
    pub(crate) pressures: Vec<String>,
    /// States of the surface, such as dry,wet; without it as the day has it
    #[arg(long, value_name = "LIST", value_delimiter = ',')]
    pub(crate) states: Vec<String>,
    /// Air pressures reduced to sea level, such as "990 hPa, 1013 hPa"; without it as the day has it
    #[arg(long, value_name = "LIST", value_delimiter = ',')]
    pub(crate) air_pressures: Vec<String>,
    /// In each place take the flap, of those that the aeroplane file allows, with the largest mass
    #[arg(long)]
    pub(crate) best_flap: bool,
    /// Write the sheet as PDF to print
    #[arg(long, value_name = "FILE")]
    pub(crate) sheet: Option<PathBuf>,
    /// Write the masses by temperature and wind, with what limits them, as SVG
    #[arg(long, value_name = "FILE")]
    pub(crate) figure: Option<PathBuf>,
    /// Print one place a line as CSV
    #[arg(long, conflicts_with = "json")]
    pub(crate) csv: bool,
    /// Print JSON
    #[arg(long)]
    pub(crate) json: bool,
    #[command(flatten)]
    pub(crate) show: Show,
}
