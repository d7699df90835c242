//! `[[zone]]` of an aeroplane: what thrown stones can meet.

use crate::aeroplane::checks::in_order;
use crate::table::cursor::Table;
use crate::table::plausible;
use hardpan_model::{Zone, ZoneKind, ZonePart};

const KINDS: [(&str, ZoneKind); 2] =
    [("airframe", ZoneKind::Airframe), ("deflector", ZoneKind::Deflector)];

pub(crate) fn zone(t: &mut Table<'_>) -> Option<Zone> {
    let name = t.text("name");
    let kind = t.word("what", &KINDS);
    let from = t.quantity("from", plausible::BODY_PLACE);
    let to = t.quantity("to", plausible::BODY_PLACE);
    let height = t.quantity("height", plausible::BODY_HEIGHT);
    let width = t.quantity("width", plausible::BODY_WIDTH);
    let offset = t.quantity("offset", plausible::BODY_OFFSET);
    let parts = ZonePart::ALL.map(|part| (part.word(), part));
    let part = t.word("part", &parts).map(|given| given.value);
    let height_up = t.quantity("height_up", plausible::BODY_HEIGHT);
    let blade_speed = t.quantity("blade_speed", plausible::BLADE_SPEED);
    for (key, example) in [
        ("name", "\"belly antennas\""),
        ("what", "\"airframe\" (or deflector)"),
        ("from", "\"4 m\""),
        ("to", "\"9 m\""),
        ("height", "\"1.1 m\""),
        ("width", "\"2 m\""),
    ] {
        if !t.has(key) {
            t.lacks(key, example);
        }
    }
    in_order(t.page(), &from, &to);
    in_order(t.page(), &height, &height_up);
    Some(Zone {
        name: name?,
        kind: kind?.value,
        from: from?,
        to: to?,
        height: height?,
        width: width?,
        offset,
        part,
        height_up,
        blade_speed,
    })
}
