//! What a row of the file of measured ruts was counted from.

use super::{ARITHMETIC, AS_RECORDED, Opened, count_of, entries, entry, figure};
use crate::RutRow;
use hardpan_model::{EntryRange, Step};
use hardpan_quantity::Quantity as _;

/// Rut, passes, mass and pressure of a place by the names of their columns.
pub(crate) fn opened_rut(row: &RutRow) -> Opened {
    let place = format!("{} at station {:.0} m on {}", row.lane, row.station.si(), row.date);
    let name = format!("rut, {place}");
    let seen = vec![entry("as an inspection found it", row.rut, row.entry)];
    let rut = Step::new(&name, "the depth of the record", AS_RECORDED, seen, row.rut);
    let rut = figure(name, vec![rut], row.rut.into());
    let over = EntryRange::of(row.passes.iter().copied());
    let counted = "movements over the place after the last repair that covers it, until the rut was \
                   found; one that states no stretch counts everywhere";
    let passes = count_of(format!("passes, {place}"), &over, row.passes.len(), counted);
    let mean = |what: &str, of: &[i64], amount: hardpan_quantity::Amount| {
        let name = format!("mean {what}, {place}");
        let of = EntryRange::of(of.iter().copied());
        let count = of.iter().map(|one| one.last - one.first + 1).sum::<i64>();
        let count = usize::try_from(count).unwrap_or(0);
        let inputs = vec![entries(&format!("movements that state a {what}"), &of, count)];
        let rule = format!("mean {what} of the movements");
        figure(name.clone(), vec![Step::new(&name, &rule, ARITHMETIC, inputs, amount)], amount)
    };
    vec![
        ("rut_mm", rut),
        ("passes", passes),
        ("mass_t", mean("mass", &row.passes, row.mass.into())),
        ("pressure_kpa", mean("tyre pressure", &row.with_pressure, row.pressure.into())),
    ]
}
