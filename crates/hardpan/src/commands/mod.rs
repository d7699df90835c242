//! The commands, one a file.

pub(crate) mod account;
pub(crate) mod assess;
pub(crate) mod bearing;
pub(crate) mod book;
pub(crate) mod check;
pub(crate) mod compare;
pub(crate) mod completions;
pub(crate) mod confidence;
pub(crate) mod demo;
pub(crate) mod explain;
pub(crate) mod fit;
pub(crate) mod formula;
pub(crate) mod lesson;
pub(crate) mod manual;
pub(crate) mod masses;
pub(crate) mod new;
pub(crate) mod reading;
pub(crate) mod remedies;
pub(crate) mod serve;
pub(crate) mod station;
pub(crate) mod strip;
pub(crate) mod weeks;
pub(crate) mod year;
