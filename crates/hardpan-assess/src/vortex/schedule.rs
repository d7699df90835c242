//! The thrust schedule of a rolling take-off that holds no vortex, and its run.

use crate::context::Context;
use crate::measured::{Known, Unavailable};
use crate::propeller_vortex::{propeller, static_thrust};
use crate::vortex::{air_and_wind, inlet, is_propeller};
use hardpan_debris::{Assurance, ScheduleRow, straight_schedule};
use hardpan_quantity::{Mass, Quantity, Ratio, Speed, knots, ratio};
use hardpan_run::{TakeOffRun, ThrustSchedule};

/// Rows of the schedule: fifths of take-off thrust.
const ROWS: u32 = 5;

/// How thrust is set without a vortex once rolling.
pub(crate) enum WithoutVortex {
    /// Full thrust holds none even standing.
    Standing,
    /// By ground speed.
    Rolling {
        /// Shares and the ground speeds before which no more is set; the first at
        /// standstill, to break away with.
        rows: Vec<ScheduleRow>,
        /// The take-off so flown.
        run: Box<TakeOffRun>,
    },
}

/// The schedule of the flight's take-off at its mass, and the run with it.
pub(crate) fn without_vortex(context: &Context<'_>, mass: Mass) -> Known<WithoutVortex> {
    let missing = || Unavailable::missing("the schedule without a vortex", Vec::new());
    let case = context.measured.take_off_case.as_ref().ok_or_else(missing)?;
    let case = case.as_ref().map_err(Clone::clone)?;
    let free = lowest_speeds(context)?;
    if free.last().is_some_and(|row| row.from_speed <= knots(0.0)) {
        return Ok(WithoutVortex::Standing);
    }
    let standing = free.iter().rposition(|row| row.from_speed <= knots(0.0)).unwrap_or(0);
    for start in standing..free.len().saturating_sub(1) {
        let rows = from_break_away(&free, start);
        let stated: Vec<(Speed, Ratio)> =
            rows.iter().map(|row| (row.from_speed, row.share)).collect();
        let schedule = ThrustSchedule::new(&stated)
            .map_err(|error| Unavailable::refused("the schedule without a vortex", &error))?;
        if let Ok(run) = case.with_schedule(schedule).run(mass, true)
            && run.distance_needed.is_some()
        {
            return Ok(WithoutVortex::Rolling { rows, run: Box::new(run) });
        }
    }
    Err(Unavailable {
        because: "no take-off with a schedule that holds no vortex reaches the screen".to_owned(),
        needs: Vec::new(),
    })
}

/// The ground speed from which each fifth of take-off thrust holds no vortex,
/// whole knots up, straight lines between them counted.
fn lowest_speeds(context: &Context<'_>) -> Known<Vec<ScheduleRow>> {
    let refused = |error| Unavailable::refused("the schedule without a vortex", &error);
    let (air, wind) = air_and_wind(context)?;
    let shares = (1..=ROWS).map(|row| ratio(f64::from(row) / f64::from(ROWS)));
    let lowest = |share: Ratio| -> Known<Speed> {
        if is_propeller(context.flight) {
            let missing = || Unavailable::missing("the thrust of a propeller", Vec::new());
            let run = context.measured.take_off.as_ref().ok_or_else(missing)?;
            let full = static_thrust(context.flight, run.as_ref().map_err(Clone::clone)?)?;
            let thrust = share.si() * full;
            return propeller(context.flight)?
                .lowest_speed_for(thrust, &air, &wind, Assurance::Off)
                .map_err(refused);
        }
        inlet(context.flight)?.lowest_speed_for(share, &air, &wind, Assurance::Off).map_err(refused)
    };
    let rows = shares
        .map(|share| Ok(ScheduleRow { share, from_speed: lowest(share)? }))
        .collect::<Known<Vec<_>>>()?;
    let knot = knots(1.0);
    let whole = |row: ScheduleRow| ScheduleRow {
        from_speed: (row.from_speed / knot).si().ceil() * knot,
        ..row
    };
    Ok(straight_schedule(&rows, &wind).map_err(refused)?.into_iter().map(whole).collect())
}

/// A start with one share, held to the speed at which it holds no vortex, and
/// the rows above it.
fn from_break_away(free: &[ScheduleRow], start: usize) -> Vec<ScheduleRow> {
    let still = knots(0.0);
    let mut rows: Vec<ScheduleRow> =
        free.get(start).map(|row| ScheduleRow { from_speed: still, ..*row }).into_iter().collect();
    for row in free.iter().skip(start).filter(|row| row.from_speed > still) {
        let above = rows.last().map_or(still, |last| last.from_speed + knots(1.0));
        rows.push(ScheduleRow { from_speed: row.from_speed.max(above), ..*row });
    }
    rows
}
