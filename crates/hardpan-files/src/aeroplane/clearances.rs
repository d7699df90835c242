//! `[[clearance]]` of an aeroplane: low points that must stay clear of the ground.

use crate::table::cursor::Table;
use crate::table::plausible;
use hardpan_model::{Carrier, ClearancePoint, LowPart};

const PARTS: [(&str, LowPart); 6] = [
    ("propeller", LowPart::Propeller),
    ("pod", LowPart::Pod),
    ("deflector", LowPart::Deflector),
    ("belly", LowPart::Belly),
    ("door", LowPart::Door),
    ("antenna", LowPart::Antenna),
];
const CARRIERS: [(&str, Carrier); 3] = [
    ("airframe", Carrier::Airframe),
    ("main gear", Carrier::MainLeg),
    ("nose gear", Carrier::NoseLeg),
];

pub(crate) fn clearance(t: &mut Table<'_>) -> Option<ClearancePoint> {
    let name = t.text("name");
    let part = t.word("what", &PARTS);
    let carrier = t.word("moves_with", &CARRIERS);
    let aft = t.quantity("aft", plausible::BODY_PLACE);
    let offset = t.quantity("offset", plausible::BODY_OFFSET);
    let height = t.quantity("height", plausible::BODY_HEIGHT);
    for (key, example) in [
        ("name", "\"belly antenna\""),
        ("what", "\"antenna\" (or propeller, pod, deflector, belly, door)"),
        ("moves_with", "\"airframe\" (or main gear, nose gear)"),
        ("aft", "\"6 m\""),
        ("height", "\"1.1 m\""),
    ] {
        if !t.has(key) {
            t.lacks(key, example);
        }
    }
    Some(ClearancePoint {
        name: name?,
        part: part?.value,
        carrier: carrier?.value,
        aft: aft?,
        offset,
        height: height?,
    })
}
