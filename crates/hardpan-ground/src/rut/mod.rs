//! How deep are the ruts that repeated passes leave?

pub(crate) mod barber;
mod forecast;
pub(crate) mod giroud_han;

pub use barber::BARBER_RUT;
pub use forecast::{RutEstimate, RutForecast, RutLoading, rut_forecast};
pub use giroud_han::{GIROUD_HAN_RUT, GIROUD_HAN_THICKNESS};
