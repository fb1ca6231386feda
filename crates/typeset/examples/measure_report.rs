//! How long does a long report take to set? Prints pages asked for, seconds, bytes.
//! `cargo run --release -p typeset --example measure_report -- [chapters [FILE]]`; a chapter is about a page and
//! a third: text, a table of 24 rows, and for three chapters of four an SVG figure.

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::time::Instant;

fn figure(n: usize) -> Vec<u8> {
    let mut s = String::from(
        r##"<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 760 400" font-family="Limpid Text" font-size="12"><rect width="760" height="400" fill="#fcfbf8"/>"##,
    );
    for i in 0..150 {
        let (x, y) = (20 + (i * 37 + n * 11) % 720, 20 + (i * 53 + n * 7) % 340);
        let _ = write!(
            s,
            r##"<path d="M{x} {y}V{}" stroke="#1d2b2f"/><circle cx="{x}" cy="{y}" r="3" fill="#2f6f7a"/>"##,
            y + 14
        );
    }
    for i in 0..40 {
        let _ = write!(s, r#"<text x="{}" y="{}">label {i} of {n}</text>"#, 20 + (i % 8) * 90, 30 + (i / 8) * 70);
    }
    (s + "</svg>").into_bytes()
}

fn main() {
    let chapters: usize = std::env::args().nth(1).and_then(|a| a.parse().ok()).unwrap_or(40);
    let mut main = String::from("#set page(paper: \"a4\")\n#set heading(numbering: \"1\")\n");
    let mut files = BTreeMap::new();
    for n in 0..chapters {
        let _ = writeln!(
            main,
            "= Well number {n}\n{}\n",
            "What was found in the water and why one may believe it. ".repeat(14)
        );
        let _ = writeln!(main, "#table(columns: 6, table.header[Bottle][Lead][Cadmium][Antimony][Thallium][Uranium],");
        for r in 0..24 {
            let _ =
                writeln!(main, "[SL-{n}-{r}],[1.0{r} ± 0.12],[< 0.15],[2.{r} ± 0.3],[0.3{r} ± 0.05],[5.{r} ± 0.6],");
        }
        main.push_str(")\n");
        if n % 4 != 3 {
            let name = format!("figure-{n}.svg");
            let _ = writeln!(
                main,
                "#figure(image(\"{name}\", alt: \"Marks and labels\", width: 100%), caption: [Marks of chapter {n}.])"
            );
            files.insert(name, figure(n));
        }
    }
    let input =
        typeset::TypesetInput { main, files, title: "Measured".into(), lang: "en".into(), ..Default::default() };
    let start = Instant::now();
    match typeset::pdf(&input) {
        Ok(bytes) => {
            println!("{chapters} chapters, {:.3} s, {} bytes", start.elapsed().as_secs_f64(), bytes.len());
            if let Some(file) = std::env::args().nth(2) {
                std::fs::write(&file, bytes).expect("the file can be written");
            }
        }
        Err(e) => println!("{e}"),
    }
}
