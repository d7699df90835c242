//! The tables, by migration. A migration that was released never changes.

use rusqlite_migration::{M, Migrations};

/// Marks the file as ours: the letters `HPBK`.
pub(crate) const APPLICATION_ID: i64 = 0x4850_424B;

/// Newest layout that this program knows.
pub(crate) const LAYOUT: i64 = STEPS.len() as i64;

const STEPS: &[M<'static>] =
    &[M::up(FIRST), M::up(SECOND), M::up(THIRD), M::up(FOURTH), M::up(FIFTH), M::up(SIXTH)];

/// All steps from an empty file on.
pub(crate) const MIGRATIONS: Migrations<'static> = Migrations::from_slice(STEPS);

const FIRST: &str = include_str!("schema_1.sql");
const SECOND: &str = include_str!("schema_2.sql");
const THIRD: &str = include_str!("schema_3.sql");
const FOURTH: &str = include_str!("schema_4.sql");
const FIFTH: &str = include_str!("schema_5.sql");
const SIXTH: &str = include_str!("schema_6.sql");
