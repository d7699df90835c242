//! Pages besides the sheet.

pub(crate) mod aeroplane;
pub(crate) mod basis;
pub(crate) mod book;
pub(crate) mod bring;
pub(crate) mod certainty;
pub(crate) mod compare;
pub(crate) mod keep;
pub(crate) mod lesson;
pub(crate) mod mass_place;
pub(crate) mod masses;
pub(crate) mod plan;
pub(crate) mod start;
pub(crate) mod station;
pub(crate) mod strip;
pub(crate) mod year;
pub(crate) mod year_hour;
