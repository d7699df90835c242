//! `kind = "fitted"`: constants fitted to the operator's charts, which an
//! aeroplane file takes in by its key `fitted`.

use crate::aeroplane::limits::surfaces;
use crate::diagnose::mistake::Mistake;
use crate::diagnose::nearest::list;
use crate::diagnose::page::{Files, Page};
use crate::quoted;
use crate::strip::{load, path, states};
use crate::table::cursor::Table;
use crate::table::plausible;
use crate::table::toml_text::of_kind;
use hardpan_model::{Aeroplane, Fitted, FittedFlap, FittedFriction, FlapSetting};
use hardpan_quantity::Quantity;
use std::fmt::Write as _;

/// The file that the key `fitted` names.
pub(crate) fn named(
    t: &mut Table<'_>,
    files: &mut Files<'_>,
    flaps: &[FlapSetting],
) -> Option<Fitted> {
    let entry = path(t, "fitted")?;
    let (file, text) = load(t.page(), files, &entry)?;
    let page = Page::new(&file, &text);
    let fitted = of_kind(&page, "fitted", |t| fitted(t, Some(flaps)));
    files.close(page);
    fitted
}

/// Read the top table of a file of fitted constants; its flaps are held to those
/// of the aeroplane where there is one.
pub(crate) fn fitted(t: &mut Table<'_>, flaps: Option<&[FlapSetting]>) -> Fitted {
    let _ = t.text("description");
    let (static_thrust, shaft_power) = t.table("engines", |t| {
        (
            t.quantity("static_thrust", plausible::THRUST),
            t.quantity("shaft_power", plausible::POWER),
        )
    });
    Fitted {
        static_thrust,
        shaft_power,
        flaps: t.list("flap", |t| flap(t, flaps)),
        friction: t.list("friction", friction),
    }
}

fn flap(t: &mut Table<'_>, known: Option<&[FlapSetting]>) -> Option<FittedFlap> {
    let name = t.text("name");
    let lift_maximum = t.coefficient("lift_maximum", plausible::LIFT_MAXIMUM);
    let drag_zero_lift = t.coefficient("drag_zero_lift", plausible::DRAG);
    if !t.has("name") {
        t.lacks("name", "\"25\"");
    }
    let name = name?;
    let names: Option<Vec<&str>> =
        known.map(|known| known.iter().map(|flap| flap.name.value.as_str()).collect());
    if let Some(names) = names.filter(|names| !names.contains(&name.value.as_str())) {
        let mistake = Mistake::UnknownWord {
            key: t.path_of("name"),
            word: quoted(&name.value),
            words: list(&names),
            advice:
                "fit again with `hardpan fit --write`: the flaps are those of another state of \
                     the aeroplane's file"
                    .to_owned(),
        };
        t.page().report(t.span_of("name"), &mistake);
    }
    Some(FittedFlap { name, lift_maximum, drag_zero_lift })
}

fn friction(t: &mut Table<'_>) -> Option<FittedFriction> {
    let surface = t.word("surface", &surfaces());
    let state = t.word("surface_state", &states());
    let rolling = t.coefficient("rolling", plausible::ROLLING);
    let braking = t.coefficient("braking", plausible::BRAKING);
    let rolling_deviation = t.quantity("rolling_deviation", plausible::FITTED_DEVIATION);
    let braking_deviation = t.quantity("braking_deviation", plausible::FITTED_DEVIATION);
    for (key, example) in [
        ("surface", "\"gravel\""),
        ("surface_state", "\"dry\""),
        ("rolling", "0.03"),
        ("braking", "0.25"),
        ("rolling_deviation", "\"10 %\""),
        ("braking_deviation", "\"10 %\""),
    ] {
        if !t.has(key) {
            t.lacks(key, example);
        }
    }
    Some(FittedFriction {
        surface: surface?.value,
        state: state?.value,
        rolling: rolling?,
        braking: braking?,
        rolling_deviation: rolling_deviation?,
        braking_deviation: braking_deviation?,
    })
}

/// Put fitted thrust, lift and drag in place of those stated. A kind of engine
/// that the file does not describe gets nothing.
pub(crate) fn take_in(aeroplane: &mut Aeroplane) {
    let Some(fitted) = &aeroplane.fitted else { return };
    let engines = &mut aeroplane.engines;
    if engines.static_thrust.is_some() && fitted.static_thrust.is_some() {
        engines.static_thrust.clone_from(&fitted.static_thrust);
    }
    if engines.shaft_power.is_some() && fitted.shaft_power.is_some() {
        engines.shaft_power.clone_from(&fitted.shaft_power);
    }
    for flap in &mut aeroplane.flaps {
        let own = fitted.flaps.iter().find(|own| own.name.value == flap.name.value);
        let Some(own) = own else { continue };
        if own.lift_maximum.is_some() {
            flap.lift_maximum.clone_from(&own.lift_maximum);
        }
        if own.drag_zero_lift.is_some() {
            flap.drag_zero_lift.clone_from(&own.drag_zero_lift);
        }
    }
}

/// Fitted constants as the text of a file that an aeroplane file takes in; each says by its
/// source what it was fitted to.
#[must_use]
pub fn fitted_text(fitted: &Fitted, source: &str) -> String {
    let source = quoted(source);
    let mut out = format!(
        "kind = \"fitted\"\n\n# Planning only: the approved charts bind where they reach. An \
         aeroplane file takes this in by\n# fitted = \"NAME OF THIS FILE\"\n\n[engines]\nsource = \
         {source}\n"
    );
    let mut line = |text: std::fmt::Arguments<'_>| {
        // Writing to a text does not fail.
        let _ = writeln!(out, "{text}");
    };
    if let Some(thrust) = &fitted.static_thrust {
        line(format_args!("static_thrust = \"{:.3} kN\"", thrust.value.si() / 1e3));
    }
    if let Some(power) = &fitted.shaft_power {
        line(format_args!("shaft_power = \"{:.3} kW\"", power.value.si() / 1e3));
    }
    for flap in &fitted.flaps {
        line(format_args!("\n[[flap]]\nname = {}\nsource = {source}", quoted(&flap.name.value)));
        let rows = [("lift_maximum", &flap.lift_maximum), ("drag_zero_lift", &flap.drag_zero_lift)];
        for (key, value) in rows {
            if let Some(value) = value {
                line(format_args!("{key} = {:.5}", value.value));
            }
        }
    }
    for on in &fitted.friction {
        line(format_args!(
            "\n[[friction]]\nsurface = \"{}\"\nsurface_state = \"{}\"\nsource = {source}",
            on.surface.word(),
            on.state.word()
        ));
        line(format_args!("rolling = {:.5}\nbraking = {:.5}", on.rolling.value, on.braking.value));
        let percent = |share: f64| 100.0 * share;
        line(format_args!(
            "rolling_deviation = \"{:.2} %\"\nbraking_deviation = \"{:.2} %\"",
            percent(on.rolling_deviation.value.si()),
            percent(on.braking_deviation.value.si())
        ));
    }
    out
}
