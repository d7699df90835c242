//! The greatest of what a ride does, and where.

use crate::ride::body::{Body, Moment};
use crate::ride::peak::Peak;
use crate::ride::{Extremes, Ride};
use hardpan_quantity::{Acceleration, Quantity, metres, ratio};

#[derive(Clone)]
pub(super) struct Log {
    centre: [Peak; 2],
    cockpit: [Peak; 2],
    loads: [Peak; 2],
    left_ground: (bool, bool),
    bottomed: (bool, bool),
}

impl Log {
    pub(super) fn new(station: f64) -> Self {
        let none = [Peak::new(station); 2];
        let never = (false, false);
        Self { centre: none, cockpit: none, loads: none, left_ground: never, bottomed: never }
    }

    pub(super) fn note(
        &mut self,
        of: &Body,
        moment: &Moment,
        level: (f64, f64),
        (at, gone): (f64, f64),
    ) {
        let [_, _, body, _] = moment.rates;
        let [heave, pitch] = body.to_array();
        let (heave, pitch) = (heave - level.0, pitch - level.1);
        let cockpit = heave - of.cockpit * pitch;
        let [nose, main] = moment.on_ground.to_array();
        let loads = [nose / of.nose.standing, main / of.main.standing];
        let values = [[heave, -heave], [cockpit, -cockpit], loads];
        let peaks = [&mut self.centre, &mut self.cockpit, &mut self.loads];
        for (peaks, values) in peaks.into_iter().zip(values) {
            for (peak, value) in peaks.iter_mut().zip(values) {
                peak.note(value, at, gone);
            }
        }
        let bottomed = moment.bottomed.move_mask();
        self.left_ground.0 |= nose <= 0.0;
        self.left_ground.1 |= main <= 0.0;
        self.bottomed.0 |= bottomed & 1 != 0;
        self.bottomed.1 |= bottomed & 2 != 0;
    }

    pub(super) fn ride(self) -> Ride {
        let extremes = |[up, down]: [Peak; 2]| {
            let (up, down) = (up.greatest(), down.greatest());
            Extremes {
                up: (Acceleration::from_si(up.0), metres(up.1)),
                down: (Acceleration::from_si(-down.0), metres(down.1)),
            }
        };
        let [nose, main] = self.loads;
        Ride {
            cockpit: extremes(self.cockpit),
            centre: extremes(self.centre),
            load_factors: (ratio(nose.greatest().0), ratio(main.greatest().0)),
            left_ground: self.left_ground,
            bottomed: self.bottomed,
        }
    }
}
