//! Distribution functions against scipy 1.17.1:
//! `scipy.stats.t.ppf`, `gamma.ppf`, `beta.ppf`, `nct.ppf`, `chi2.sf`, `norm`.

#![allow(clippy::float_cmp)] // exact answers are compared exactly

use series::special::*;

fn close(got: f64, want: f64, tolerance: f64) {
    assert!((got / want - 1.0).abs() < tolerance, "{got} {want}");
}

// Quantiles by search on the distribution function: 1e-9 leaves room for its own 1e-11.
#[test]
fn quantiles_agree_with_scipy() {
    close(t_quantile(0.975, 1.0), 12.706204736174694, 1e-9);
    close(t_quantile(0.975, 5.0), 2.5705818356363146, 1e-9);
    close(t_quantile(0.975, 30.0), 2.0422724563012378, 1e-9);
    close(t_quantile(0.9995, 3.0), 12.923978636687961, 1e-9);
    close(t_quantile(0.6, 2.5), 0.2814595127485477, 1e-9);
    close(t_quantile(0.9999, 100.0), 3.861599790950091, 1e-9);
    close(gamma_quantile(0.025, 1.0), 0.025317807984289876, 1e-9);
    close(gamma_quantile(0.5, 0.3), 0.07313113586695198, 1e-9);
    close(gamma_quantile(0.975, 0.1), 0.9779047994188529, 1e-9);
    close(gamma_quantile(0.95, 20.0), 27.87923963944351, 1e-9);
    close(gamma_quantile(0.01, 400.0), 354.9484571268853, 1e-9);
    close(gamma_quantile(0.001, 0.2), 6.525480843457226e-16, 1e-9);
    close(beta_quantile(0.975, 1.0, 10.0), 0.3084971078187607, 1e-9);
    close(beta_quantile(0.025, 3.0, 8.0), 0.06673951117773447, 1e-9);
    close(beta_quantile(0.95, 44.0, 57.0), 0.5171755003428391, 1e-9);
    close(ln_normal_cdf(-40.0), -804.6084420137539, 1e-8);
    close(ln_normal_cdf(-31.0), -484.8539636271794, 1e-8);
    close(ln_normal_cdf(-10.0), -53.23128515051248, 1e-8);
    close(ln_normal_cdf(-1.0), -1.8410216450092634, 1e-8);
    close(ln_normal_cdf(2.0), -0.023012909328963476, 1e-8);
    close(chi_squared_sf(16.793, 1.0), 4.168679471886338e-05, 1e-9);
}

#[test]
fn tolerance_factors_agree_with_the_noncentral_t() {
    close(tolerance_factor(2, 0.95, 0.95), 26.25967398303447, 1e-7);
    close(tolerance_factor(5, 0.95, 0.95), 4.202680741256176, 1e-7);
    close(tolerance_factor(43, 0.9, 0.99), 1.8739536058511987, 1e-7);
    close(tolerance_factor(8, 0.99, 0.9), 3.7825489618761186, 1e-7);
    close(tolerance_factor(300, 0.95, 0.95), 1.7996419304741287, 1e-7);
    close(tolerance_factor(10, 0.5, 0.95), 0.5796812075504559, 1e-7);
}
