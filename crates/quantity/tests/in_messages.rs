//! Numbers in messages stand as `quantity::format` prints them, whatever the language.

use message::{Digits, Lang, Share};
use proptest::prelude::*;
use quantity::format::value_and_expanded;
use quantity::{Amount, Measured, Unit};

proptest! {
    #[test]
    fn a_measured_value_stands_as_everywhere_else(value in -1e6_f64..1e6, u in 1e-6_f64..1e5, k in 1.0_f64..3.0) {
        let m = Measured::new(value, u, Unit::known("ng/L"));
        let (v, expanded) = value_and_expanded(&m, k);
        prop_assert_eq!(m.shown(k).said(Lang::En), format!("{v} ± {expanded} ng/L"));
    }
}

#[test]
fn each_kind_of_amount_in_both_languages() {
    let ng = || Unit::known("ng/L");
    for (amount, english, german) in [
        (Amount::measured(1.0512, 0.0612, ng()), "1.05 ± 0.12 ng/L", "1,05 ± 0,12 ng/L"),
        (Amount::below(0.15, ng()), "< 0.15 ng/L", "< 0,15 ng/L"),
        (Amount::stated(12.0, Unit::one()), "12", "12"),
        (Amount::measured(12345.0, 678.0, ng()), "12300 ± 1400 ng/L", "12300 ± 1400 ng/L"),
    ] {
        let shown = amount.shown(2.0);
        assert_eq!((shown.said(Lang::En), shown.said(Lang::De)), (english.into(), german.into()));
    }
    let share = Share::new(0.9649, Digits::Significant(3));
    assert_eq!([share.said(Lang::En), share.said(Lang::De)], ["96.5 %", "96,5 %"]);
}
