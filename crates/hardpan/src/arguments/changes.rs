//! Values of a flight stated again.

/// Values of a flight stated again.
#[derive(Debug, Clone, clap::Args)]
#[group(skip)]
pub(crate) struct Changes {
    /// State a value of the flight again, such as take_off.mass="38 t"; may be repeated
    #[arg(long = "change", value_name = "KEY=VALUE")]
    pub(crate) all: Vec<String>,
}
