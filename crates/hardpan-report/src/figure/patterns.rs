//! Hatches for classes of a value: closer lines for more, another direction
//! for the other sign; a tint repeats it.

use super::palette::{INK, PAPER};

/// How the lines of a hatch run.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Run {
    /// Upright lines: ground above.
    Upright,
    /// Level lines: ground below.
    Level,
    /// Waves: water.
    Waves,
    /// Slanting lines: weak ground.
    Slanting,
}

/// A hatch: name, direction, distance between lines, width of a line, tint.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Hatch {
    pub(super) name: &'static str,
    pub(super) run: Run,
    pub(super) pitch: f64,
    pub(super) pen: f64,
    pub(super) tint: &'static str,
}

const fn hatch(name: &'static str, run: Run, pitch: f64, pen: f64, tint: &'static str) -> Hatch {
    Hatch { name, run, pitch, pen, tint }
}

/// Above the chord by share of the limit: a quarter, a half, all of it.
pub(super) const ABOVE: [Hatch; 3] = [
    hatch("above-quarter", Run::Upright, 1.1, 0.12, "#fdf5ee"),
    hatch("above-half", Run::Upright, 0.8, 0.2, "#fbe6d4"),
    hatch("above-limit", Run::Upright, 0.55, 0.32, "#f0a875"),
];

/// Below the chord likewise.
pub(super) const BELOW: [Hatch; 3] = [
    hatch("below-quarter", Run::Level, 1.1, 0.12, "#f0f5fb"),
    hatch("below-half", Run::Level, 0.8, 0.2, "#dfeaf6"),
    hatch("below-limit", Run::Level, 0.55, 0.32, "#86b3dd"),
];

/// Depth of water: from 10 mm, 25 mm, 50 mm, 100 mm.
pub(super) const WATER: [Hatch; 4] = [
    hatch("water-10", Run::Waves, 1.3, 0.14, "#dcebf7"),
    hatch("water-25", Run::Waves, 1.0, 0.18, "#c3dcef"),
    hatch("water-50", Run::Waves, 0.8, 0.22, "#a3c9e6"),
    hatch("water-100", Run::Waves, 0.6, 0.28, "#78afd8"),
];

/// Credited bearing ratio: under 5, 10, 20, 40 %; stronger ground is plain.
pub(super) const WEAK: [Hatch; 4] = [
    hatch("weak-5", Run::Slanting, 0.75, 0.28, "#e9b8a4"),
    hatch("weak-10", Run::Slanting, 1.0, 0.28, "#f3d9c8"),
    hatch("weak-20", Run::Slanting, 1.5, 0.2, "#f8ece4"),
    hatch("weak-40", Run::Slanting, 2.4, 0.14, PAPER),
];

/// What limits a mass, in the order of the codes of a sheet.
pub(super) const LIMITS: [Hatch; 10] = [
    hatch("slanting", Run::Slanting, 1.6, 0.2, "#fbf3ec"),
    hatch("level", Run::Level, 1.2, 0.2, "#edf3fa"),
    hatch("upright", Run::Upright, 1.2, 0.2, "#eef5ee"),
    hatch("waves", Run::Waves, 1.3, 0.18, "#e4eff8"),
    hatch("slanting-close", Run::Slanting, 0.9, 0.28, "#f3d9c8"),
    hatch("level-close", Run::Level, 0.7, 0.26, "#cfdff0"),
    hatch("upright-close", Run::Upright, 0.7, 0.26, "#d5e6d5"),
    hatch("waves-close", Run::Waves, 0.8, 0.24, "#b9d6ec"),
    hatch("slanting-wide", Run::Slanting, 2.8, 0.14, PAPER),
    hatch("level-wide", Run::Level, 2.2, 0.14, PAPER),
];

impl Hatch {
    /// The fill that draws it.
    pub(super) fn fill(&self, prefix: &str) -> String {
        format!("url(#{prefix}-{})", self.name)
    }

    fn definition(&self, prefix: &str) -> String {
        let (p, half) = (self.pitch, self.pitch / 2.0);
        let (width, height, shape) = match self.run {
            Run::Upright => (p, p, format!("M{half} 0V{p}")),
            Run::Level => (p, p, format!("M0 {half}H{p}")),
            Run::Waves => {
                let (q, w) = (p / 4.0, p * 1.6);
                let (a, b) = (w / 4.0, w / 2.0);
                (w, p, format!("M0 {half}Q{a} {} {b} {half}T{w} {half}", half - q * 1.6))
            }
            Run::Slanting => {
                let over = p * 0.3;
                let shape = format!(
                    "M{} {}L{} {}M0 {p}L{p} 0M{} {}L{} {}",
                    -over,
                    over,
                    over,
                    -over,
                    p - over,
                    p + over,
                    p + over,
                    p - over
                );
                (p, p, shape)
            }
        };
        format!(
            "<pattern id=\"{prefix}-{}\" width=\"{width}\" height=\"{height}\" \
             patternUnits=\"userSpaceOnUse\"><rect width=\"{width}\" height=\"{height}\" \
             fill=\"{}\"/><path d=\"{shape}\" fill=\"none\" stroke=\"{INK}\" \
             stroke-width=\"{}\"/></pattern>\n",
            self.name, self.tint, self.pen
        )
    }
}

/// The definitions of some hatches.
pub(super) fn definitions(prefix: &str, hatches: &[Hatch]) -> String {
    let patterns: String = hatches.iter().map(|hatch| hatch.definition(prefix)).collect();
    format!("<defs>\n{patterns}</defs>")
}
