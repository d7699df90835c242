//! JUDGE: run the measures in order, compare with limits, say what holds,
//! what governs, how heavy, at which tyre pressure, and what would help.

mod assessment;

pub use assessment::{
    Answer, Assessment, CAUTION, CardLine, CardLineKind, DayFigures, DistanceRow, Identity,
    MassAnswer, MassLimit, PressureRow, Remedy, Sketch, SketchMark, SketchMarkKind, SpeedRow,
    StrengthSample, TyreAnswer,
};
