//! Limits of compounds and of groups, and sums of groups between what was found and what could be there.
//!
//! Figures of Directive (EU) 2020/2184, annex I part B, and lists of annex III part B from memory: pesticides 0.10 each
//! (0.030 for aldrin, dieldrin, heptachlor, heptachlor epoxide) and 0.50 together, tri- and tetrachloroethene 10,
//! trihalomethanes 100, four PAH 0.10, twenty PFAS 0.10, vinyl chloride 0.50, benzene 1.0, benzo(a)pyrene 0.010 µg/L.

use limits::absence::{Compound, GroupSum, ListLimits, Report, judge};
use limits::compound_limits::{Asked, Of, PESTICIDES, group_limits, is_member, members, single};
use limits::{Answer, cas};
use message::Lang;
use quantity::{Amount, Unit};

fn ug_l() -> Unit {
    Unit::known("ug/L")
}

fn compound(name: &str, amount: Amount) -> Compound {
    Compound {
        name: name.into(),
        cas: None,
        sample: "S".into(),
        amount: Some(amount),
        critical_value: None,
        detection_limit: None,
        reporting_limit: None,
        unit: ug_l(),
        limit: None,
        rejected: false,
        laboratory: Some("L".into()),
        on: Some("2026-07-14".into()),
    }
}

fn found(name: &str, value: f64, u: f64) -> Compound {
    compound(name, Amount::measured(value, u, ug_l()))
}

fn below(name: &str, limit: f64) -> Compound {
    compound(name, Amount::below(limit, ug_l()))
}

fn report(list: &[Compound]) -> Report {
    judge(list, &ListLimits::of_all(), Lang::En).unwrap()
}

#[track_caller]
fn group<'a>(r: &'a Report, name: &str) -> &'a GroupSum {
    r.groups.iter().find(|g| g.group == name).unwrap_or_else(|| panic!("{name}: {:?}", r.groups))
}

#[test]
fn the_tables_of_groups_are_sound() {
    for l in group_limits() {
        let of = members(&l.group).unwrap_or_else(|| panic!("{} has no members", l.group));
        assert!(!of.is_empty() && l.limit.high > 0.0 && !l.limit.document.is_empty(), "{l:?}");
        for number in of {
            assert_eq!(cas::parse(number).as_ref(), Ok(number), "{}", l.group);
            assert!(cas::by_cas(number).is_some(), "{number} of {}", l.group);
        }
    }
    let size = |name: &str| members(name).map_or(0, std::collections::BTreeSet::len);
    assert_eq!([size("pfas-of-20"), size("pfas-of-4"), size("pah-of-four"), size("trihalomethanes")], [20, 4, 4, 4]);
    assert!(members("pfas-of-4").unwrap().is_subset(members("pfas-of-20").unwrap()));
    // Vinyl chloride, DEET: a solvent's offspring and a repellent are no pesticides.
    assert!(!is_member(PESTICIDES, "75-01-4") && !is_member(PESTICIDES, "134-62-3"));
    assert!(is_member(PESTICIDES, "1912-24-9"));
}

#[test]
fn each_compound_is_held_to_its_own_limit() {
    let eu = ["EU".to_string()];
    let asked = |on| Asked { authorities: &eu, on };
    let of = |name: &str, on| single(name, &cas::identity(name, None), &asked(on), &ug_l()).map(|(x, _)| x);
    let today = Some("2026-07-14");
    for (name, limit) in [
        ("vinyl chloride", Some(0.5)),
        ("dieldrin", Some(0.03)),
        ("heptachlor epoxide", Some(0.03)),
        ("atrazine", Some(0.1)),
        ("diuron", Some(0.1)),
        ("benzene", Some(1.0)),
        ("benzo[a]pyrene", Some(0.01)),
        ("bisphenol A", Some(2.5)),
        ("chloroform", None),
        ("DEET", None),
        ("erlenxylodur", None),
    ] {
        assert_eq!(of(name, today), limit, "{name}");
    }
    // To be met from 12 January 2026: before, and where nobody knows the day, it decides nothing.
    assert_eq!((of("bisphenol A", Some("2025-07-14")), of("bisphenol A", None)), (None, None));
}

/// 6.0 + 3.0 of 10; 2.4 of vinyl chloride belongs to no sum. By hand: 9.0 − 1.645·√(0.3² + 0.2²) = 8.41 is not over 10,
/// 9.0 + 2·0.3 + 2·0.2 = 10.0.
#[test]
fn a_sum_lies_between_what_was_found_and_what_could_be_there() {
    let r = report(&[
        found("vinyl chloride", 2.4, 0.3),
        found("trichloroethene", 6.0, 0.3),
        found("tetrachloroethene", 3.0, 0.2),
        below("atrazine", 0.02),
        below("simazine", 0.03),
    ]);
    let g = group(&r, "tri-and-tetrachloroethene");
    assert!((g.lower - 9.0).abs() < 1e-12 && (g.upper.unwrap() - 10.0).abs() < 1e-12);
    let p = group(&r, PESTICIDES);
    assert_eq!((p.looked_for, p.found, p.lower, p.answer), (2, 0, 0.0, Answer::Below));
    assert!((p.upper.unwrap() - 0.05).abs() < 1e-12, "of pesticides alone");
    let vinyl = r.found_rows()[0];
    assert_eq!((vinyl.name.as_str(), vinyl.limit, vinyl.answer), ("vinyl chloride", Some(0.5), Some(Answer::Above)));
    assert_eq!(vinyl.laboratory.as_deref(), Some("L"));
    assert_eq!(r.not_found_rows().len(), 2);
    assert_eq!(r.without_limit, Vec::<String>::new(), "each of them has a limit, alone or in its sum");
}

