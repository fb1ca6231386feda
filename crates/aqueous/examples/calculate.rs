//! Runs one calculation of this crate: `calculate speciation < input.json` (no input: the example).
use std::io::{IsTerminal, Read};

fn main() {
    let name = std::env::args().nth(1).unwrap_or_else(|| "speciation".into());
    let c = aqueous::CALCULATIONS.iter().find(|c| c.name == name).expect("speciation or titration");
    let mut text = String::new();
    if !std::io::stdin().is_terminal() {
        std::io::stdin().read_to_string(&mut text).expect("input can be read");
    }
    if text.trim().is_empty() {
        text = c.example.into();
    }
    let input = serde_json::from_str(&text).expect("JSON");
    match (c.run)(&input) {
        Ok(v) => println!("{}", serde_json::to_string_pretty(&v).expect("JSON")),
        Err(e) => eprintln!("{e}"),
    }
}
