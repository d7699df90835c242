//! What each sounding shows, with credited bearing ratios.

use super::{ColumnStrata, SoundingColumn};
use hardpan_ground::Strata;
use hardpan_ground::penetrometer::credited;
use hardpan_model::Sounding;
use hardpan_quantity::{BearingRatio, Quantity};

/// Every sounding by rising station, then offset.
pub(super) fn columns(soundings: &[Sounding]) -> Vec<SoundingColumn> {
    let mut columns: Vec<SoundingColumn> = soundings
        .iter()
        .map(|sounding| SoundingColumn {
            station: sounding.station.value,
            offset: sounding.offset,
            date: sounding.date.as_ref().map_or_else(String::new, |date| date.value.to_string()),
            strata: Strata::of(sounding)
                .map(|strata| of_strata(&strata))
                .map_err(|error| error.to_string()),
        })
        .collect();
    columns.sort_by(|a, b| {
        a.station.si().total_cmp(&b.station.si()).then(a.offset.si().total_cmp(&b.offset.si()))
    });
    columns
}

fn of_strata(strata: &Strata) -> ColumnStrata {
    let layers: Vec<_> = strata
        .strata
        .iter()
        .map(|stratum| (stratum.top, stratum.bottom, credited(stratum.bearing_ratio)))
        .collect();
    let least = |ratios: &mut dyn Iterator<Item = BearingRatio>| {
        ratios.reduce(|least, next| if next < least { next } else { least })
    };
    let weakest = least(&mut layers.iter().map(|layer| layer.2));
    let right_under = strata
        .surfacing
        .and_then(|bottom| layers.iter().find(|layer| layer.0 >= bottom).map(|layer| layer.2));
    let weakest = weakest.unwrap_or(BearingRatio::from_si(0.0));
    ColumnStrata {
        surfacing: strata.surfacing,
        under: right_under.unwrap_or(weakest),
        weakest,
        known_to: strata.known_to,
        refusal: strata.refusal,
        layers,
    }
}
