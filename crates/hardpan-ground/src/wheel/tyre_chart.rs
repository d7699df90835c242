//! What does the approved chart of tyre pressure against mass say?
//!
//! Rows of least pressure by rising mass, as the operator entered them; linear
//! between rows, refused outside. The chart binds over any relation.

use crate::Error;
use hardpan_math::{Table, TableError};
use hardpan_model::{TyreChartRow, TyreLoadRow};
use hardpan_quantity::{Force, Mass, Pressure, Quantity};

fn table(rows: &[TyreChartRow]) -> Result<Table, Error> {
    table_of(rows.iter().map(|row| (row.mass.value.si(), row.pressure.value.si())).collect())
}

fn table_of(pairs: Vec<(f64, f64)>) -> Result<Table, Error> {
    for (index, pair) in pairs.windows(2).enumerate() {
        if let [before, after] = pair
            && after.1 < before.1
        {
            return Err(Error::ChartNotRising { row: index + 2 });
        }
    }
    Table::new(pairs).map_err(|error| match error {
        TableError::NotRising { row, .. } | TableError::NotFinite { row } => {
            Error::ChartNotRising { row }
        }
        _ => Error::ChartEmpty,
    })
}

/// Least pressure that the chart allows at a mass.
///
/// # Errors
/// [`Error`] when the chart is empty, not rising, or does not reach the mass.
pub fn chart_pressure(rows: &[TyreChartRow], mass: Mass) -> Result<Pressure, Error> {
    let table = table(rows)?;
    let (low, high) = table.range();
    let pressure = table.at(mass.si()).map_err(|_| Error::ChartOutside {
        what: "mass",
        value: mass.si(),
        low,
        high,
        unit: "kg",
    })?;
    Ok(Pressure::from_si(pressure))
}

/// Least pressure that the maker's table allows at the load of one tyre; a load
/// below its first row is read there, which asks for more.
///
/// # Errors
/// [`Error`] when the table is empty, not rising, or ends below the load.
pub fn load_table_pressure(rows: &[TyreLoadRow], load: Force) -> Result<Pressure, Error> {
    let pairs = rows.iter().map(|row| (row.load.value.si(), row.pressure.value.si()));
    let table = table_of(pairs.collect())?;
    let (low, high) = table.range();
    let outside = |_| Error::ChartOutside {
        what: "load of one tyre",
        value: load.si() / 1e3,
        low: low / 1e3,
        high: high / 1e3,
        unit: "kN",
    };
    let read = if load.si() < low { low } else { load.si() };
    Ok(Pressure::from_si(table.at(read).map_err(outside)?))
}

/// Largest mass that the chart allows at a pressure: its last mass where the
/// pressure is above all of its pressures.
///
/// # Errors
/// [`Error`] when the chart is empty, not rising, or asks for more pressure
/// even at its first mass.
pub fn chart_mass(rows: &[TyreChartRow], pressure: Pressure) -> Result<Mass, Error> {
    let table = table(rows)?;
    let (low, high) = table.range();
    let wanted = pressure.si();
    let outside = |low, high| Error::ChartOutside {
        what: "pressure",
        value: wanted / 1e3,
        low,
        high,
        unit: "kPa",
    };
    let (first, last) = (table.at_or_end(low), table.at_or_end(high));
    if wanted >= last {
        return Ok(Mass::from_si(high));
    }
    hardpan_math::largest_holding(|mass| table.at_or_end(mass) <= wanted, low, high, 1e-6)
        .map(Mass::from_si)
        .ok_or_else(|| outside(first / 1e3, last / 1e3))
}
