//! Many tests at once: with hundreds of them one in twenty is "significant" by chance alone.

/// Of each of several p the smallest share of false alarms at which it would still be named:
/// q_(i) = min over k ≥ i of p_(k)·m/k, at most 1. Benjamini & Hochberg (1995) J. R. Stat. Soc. B
/// 57:289; for tests that are independent or depend positively. Where nothing is there at all, a share of
/// 5 % is a chance of 5 % that anything is named.
pub fn false_discovery(p_values: &[f64]) -> Vec<f64> {
    let m = p_values.len() as f64;
    let mut order: Vec<usize> = (0..p_values.len()).collect();
    order.sort_by(|a, b| p_values[*b].total_cmp(&p_values[*a]));
    let mut q = vec![1.0; p_values.len()];
    let mut least: f64 = 1.0;
    for (above, i) in order.into_iter().enumerate() {
        least = least.min(p_values[i] * m / (m - above as f64));
        q[i] = least;
    }
    q
}
