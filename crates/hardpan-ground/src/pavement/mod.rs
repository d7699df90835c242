//! Flexible pavements: the design equation and classification numbers.

pub(crate) mod classification_number;
pub(crate) mod flexible;

pub use classification_number::{
    FLEXIBLE_ACN_1983, FLEXIBLE_ACN_2007, FlexibleAcn, RepetitionFactors, flexible_acn,
};
pub use flexible::{FLEXIBLE_COVER_CUBIC, FLEXIBLE_COVER_ROOT, SINGLE_WHEEL_FACTOR};
