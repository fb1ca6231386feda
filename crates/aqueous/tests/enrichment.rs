//! Enrichment factors.

use aqueous::enrichment::{Material, enrichment, nearest_sources};

#[test]
fn crust_itself_has_factor_one_and_lead_dust_has_not() {
    // Rudnick & Gao 2003 upper crust (from memory): Al 81500, Fe 39200, Pb 17 mg/kg.
    let crust = [("Al".to_string(), 81500.0), ("Fe".to_string(), 39200.0), ("Pb".to_string(), 17.0)];
    let e = enrichment(Material::Blank, &crust, "Al").unwrap();
    let own: Vec<_> = e.iter().filter(|f| f.crust == "RudnickGao2003").collect();
    assert_eq!(own.len(), 2);
    assert!(own.iter().all(|f| (f.factor - 1.0).abs() < 1e-12));
    // The tables differ: the same dust has another factor over another crust.
    let other = e.iter().find(|f| f.crust == "TaylorMcLennan1985" && f.element == "Pb").unwrap();
    assert!((other.factor - 17.0 / 20.0 * 80400.0 / 81500.0).abs() < 1e-9);
    let dust = [("Al".to_string(), 100.0), ("Pb".to_string(), 3.0)];
    assert!(enrichment(Material::Dust, &dust, "Al").unwrap().iter().all(|f| f.factor > 100.0));
}

#[test]
fn filtered_water_is_refused() {
    let m = [("Al".to_string(), 2.0), ("Pb".to_string(), 0.001)];
    let e = enrichment(Material::Filtered, &m, "Al").unwrap_err();
    assert!(e.to_string().contains("solubility"), "{e}");
    assert!(enrichment(Material::Dust, &m, "Sc").is_err());
}

#[test]
fn the_nearest_source_comes_first() {
    let s = [("road dust".to_string(), 0.1), ("solder".to_string(), 10.0)];
    assert_eq!(nearest_sources(7.0, &s)[0].0, "solder");
}
