//! What does a tyre do under load: how far does it deflect, how large is its
//! footprint, and how low may its pressure be?
//!
//! Relations of Smiley and Horne for the load, deflection and footprint of an
//! aeroplane tyre. Contact area in the rest of this crate is load over
//! pressure, which these relations support within about 4 %. No civil
//! allowance for running under-inflated is known: the tyre's approved chart
//! binds, these relations may only be stricter.
//! Numbers: `validation/cases/ground/smiley-horne-1958.toml`.

use crate::Error;
use crate::error::positive;
use crate::formulas::{argument, kernel};
use hardpan_model::{Argument, Formula, Source, Tier};
use hardpan_quantity::{Area, Dimension, Force, Length, Pressure, Quantity};
use std::f64::consts::PI;

/// Least pressure that the relations may give, as a share of the rated
/// pressure. Judgement: they were measured near rated inflation.
pub const LEAST_PRESSURE_SHARE: f64 = 0.5;

/// Where [`LEAST_PRESSURE_SHARE`] comes from.
pub const LEAST_PRESSURE_SOURCE: Source =
    Source::new("", "no pressure below half the rated one rests on this relation", Tier::Judgement);

const SOURCE: Source =
    Source::new("SMILEY-HORNE-1958", "vertical load and footprint", Tier::Memory);
const SCATTER: &str = "about ±10 % on deflection between tyres of one type (from memory)";

const fn length(name: &'static str, symbol: &'static str, minimum: f64, maximum: f64) -> Argument {
    argument(name, symbol, Dimension::Length, minimum, maximum)
}

const PRESSURE: Argument = argument("pressure", "p", Dimension::Pressure, 5e4, 2.5e6);
const RATED_PRESSURE: Argument = argument("rated_pressure", "p_r", Dimension::Pressure, 5e4, 2.5e6);
const WIDTH: Argument = length("tyre_width", "w", 0.05, 1.0);
const DIAMETER: Argument = length("tyre_diameter", "d", 0.15, 2.5);
const DEFLECTION: Argument = length("deflection", "D", 1e-4, 0.5);

/// Load of a tyre at a deflection.
pub static TYRE_LOAD: Formula = Formula {
    name: "tyre-load-smiley-horne",
    computes: "load on a tyre at a vertical deflection",
    expression: "F = (p + 0.08 p_r) w sqrt(w d) f, x = D/w, f = 0.96 x + 0.216 x^2/C_z for \
                 x <= (10/3) C_z, else f = 2.4 (x - C_z); C_z 0.02 for type I, 0.03 for types III \
                 and VII",
    arguments: &[
        PRESSURE,
        RATED_PRESSURE,
        WIDTH,
        DIAMETER,
        DEFLECTION,
        argument("profile_coefficient", "C_z", Dimension::Coefficient, 0.02, 0.03),
    ],
    result: Dimension::Force,
    source: SOURCE,
    scatter: SCATTER,
    evaluate: kernel!(|p, rated, w, d, deflection, profile| tyre_load(
        p, rated, w, d, deflection, profile
    )),
};

/// Gross footprint area.
pub static FOOTPRINT_AREA: Formula = Formula {
    name: "footprint-area-smiley-horne",
    computes: "gross footprint area of a tyre at a deflection",
    expression: "A = 2.3 D sqrt(w d)",
    arguments: &[WIDTH, DIAMETER, DEFLECTION],
    result: Dimension::Area,
    source: SOURCE,
    scatter: SCATTER,
    evaluate: kernel!(|w, d, deflection| footprint_area(w, d, deflection)),
};

/// Footprint length.
pub static FOOTPRINT_LENGTH: Formula = Formula {
    name: "footprint-length-smiley-horne",
    computes: "footprint length of a tyre at a deflection",
    expression: "L = 1.7 d sqrt(D/d - (D/d)^2)",
    arguments: &[DIAMETER, DEFLECTION],
    result: Dimension::Length,
    source: SOURCE,
    scatter: SCATTER,
    evaluate: kernel!(|d, deflection| footprint_length(d, deflection)),
};

/// Footprint width.
pub static FOOTPRINT_WIDTH: Formula = Formula {
    name: "footprint-width-smiley-horne",
    computes: "footprint width of a tyre at a deflection",
    expression: "b = 1.7 w sqrt(x - 2.5 x^4 + 1.5 x^6), x = D/w",
    arguments: &[WIDTH, DEFLECTION],
    result: Dimension::Length,
    source: SOURCE,
    scatter: SCATTER,
    evaluate: kernel!(|w, deflection| footprint_width(w, deflection)),
};

/// Pressure that keeps the rated deflection under less load.
pub static PRESSURE_AT_RATED_DEFLECTION: Formula = Formula {
    name: "tyre-pressure-at-rated-deflection",
    computes: "pressure at which a tyre has its rated deflection under a load",
    expression: "p = p_r (1.08 L/L_r - 0.08), from L/L_r = (p + 0.08 p_r) / (1.08 p_r)",
    arguments: &[
        argument("load", "L", Dimension::Force, 0.0, 1e6),
        argument("rated_load", "L_r", Dimension::Force, 1.0, 1e6),
        RATED_PRESSURE,
    ],
    result: Dimension::Pressure,
    source: SOURCE,
    scatter: SCATTER,
    evaluate: kernel!(|load, rated_load, rated| pressure_at_rated_deflection(
        load, rated_load, rated
    )),
};

