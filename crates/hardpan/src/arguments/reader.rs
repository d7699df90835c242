//! What the process may take that reads what is brought to the page.

use crate::apart::Limits;
use clap::Args;

/// Name of the command that the page starts for it.
pub(crate) const READER: &str = "read-survey";

/// Bounds of the reader.
#[derive(Debug, Clone, Copy, Args)]
pub(crate) struct ReaderLimits {
    /// Most memory for reading a survey that is brought, MiB
    #[arg(long, value_name = "MIB", default_value_t = 4096,
        value_parser = clap::value_parser!(u32).range(16..=1_048_576))]
    reader_memory: u32,
    /// Most time for reading a survey that is brought, seconds of the processor
    #[arg(long, value_name = "SECONDS", default_value_t = 300,
        value_parser = clap::value_parser!(u32).range(1..=86_400))]
    reader_time: u32,
}

impl ReaderLimits {
    pub(crate) const fn limits(self) -> Limits {
        Limits { memory: self.reader_memory, seconds: self.reader_time }
    }
}
