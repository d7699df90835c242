//! What the strip is made of and what state it is in.

/// Material of the running surface.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum SurfaceKind {
    /// Compacted gravel or crushed rock.
    Gravel,
    /// Natural or graded soil.
    Dirt,
    /// Turf.
    Grass,
}

impl SurfaceKind {
    /// All, in the order shown to people.
    pub const ALL: [Self; 3] = [Self::Gravel, Self::Dirt, Self::Grass];

    /// The word written in files.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Gravel => "gravel",
            Self::Dirt => "dirt",
            Self::Grass => "grass",
        }
    }
}

/// State of the running surface on the day.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum SurfaceState {
    /// Dry, or damp without a change of colour.
    Dry,
    /// Wet through or shining, without standing water.
    Wet,
    /// Frozen hard throughout the depth that carries load.
    Frozen,
    /// Thawing: soft over frozen ground.
    Thawing,
}

impl SurfaceState {
    /// All, in the order shown to people.
    pub const ALL: [Self; 4] = [Self::Dry, Self::Wet, Self::Frozen, Self::Thawing];

    /// The word written in files.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Dry => "dry",
            Self::Wet => "wet",
            Self::Frozen => "frozen",
            Self::Thawing => "thawing",
        }
    }
}
