//! `limpid calc`: one science function, JSON in, JSON out.

use crate::args::Calc;
use crate::failure::Failure;
use crate::out::say;
use anyhow::Context as _;
use quantity::Calculation;
use std::io::Read as _;

/// All calculations of all sciences, in the order of the path.
pub fn all() -> Vec<Calculation> {
    [
        measurement::CALCULATIONS,
        cleanliness::CALCULATIONS,
        aquifer::CALCULATIONS,
        aqueous::CALCULATIONS,
        series::CALCULATIONS,
        limits::CALCULATIONS,
    ]
    .concat()
}

/// Runs `limpid calc`.
pub fn run(args: &Calc) -> Result<(), Failure> {
    let all = all();
    let find = |name: &str| {
        all.iter().find(|c| c.name == name).ok_or_else(|| {
            let names: Vec<&str> = all.iter().map(|c| c.name).collect();
            Failure::Usage(format!("no calculation \"{name}\"; there are: {}", names.join(", ")))
        })
    };
    if args.list {
        for c in &all {
            say!("{:<14} {}", c.name, c.about);
        }
        return Ok(());
    }
    if let Some(name) = &args.schema {
        say!("{}", find(name)?.schema.trim_end());
        return Ok(());
    }
    if let Some(name) = &args.example {
        say!("{}", find(name)?.example.trim_end());
        return Ok(());
    }
    let calculation = find(args.name.as_deref().unwrap_or_default())?;
    if let Some(mapping) = &args.mapping {
        return super::survey::run(calculation, args, mapping);
    }
    let text = read(&args.input)?;
    let input = serde_json::from_str(&text).map_err(|e| Failure::Refused(format!("{}: {e}", source(&args.input))))?;
    let output = calculation.answer(&input)?;
    say!("{}", serde_json::to_string_pretty(&output).context("writing the answer as JSON")?);
    Ok(())
}

fn source(input: &str) -> &str {
    if input == "-" { "standard input" } else { input }
}

fn read(input: &str) -> Result<String, Failure> {
    let mut text = String::new();
    if input == "-" {
        std::io::stdin().read_to_string(&mut text).context("reading standard input")?;
    } else {
        text = std::fs::read_to_string(input).with_context(|| format!("reading {input}"))?;
    }
    Ok(text)
}
