//! The record of a strip: what moved on it, what was seen, broken and mended,
//! and what was assessed, in one file that only grows.
//!
//! Nothing is deleted or overwritten. A correction is a new entry that
//! supersedes the old one and says who, when and why; the old one stays. Each
//! entry carries a digest of itself and of the one before, so that a change
//! from outside is noticed. Time is given by the caller.

mod against;
mod backup;
mod book;
mod bounds;
mod cell;
mod chain;
mod closures;
mod conflict;
mod counts;
mod damage_places;
mod due;
mod entry;
mod error;
mod export;
mod geojson;
mod grading;
mod holdings;
mod import;
mod import_book;
mod import_check;
mod import_csv;
mod import_known;
mod import_map;
mod json_place;
mod left_over;
mod line;
mod mistake;
mod names;
mod opened;
mod picture;
mod pictures;
mod private;
mod rate;
mod record;
mod ruts;
mod schema;
mod status;
mod store;
mod stretch;
mod strip_state;
mod told;
mod version;

pub use cell::{ClosureAction, DamagePhase, EquipmentState, MovementKind, SurveyedThing};
pub use entry::{Audit, Entry, First, current};
pub use export::{csv_text, json_text, json_value};
pub use import::{Taken, history_of_json, records_of_csv, records_of_geojson, taken_of, text_of};
pub use {backup::parts_of, book::Book, left_over::left_over, store::Once};
pub use {closures::*, conflict::*, due::*, names::*, rate::*, status::*, strip_state::*};
pub use {counts::*, damage_places::*, geojson::*, grading::*, holdings::*, line::*, mistake::*};
pub use {error::BookError, import_check::fit_to_take_over, import_known::TakenOver};
pub use {opened::*, picture::*, pictures::*, record::*, ruts::*, stretch::*, told::*, version::*};
