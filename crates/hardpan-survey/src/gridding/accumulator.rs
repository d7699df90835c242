//! Points in, cells out.

use super::cell::Cell;
use super::gridded::Gridded;
use super::pilots::Pilots;
use super::settings::{GridSettings, GroundUse, Layout};
use crate::{Error, StationAxis};
use hardpan_model::GroundFrom;
use hardpan_quantity::Length;

/// Classes of the LAS specification: ground, and the two kinds of noise.
/// Source: [LAS-14-R15] table 17.
const GROUND: u8 = 2;
const LOW_NOISE: u8 = 7;
const HIGH_NOISE: u8 = 18;

/// Whether a class is that of noise.
pub(crate) fn is_noise(class: Option<u8>) -> bool {
    matches!(class, Some(LOW_NOISE | HIGH_NOISE))
}

/// One point in metres of a plane frame; the class where the file has one.
#[derive(Debug, Clone, Copy)]
pub(crate) struct PointMetres {
    pub(crate) easting: f64,
    pub(crate) northing: f64,
    pub(crate) height: f64,
    pub(crate) class: Option<u8>,
}

/// Where the points lie, for the message when none lies on the strip.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Reach {
    pub(crate) station: (f64, f64),
    pub(crate) offset: (f64, f64),
}

impl Default for Reach {
    fn default() -> Self {
        let nothing = (f64::INFINITY, f64::NEG_INFINITY);
        Self { station: nothing, offset: nothing }
    }
}

#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct Counts {
    pub(crate) points: u64,
    pub(crate) off_strip: u64,
    pub(crate) excluded: u64,
    pub(crate) not_finite: u64,
}

/// Takes points batch by batch; the same points in the same order give the
/// same bits, however they are divided into batches.
#[derive(Debug, Clone)]
pub struct Accumulator {
    axis: StationAxis,
    settings: GridSettings,
    layout: Layout,
    cells: Vec<Cell>,
    pilots: Pilots,
    ground: GroundFrom,
    counts: Counts,
    reach: Reach,
}

impl Accumulator {
    /// An empty grid over a strip.
    ///
    /// # Errors
    /// [`Error`] for a cell outside 50 mm to 20 m, a strip outside 1 m to
    /// 100 km, or more than two million cells.
    pub fn new(
        axis: StationAxis,
        settings: GridSettings,
        strip_length: Length,
        strip_width: Length,
    ) -> Result<Self, Error> {
        let layout = Layout::new(&settings, strip_length, strip_width)?;
        let ground = match settings.ground {
            GroundUse::Marked => GroundFrom::Classes,
            GroundUse::AsMarked | GroundUse::Filtered => GroundFrom::Filter,
        };
        let cells = vec![Cell::default(); layout.cells()];
        let pilots = layout.pilots();
        let (counts, reach) = (Counts::default(), Reach::default());
        Ok(Self { axis, settings, layout, cells, pilots, ground, counts, reach })
    }

    /// Takes one point that the file withholds: it is counted and left out.
    pub(crate) fn withheld(&mut self) {
        self.counts.points += 1;
        self.counts.excluded += 1;
    }

    #[inline]
    pub(crate) fn add(&mut self, point: PointMetres) {
        self.counts.points += 1;
        if point.class == Some(GROUND) {
            self.ground_is_marked();
        }
        let wanted = match self.ground {
            GroundFrom::Classes => point.class == Some(GROUND),
            GroundFrom::Filter => !is_noise(point.class),
        };
        if !wanted {
            self.counts.excluded += 1;
            return;
        }
        let (station, offset) = self.axis.place_m(point.easting, point.northing);
        if !(station.is_finite() && offset.is_finite() && point.height.is_finite()) {
            self.counts.not_finite += 1;
            return;
        }
        self.reach.take(station, offset);
        let along = (station / self.layout.length_m).round();
        let across = ((offset - self.layout.left_m) / self.layout.width_m).round();
        let inside = (0.0..self.layout.stations as f64).contains(&along)
            && (0.0..self.layout.offsets as f64).contains(&across);
        if !inside {
            self.counts.off_strip += 1;
            return;
        }
        let index = along as usize * self.layout.offsets + across as usize;
        let s = station - along * self.layout.length_m;
        let o = offset - (self.layout.left_m + across * self.layout.width_m);
        if let Some(cell) = self.cells.get_mut(index) {
            cell.add((s, o), point.height, &mut self.pilots);
        }
    }

    /// The first point marked as ground shows that the file marks ground: what
    /// was taken before it was not ground.
    #[inline]
    fn ground_is_marked(&mut self) {
        if self.ground == GroundFrom::Classes || self.settings.ground == GroundUse::Filtered {
            return;
        }
        self.ground = GroundFrom::Classes;
        self.cells.fill(Cell::default());
        self.pilots = self.layout.pilots();
        self.counts.excluded = self.counts.points - 1;
        self.counts.off_strip = 0;
        self.counts.not_finite = 0;
        self.reach = Reach::default();
    }

    /// Levels of all cells, holes filled or left, and what was counted.
    ///
    /// # Errors
    /// [`Error`] when no point is left on the strip, or fewer than one cell in
    /// ten has a level.
    pub fn finish(mut self) -> Result<Gridded, Error> {
        for cell in &mut self.cells {
            cell.settle(&mut self.pilots);
        }
        drop(self.pilots);
        Gridded::new(&self.settings, self.layout, self.cells, self.ground, self.counts, self.reach)
    }
}

impl Reach {
    #[inline]
    fn take(&mut self, station: f64, offset: f64) {
        self.station = (self.station.0.min(station), self.station.1.max(station));
        self.offset = (self.offset.0.min(offset), self.offset.1.max(offset));
    }
}
