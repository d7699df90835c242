//! How deep are the ruts that repeated passes leave?

pub(crate) mod barber;
pub(crate) mod calibration;
mod forecast;
pub(crate) mod giroud_han;
pub(crate) mod rolling;

pub use barber::BARBER_RUT;
pub use calibration::{
    CALIBRATED_RUT, FEWEST_RUTS, PASSES_TO_RUT, POSTERIOR_SOURCE, RutCalibration,
};
pub use forecast::{RutEstimate, RutForecast, RutLoading, rut_forecast};
pub use giroud_han::{GIROUD_HAN_RUT, GIROUD_HAN_THICKNESS};
pub use rolling::{FIRM_ROLLING, FIRM_ROLLING_SOURCE, ROLLING_OF_RUTTING};
