//! The guide on recipes, followed as it is printed (`docs/guide/recipes.md`).

use crate::desk::Desk;
use std::fs;

const GUIDE: &str = include_str!("../../../docs/guide/recipes.md");

/// The commands of the guide in their order, each as its words and the file that takes what it says.
fn commands() -> Vec<(Vec<String>, Option<String>)> {
    let code = GUIDE.split("```").skip(1).step_by(2);
    code.flat_map(str::lines).filter_map(|l| l.strip_prefix("limpid ")).map(command).collect()
}

/// Words of a line; those in quotes are one.
fn command(line: &str) -> (Vec<String>, Option<String>) {
    let (line, file) = line.split_once(" > ").map_or((line, None), |(l, f)| (l, Some(f.to_string())));
    let quoted = line.split('"').enumerate();
    let words = quoted.flat_map(|(i, part)| match i % 2 {
        0 => part.split_whitespace().map(String::from).collect(),
        _ => vec![part.to_string()],
    });
    (words.collect(), file)
}

/// The demo's laboratory under a name of the person's own, with a vial called otherwise than in the run.
fn own() -> String {
    let demo = simulator::files::RECIPE;
    let own = demo.replace("\"sector-field-water\"", "\"my-recipe\"").replace("\"standard 5\"", "\"lead standard\"");
    assert_ne!(own, demo);
    own
}

#[test]
fn the_guide_does_what_it_says() {
    let desk = Desk::with_programme();
    fs::rename(desk.path("p.sqlite"), desk.path("programme.sqlite")).unwrap();
    let (mut checks, mut imports) = (0, 0);
    for (words, file) in commands() {
        let words: Vec<&str> = words.iter().map(String::as_str).collect();
        if words[0] == "import" {
            imports += 1;
            // What the person puts in: first their own values, later another dead time.
            desk.file("my-recipe.toml", if imports == 1 { own() } else { own().replace("ns = 25.0", "ns = 27.5") });
        }
        let ran = desk.run(&words);
        if words.contains(&"--check") {
            checks += 1;
            if checks == 1 {
                ran.fails(1, &["lead_reference.vials", "\"lead standard\"", "standard 5"]);
                continue;
            }
        }
        let said = ran.done();
        if let Some(file) = file {
            desk.file(&file, said);
        } else if words.contains(&"--version") {
            assert_eq!(said, own());
        }
    }
    assert_eq!((checks, imports), (2, 2));
    let listed = desk.run(&["recipes", "programme.sqlite", "--json"]).json();
    let listed: Vec<_> = listed["recipes"].as_array().unwrap().iter().filter(|r| r["name"] == "my-recipe").collect();
    assert_eq!(listed.len(), 2);
    assert_eq!(listed[0]["runs"][0], "SL-R-2607");
    assert_eq!(listed[1]["runs"].as_array().unwrap().len(), 0);
    assert_eq!(listed[1]["why"], "dead time from the dilution series of August");
    desk.run(&["verify", "programme.sqlite"]).done();
}

#[test]
fn a_template_is_taken_as_it_stands_and_no_programme_begins_with_a_recipe() {
    let desk = Desk::new();
    desk.run(&["new", "p.sqlite"]).done();
    let none = desk.run(&["recipes", "p.sqlite", "--json"]).json();
    assert_eq!(none["recipes"].as_array().unwrap().len(), 0);
    for language in ["en", "de"] {
        desk.file("own.toml", desk.run(&["recipes", "--template", "--lang", language]).done());
        desk.run(&["import", "p.sqlite", "own.toml", "--mapping", "recipe"]).done();
    }
    desk.edit("own.toml", |t| t.replace("[dead_time]", "[deadtime]"));
    let import = ["import", "p.sqlite", "own.toml", "--mapping", "recipe", "--why", "another"];
    desk.run(&import).fails(1, &["deadtime", "dead_time"]);
}
