//! The numbers that a finding compared, in one line.
//!
//! In: a finding. Out: `contact time 41 min (u 1); longest asked for 30 min (u not stated)`, in the language. The record
//! keeps the name of each number in English, whatever version wrote it; the catalogue `compared` has the names by that
//! English. Analytes and bottles are named alike in every language. Checked below.

use language::as_written;
use message::{Message, Shown, Spoken, compared as said};
use quantity::Finding;

/// The numbers of a finding in one line.
pub(crate) fn compared(f: &Finding) -> String {
    let items: Vec<String> =
        f.compared.iter().map(|c| format!("{} {}", name(&c.name), c.amount.with_u().text())).collect();
    items.join("; ")
}

/// What a number is.
fn name(kept: &str) -> String {
    let of_table = Message::named("compared", kept);
    of_table.or_else(|| special(kept)).map_or_else(|| as_written(kept), |m| m.text())
}

/// Names that hold a number or a sign.
fn special(kept: &str) -> Option<Message> {
    if kept == "1 − blank/gross" {
        return Some(said::ShareByBlank.into());
    }
    if let Some(metal) = kept.strip_suffix(" in excess") {
        return Some(said::Excess { metal: metal.into() }.into());
    }
    if let Some(size) = kept.strip_prefix("particles of at least ") {
        return Some(said::Particles { size: micrometres(size)? }.into());
    }
    let (class, limit) = kept.strip_prefix("limit of class ")?.split_once(" at ")?;
    let (size, seen) = limit.strip_suffix(')')?.split_once(" (")?;
    let seen = seen.replace(|c: char| !c.is_ascii_alphanumeric(), "-");
    Some(said::ClassLimit { class: class.into(), size: micrometres(size)?, seen: seen.into() }.into())
}

fn micrometres(text: &str) -> Option<Shown> {
    Some(Shown::as_given(text.strip_suffix(" µm")?.parse().ok()?, "µm"))
}

#[cfg(test)]
mod tests {
    use super::*;
    use message::{Lang, with_language};
    use quantity::{Amount, Check, Outcome, Unit};

    fn line(lang: Lang, name: &str) -> String {
        let amount = Amount::measured(1.5, 0.1, Unit::known("min"));
        let finding = Finding::new(Check::WellContactTime, Outcome::Met, "").comparing(name, amount);
        with_language(lang, || compared(&finding))
    }

    #[test]
    fn english_says_the_name_that_the_record_keeps() {
        for name in [
            "contact time",
            "calculated, 25 °C",
            "upper bound, one-sided 95 %",
            "limit for their mean, 95 %",
            "travel time, 97.5 %",
            "1 − blank/gross",
            "Zn in excess",
            "particles of at least 0.5 µm",
            "limit of class 5 at 0.5 µm (recalled)",
            "limit of class 5 at 0.7 µm (computed by the standard's formula)",
            "Pb 206+207+208@low",
            "χ²",
        ] {
            assert_eq!(line(Lang::En, name), format!("{name} 1.50 min (u 0.10)"));
        }
    }

    #[test]
    fn a_name_that_holds_a_number_has_it_as_the_language_writes_it() {
        for (name, number) in
            [("particles of at least 0.5 µm", "0,5 µm"), ("limit of class 5 at 0.5 µm (seen)", "0,5 µm")]
        {
            let said = line(Lang::De, name);
            assert!(said.contains(number) && said.contains("1,50 min") && !said.contains('.'), "{said}");
        }
    }

    #[test]
    fn what_the_table_does_not_have_stays_as_it_is_kept() {
        assert!(line(Lang::De, "limit of the moon").contains("limit of the moon"));
        assert!(line(Lang::De, "particles of at least a few µm").contains("particles of at least a few µm"));
    }
}
