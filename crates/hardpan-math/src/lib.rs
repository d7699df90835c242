//! A thin layer over general libraries: bracketed roots, tables with stated
//! ranges, quadrature and sample statistics. It knows no strips, and its
//! numbers are plain because it serves every quantity alike.

mod binomial;
mod even_points;
mod grid;
mod left_out;
mod normal;
mod poisson;
mod quadrature;
mod root;
mod sample;
mod smooth_fit;
mod student;
mod table;
mod variance_share;

pub use binomial::binomial_limits;
pub use even_points::{EvenPoints, MOST_DIMENSIONS, MOST_POINTS};
pub use grid::{Grid, GridError};
pub use left_out::error_by_parts;
pub use normal::{normal_probability, normal_quantile};
pub use poisson::poisson_limits;
pub use quadrature::{Quadrature, error_function};
pub use root::{RootError, bracketed_root, largest_holding, root_between};
pub use sample::{Sample, SampleError};
pub use smooth_fit::{Design, SmoothFit};
pub use student::student_quantile;
pub use table::{Table, TableError};
pub use variance_share::variance_share;
