//! The four modes of one elastic layer at one wave number, and how they pass
//! from layer to layer.
//!
//! Per wave number `m` the state is `(2 G m W, 2 G m U, S, T)`: downward and
//! outward displacement, vertical and shear stress. Two modes fade downward
//! from the layer's top, two fade upward from its bottom, so that nothing can
//! overflow however large `m h` is. From the bottom up, each layer gets the
//! matrix that turns its downward modes into upward ones; from the top down
//! the surface load is then carried along. Derived from Love's strain function.

/// Two columns of a state: rows W, U, S, T.
type Columns = [[f64; 2]; 4];
/// A square matrix of the amplitudes of two modes.
type Square = [[f64; 2]; 2];
/// Amplitudes of two modes.
pub(crate) type Pair = [f64; 2];

/// Downward modes at `m` times the depth below the layer's top, without their
/// factor `exp(-zeta)`.
pub(crate) fn down_modes(poisson: f64, zeta: f64) -> Columns {
    [
        [-1.0, -(2.0 - 4.0 * poisson + zeta)],
        [-1.0, 1.0 - zeta],
        [1.0, 1.0 - 2.0 * poisson + zeta],
        [1.0, zeta - 2.0 * poisson],
    ]
}

/// Upward modes at `m` times the height over the layer's bottom, without their
/// factor `exp(-eta)`.
pub(crate) fn up_modes(poisson: f64, eta: f64) -> Columns {
    [
        [-1.0, 2.0 - 4.0 * poisson + eta],
        [1.0, 1.0 - eta],
        [-1.0, 1.0 - 2.0 * poisson + eta],
        [1.0, 2.0 * poisson - eta],
    ]
}

/// One layer as the modes see it.
#[derive(Debug, Clone, Copy)]
pub(crate) struct ModeLayer {
    pub(crate) poisson: f64,
    /// Shear stiffness.
    pub(crate) shear: f64,
    /// Thickness; infinite for the last.
    pub(crate) thickness: f64,
}

/// Amplitudes of the downward and upward modes of every layer.
#[derive(Debug, Clone, Default)]
pub(crate) struct Amplitudes {
    reflect: Vec<Square>,
    pass: Vec<Square>,
    /// Downward modes by layer; in the first, what the layers below add to
    /// those of a half space of the first layer's material.
    pub(crate) down: Vec<Pair>,
    /// Upward modes by layer.
    pub(crate) up: Vec<Pair>,
}

fn times(matrix: &Square, vector: Pair) -> Pair {
    matrix.map(|row| row[0] * vector[0] + row[1] * vector[1])
}

/// State at a layer's top of the upward modes that unit downward modes bring
/// about; nothing for the half space.
fn returning(layer: &ModeLayer, m: f64, reflect: &Square) -> Columns {
    if layer.thickness.is_infinite() {
        return [[0.0; 2]; 4];
    }
    let eta = m * layer.thickness;
    let fade = (-eta).exp();
    up_modes(layer.poisson, eta).map(|row| {
        [0, 1].map(|column| fade * (row[0] * reflect[0][column] + row[1] * reflect[1][column]))
    })
}

/// State at a layer's top for unit downward modes, with what they bring about.
fn top_state(layer: &ModeLayer, m: f64, reflect: &Square) -> Columns {
    let mut state = down_modes(layer.poisson, 0.0);
    for (row, added) in state.iter_mut().zip(returning(layer, m, reflect)) {
        row[0] += added[0];
        row[1] += added[1];
    }
    state
}

