//! `[gear]` of an aeroplane: legs, tyres and the approved tyre charts.

use crate::diagnose::mistake::Mistake;
use crate::table::cursor::Table;
use crate::table::plausible::{self, Bounds};
use hardpan_model::{
    CoolingRow, Gear, Given, GroundControl, Leg, Strut, Tyre, TyreChartRow, TyreLoadRow,
};
use hardpan_quantity::{Pressure, Quantity};

pub(crate) fn gear(t: &mut Table<'_>) -> Gear {
    Gear {
        wheelbase: t.quantity("wheelbase", plausible::WHEELBASE),
        track: t.quantity("track", plausible::TRACK),
        side_force_area: t.quantity("side_force_area", plausible::SIDE_FORCE_AREA),
        side_force_height: t.quantity("side_force_height", plausible::SIDE_FORCE_HEIGHT),
        crosswind_share: t.quantity("crosswind_share", plausible::CROSSWIND_SHARE),
        main: t.table("main", leg),
        nose: t.table("nose", leg),
    }
}

/// `[control]`: what holds the aeroplane straight on its wheels.
pub(crate) fn ground_control(t: &mut Table<'_>) -> GroundControl {
    GroundControl {
        rudder_force_area: t.quantity("rudder_force_area", plausible::RUDDER_FORCE_AREA),
        rudder_arm: t.quantity("rudder_arm", plausible::RUDDER_ARM),
        engine_arm: t.quantity("engine_arm", plausible::ENGINE_ARM),
        side_force_behind: t.quantity("side_force_behind", plausible::SIDE_FORCE_BEHIND),
        nose_side_factor: t.coefficient("nose_side_factor", plausible::NOSE_SIDE_FACTOR),
    }
}

fn leg(t: &mut Table<'_>) -> Leg {
    Leg {
        legs: t.count("legs", 1, 8),
        wheels: t.count("wheels", 1, 16),
        spacing: t.quantity("spacing", plausible::WHEEL_SPACING),
        tandem_spacing: t.quantity("tandem_spacing", plausible::WHEEL_SPACING),
        stroke_left: t.quantity("stroke_left", plausible::STROKE),
        tyre: t.table("tyre", tyre),
        strut: t.table("strut", strut),
    }
}

fn strut(t: &mut Table<'_>) -> Strut {
    Strut {
        piston_area: t.quantity("piston_area", plausible::PISTON_AREA),
        preload_pressure: t.quantity("preload_pressure", plausible::PRELOAD),
        gas_volume: t.quantity("gas_volume", plausible::GAS_VOLUME),
        polytropic: t.coefficient("polytropic", plausible::POLYTROPIC),
        damping_force: t.quantity("damping_force", plausible::DAMPING_FORCE),
        damping_rate: t.quantity("damping_rate", plausible::STROKE_RATE),
        unsprung_mass: t.quantity("unsprung_mass", plausible::UNSPRUNG_MASS),
    }
}

fn tyre(t: &mut Table<'_>) -> Tyre {
    Tyre {
        diameter: t.quantity("diameter", plausible::TYRE_DIAMETER),
        width: t.quantity("width", plausible::TYRE_WIDTH),
        flange_diameter: t.quantity("flange_diameter", plausible::FLANGE_DIAMETER),
        loaded_radius: t.quantity("loaded_radius", plausible::AXLE_HEIGHT),
        flat_radius: t.quantity("flat_radius", plausible::AXLE_HEIGHT),
        rated_load: t.quantity("rated_load", plausible::TYRE_LOAD),
        rated_pressure: t.quantity("rated_pressure", plausible::TYRE_PRESSURE),
        minimum_pressure: t.quantity("minimum_pressure", plausible::TYRE_PRESSURE),
        maximum_pressure: t.quantity("maximum_pressure", plausible::TYRE_PRESSURE),
        rated_speed: t.quantity("rated_speed", plausible::TYRE_SPEED),
        chart: chart(t),
        load_table: load_table(t),
    }
}

fn chart(t: &mut Table<'_>) -> Vec<TyreChartRow> {
    let rows = pairs(t, "chart", ("mass", plausible::MASS, "\"40 t\""));
    rows.into_iter().map(|(mass, pressure)| TyreChartRow { mass, pressure }).collect()
}

fn load_table(t: &mut Table<'_>) -> Vec<TyreLoadRow> {
    let rows = pairs(t, "load_table", ("load", plausible::TYRE_LOAD, "\"80 kN\""));
    rows.into_iter().map(|(load, pressure)| TyreLoadRow { load, pressure }).collect()
}

/// Rows of something that must rise, with a least pressure that must not fall.
fn pairs<Q: Quantity>(
    t: &mut Table<'_>,
    list: &'static str,
    (first, bounds, example): (&'static str, Bounds, &str),
) -> Vec<(Given<Q>, Given<Pressure>)> {
    let path = t.path_of(list);
    let page = t.page();
    let rows = t.list(list, |row| {
        let rising = row.quantity::<Q>(first, bounds);
        let pressure = row.quantity::<Pressure>("pressure", plausible::TYRE_PRESSURE);
        for (key, missing, example) in
            [(first, rising.is_none(), example), ("pressure", pressure.is_none(), "\"75 psi\"")]
        {
            if missing && !row.has(key) {
                row.lacks(key, example);
            }
        }
        Some(((rising?, pressure?), row.span()))
    });
    let shown = |row: &(Given<Q>, Given<Pressure>)| {
        format!("{}, {}", page.written(&row.0.origin), page.written(&row.1.origin))
    };
    for ((before, _), (after, span)) in rows.iter().zip(rows.iter().skip(1)) {
        let what = if after.0.value.si() <= before.0.value.si() {
            format!("the {first} does not rise")
        } else if after.1.value.si() < before.1.value.si() {
            "the pressure falls".to_owned()
        } else {
            continue;
        };
        let (before, after) = (shown(before), shown(after));
        page.report(
            span.clone(),
            &Mistake::ChartNotRising { list: path.clone(), what, before, after },
        );
    }
    rows.into_iter().map(|(row, _)| row).collect()
}

/// `[[brakes.cooling]]`: the approved chart of brake cooling.
pub(crate) fn cooling(t: &mut Table<'_>) -> Vec<CoolingRow> {
    let list = t.path_of("cooling");
    let page = t.page();
    let rows = t.list("cooling", |row| {
        let energy = row.quantity("energy", plausible::BRAKE_ENERGY);
        let wait = row.quantity("wait", plausible::COOLING);
        for (key, missing, example) in
            [("energy", energy.is_none(), "\"20 MJ\""), ("wait", wait.is_none(), "\"40 min\"")]
        {
            if missing && !row.has(key) {
                row.lacks(key, example);
            }
        }
        Some((CoolingRow { energy: energy?, wait: wait? }, row.span()))
    });
    for ((before, _), (after, span)) in rows.iter().zip(rows.iter().skip(1)) {
        let what = if after.energy.value.si() <= before.energy.value.si() {
            "the energy does not rise"
        } else if after.wait.value.si() < before.wait.value.si() {
            "the wait falls"
        } else {
            continue;
        };
        let row = |row: &CoolingRow| {
            format!("{}, {}", page.written(&row.energy.origin), page.written(&row.wait.origin))
        };
        let mistake = Mistake::ChartNotRising {
            list: list.clone(),
            what: what.to_owned(),
            before: row(before),
            after: row(after),
        };
        page.report(span.clone(), &mistake);
    }
    rows.into_iter().map(|(row, _)| row).collect()
}