/// Contact area as load over pressure.
pub static CONTACT_AREA: Formula = Formula {
    name: "contact-area",
    computes: "contact area of a tyre",
    expression: "A = P / p",
    arguments: &[argument("load", "P", Dimension::Force, 0.0, 1e6), PRESSURE],
    result: Dimension::Area,
    source: Source::new("", "load over inflation pressure", Tier::CommonPractice),
    scatter: "mean contact pressure is 0.96 to 1.04 of the inflation pressure by Smiley and Horne",
    evaluate: kernel!(|load, pressure| contact_area(load, pressure)),
};

pub(crate) fn contact_area(load: f64, pressure: f64) -> f64 {
    load / pressure
}

/// Radius of a circle of the contact area.
pub(crate) fn contact_radius(load: f64, pressure: f64) -> f64 {
    (contact_area(load, pressure) / PI).sqrt()
}

fn tyre_load(p: f64, rated: f64, width: f64, diameter: f64, deflection: f64, profile: f64) -> f64 {
    let x = deflection / width;
    let shape = if x <= 10.0 / 3.0 * profile {
        0.96 * x + 0.216 * x * x / profile
    } else {
        2.4 * (x - profile)
    };
    (p + 0.08 * rated) * width * (width * diameter).sqrt() * shape
}

fn footprint_area(width: f64, diameter: f64, deflection: f64) -> f64 {
    2.3 * deflection * (width * diameter).sqrt()
}

fn footprint_length(diameter: f64, deflection: f64) -> f64 {
    let share = deflection / diameter;
    1.7 * diameter * (share - share * share).sqrt()
}

fn footprint_width(width: f64, deflection: f64) -> f64 {
    let x = deflection / width;
    1.7 * width * (x - 2.5 * x.powi(4) + 1.5 * x.powi(6)).sqrt()
}

fn pressure_at_rated_deflection(load: f64, rated_load: f64, rated_pressure: f64) -> f64 {
    rated_pressure * (1.08 * load / rated_load - 0.08)
}

/// Least pressure at which a tyre carries `load` without more than its rated
/// deflection, not below half the rated pressure.
///
/// # Errors
/// [`Error::NotPositive`] for a value that is not above zero,
/// [`Error::TyreOverloaded`] above the rated load.
pub fn minimum_pressure(
    load: Force,
    rated_load: Force,
    rated_pressure: Pressure,
) -> Result<Pressure, Error> {
    let load = positive("load on the tyre", "N", load.si())?;
    let rated_load = positive("rated load of the tyre", "N", rated_load.si())?;
    let rated = positive("rated pressure of the tyre", "Pa", rated_pressure.si())?;
    if load > rated_load {
        return Err(Error::TyreOverloaded { load_kn: load / 1e3, rated_kn: rated_load / 1e3 });
    }
    let pressure = pressure_at_rated_deflection(load, rated_load, rated);
    Ok(Pressure::from_si(pressure.max(LEAST_PRESSURE_SHARE * rated)))
}

/// Size of a tyre and its rated pressure, for the relations of Smiley and Horne.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TyreSize {
    /// Outside diameter.
    pub diameter: Length,
    /// Section width.
    pub width: Length,
    /// Rated pressure.
    pub rated_pressure: Pressure,
    /// `C_z`: 0.02 for type I, 0.03 for types III and VII.
    pub profile_coefficient: f64,
}

/// Vertical deflection of a tyre under `load` at `pressure`.
///
/// # Errors
/// [`Error::NotPositive`] for a value that is not above zero,
/// [`Error::OutOfRange`] for a `C_z` outside 0.02 to 0.03.
pub fn deflection(size: &TyreSize, load: Force, pressure: Pressure) -> Result<Length, Error> {
    let load = positive("load on the tyre", "N", load.si())?;
    let p = positive("pressure of the tyre", "Pa", pressure.si())?;
    let rated = positive("rated pressure of the tyre", "Pa", size.rated_pressure.si())?;
    let width = positive("width of the tyre", "m", size.width.si())?;
    let diameter = positive("diameter of the tyre", "m", size.diameter.si())?;
    let profile =
        crate::error::within("profile coefficient", "", size.profile_coefficient, 0.02, 0.03)?;
    let shape = load / ((p + 0.08 * rated) * width * (width * diameter).sqrt());
    let knee = 10.0 / 3.0 * profile;
    let x = if shape >= 2.4 * (knee - profile) {
        shape / 2.4 + profile
    } else {
        let half = 0.48 * profile / 0.216;
        (half * half + shape * profile / 0.216).sqrt() - half
    };
    Ok(Length::from_si(x * width))
}

/// Contact area of a tyre: load over pressure.
///
/// # Errors
/// [`Error::NotPositive`] for a value that is not above zero.
pub fn tyre_contact_area(load: Force, pressure: Pressure) -> Result<Area, Error> {
    let load = positive("load on the tyre", "N", load.si())?;
    let pressure = positive("pressure of the tyre", "Pa", pressure.si())?;
    Ok(Area::from_si(contact_area(load, pressure)))
}

/// Deflection in per cent of the section above the flange.
pub static DEFLECTION_OF_SECTION: Formula = Formula {
    name: "tyre-deflection-of-section",
    computes: "deflection of a tyre over the height of its section above the flange",
    expression: "b = D / ((d - F)/2); D = d/2 - loaded radius",
    arguments: &[
        argument("tyre_diameter", "d", Dimension::Length, 0.15, 2.5),
        argument("flange_diameter", "F", Dimension::Length, 0.08, 1.6),
        argument("deflection", "D", Dimension::Length, 0.0, 1.0),
    ],
    result: Dimension::Ratio,
    source: Source::new("", "per cent deflection of aircraft tyres", Tier::CommonPractice),
    scatter: "a definition; 100 % and more: the rim bears",
    evaluate: kernel!(|diameter, flange, deflection| if flange < diameter {
        2.0 * deflection / (diameter - flange)
    } else {
        f64::NAN
    }),
};
