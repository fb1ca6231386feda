//! Licences and bill of materials of what is packed. The fields of the bill: ECMA-424, CycloneDX 1.6.

use serde_json::Value;
use std::collections::BTreeSet;
use std::path::Path;
use xtask::package::{bill, licences, metadata};

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR")).parent().expect("xtask stands in the workspace")
}

/// Expressions as the SPDX specification (version 2.3, annex D) writes them.
#[test]
fn an_expression_is_met_by_one_of_each_or_and_all_of_each_and() {
    for met in [
        "MIT",
        "MIT OR Apache-2.0",
        "GPL-3.0-only OR MIT",
        "MIT OR GPL-3.0-only",
        "(MIT OR Apache-2.0) AND Unicode-3.0",
        "(GPL-2.0-only OR MIT) AND BSD-3-Clause",
        "Apache-2.0 WITH LLVM-exception OR Apache-2.0 OR MIT",
    ] {
        assert!(licences::allowed(met), "{met}");
    }
    for not in [
        "GPL-3.0-only",
        "MIT AND GPL-3.0-only",
        "GPL-3.0-only AND MIT",
        "(MIT AND AGPL-3.0-only) OR GPL-2.0-only",
        "MIT AND (GPL-3.0-only OR SSPL-1.0)",
        "",
    ] {
        assert!(!licences::allowed(not), "{not}");
    }
}

#[test]
fn what_is_built_in_may_be_passed_on_and_stands_in_the_bill_with_its_sum() {
    let graph = metadata(root()).unwrap();
    let texts = licences::texts(&graph).unwrap();
    let lock: toml::Table = std::fs::read_to_string(root().join("Cargo.lock")).unwrap().parse().unwrap();
    let told: Value = serde_json::from_str(&bill::of(&graph, &lock).unwrap()).unwrap();
    assert_eq!((told["bomFormat"].as_str(), told["specVersion"].as_str()), (Some("CycloneDX"), Some("1.6")));
    let parts = told["components"].as_array().unwrap();
    let mut refs: BTreeSet<&str> = parts.iter().map(|p| p["bom-ref"].as_str().unwrap()).collect();
    assert_eq!(refs.len(), parts.len(), "each part has a name of its own");
    assert!(refs.insert(told["metadata"]["component"]["bom-ref"].as_str().unwrap()));
    let leans = told["dependencies"].as_array().unwrap();
    assert_eq!(leans.len(), refs.len());
    for lean in leans {
        assert!(refs.contains(lean["ref"].as_str().unwrap()));
        assert!(lean["dependsOn"].as_array().unwrap().iter().all(|on| refs.contains(on.as_str().unwrap())), "{lean}");
    }
    for part in parts {
        let line = format!("{} {}: ", part["name"].as_str().unwrap(), part["version"].as_str().unwrap());
        // Rooms of our own come from no registry: they have neither sum nor text of their own.
        let outside = part["hashes"].is_array();
        assert_eq!(texts.contains(&format!("\n{line}")), outside, "{line}");
        if outside {
            let sum = part["hashes"][0]["content"].as_str().unwrap();
            assert!(sum.len() == 64 && sum.bytes().all(|b| b.is_ascii_hexdigit()), "{line}");
        }
    }
    // Only tests lean on these two: they are not built in.
    assert!(parts.iter().all(|p| p["name"] != "insta" && p["name"] != "headless_chrome"));
    assert!(parts.iter().any(|p| p["name"] == "rusqlite"));
}
