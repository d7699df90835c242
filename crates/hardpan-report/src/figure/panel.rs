//! A small picture with axes of its own, for what does not run along the strip.

use super::canvas::{Anchor, Canvas, Pen, Type, number};
use super::palette::{GREY, INK, PALE};
use super::scale::Scale;
use crate::measure::{minus, whole};

/// A rectangle with its two scales.
pub(super) struct Panel {
    pub(super) across: Scale,
    pub(super) up: Scale,
}

impl Panel {
    /// A panel with its upper left corner at `corner`.
    pub(super) fn new(
        corner: (f64, f64),
        size: (f64, f64),
        across: (f64, f64),
        up: (f64, f64),
    ) -> Self {
        Self {
            across: Scale::new(across, (corner.0, corner.0 + size.0)),
            up: Scale::new(up, (corner.1 + size.1, corner.1)),
        }
    }

    pub(super) fn at(&self, x: f64, y: f64) -> (f64, f64) {
        (self.across.at(x), self.up.at(y))
    }

    /// The same, held within the panel.
    pub(super) fn within(&self, x: f64, y: f64) -> (f64, f64) {
        (self.across.within(x), self.up.within(y))
    }

    fn left(&self) -> f64 {
        self.across.places().0
    }

    fn right(&self) -> f64 {
        self.across.places().1
    }

    /// Frame and title.
    pub(super) fn frame(&self, canvas: &mut Canvas, title: &str) {
        let (bottom, top) = self.up.places();
        let size = (self.right() - self.left(), bottom - top);
        canvas.rectangle((self.left(), top), size, "none", Some(Pen::new(GREY, 0.2)));
        canvas.text((self.left(), top - 1.2), title, Type::new(2.6, Anchor::Start).strong());
    }

    /// Ticks under the panel in a unit of the given size.
    pub(super) fn ticks_across(&self, canvas: &mut Canvas, unit: f64, wanted: usize) {
        let bottom = self.up.places().0;
        for (shown, value) in self.across.ticks(unit, wanted) {
            let x = self.across.at(value);
            canvas.line((x, bottom), (x, bottom + 0.8), Pen::new(GREY, 0.2));
            let how = Type::new(2.3, Anchor::Middle).coloured(GREY);
            canvas.text((x, bottom + 3.2), &tick(shown), how);
        }
    }

    /// Ticks at the left with faint lines across.
    pub(super) fn ticks_up(&self, canvas: &mut Canvas, unit: f64, wanted: usize) {
        for (shown, value) in self.up.ticks(unit, wanted) {
            let y = self.up.at(value);
            canvas.line((self.left(), y), (self.right(), y), Pen::new(PALE, 0.12));
            let how = Type::new(2.3, Anchor::End).coloured(GREY);
            canvas.text((self.left() - 1.0, y + 0.8), &tick(shown), how);
        }
    }

    /// A level line at a value.
    pub(super) fn level(&self, canvas: &mut Canvas, value: f64, pen: Pen) {
        let (low, high) = self.up.values();
        if (low..=high).contains(&value) {
            let y = self.up.at(value);
            canvas.line((self.left(), y), (self.right(), y), pen);
        }
    }

    /// A line through values, held within the panel.
    pub(super) fn path(&self, canvas: &mut Canvas, points: &[(f64, f64)], pen: Pen) {
        let points: Vec<(f64, f64)> = points.iter().map(|(x, y)| self.within(*x, *y)).collect();
        canvas.path(&points, pen, "");
    }
}

/// A number on an axis.
pub(super) fn tick(shown: f64) -> String {
    if (shown - shown.round()).abs() < 1e-6 { whole(shown) } else { minus(&number(shown)) }
}

/// The pen of the nth of several lines: dashes tell them apart.
pub(super) fn nth_pen(index: usize) -> Pen {
    const DASHES: [&str; 6] = ["", "2.6 0.9", "0.7 0.7", "3 0.7 0.7 0.7", "1.5 0.6", "4 1.4"];
    Pen::new(INK, if index == 0 { 0.5 } else { 0.35 })
        .dashed(DASHES.get(index % DASHES.len()).copied().unwrap_or_default())
}
