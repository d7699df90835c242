//! `kind = "aeroplane"`: one tail.

mod chart;
pub(crate) mod checks;
mod clearances;
pub(crate) mod fitted;
mod gear;
pub(crate) mod limits;
mod reverse;
mod zones;

use crate::aeroplane::chart::chart;
use crate::aeroplane::clearances::clearance;
use crate::aeroplane::gear::{gear, ground_control};
use crate::aeroplane::limits::{equipment, handling, limit};
use crate::aeroplane::zones::zone;
use crate::diagnose::mistake::Mistake;
use crate::diagnose::page::Files;
use crate::table::cursor::Table;
use crate::table::plausible;
use hardpan_model::{
    Aeroplane, AntiSkid, Balance, Brakes, EngineKind, Engines, FlapSetting, Given, MassLimits,
    RideData, SettingRow, SpeedRatios, ThrustSetting, Wing,
};
use hardpan_quantity::{Quantity, Ratio};

pub(crate) const ENGINE_KINDS: [(&str, EngineKind); 2] =
    [("turbofan", EngineKind::Turbofan), ("turboprop", EngineKind::Turboprop)];
const ANTI_SKID: [(&str, AntiSkid); 3] = [
    ("on-off", AntiSkid::OnOff),
    ("quasi-modulating", AntiSkid::QuasiModulating),
    ("fully-modulating", AntiSkid::FullyModulating),
];

/// Read the top table of an aeroplane file and the files that it names; constants
/// that were fitted stand in place of those stated.
pub(crate) fn aeroplane(t: &mut Table<'_>, files: &mut Files<'_>) -> Aeroplane {
    let mut aeroplane = stated_and_fitted(t, files);
    fitted::take_in(&mut aeroplane);
    aeroplane
}

/// The same with the constants as stated.
pub(crate) fn as_stated(t: &mut Table<'_>, files: &mut Files<'_>) -> Aeroplane {
    Aeroplane { fitted: None, ..stated_and_fitted(t, files) }
}

fn stated_and_fitted(t: &mut Table<'_>, files: &mut Files<'_>) -> Aeroplane {
    let mut aeroplane = Aeroplane {
        name: t.text("name"),
        description: t.text("description"),
        mass: t.table("mass", mass),
        balance: t.table("balance", balance),
        wing: t.table("wing", wing),
        flaps: t.list("flap", flap),
        engines: t.table("engines", engines),
        gear: t.table("gear", gear),
        control: t.table("control", ground_control),
        ride: t.table("ride", ride),
        brakes: t.table("brakes", brakes),
        speeds: t.table("speeds", speeds),
        equipment: t.list("equipment", equipment),
        zones: t.list("zone", zone),
        clearances: t.list("clearance", clearance),
        charts: t.list("chart", |t| chart(t, files)),
        limits: t.list("limit", limit),
        handling: t.list("handling", handling),
        fitted: None,
    };
    aeroplane.fitted = fitted::named(t, files, &aeroplane.flaps);
    checks::check(t.page(), &aeroplane);
    aeroplane
}

fn mass(t: &mut Table<'_>) -> MassLimits {
    MassLimits {
        minimum: t.quantity("minimum", plausible::MASS),
        maximum_take_off: t.quantity("maximum_take_off", plausible::MASS),
        maximum_landing: t.quantity("maximum_landing", plausible::MASS),
        maximum_zero_fuel: t.quantity("maximum_zero_fuel", plausible::MASS),
        operating: t.quantity("operating", plausible::MASS),
    }
}

fn balance(t: &mut Table<'_>) -> Balance {
    Balance {
        mean_chord: t.quantity("mean_chord", plausible::CHORD),
        main_gear_at: t.quantity("main_gear_at", plausible::CHORD_PLACE),
        centre_of_gravity_height: t.quantity("centre_of_gravity_height", plausible::CENTRE_HEIGHT),
        forward_limit: t.quantity("forward_limit", plausible::CHORD_PLACE),
        aft_limit: t.quantity("aft_limit", plausible::CHORD_PLACE),
    }
}

fn ride(t: &mut Table<'_>) -> RideData {
    RideData {
        pitch_gyration: t.quantity("pitch_gyration", plausible::GYRATION),
        cockpit_ahead: t.quantity("cockpit_ahead", plausible::COCKPIT_PLACE),
    }
}

fn wing(t: &mut Table<'_>) -> Wing {
    Wing {
        area: t.quantity("area", plausible::WING_AREA),
        span: t.quantity("span", plausible::SPAN),
        height: t.quantity("height", plausible::WING_HEIGHT),
        engine_out_drag: t.coefficient("engine_out_drag", plausible::DRAG),
        gear_drag: t.coefficient("gear_drag", plausible::DRAG),
    }
}

fn flap(t: &mut Table<'_>) -> Option<FlapSetting> {
    let name = t.text("name");
    let lift_maximum = t.coefficient("lift_maximum", plausible::LIFT_MAXIMUM);
    let lift_rolling = t.coefficient("lift_rolling", plausible::LIFT_ON_GROUND);
    let lift_stopping = t.coefficient("lift_stopping", plausible::LIFT_ON_GROUND);
    let drag_zero_lift = t.coefficient("drag_zero_lift", plausible::DRAG);
    let drag_spoilers = t.coefficient("drag_spoilers", plausible::DRAG);
    let induced_factor = t.coefficient("induced_factor", plausible::INDUCED);
    let take_off = t.flag("take_off");
    let landing = t.flag("landing");
    if name.is_none() && !t.has("name") {
        t.lacks("name", "\"25\"");
    }
    Some(FlapSetting {
        name: name?,
        lift_maximum,
        lift_rolling,
        lift_stopping,
        drag_zero_lift,
        drag_spoilers,
        induced_factor,
        take_off,
        landing,
    })
}

