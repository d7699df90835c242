//! The ride of each run against what the noise of the survey may add.

use crate::measured::Measured;
use hardpan_model::Flight;
use hardpan_quantity::Quantity;
use hardpan_surface::cockpit_limit;

/// One run as it rides, m/s².
#[derive(Debug, Clone, PartialEq)]
pub(super) struct RideLimit {
    pub(super) title: String,
    felt: f64,
    noise: f64,
    limit: f64,
}

impl RideLimit {
    /// What is left of the limit with the levels so many deviations off, m/s².
    ///
    /// The greatest that noise alone shows stands for one deviation, which errs
    /// on the safe side.
    pub(super) fn left(&self, deviations: f64) -> f64 {
        self.limit - (self.felt + self.noise * deviations)
    }
}

/// The worst ride of each run that was ridden.
pub(super) fn ride_limits(flight: &Flight, measured: &Measured) -> Vec<RideLimit> {
    let Ok(rides) = measured.rides(flight) else { return Vec::new() };
    let Some(noise) = rides.noise else { return Vec::new() };
    let mut limits: Vec<RideLimit> = Vec::new();
    for ride in &rides.all {
        let title = format!("ride at the cockpit, {}", ride.run);
        let felt = ride.worst.si();
        match limits.iter_mut().find(|limit| limit.title == title) {
            Some(limit) => limit.felt = limit.felt.max(felt),
            None => limits.push(RideLimit {
                title,
                felt,
                noise: noise.si(),
                limit: cockpit_limit().si(),
            }),
        }
    }
    limits
}
