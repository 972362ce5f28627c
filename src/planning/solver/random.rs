//! The search's dice: a seeded generator and drawn waiting times, the same on every machine.
//!
//! Uses no library logarithm, whose last digit differs between systems.

use rand_pcg::Pcg64Mcg;
use rand_pcg::rand_core::Rng as _;

use crate::quantity::decay;

/// A seeded source of chance.
#[derive(Debug, Clone)]
pub(super) struct Dice {
    generator: Pcg64Mcg,
}

impl Dice {
    pub(super) fn new(seed: u64) -> Self {
        // Spreads small seeds over the whole state; the generator needs an odd one.
        let spread = u128::from(seed).wrapping_mul(0x9E37_79B9_7F4A_7C15_F39C_C060_5CED_C835);
        let state = spread ^ 0xCAFE_F00D_D15E_A5E5_A3C5_9AC2_ED3B_1F01;
        let mut dice = Self {
            generator: Pcg64Mcg::new(state),
        };
        for _ in 0..8 {
            dice.word();
        }
        dice
    }

    pub(super) fn word(&mut self) -> u64 {
        self.generator.next_u64()
    }

    /// A whole number below `n`; 0 where `n` is 0.
    pub(super) fn below(&mut self, n: usize) -> usize {
        let high = self.word() >> 32;
        let product = high.wrapping_mul(u64::try_from(n).unwrap_or(0));
        usize::try_from(product >> 32).unwrap_or(0)
    }

    /// True once in `n` draws.
    pub(super) fn one_in(&mut self, n: usize) -> bool {
        self.below(n) == 0
    }
}

/// Waiting times of mean 1 (exponentially distributed), tabled.
#[derive(Debug, Clone)]
pub(super) struct Waits {
    table: Vec<f64>,
}

const N_WAITS: u32 = 1 << 12;

impl Waits {
    pub(super) fn new() -> Self {
        let n = f64::from(N_WAITS);
        let table = (0..N_WAITS)
            .map(|index| minus_ln((f64::from(index) + 0.5) / n))
            .collect();
        Self { table }
    }

    pub(super) fn draw(&self, dice: &mut Dice) -> f64 {
        let index = dice.below(self.table.len());
        self.table.get(index).copied().unwrap_or(1.0)
    }
}

/// `-ln x` for `0 < x <= 1`, by halving into 1/2..1 and the series of the inverse hyperbolic tangent.
pub(super) fn minus_ln(x: f64) -> f64 {
    let mut halvings = 0.0;
    let mut rest = x;
    while rest < 0.5 && halvings < 1100.0 {
        rest *= 2.0;
        halvings += 1.0;
    }
    halvings * std::f64::consts::LN_2 + 2.0 * atanh_series((1.0 - rest) / (1.0 + rest))
}

fn atanh_series(y: f64) -> f64 {
    let square = y * y;
    let mut power = y;
    let mut sum = 0.0;
    let mut divisor = 1.0;
    while divisor < 40.0 {
        sum += power / divisor;
        power *= square;
        divisor += 2.0;
    }
    sum
}

/// The `n`-th root of a ratio in 0..1 (the factor that, applied `n` times, comes to it), by plain arithmetic.
pub(super) fn nth_root(ratio: f64, n: f64) -> f64 {
    decay(minus_ln(ratio.clamp(1e-300, 1.0)) / n.max(1.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn own_logarithm_and_root_agree_with_the_library() {
        for x in [1.0, 0.999, 0.5, 0.1, 1e-4, 1e-12] {
            assert!((minus_ln(x) + f64::ln(x)).abs() < 1e-12, "{x}");
            for n in [1.0, 7.0, 5000.0] {
                assert!((nth_root(x, n) - x.powf(1.0 / n)).abs() < 1e-7, "{x} {n}");
            }
        }
    }
}
