//! R70: the ride over the lanes at the speeds of the planned runs.

use crate::context::Context;
use crate::draft::{Draft, beside, constant, given, plain_step};
use crate::rides::{LEVELS_M, Rides, RunRide};
use crate::rule::Rule;
use crate::run_basis::by_station;
use crate::shape::levels::level;
use crate::shape::survey_noise::{NOISE_SHARE, SURELY, quieter};
use hardpan_model::{Finding, Lane, Mark, Phase, Source, Tier};
use hardpan_quantity::{Acceleration, Amount, Quantity, STANDARD_GRAVITY_M_PER_S2, metres};
use hardpan_surface::cockpit_limit;

pub(super) const RULE: Rule = Rule {
    code: "R70",
    name: "Ride",
    checks: "Vertical acceleration at the cockpit of a rigid aeroplane in heave and pitch on oleo \
             struts and tyres, driven over the surveyed lanes at the speed and with the lift of \
             the landing, the take-off and the rejected take-off.",
    why: "Bumps that each pass alone may come at the beat of the aeroplane: then the crew cannot \
          read the instruments or hold the nose straight.",
    limit: "0.4 g either way, in excess of the same run over level ground, where precise control \
            is needed.",
    applies: "Struts, inertia and cockpit place stated, a level every 2.5 m along the centre and \
              each lane. Advice where the ride cannot be computed; unproven where noise of the \
              survey may have shaken it. No bending of the fuselage: a slender one rides worse. A \
              bump under one main leg is taken under both.",
    source: Source::new("MORRIS-HALL-1965", "incremental acceleration", Tier::Published),
    judge,
};

const LEVELS: Source = Source::new("", "longest distance between levels", Tier::Judgement);

fn in_g(acceleration: Acceleration) -> f64 {
    acceleration.si() / STANDARD_GRAVITY_M_PER_S2
}

fn judge(context: &Context<'_>) -> Vec<Finding> {
    match context.measured.rides(context.flight) {
        Err(why) => {
            let draft = Draft::new(&RULE, "ride at the cockpit, g", Phase::Always).advice();
            vec![draft.mark(Mark::PlanningOnly).unavailable(why)]
        }
        Ok(rides) => ["landing", "take-off", "rejected take-off"]
            .into_iter()
            .filter_map(|run| Some(finding(context, rides, worst_of(rides, run)?)))
            .collect(),
    }
}

fn worst_of<'a>(rides: &'a Rides, run: &str) -> Option<&'a RunRide> {
    let of_run = rides.all.iter().filter(|ride| ride.run == run);
    of_run.reduce(|most, next| if next.worst > most.worst { next } else { most })
}

fn finding(context: &Context<'_>, rides: &Rides, worst: &RunRide) -> Finding {
    let phase = if worst.run == "landing" { Phase::Landing } else { Phase::TakeOff };
    let limit = in_g(cockpit_limit());
    let value = Amount::coefficient(in_g(worst.worst));
    let draft = Draft::new(&RULE, format!("ride at the cockpit, {}, g", worst.run), phase)
        .mark(Mark::PlanningOnly)
        .at_most(Amount::coefficient(limit))
        .value(value)
        .place(worst.station, worst.station, Some(worst.lane))
        .caveat(
            "rigid fuselage; both main legs over the same lane; friction of the struts left out",
        )
        .step(step(context, rides, worst, value));
    let felt = in_g(worst.worst);
    let noise = rides.noise.map(in_g).filter(|noise| *noise > NOISE_SHARE * limit);
    if let Some(noise) = noise.filter(|noise| felt <= limit + SURELY * noise) {
        if felt <= limit {
            let why = format!("survey noise alone would shake the cockpit by {noise:.2} g");
            return draft.advice().unproven(why, [quieter()]);
        }
        let why = format!(
            "it may be noise of the survey, which alone would shake the cockpit by {noise:.2} g"
        );
        return draft.unproven(why, [quieter()]);
    }
    let words = words(worst);
    let slower = match worst.slower {
        Some(speed) => {
            let speed = Amount::from(speed).told();
            format!("rolled over at {speed} or less it stays inside")
        }
        None => "no speed of rolling keeps it inside: mend it".to_owned(),
    };
    draft.judged(words.clone(), format!("{words}; {slower}"))
}

fn words(worst: &RunRide) -> String {
    let shown = |amount: Amount| amount.told();
    let lane = match worst.lane {
        Lane::Left => "left lane",
        Lane::Nose => "centre",
        Lane::Right => "right lane",
    };
    let centre = &worst.ride.centre;
    let centre = in_g(centre.up.0.max(-centre.down.0));
    let (nose, main) = worst.ride.load_factors;
    let mut words = format!(
        "worst at {} on the {lane}; {centre:.2} g at the centre of gravity, gear load up to {:.2} \
         (nose) and {:.2} (main) of standing still",
        shown(worst.speed.into()),
        nose.si(),
        main.si()
    );
    if worst.ride.bottomed.0 || worst.ride.bottomed.1 {
        words.push_str("; a strut bottoms");
    }
    words
}

fn step(
    context: &Context<'_>,
    rides: &Rides,
    worst: &RunRide,
    value: Amount,
) -> hardpan_model::Step {
    let data = &context.flight.aeroplane;
    let half = data.gear.track.as_ref().map_or(metres(0.0), |track| 0.5 * track.value);
    let offset = match worst.lane {
        Lane::Left => -half,
        Lane::Nose => metres(0.0),
        Lane::Right => half,
    };
    let mut inputs = vec![
        level(context, "level there", (worst.station, offset)),
        beside("mass on the struts", worst.mass, "planned mass less the unsprung masses"),
        beside("speed there", worst.speed, "of the run by station"),
        constant("longest distance between levels", metres(LEVELS_M), LEVELS),
    ];
    inputs.extend(by_station(context.measured, worst.run == "landing"));
    inputs.extend(rides.noise.map(|noise| {
        let noise = Amount::coefficient(in_g(noise));
        beside("what survey noise alone shows, g", noise, "the same ride over the noise stated")
    }));
    inputs.extend(data.ride.pitch_gyration.as_ref().map(|one| given("radius of gyration", one)));
    inputs.extend(
        data.ride.cockpit_ahead.as_ref().map(|one| given("cockpit ahead of the nose wheels", one)),
    );
    for (leg, name) in [(&data.gear.main, "main"), (&data.gear.nose, "nose")] {
        let strut = &leg.strut;
        inputs.extend(
            strut.piston_area.as_ref().map(|one| given(&format!("{name} pneumatic area"), one)),
        );
        inputs.extend(
            strut.preload_pressure.as_ref().map(|one| given(&format!("{name} preload"), one)),
        );
        inputs
            .extend(strut.gas_volume.as_ref().map(|one| given(&format!("{name} gas volume"), one)));
        inputs
            .extend(strut.damping_force.as_ref().map(|one| given(&format!("{name} damping"), one)));
        inputs.extend(
            strut.damping_rate.as_ref().map(|one| given(&format!("{name} rate of it"), one)),
        );
        inputs.extend(
            strut.unsprung_mass.as_ref().map(|one| given(&format!("{name} unsprung mass"), one)),
        );
    }
    plain_step(
        "greatest acceleration at the cockpit",
        "heave and pitch of a rigid body, p A (v / (v − A s))ⁿ and c ṡ² in each strut, m zʳ in each tyre",
        Source::new("NACA-1154", "equations of the leg", Tier::Memory),
        inputs,
        value,
    )
}
