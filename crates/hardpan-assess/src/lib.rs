//! JUDGE: run the measures in order, compare with limits, say what holds,
//! what governs, how heavy, at which tyre pressure, and what would help.

mod answer;
mod asked;
mod assess;
mod assessment;
mod by_formula;
mod card_lines;
mod catalogue;
mod context;
mod dossier;
mod draft;
mod figures;
mod ground;
mod jet;
mod masses;
mod measure;
mod measured;
mod mend;
mod movements;
mod on_strip;
mod phrase;
mod propeller_vortex;
mod ranking;
mod readings;
mod remedies;
mod repairs;
mod reported_area;
mod rides;
mod rule;
mod rules;
mod run_basis;
mod runs;
mod shape;
mod sketch;
mod stones;
mod turning;
mod tyres;
mod vortex;
mod wheels_down;

pub use assess::{answer_alone, answered::*, assess, confidence::*, opening::*, year::*};
pub use assessment::{
    AccountLine, Answer, Assessment, CAUTION, CardLine, CardLineKind, DayFigures, DistanceRow,
    FigureBasis, HandlingRow, HandlingTable, Identity, Largest, MassAnswer, MassLimit, Phrase,
    PressureRow, Remedy, Sketch, SketchMark, SketchMarkKind, SpeedRow, StrengthSample, TyreAnswer,
};
pub use catalogue::{Calibration, ChartResiduals, Rule, calibrate, formulas, rules};
pub use dossier::{
    ColumnStrata, CrossfallAt, DeviationMap, IndexSegment, LineShape, LineSpectrum, MapRow,
    PlaceKind, SectionShape, Shown, SoundingColumn, StripDossier, StripFact, StripPlace,
    StripRepair, WaterMap, class_bounds, dossier, dossier_of_flight, evenness_shape, ride_sheet,
};
pub use ground::{bearing_curves::*, lane_coverages::*};
pub use movements::{ClimbObstacle, ClimbPicture, DecisionPicture};
pub use stones::stone_picture::{PathEnd, PictureZone, StonePath, StonePicture, ZoneUse};
pub use turning::{StateChange, Turn, Turning, TurningPoint};
pub use {asked::*, masses::*, measured::*, on_strip::*};
pub use {ranking::*, readings::*, remedies::*, shape::*};
