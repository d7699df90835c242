//! WRITE: the page. A local server with everything inside it: the flights,
//! strips and aeroplanes of a folder, the sheet of a flight on its station axis,
//! the card, and the same as JSON.
//!
//! Files and the clock are handed in through [`Shelf`], so that this crate
//! reaches the network and nothing else, and so that WRITE never imports READ.
//! Nothing is computed here beyond units, rounding and places on the screen.

mod account;
mod api;
mod by_the_book;
mod desk;
mod error;
mod guard;
mod page;
mod pages;
mod parts;
mod query;
mod routes;
mod section;
mod serve;
mod sheet;
mod shelf;
mod tls;
mod trouble;

pub use account::{Account, PasswordError, Role, hash_password};
pub use api::openapi;
pub use error::ServeError;
pub use serve::{Bound, Protection};
pub use shelf::{
    Bringing, Brought, Entry, EntryKind, Keeping, Kept, OffStrip, Opened, Plan, Receiver, Recorded,
    Refusal, RefusedPlace, RutsOfBook, Shelf, StripCheck,
};
