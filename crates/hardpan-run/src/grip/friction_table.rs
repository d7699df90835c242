//! Published friction of unpaved surfaces, row by row.

use hardpan_model::{Source, SurfaceKind, SurfaceState, Tier};

/// A rolling coefficient and how far above it the take-off is to be safe.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct RollingRow {
    pub(crate) name: &'static str,
    pub(crate) value: f64,
    /// Added for the credited value. A printed spread of 0.02 on pavement
    /// suggests 0.01 on firm ground; 0.02 where the row does not say whether
    /// it is dry.
    pub(crate) scatter: f64,
    pub(crate) source: Source,
}

/// A braking coefficient, printed for aeroplanes or as a decelerometer reading.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum BrakingRow {
    Coefficient { name: &'static str, value: f64, source: Source },
    Readings { name: &'static str, surface: f64, asphalt_dry: f64, source: Source },
}

const fn raymer(locator: &'static str) -> Source {
    Source::new("RAYMER-2018", locator, Tier::Secondary)
}

/// Rolling coefficient of a surface; none is published for mud, frost and thaw.
pub(crate) fn rolling_row(kind: SurfaceKind, state: SurfaceState) -> Option<RollingRow> {
    let row = |name, value, scatter, source| Some(RollingRow { name, value, scatter, source });
    match (kind, state) {
        (SurfaceKind::Grass, SurfaceState::Dry) => {
            row("hard turf", 0.05, 0.01, raymer("table 17.1, hard turf, rolling"))
        }
        (SurfaceKind::Grass, SurfaceState::Wet) => {
            row("wet grass", 0.08, 0.01, raymer("table 17.1, wet grass, rolling"))
        }
        (SurfaceKind::Dirt, SurfaceState::Dry) => {
            row("firm dirt", 0.04, 0.01, raymer("table 17.1, firm dirt, rolling"))
        }
        (SurfaceKind::Gravel, SurfaceState::Dry) => row("gravel", 0.04, 0.01, GRAVEL_ROLLING),
        (SurfaceKind::Gravel, SurfaceState::Wet) => row("gravel", 0.04, 0.02, GRAVEL_ROLLING),
        _ => None,
    }
}

const GRAVEL_ROLLING: Source =
    Source::new("TORENBEEK-1982", "rolling friction, hard turf and gravel", Tier::Memory);

/// Braking coefficient of a surface; none is published for frost and thaw.
///
/// For gravel no aeroplane figure is published at all. The decelerometer
/// readings of crushed rock and of clay stand for gravel and for wet dirt.
pub(crate) fn braking_row(kind: SurfaceKind, state: SurfaceState) -> Option<BrakingRow> {
    let coefficient = |name, value, source| Some(BrakingRow::Coefficient { name, value, source });
    let readings = |name, surface, locator| {
        let source = Source::new("USAF-AFI-11-2-2012", locator, Tier::Published);
        Some(BrakingRow::Readings { name, surface, asphalt_dry: 23.0, source })
    };
    match (kind, state) {
        (SurfaceKind::Grass, SurfaceState::Dry) => {
            coefficient("hard turf", 0.40, raymer("table 17.1, hard turf, brakes on"))
        }
        (SurfaceKind::Grass, SurfaceState::Wet) => {
            coefficient("wet grass", 0.20, raymer("table 17.1, wet grass, brakes on"))
        }
        (SurfaceKind::Dirt, SurfaceState::Dry) => {
            coefficient("firm dirt", 0.30, raymer("table 17.1, firm dirt, brakes on"))
        }
        (SurfaceKind::Dirt, SurfaceState::Wet) => {
            readings("clay, wet", 5.0, "table 5.5, clay wet 5 and asphalt dry 23")
        }
        (SurfaceKind::Gravel, SurfaceState::Dry) => {
            readings("crushed rock, dry", 16.0, "table 5.5, crushed rock dry 16 and asphalt dry 23")
        }
        (SurfaceKind::Gravel, SurfaceState::Wet) => {
            readings("crushed rock, wet", 5.0, "table 5.5, crushed rock wet 5 and asphalt dry 23")
        }
        _ => None,
    }
}
