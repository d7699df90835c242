//! JUDGE: run the measures in order, compare with limits, say what holds,
//! what governs, how heavy, at which tyre pressure, and what would help.

mod answer;
mod assess;
mod assessment;
mod card_lines;
mod catalogue;
mod context;
mod dossier;
mod draft;
mod figures;
mod ground;
mod loads;
mod mass_search;
mod masses;
mod measure;
mod measured;
mod mend;
mod movements;
mod nothing_planned;
mod passes_left;
mod phrase;
mod pressure_table;
mod remedies;
mod repairs;
mod reported_area;
mod rule;
mod rules;
mod run_basis;
mod runs;
mod shape;
mod sketch;
mod strength_finding;
mod strength_number;
mod surfacing;
mod throws;
mod turning;
mod two_layers;
mod tyres;
mod vortex;

pub use assess::assess;
pub use assessment::{
    Answer, Assessment, CAUTION, CardLine, CardLineKind, DayFigures, DistanceRow, Identity,
    MassAnswer, MassLimit, PressureRow, Remedy, Sketch, SketchMark, SketchMarkKind, SpeedRow,
    StrengthSample, TyreAnswer,
};
pub use catalogue::{formulas, rules};
pub use dossier::{
    ColumnStrata, CrossfallAt, DeviationMap, IndexSegment, LineShape, LineSpectrum, MapRow,
    PlaceKind, SectionShape, Shown, SoundingColumn, StripDossier, StripFact, StripPlace, WaterMap,
    class_bounds, dossier,
};
pub use measured::{Known, Unavailable};
pub use phrase::Phrase;
pub use rule::Rule;
pub use shape::{ShapeRules, StripShape, shape};
pub use turning::{StateChange, Turn, Turning, TurningPoint};