fn engines(t: &mut Table<'_>) -> Engines {
    Engines {
        kind: t.word("kind", &ENGINE_KINDS),
        count: t.count("count", 1, 8),
        static_thrust: t.quantity("static_thrust", plausible::THRUST),
        bypass_ratio: t.coefficient("bypass_ratio", plausible::BYPASS),
        flat_rated_to: t.quantity("flat_rated_to", plausible::TEMPERATURE),
        shaft_power: t.quantity("shaft_power", plausible::POWER),
        propeller_diameter: t.quantity("propeller_diameter", plausible::PROPELLER),
        propeller_efficiency: t.quantity("propeller_efficiency", plausible::EFFICIENCY),
        idle_share: t.quantity("idle_share", plausible::IDLE_SHARE),
        inlet_diameter: t.quantity("inlet_diameter", plausible::INLET_DIAMETER),
        inlet_height: t.quantity("inlet_height", plausible::INLET_HEIGHT),
        air_flow: t.quantity("air_flow", plausible::AIR_FLOW),
        bleed_loss: t.quantity("bleed_loss", plausible::BLEED_LOSS),
        continuous_share: t.quantity("continuous_share", plausible::CONTINUOUS_SHARE),
        taxi_share: t.quantity("taxi_share", plausible::THRUST_SHARE),
        propeller_height: t.quantity("propeller_height", plausible::INLET_HEIGHT),
        dissipators: t.text("dissipators"),
        reverse: t.table("reverse", reverse::reverse),
        setting: t.table("setting", thrust_setting),
    }
}

fn thrust_setting(t: &mut Table<'_>) -> ThrustSetting {
    let name = t.text("name");
    let list = t.path_of("row");
    let page = t.page();
    let rows = t.list("row", |row| {
        let value = row.coefficient("value", plausible::SETTING);
        let share: Option<Given<Ratio>> = row.quantity("share", plausible::THRUST_SHARE);
        for (key, example) in [("value", "1.82"), ("share", "\"84 %\"")] {
            if !row.has(key) {
                row.lacks(key, example);
            }
        }
        Some((SettingRow { value: value?, share: share? }, row.span()))
    });
    for ((before, _), (after, span)) in rows.iter().zip(rows.iter().skip(1)) {
        let what = if after.value.value <= before.value.value {
            "what is set does not rise"
        } else if after.share.value.si() <= before.share.value.si() {
            "the thrust does not rise"
        } else {
            continue;
        };
        let shown = |row: &SettingRow| {
            let value = page.written(&row.value.origin);
            format!("{value} with {}", page.written(&row.share.origin))
        };
        let mistake = Mistake::ChartNotRising {
            list: list.clone(),
            what: what.to_owned(),
            before: shown(before),
            after: shown(after),
        };
        page.report(span.clone(), &mistake);
    }
    if t.is_present() && name.is_none() && !t.has("name") {
        t.lacks("name", "\"engine pressure ratio\"");
    }
    ThrustSetting { name, rows: rows.into_iter().map(|(row, _)| row).collect() }
}

fn brakes(t: &mut Table<'_>) -> Brakes {
    Brakes {
        anti_skid: t.word("anti_skid", &ANTI_SKID),
        wheels: t.count("wheels", 1, 64),
        paved_dry_coefficient: t.coefficient("paved_dry_coefficient", plausible::BRAKING),
        energy_limit: t.quantity("energy_limit", plausible::BRAKE_ENERGY),
        force_limit: t.quantity("force_limit", plausible::BRAKE_FORCE),
        torque_limit: t.quantity("torque_limit", plausible::BRAKE_TORQUE),
        cooling: gear::cooling(t),
    }
}

fn speeds(t: &mut Table<'_>) -> SpeedRatios {
    SpeedRatios {
        rotation: t.quantity("rotation", plausible::SPEED_RATIO),
        lift_off: t.quantity("lift_off", plausible::SPEED_RATIO),
        safety: t.quantity("safety", plausible::SPEED_RATIO),
        reference: t.quantity("reference", plausible::SPEED_RATIO),
        touchdown: t.quantity("touchdown", plausible::SPEED_RATIO),
        minimum_control_ground: t.quantity("minimum_control_ground", plausible::CONTROL_SPEED),
        control_swing: t.quantity("control_swing", plausible::CONTROL_SWING),
        minimum_control_air: t.quantity("minimum_control_air", plausible::CONTROL_SPEED),
        minimum_unstick: t.quantity("minimum_unstick", plausible::SPEED_RATIO),
        minimum_control_approach: t.quantity("minimum_control_approach", plausible::CONTROL_SPEED),
        rotation_time: t.quantity("rotation_time", plausible::SHORT_TIME),
        brake_delay: t.quantity("brake_delay", plausible::SHORT_TIME),
        gear_up_after: t.quantity("gear_up_after", plausible::GEAR_TIME),
    }
}
