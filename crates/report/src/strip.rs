//! Of 100 parts of the metal in a bottle, from the one accounting: what is drawn is what is said and compared elsewhere.

use super::path::left;
use super::substance;
use cleanliness::accounting::{Accounting, Source, Stands};
use figure::strip::{Fill, StripPart, StripPicture};
use figure::{Head, slug};
use message::{Message, Shown, Spoken, strip as said};
use programme::case::Case;

/// The strip of a case; none where no shares are told.
pub(super) fn of(case: &Case, volume_ml: Option<f64>, words: String) -> Option<StripPicture> {
    let accounting = case.result.accounting.as_ref().filter(|a| a.has_shares())?;
    let whole = accounting.of_hundred();
    let parts: Vec<StripPart> = whole.into_iter().filter_map(|(of, n)| part(case, accounting, of, n)).collect();
    if parts.is_empty() {
        return None;
    }
    let by_model = accounting.stands == Stands::BottlesDisagree;
    let element = || substance(&case.result.analyte).into();
    let title: Message = if by_model {
        said::ByModel { element: element() }.into()
    } else {
        said::OfHundred { element: element() }.into()
    };
    let bottle = case.result.bottle.as_str().into();
    let found = Shown::significant(accounting.found_pg, 3, "pg").typeset();
    let of_bottle: Message = match volume_ml {
        Some(ml) => said::Bottle { bottle, found, volume: Shown::trimmed(ml, 3, "mL") }.into(),
        None => said::BottleWithoutVolume { bottle, found }.into(),
    };
    let id = slug(&format!("strip-{}-{}", case.result.bottle, case.result.analyte));
    Some(StripPicture {
        head: Head { id, title: title.text(), desc: words },
        bottle: of_bottle.text(),
        parts,
        by_model,
    })
}

fn part(case: &Case, accounting: &Accounting, of: Source, whole: u32) -> Option<StripPart> {
    let p = accounting.part(of)?;
    let share = accounting.share(of)?;
    let is = left(case);
    let water = of == Source::Aquifer;
    let fill = match of {
        Source::Aquifer if is.is_bound() => Fill::NotToldApart,
        Source::Aquifer => Fill::Water,
        Source::WellAndPipe => Fill::Pipe,
        Source::AirAndHands => Fill::Air,
        Source::BottleAndAcid => Fill::Bottle,
        Source::Journey => Fill::Journey,
        Source::Laboratory => Fill::Laboratory,
    };
    let name = if water { is.says() } else { of.says() };
    // The large parts bear their share, the small ones their metal.
    let amount = if whole >= 10 {
        let [low, high] = [100.0 * share.low, (100.0 * share.high).ceil()];
        if water && is.is_bound() {
            said::AtMost { most: Shown::decimals(high, 0, "") }.text()
        } else {
            said::Between { low: Shown::decimals(low.floor(), 0, ""), high: Shown::decimals(high, 0, "") }.text()
        }
    } else {
        p.value_pg.map_or_else(String::new, |pg| Shown::significant(pg, 2, "pg").text())
    };
    let number = if whole == 0 { "<1".into() } else { whole.to_string() };
    Some(StripPart { fill, share: share.share, number, name: name.text(), amount })
}
