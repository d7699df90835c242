//! The reference quarter car of the roughness index, and its exact state
//! transition over one sample interval.
//!
//! `kt/ms` 653 s⁻², `ks/ms` 63.3 s⁻², `mu/ms` 0.15, `cs/ms` 6 s⁻¹, speed 80 km/h;
//! the state is zs', żs', zu', żu', driven by the profile's slope.

/// Speed of the reference car, m/s.
pub(crate) const SPEED: f64 = 80.0 / 3.6;
const TYRE: f64 = 653.0;
const SPRING: f64 = 63.3;
const MASS_RATIO: f64 = 0.15;
const DAMPER: f64 = 6.0;

type Matrix<const N: usize> = [[f64; N]; N];

/// State transition and input vector over one sample interval.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct QuarterCar {
    transition: Matrix<4>,
    input: [f64; 4],
}

impl QuarterCar {
    /// `exp` of the system matrix, the slope held over the interval.
    pub(crate) fn over(spacing: f64) -> Self {
        let time = spacing / SPEED;
        let m = MASS_RATIO;
        let rows: Matrix<5> = [
            [0.0, 1.0, 0.0, 0.0, 0.0],
            [-SPRING, -DAMPER, SPRING, DAMPER, 0.0],
            [0.0, 0.0, 0.0, 1.0, 0.0],
            [SPRING / m, DAMPER / m, -(TYRE + SPRING) / m, -DAMPER / m, TYRE / m],
            [0.0; 5],
        ];
        let [a, b, c, d, _] = exponential(rows.map(|row| row.map(|value| value * time)));
        let left = |row: [f64; 5]| [row[0], row[1], row[2], row[3]];
        Self { transition: [left(a), left(b), left(c), left(d)], input: [a[4], b[4], c[4], d[4]] }
    }

    /// The state one interval further on.
    pub(crate) fn step(&self, state: [f64; 4], slope: f64) -> [f64; 4] {
        let [a, b, c, d] = state;
        let row = |t: [f64; 4], p: f64| t[0] * a + t[1] * b + t[2] * c + t[3] * d + p * slope;
        let [t0, t1, t2, t3] = self.transition;
        let [p0, p1, p2, p3] = self.input;
        [row(t0, p0), row(t1, p1), row(t2, p2), row(t3, p3)]
    }

    /// Element of the transition by row 1 to 4 and column 1 to 4, or of the
    /// input vector as column 5; NaN elsewhere.
    pub(crate) fn element(&self, row: f64, column: f64) -> f64 {
        let at = |value: f64, most: f64| {
            (value.fract() == 0.0 && (1.0..=most).contains(&value)).then(|| value as usize - 1)
        };
        let element = at(row, 4.0).zip(at(column, 5.0)).and_then(|(row, column)| match column {
            4 => self.input.get(row),
            _ => self.transition.get(row)?.get(column),
        });
        element.copied().unwrap_or(f64::NAN)
    }
}

/// Matrix exponential by scaling, Taylor series and squaring; NaN for a matrix
/// that no interval of a survey makes.
fn exponential<const N: usize>(matrix: Matrix<N>) -> Matrix<N> {
    let largest = matrix
        .iter()
        .map(|row| row.iter().map(|value| value.abs()).sum::<f64>())
        .fold(0.0, |most: f64, sum| if sum.is_nan() { f64::INFINITY } else { most.max(sum) });
    if largest >= 1e9 {
        return [[f64::NAN; N]; N];
    }
    let halvings = if largest > 0.5 { (largest / 0.5).log2().ceil() as i32 } else { 0 };
    let scaled = matrix.map(|row| row.map(|value| value * 0.5_f64.powi(halvings)));
    let mut sum = identity();
    let mut term: Matrix<N> = identity();
    for order in 1..=20 {
        term = product(&term, &scaled).map(|row| row.map(|value| value / f64::from(order)));
        for (total, added) in sum.iter_mut().flatten().zip(term.iter().flatten()) {
            *total += added;
        }
    }
    (0..halvings).fold(sum, |power, _| product(&power, &power))
}

fn identity<const N: usize>() -> Matrix<N> {
    std::array::from_fn(|row| std::array::from_fn(|column| f64::from(u8::from(row == column))))
}

fn product<const N: usize>(a: &Matrix<N>, b: &Matrix<N>) -> Matrix<N> {
    std::array::from_fn(|row| {
        std::array::from_fn(|column| (0..N).map(|inner| a[row][inner] * b[inner][column]).sum())
    })
}

/// `|zs' − zu'|` for each unit of slope of a sinusoid: the gain of the index.
pub(crate) fn gain(wavelength: f64) -> f64 {
    let w = std::f64::consts::TAU * SPEED / wavelength;
    let (dr, di) = (SPRING - w * w, DAMPER * w);
    let (nr, ni) = (SPRING, DAMPER * w);
    let square = dr * dr + di * di;
    let (rr, ri) = ((nr * dr + ni * di) / square, (ni * dr - nr * di) / square);
    let (er, ei) = (TYRE - MASS_RATIO * w * w - w * w * rr, -w * w * ri);
    let unsprung = TYRE / er.hypot(ei);
    unsprung * (rr - 1.0).hypot(ri)
}

/// `|zs/y|`: displacement of the sprung mass for each unit of road, by frequency in Hz.
pub(crate) fn sprung_displacement(frequency: f64) -> f64 {
    let w = std::f64::consts::TAU * frequency;
    let (dr, di) = (SPRING - w * w, DAMPER * w);
    let square = dr * dr + di * di;
    let (rr, ri) = ((SPRING * dr + di * di) / square, (di * dr - SPRING * di) / square);
    let (er, ei) = (TYRE - MASS_RATIO * w * w - w * w * rr, -w * w * ri);
    TYRE / er.hypot(ei) * rr.hypot(ri)
}
