//! Where do the wheels of one leg stand?

use crate::Error;
use crate::error::positive;
use hardpan_model::{Leg, Need};
use hardpan_quantity::{Length, Quantity};

/// Most wheels on one leg.
const MOST_WHEELS: u32 = 12;

/// The wheels of one leg: rows along the strip of one or two wheels side by
/// side, all equal and equally loaded.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LegGeometry {
    rows: u32,
    abreast: u32,
    spacing: f64,
    tandem_spacing: f64,
}

impl LegGeometry {
    /// One wheel.
    #[must_use]
    pub const fn single() -> Self {
        Self { rows: 1, abreast: 1, spacing: 0.0, tandem_spacing: 0.0 }
    }

    /// Two wheels side by side.
    ///
    /// # Errors
    /// [`Error::NotPositive`] for a spacing that is not above zero.
    pub fn dual(spacing: Length) -> Result<Self, Error> {
        Self::of_wheels(2, Some(spacing), None)
    }

    /// `wheels` wheels: side by side in pairs where `spacing` is given, one
    /// behind the other where only `tandem_spacing` is.
    ///
    /// # Errors
    /// [`Error::NotPositive`] for a spacing that is not above zero,
    /// [`Error::LegNotCovered`] for an odd number in pairs, none or more than
    /// twelve wheels, [`Error::Missing`] when a spacing that is needed is not given.
    pub fn of_wheels(
        wheels: u32,
        spacing: Option<Length>,
        tandem_spacing: Option<Length>,
    ) -> Result<Self, Error> {
        if wheels == 1 {
            return Ok(Self::single());
        }
        let abreast = if spacing.is_some() { 2 } else { 1 };
        if wheels == 0 || wheels > MOST_WHEELS || !wheels.is_multiple_of(abreast) {
            return Err(Error::LegNotCovered { wheels, abreast, limit: MOST_WHEELS });
        }
        let rows = wheels / abreast;
        let across = match spacing {
            Some(spacing) => positive("spacing of wheels side by side", "m", spacing.si())?,
            None => 0.0,
        };
        let along = match tandem_spacing {
            Some(spacing) if rows > 1 => positive("spacing of wheel rows", "m", spacing.si())?,
            None if rows > 1 => return Err(Error::Missing { needs: vec![spacing_need(wheels)] }),
            _ => 0.0,
        };
        Ok(Self { rows, abreast, spacing: across, tandem_spacing: along })
    }

    /// The wheels of a leg of the aeroplane; `name` is the key of the leg in
    /// the aeroplane's file, such as `gear.main`.
    ///
    /// # Errors
    /// As [`Self::of_wheels`].
    pub fn of_leg(leg: &Leg, name: &str) -> Result<Self, Error> {
        let Some(wheels) = &leg.wheels else {
            return Err(Error::Missing {
                needs: vec![Need {
                    what: format!("aeroplane: {name}.wheels"),
                    how: "number of wheels on one leg, from the aeroplane's manual".to_owned(),
                }],
            });
        };
        let spacing = leg.spacing.as_ref().map(|spacing| spacing.value);
        let tandem = leg.tandem_spacing.as_ref().map(|spacing| spacing.value);
        Self::of_wheels(wheels.value, spacing, tandem).map_err(|error| match error {
            Error::Missing { .. } => Error::Missing {
                needs: vec![Need {
                    what: format!("aeroplane: {name}.spacing or {name}.tandem_spacing"),
                    how: "distance between the wheels of one leg, from the aeroplane's manual"
                        .to_owned(),
                }],
            },
            other => other,
        })
    }

    /// How many wheels.
    #[must_use]
    pub const fn wheels(&self) -> u32 {
        self.rows * self.abreast
    }

    /// Distance between wheels side by side, where there are any.
    #[must_use]
    pub fn spacing(&self) -> Option<Length> {
        (self.abreast > 1).then(|| Length::from_si(self.spacing))
    }

    /// Distance between wheel rows, where there are several.
    #[must_use]
    pub fn tandem_spacing(&self) -> Option<Length> {
        (self.rows > 1).then(|| Length::from_si(self.tandem_spacing))
    }

    /// Distance of each tyre track of the leg from the leg's middle, across the strip.
    #[must_use]
    pub fn tracks(&self) -> Vec<Length> {
        let half = 0.5 * self.spacing;
        match self.abreast {
            1 => vec![Length::from_si(0.0)],
            _ => vec![Length::from_si(-half), Length::from_si(half)],
        }
    }

    /// Least distance between two wheels, metres; none for a single wheel.
    pub(crate) fn least_spacing(&self) -> Option<f64> {
        [(self.abreast, self.spacing), (self.rows, self.tandem_spacing)]
            .into_iter()
            .filter(|(count, _)| *count > 1)
            .map(|(_, spacing)| spacing)
            .reduce(f64::min)
    }

    /// Places of the wheels about the leg's middle, across and along, metres.
    pub(crate) fn places(&self) -> Vec<[f64; 2]> {
        let middle = |count: u32, index: u32| f64::from(index) - 0.5 * f64::from(count - 1);
        (0..self.rows)
            .flat_map(|row| (0..self.abreast).map(move |column| (row, column)))
            .map(|(row, column)| {
                [
                    self.spacing * middle(self.abreast, column),
                    self.tandem_spacing * middle(self.rows, row),
                ]
            })
            .collect()
    }

    /// Half extents of the wheel pattern, across and along, metres.
    pub(crate) fn half_extents(&self) -> [f64; 2] {
        [
            0.5 * self.spacing * f64::from(self.abreast - 1),
            0.5 * self.tandem_spacing * f64::from(self.rows - 1),
        ]
    }
}

fn spacing_need(wheels: u32) -> Need {
    Need {
        what: "distance between the wheels of the leg".to_owned(),
        how: format!("{wheels} wheels stand on one leg; state how far apart"),
    }
}
