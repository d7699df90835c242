//! From what the crew sets to thrust, and back.

use super::{Gather, Surroundings};
use hardpan_model::{Flight, Need, SettingRow, ThrustSetting};
use hardpan_quantity::{Quantity, Ratio, ratio};
use hardpan_run::RunModel;

/// The model with thrust as the flight sets it; all of it where it says nothing.
pub(super) fn applied(
    gather: &mut Gather,
    flight: &Flight,
    around: &Surroundings<'_>,
    model: RunModel,
) -> Option<RunModel> {
    let Some(set) = flight.take_off.as_ref().and_then(|plan| plan.setting.as_ref()) else {
        return Some(model);
    };
    let table = &flight.aeroplane.engines.setting;
    let Some(share) = share_of(table, set.value) else {
        gather.needs.push(beyond(&set.value.to_string()));
        return None;
    };
    let air = gather.known(around.air)?;
    Some(model.set_to(share, &air))
}

/// What is missing where the table does not reach a setting or a thrust.
pub(crate) fn beyond(wanted: &str) -> Need {
    Need {
        what: "aeroplane: [[engines.setting.row]]".to_owned(),
        how: format!("rows from the manual that reach {wanted}; the table is not extrapolated"),
    }
}

/// Share of static thrust of what is set, between the rows of the table; none
/// outside them.
pub(crate) fn share_of(table: &ThrustSetting, set: f64) -> Option<Ratio> {
    let value = |row: &SettingRow| row.value.value;
    between(&table.rows, set, value, |row| row.share.value.si()).map(ratio)
}

/// What is set for a share of static thrust, likewise.
pub(crate) fn set_for(table: &ThrustSetting, share: Ratio) -> Option<f64> {
    let thrust = |row: &SettingRow| row.share.value.si();
    between(&table.rows, share.si(), thrust, |row| row.value.value)
}

fn between(
    rows: &[SettingRow],
    at: f64,
    from: impl Fn(&SettingRow) -> f64,
    to: impl Fn(&SettingRow) -> f64,
) -> Option<f64> {
    let pair = rows.windows(2).find(|pair| (from(&pair[0])..=from(&pair[1])).contains(&at))?;
    let (low, high) = (from(&pair[0]), from(&pair[1]));
    let share = if high > low { (at - low) / (high - low) } else { 0.0 };
    Some(to(&pair[0]) + (to(&pair[1]) - to(&pair[0])) * share)
}

#[cfg(test)]
mod tests {
    use super::{set_for, share_of};
    use hardpan_model::{Given, SettingRow, ThrustSetting};
    use hardpan_quantity::{Quantity, percent, ratio};
    use proptest::prelude::*;

    /// An ideal choked nozzle of gamma 1.33 standing in still air: gross thrust over
    /// area and pressure is 1.2590 NPR - 1, of which 1.5181 at 2.0 is all.
    /// Source: derivation, evaluated apart.
    fn nozzle() -> ThrustSetting {
        let row = |set: f64, gross: f64| SettingRow {
            value: Given::stated("value", set),
            share: Given::stated("share", ratio(gross / 1.5181)),
        };
        let rows = [(1.8, 1.2656), (1.9, 1.3922), (2.0, 1.5181)];
        ThrustSetting { name: None, rows: rows.map(|(set, gross)| row(set, gross)).to_vec() }
    }

    #[test]
    fn a_table_of_a_choked_nozzle_gives_its_thrust_and_nothing_beyond() {
        let table = nozzle();
        // Between two rows: (1.2590 x 1.95 - 1) / 1.5181.
        let share = share_of(&table, 1.95).expect("inside").si();
        assert!((share - 0.9585).abs() < 1e-4, "{share}");
        let set = set_for(&table, percent(90.0)).expect("inside");
        assert!(((1.2590 * set - 1.0) / 1.5181 - 0.90).abs() < 2e-3, "{set}");
        for outside in [1.79, 2.01, f64::NAN] {
            assert!(share_of(&table, outside).is_none());
        }
        assert!(set_for(&table, percent(101.0)).is_none());
        assert!(share_of(&ThrustSetting::default(), 1.9).is_none());
    }

    proptest! {
        #[test]
        fn prop_there_and_back(set in 1.8f64..=2.0) {
            let table = nozzle();
            let share = share_of(&table, set).expect("inside");
            prop_assert!((set_for(&table, share).expect("inside") - set).abs() < 1e-9);
        }
    }
}