impl Amplitudes {
    /// Solve for a vertical surface stress of −1 at wave number `m` above zero.
    pub(crate) fn solve(&mut self, layers: &[ModeLayer], m: f64) {
        let count = layers.len();
        for list in [&mut self.reflect, &mut self.pass] {
            list.clear();
            list.resize(count, [[0.0; 2]; 2]);
        }
        self.down.clear();
        self.up.clear();
        for upper in (0..count.saturating_sub(1)).rev() {
            let (layer, below) = (&layers[upper], &layers[upper + 1]);
            let state = top_state(below, m, &self.reflect[upper + 1]);
            let solved = interface(layer, m, &state, layer.shear / below.shear);
            (self.reflect[upper], self.pass[upper]) = solved;
        }
        let Some(first) = layers.first() else { return };
        let (own, fading) = surface(first, m, &self.reflect[0]);
        self.down.push(fading);
        let mut whole = [own[0] + fading[0], own[1] + fading[1]];
        for index in 0..count {
            self.up.push(times(&self.reflect[index], whole));
            if index + 1 < count {
                whole = times(&self.pass[index], whole);
                self.down.push(whole);
            }
        }
    }
}

/// Downward amplitudes of the first layer under a surface stress of −1: those
/// of a half space, and what the layers below add, which fades as
/// `exp(-2 m h)` and is found without a difference.
fn surface(first: &ModeLayer, m: f64, reflect: &Square) -> (Pair, Pair) {
    let half_space = [-2.0 * first.poisson, -1.0];
    if first.thickness.is_infinite() {
        return (half_space, [0.0; 2]);
    }
    let [_, _, added_s, added_t] = returning(first, m, reflect);
    let [_, _, own_s, own_t] = down_modes(first.poisson, 0.0);
    let rest = [added_s, added_t].map(|row| -(row[0] * half_space[0] + row[1] * half_space[1]));
    let [a, b] = [own_s[0] + added_s[0], own_s[1] + added_s[1]];
    let [c, d] = [own_t[0] + added_t[0], own_t[1] + added_t[1]];
    let determinant = a * d - b * c;
    let fading =
        [(d * rest[0] - b * rest[1]) / determinant, (a * rest[1] - c * rest[0]) / determinant];
    (half_space, fading)
}

/// The upward modes of the layer above an interface and the downward modes of
/// the layer below, for unit downward modes of the layer above; both matrices
/// hold that layer's factor `exp(-m h)`.
///
/// The stress rows of the upward modes have determinant −1, so that they give
/// the upward amplitudes outright; what remains is a pair of equations, with
/// `P` (displacement over stress of upward modes), symmetric and positive.
fn interface(layer: &ModeLayer, m: f64, below: &Columns, softer: f64) -> (Square, Square) {
    let zeta = m * layer.thickness;
    let fade = (-zeta).exp();
    let nu = layer.poisson;
    let [moved_w, moved_u, stressed_s, stressed_t] = *below;
    let arriving = down_modes(nu, zeta);
    let (diagonal, beside) = (2.0 - 2.0 * nu, 1.0 - 2.0 * nu);
    let compliance = |s: f64, t: f64| [diagonal * s + beside * t, beside * s + diagonal * t];
    let left: [Pair; 2] = [0, 1].map(|k| {
        let [w, u] = compliance(stressed_s[k], stressed_t[k]);
        [w - softer * moved_w[k], u - softer * moved_u[k]]
    });
    let determinant = left[0][0] * left[1][1] - left[1][0] * left[0][1];
    let mut reflect = [[0.0; 2]; 2];
    let mut pass = [[0.0; 2]; 2];
    for k in 0..2 {
        let [w, u] = compliance(arriving[2][k], arriving[3][k]);
        let (w, u) = (fade * (w - arriving[0][k]), fade * (u - arriving[1][k]));
        let first = (left[1][1] * w - left[1][0] * u) / determinant;
        let second = (left[0][0] * u - left[0][1] * w) / determinant;
        let s = stressed_s[0] * first + stressed_s[1] * second - fade * arriving[2][k];
        let t = stressed_t[0] * first + stressed_t[1] * second - fade * arriving[3][k];
        (pass[0][k], pass[1][k]) = (first, second);
        (reflect[0][k], reflect[1][k]) = (beside * t - 2.0 * nu * s, s + t);
    }
    (reflect, pass)
}