#[test]
fn a_sum_over_its_limit_is_told_and_one_that_may_be_is_not() {
    let answer = |a: f64, b: f64, u: f64| {
        let r = report(&[found("trichloroethene", a, u), found("tetrachloroethene", b, u)]);
        group(&r, "tri-and-tetrachloroethene").answer
    };
    assert_eq!(answer(8.0, 4.0, 0.2), Answer::Above);
    assert_eq!(answer(6.0, 4.2, 0.2), Answer::CannotTell);
    assert_eq!(answer(3.0, 4.0, 0.2), Answer::Below);
}

/// A stranger of 0.31 may be a pesticide: 0.27 keeps to 0.5, 0.27 + 0.35 does not. One at 0.05 would fit in.
#[test]
fn what_nobody_knows_may_be_a_pesticide() {
    let with = |stranger: Compound| {
        let r = report(&[found("atrazine", 0.14, 0.02), below("simazine", 0.09), stranger]);
        let g = group(&r, PESTICIDES).clone();
        (g.answer, g.unknown)
    };
    let name = || vec!["erlenxylodur".to_string()];
    assert_eq!(with(found("erlenxylodur", 0.31, 0.02)), (Answer::CannotTell, name()));
    assert_eq!(with(compound("erlenxylodur", Amount::stated(0.01, ug_l()))), (Answer::CannotTell, name()));
    assert_eq!(with(below("erlenxylodur", 0.05)), (Answer::Below, vec![]));
    // Vinyl chloride is known, and no pesticide.
    assert_eq!(with(found("vinyl chloride", 2.4, 0.1)), (Answer::Below, vec![]));
}

/// A list of which one was not looked for keeps no sum under its limit; one found over it is over all the same.
#[test]
fn a_list_that_is_not_whole_keeps_no_sum() {
    let r = report(&[below("chloroform", 0.1), below("bromoform", 0.1), below("dibromochloromethane", 0.1)]);
    let g = group(&r, "trihalomethanes");
    assert_eq!((g.not_looked_for, g.answer), (1, Answer::CannotTell));
    let r = report(&[found("benzo(b)fluoranthene", 0.3, 0.02)]);
    assert_eq!(group(&r, "pah-of-four").answer, Answer::Above);
}

/// The list of twenty holds from 2026, that of four from 2028.
#[test]
fn pfas_are_summed_by_the_list_that_the_limit_names() {
    let rows = cas::compounds().iter().filter(|c| is_member("pfas-of-20", &c.cas)).map(|c| below(&c.name, 0.001));
    let list: Vec<Compound> = rows.collect();
    let r = report(&list);
    let twenty = group(&r, "pfas-of-20");
    assert_eq!((twenty.looked_for, twenty.answer, twenty.from.as_deref()), (20, Answer::Below, None));
    assert!((twenty.upper.unwrap() - 0.02).abs() < 1e-12);
    let four = group(&r, "pfas-of-4");
    assert_eq!((four.looked_for, four.from.as_deref()), (4, Some("2028-01-12")));
    assert!((four.upper.unwrap() - 0.004).abs() < 1e-12);
    let of = group_limits().iter().filter(|l| l.group == "pfas-of-4").map(|l| l.of);
    assert_eq!(of.collect::<Vec<_>>(), [Of::Sum]);
}

/// A value without u, and a rejected one, bear neither answer; what they hold is in the sum of what was found.
#[test]
fn what_is_stated_without_u_or_rejected_bears_no_answer() {
    let stated = compound("trichloroethene", Amount::stated(1.0, ug_l()));
    let r = report(&[stated, below("tetrachloroethene", 0.1)]);
    let g = group(&r, "tri-and-tetrachloroethene");
    assert_eq!((g.lower, g.upper, g.answer), (1.0, None, Answer::CannotTell));
    assert_eq!(g.open, ["trichloroethene"]);
    let rejected = |c: Compound| Compound { rejected: true, ..c };
    let r = report(&[rejected(found("trichloroethene", 40.0, 1.0)), rejected(below("tetrachloroethene", 0.1))]);
    let g = group(&r, "tri-and-tetrachloroethene");
    assert_eq!((g.lower, g.upper, g.answer), (40.0, None, Answer::CannotTell));
    assert_eq!((r.found.as_slice(), r.highest_sum), (["trichloroethene".to_string()].as_slice(), None));
    assert_eq!(r.found_rows()[0].answer, None);
}

#[test]
fn what_no_table_names_is_told() {
    let r = report(&[found("erlenxylodur", 0.3, 0.02), below("DEET", 0.01), below("diuron", 0.01)]);
    assert_eq!(r.without_limit, ["erlenxylodur", "DEET"]);
    assert_eq!((r.found_rows()[0].limit, r.found_rows()[0].answer), (None, None));
}
