//! How much the front of a card shows: each level shows less than the one
//! before, until the page holds it. What a level cuts of what the crew must do
//! stands overleaf in full.

/// What one level of the card shows at most.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Density {
    /// Size of plain type, points.
    pub(super) points: f64,
    /// Characters of one line of text.
    pub(super) characters: usize,
    /// Characters of the answer and of what governs it.
    pub(super) answer: usize,
    /// Characters of one name in the head; the title and the validity take
    /// twice as many.
    pub(super) name: usize,
    /// Conditions and cautions.
    pub(super) conditions: usize,
    /// Missing things.
    pub(super) missing: usize,
    /// Rows of air and wind.
    pub(super) day: usize,
    /// Rows of distances.
    pub(super) distances: usize,
    /// Speeds.
    pub(super) speeds: usize,
    /// Limits on mass named beside the one that sets it.
    pub(super) next_limits: usize,
}

const FULL: Density = Density {
    points: 9.2,
    characters: 240,
    answer: 300,
    name: 72,
    conditions: 24,
    missing: 16,
    day: 12,
    distances: 9,
    speeds: 8,
    next_limits: 2,
};

const SHORT: Density = Density {
    points: 8.0,
    characters: 160,
    answer: 240,
    name: 56,
    conditions: 12,
    missing: 8,
    day: 8,
    distances: 7,
    next_limits: 1,
    ..FULL
};

const LEAST: Density = Density {
    points: 6.8,
    characters: 56,
    answer: 150,
    name: 24,
    conditions: 4,
    missing: 3,
    day: 4,
    distances: 4,
    speeds: 6,
    next_limits: 0,
};

/// All levels, the most generous first.
pub(super) const LEVELS: [Density; 11] = [
    FULL,
    Density { points: 8.8, ..FULL },
    Density { points: 8.4, ..FULL },
    Density { points: 8.0, ..FULL },
    Density { points: 7.6, ..FULL },
    SHORT,
    Density { points: 7.6, conditions: 10, ..SHORT },
    Density { points: 7.4, conditions: 7, missing: 6, ..SHORT },
    Density { points: 7.2, characters: 110, conditions: 5, missing: 4, ..SHORT },
    LEAST,
    Density {
        points: 6.2,
        characters: 40,
        answer: 120,
        name: 20,
        conditions: 2,
        missing: 2,
        day: 3,
        distances: 3,
        ..LEAST
    },
];

/// Sizes of plain type overleaf, points: the next smaller one is taken when it
/// saves a page.
pub(super) const OVERLEAF: [f64; 4] = [9.2, 8.6, 8.0, 7.4];
