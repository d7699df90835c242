//! Published methods beside the product's own, on its kernels where they share one.

pub(crate) mod constant_field;
pub(crate) mod constant_roll;
pub(crate) mod one_line;
pub(crate) mod textbook;
