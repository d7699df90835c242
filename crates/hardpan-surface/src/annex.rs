//! Slope limits of [ICAO-ANNEX-14] by code number and letter, read as quoted by
//! secondary documents.

use hardpan_model::{Source, Tier};
use hardpan_quantity::{Length, Quantity, Ratio, metres, percent};

/// Code number of an aerodrome, from the reference field length.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum CodeNumber {
    /// Below 800 m.
    One,
    /// 800 m up to 1 200 m.
    Two,
    /// 1 200 m up to 1 800 m.
    Three,
    /// 1 800 m and over.
    Four,
}

/// Code letter of an aerodrome, from the wing span.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum CodeLetter {
    /// Below 15 m.
    A,
    /// 15 m up to 24 m.
    B,
    /// 24 m up to 36 m.
    C,
    /// 36 m up to 52 m.
    D,
    /// 52 m up to 65 m.
    E,
    /// 65 m up to 80 m.
    F,
}

/// One limit with its paragraph.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cited<T> {
    /// The limit.
    pub value: T,
    /// Its paragraph and how it was read.
    pub source: Source,
}

const fn paragraph(locator: &'static str) -> Source {
    Source::new("ICAO-ANNEX-14", locator, Tier::Secondary)
}

impl CodeNumber {
    /// The code number by the length of a strip, in place of the reference
    /// field length of the aeroplane.
    #[must_use]
    pub fn of_length(length: Length) -> Self {
        match length.si() {
            metres if metres < 800.0 => Self::One,
            metres if metres < 1200.0 => Self::Two,
            metres if metres < 1800.0 => Self::Three,
            _ => Self::Four,
        }
    }

    /// The code number of a digit, 1 to 4.
    #[must_use]
    pub const fn of_digit(digit: u8) -> Option<Self> {
        match digit {
            1 => Some(Self::One),
            2 => Some(Self::Two),
            3 => Some(Self::Three),
            4 => Some(Self::Four),
            _ => None,
        }
    }

    fn of<T>(self, values: [T; 4]) -> T {
        let [one, two, three, four] = values;
        match self {
            Self::One => one,
            Self::Two => two,
            Self::Three => three,
            Self::Four => four,
        }
    }

    fn cited(self, values: [f64; 4], locator: &'static str) -> Cited<Ratio> {
        Cited { value: percent(self.of(values)), source: paragraph(locator) }
    }

    /// Greatest effective gradient: highest less lowest point of the centre line over its length.
    #[must_use]
    pub fn effective_gradient(self) -> Cited<Ratio> {
        self.cited([2.0, 2.0, 1.0, 1.0], "3.1.13")
    }

    /// Greatest slope of any portion.
    #[must_use]
    pub fn any_slope(self) -> Cited<Ratio> {
        self.cited([2.0, 2.0, 1.5, 1.25], "3.1.14")
    }

    /// Greatest slope of the first and last quarter; none beyond
    /// [`Self::any_slope`] for codes 1 and 2. For code 3 it holds only for
    /// precision approach category II or III.
    #[must_use]
    pub fn end_quarter_slope(self) -> Option<Cited<Ratio>> {
        match self {
            Self::One | Self::Two => None,
            Self::Three | Self::Four => {
                Some(Cited { value: percent(0.8), source: paragraph("3.1.14") })
            }
        }
    }

    /// Greatest change between two consecutive slopes.
    #[must_use]
    pub fn slope_change(self) -> Cited<Ratio> {
        self.cited([2.0, 2.0, 1.5, 1.5], "3.1.15")
    }

    /// Greatest rate of change of slope, per 30 m.
    #[must_use]
    pub fn slope_change_per_30_m(self) -> Cited<Ratio> {
        self.cited([0.4, 0.4, 0.2, 0.1], "3.1.16")
    }

    /// Least radius of a vertical curve.
    #[must_use]
    pub fn vertical_radius(self) -> Cited<Length> {
        let radius = self.of([7_500.0, 7_500.0, 15_000.0, 30_000.0]);
        Cited { value: metres(radius), source: paragraph("3.1.16") }
    }

    /// Distance between slope changes for each unit of slope change summed over
    /// the two curves; never less than 45 m in all.
    #[must_use]
    pub fn distance_per_change(self) -> Cited<Length> {
        let source = Source::new("ICAO-ANNEX-14", "3.1.18", Tier::Memory);
        Cited { value: metres(self.of([5_000.0, 5_000.0, 15_000.0, 30_000.0])), source }
    }

    /// Distance from the centre line out to which the ground beside a
    /// non-instrument runway is graded.
    #[must_use]
    pub fn graded_half_width(self) -> Cited<Length> {
        let width = self.of([30.0, 40.0, 75.0, 75.0]);
        Cited { value: metres(width), source: paragraph("3.4.9") }
    }

    /// Greatest slope along the graded ground beside the runway.
    #[must_use]
    pub fn graded_slope_along(self) -> Cited<Ratio> {
        self.cited([2.0, 2.0, 1.75, 1.5], "3.4.13")
    }

    /// Greatest slope across the graded ground, beyond its first 3 m.
    #[must_use]
    pub fn graded_slope_across(self) -> Cited<Ratio> {
        self.cited([3.0, 3.0, 2.5, 2.5], "3.4.15")
    }

    /// Greatest fall of the first 3 m beyond the edge of the runway, which must
    /// not rise.
    #[must_use]
    pub fn graded_fall_at_edge(self) -> Cited<Ratio> {
        self.cited([5.0; 4], "3.4.15")
    }
}

impl CodeLetter {
    /// The code letter by wing span; none from 80 m on.
    #[must_use]
    pub fn of_span(span: Length) -> Option<Self> {
        let bounds = [
            (15.0, Self::A),
            (24.0, Self::B),
            (36.0, Self::C),
            (52.0, Self::D),
            (65.0, Self::E),
            (80.0, Self::F),
        ];
        bounds.into_iter().find(|(most, _)| span.si() < *most).map(|(_, letter)| letter)
    }

    /// The code letter of a character, `A` to `F`.
    #[must_use]
    pub const fn of_char(letter: char) -> Option<Self> {
        match letter {
            'A' => Some(Self::A),
            'B' => Some(Self::B),
            'C' => Some(Self::C),
            'D' => Some(Self::D),
            'E' => Some(Self::E),
            'F' => Some(Self::F),
            _ => None,
        }
    }

    /// Least and greatest crossfall of the running surface.
    #[must_use]
    pub fn crossfall(self) -> Cited<(Ratio, Ratio)> {
        let greatest = match self {
            Self::A | Self::B => 2.0,
            Self::C | Self::D | Self::E | Self::F => 1.5,
        };
        Cited { value: (percent(1.0), percent(greatest)), source: paragraph("3.1.19") }
    }

    /// Height over the surface from which points half a runway apart must see
    /// each other.
    #[must_use]
    pub fn sight_height(self) -> Cited<Length> {
        let height = match self {
            Self::A => 1.5,
            Self::B => 2.0,
            Self::C | Self::D | Self::E | Self::F => 3.0,
        };
        Cited { value: metres(height), source: paragraph("3.1.17") }
    }
}
