//! How much a card shows: each level shows less than the one before, until the
//! page holds it.

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
    /// Lines of one phase.
    pub(super) phase_lines: usize,
    /// Rows of air and wind.
    pub(super) day: usize,
    /// Rows of distances.
    pub(super) distances: usize,
    /// Speeds.
    pub(super) speeds: usize,
    /// Limits on mass named beside the one that sets it.
    pub(super) next_limits: usize,
    /// Whether lines of handling name their source.
    pub(super) sources: bool,
}

const FULL: Density = Density {
    points: 9.2,
    characters: 240,
    answer: 240,
    name: 72,
    conditions: 14,
    missing: 10,
    phase_lines: 14,
    day: 8,
    distances: 6,
    speeds: 7,
    next_limits: 2,
    sources: true,
};

const TIGHT: Density =
    Density { points: 7.6, characters: 170, missing: 7, phase_lines: 7, conditions: 10, ..FULL };

const SHORT: Density = Density {
    points: 7.2,
    characters: 110,
    name: 56,
    conditions: 7,
    missing: 5,
    phase_lines: 5,
    day: 6,
    distances: 5,
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
    phase_lines: 2,
    day: 4,
    distances: 4,
    speeds: 6,
    next_limits: 0,
    sources: false,
};

/// All levels, the most generous first.
pub(super) const LEVELS: [Density; 15] = [
    FULL,
    Density { points: 8.9, ..FULL },
    Density { points: 8.6, ..FULL },
    Density { points: 8.3, ..FULL },
    Density { points: 8.0, ..FULL },
    Density { points: 7.7, ..FULL },
    Density { points: 7.4, ..FULL },
    TIGHT,
    Density { points: 7.2, ..TIGHT },
    Density { points: 7.4, ..SHORT },
    SHORT,
    Density { characters: 84, conditions: 6, phase_lines: 3, sources: false, ..SHORT },
    LEAST,
    Density { points: 6.5, characters: 48, conditions: 3, phase_lines: 1, ..LEAST },
    Density {
        points: 6.2,
        characters: 40,
        answer: 120,
        name: 20,
        phase_lines: 1,
        conditions: 2,
        missing: 2,
        day: 3,
        distances: 3,
        ..LEAST
    },
];
