//! Reverse thrust: approved speeds, its efflux, and what may be counted of it.

use crate::diagnose::mistake::Mistake;
use crate::table::cursor::Table;
use crate::table::plausible;
use hardpan_model::{Given, Reverse, ReverseApproval, ReverseRow, SurfaceKind};

pub(super) fn reverse(t: &mut Table<'_>) -> Reverse {
    Reverse {
        idle_by: t.quantity("idle_by", plausible::SCHEDULE_SPEED),
        stowed_by: t.quantity("stowed_by", plausible::SCHEDULE_SPEED),
        efflux_diameter: t.quantity("efflux_diameter", plausible::INLET_DIAMETER),
        efflux_speed: t.quantity("efflux_speed", plausible::EFFLUX),
        lip_distance: t.quantity("lip_distance", plausible::LIP_DISTANCE),
        engines: t.count("engines", 1, 8),
        set_after: t.quantity("set_after", plausible::SHORT_TIME),
        rows: rows(t),
        approvals: t.list("approval", approval),
    }
}

fn rows(t: &mut Table<'_>) -> Vec<ReverseRow> {
    let list = t.path_of("row");
    let page = t.page();
    let rows = t.list("row", |row| {
        let airspeed = row.quantity("airspeed", plausible::SCHEDULE_SPEED);
        let force = row.quantity("force", plausible::REVERSE_FORCE);
        lacking(row, [("airspeed", "\"80 kt\""), ("force", "\"22 kN\"")]);
        Some((ReverseRow { airspeed: airspeed?, force: force? }, row.span()))
    });
    for ((before, _), (after, span)) in rows.iter().zip(rows.iter().skip(1)) {
        if after.airspeed.value > before.airspeed.value {
            continue;
        }
        let shown = |row: &ReverseRow| {
            let airspeed = page.written(&row.airspeed.origin);
            format!("{airspeed} with {}", page.written(&row.force.origin))
        };
        let mistake = Mistake::ChartNotRising {
            list: list.clone(),
            what: "the airspeed does not rise".to_owned(),
            before: shown(before),
            after: shown(after),
        };
        page.report(span.clone(), &mistake);
    }
    rows.into_iter().map(|(row, _)| row).collect()
}

fn approval(t: &mut Table<'_>) -> Option<ReverseApproval> {
    let words = SurfaceKind::ALL.map(|kind| (kind.word(), kind));
    let surface: Option<Given<SurfaceKind>> = t.word("surface", &words);
    let manual = t.text("manual");
    let place = "\"Flight manual, supplement 4, page 7\"";
    lacking(t, [("surface", "\"gravel\""), ("manual", place)]);
    Some(ReverseApproval { surface: surface?, manual: manual? })
}

fn lacking(t: &Table<'_>, keys: [(&str, &str); 2]) {
    for (key, example) in keys {
        if !t.has(key) {
            t.lacks(key, example);
        }
    }
}
