//! Comparison with limits: conformance probabilities by JCGM 106, non-detects, bases, the table itself.

#![allow(clippy::float_cmp)] // exact values are meant where they are compared

use limits::terms::{Concern, Rule};
use limits::{Answer, BelowIs, CALCULATIONS, Comparison, Guard, Known, Limit, Options, compare, limits};
use message::{Arg, Message, Shown, limit as said};
use quantity::{Amount, Measured, Outcome, Unit};
use serde_json::{Value, json};

fn limit(analyte: &str, authority: &str) -> Limit {
    limits().iter().find(|l| l.analyte == analyte && l.authority == authority).expect("the table holds it").clone()
}

fn answer(amount: &Amount, l: &Limit, guard: Guard) -> (Answer, Option<f64>) {
    let c = compare(amount, l, &Options { guard, ..Options::default() });
    (c.answer, c.probability_under)
}

fn ug(value: f64, u: f64) -> Amount {
    Amount::measured(value, u, Unit::known("ug/L"))
}

#[test]
fn a_guard_band_of_one_u_leaves_2_3_percent_risk() {
    // JCGM 106: r = 1 gives a consumer's risk of at most Φ(−2) = 0.02275 (recalled; computed limit 10, u 0.5:
    // accept below 9.18 at 5 % risk, below 9.00 with r = 1).
    let l = limit("Pb", "WHO");
    assert_eq!(l.high, 10.0);
    for (y, guard, want) in [
        (9.17, Guard::Probability(0.95), Answer::Below),
        (9.19, Guard::Probability(0.95), Answer::CannotTell),
        (8.99, Guard::ExpandedU(1.0), Answer::Below),
        (9.01, Guard::ExpandedU(1.0), Answer::CannotTell),
        (10.99, Guard::ExpandedU(1.0), Answer::CannotTell),
        (11.01, Guard::ExpandedU(1.0), Answer::Above),
        (10.83, Guard::Probability(0.95), Answer::Above),
        (9.9, Guard::None, Answer::Below),
        (10.1, Guard::None, Answer::Above),
    ] {
        assert_eq!(answer(&ug(y, 0.5), &l, guard).0, want, "{y} {guard:?}");
    }
    let p = answer(&ug(9.0, 0.5), &l, Guard::None).1.unwrap();
    assert!((p - (1.0 - 0.0227501319)).abs() < 1e-9, "{p}");
}

#[test]
fn few_degrees_of_freedom_use_student() {
    // scipy 1.17.1: stats.t.cdf(2, 3) = 0.930337
    let m = Amount::Measured(Measured::with_dof(9.0, 0.5, 3.0, Unit::known("ug/L")));
    let p = answer(&m, &limit("Pb", "WHO"), Guard::None).1.unwrap();
    assert!((p - 0.930337).abs() < 1e-6, "{p}");
}

#[test]
fn units_and_bases_are_joined_and_never_guessed() {
    let l = limit("Pb", "WHO");
    assert_eq!(answer(&Amount::measured(1.05, 0.06, Unit::known("ng/L")), &l, Guard::default()).0, Answer::Below);
    // 12 mg/L as N is 53 mg/L as NO3 (62.004/14.007): above 50.
    let n = limit("NO3", "WHO");
    let (a, _) = answer(&Amount::measured(12.0, 0.3, Unit::known("mg/L as N")), &n, Guard::default());
    assert_eq!(a, Answer::Above);
    // As N above, as NO3 below: it says what to write.
    let c = compare(&Amount::measured(12.0, 0.3, Unit::known("mg/L")), &n, &Options::default());
    assert_eq!(c.answer, Answer::CannotTell);
    let why = why::<said::BasisOpen>(&c);
    let written = ["write", "or"].map(|key| why.arg(key).cloned());
    assert_eq!(written, ["mg/L as N", "mg/L as NO3"].map(|text| Some(Arg::Name(text.into()))));
    // Moles need no basis: 1 mmol/L is 62 mg/L as NO3.
    let (a, _) = answer(&Amount::measured(1.0, 0.02, Unit::known("mmol/L")), &n, Guard::default());
    assert_eq!(a, Answer::Above);
    let c = compare(&Amount::stated(9.0, Unit::known("degC")), &l, &Options::default());
    assert_eq!(c.answer, Answer::CannotTell);
}

#[test]
fn non_detects_decide_only_where_they_can() {
    let l = limit("Pb", "WHO");
    let nd = |x| Amount::below(x, Unit::known("ug/L"));
    assert_eq!(answer(&nd(1.0), &l, Guard::default()), (Answer::Below, None));
    assert_eq!(answer(&nd(20.0), &l, Guard::default()), (Answer::CannotTell, None));
    assert_eq!(answer(&Amount::above(20.0, Unit::known("ug/L")), &l, Guard::default()).0, Answer::Above);
    assert_eq!(answer(&Amount::above(2.0, Unit::known("ug/L")), &l, Guard::default()).0, Answer::CannotTell);
}

/// Why a comparison came out as it did; it must be of this type.
fn why<T: message::Declared>(c: &Comparison) -> Message {
    match c.message.arg("why") {
        Some(Arg::Message(why)) if why.is::<T>() => why.clone(),
        other => panic!("{}: {other:?}", c.sentence),
    }
}

fn shown(m: &Message, name: &str) -> Shown {
    match m.arg(name) {
        Some(Arg::Amount(shown)) => shown.clone(),
        other => panic!("{name}: {other:?}"),
    }
}

/// A laboratory's iron of 2,100 µg/L without u, limit 200 (EU): 2100/200 = 10.5, told as 10, which claims less; 39 of 200
/// is 0.195, told as 0.2.
#[test]
fn a_value_without_u_is_answered_by_the_value_and_says_how_far() {
    let iron = limit("Fe", "EU");
    let times = |y: f64| {
        let c = compare(&Amount::stated(y, Unit::known("ug/L")), &iron, &Options::default());
        assert_eq!((c.probability_under, c.within_uncertainty), (None, false));
        (c.answer, shown(&why::<said::WithoutU>(&c), "times").said(message::Lang::En))
    };
    assert_eq!(times(2100.0), (Answer::Above, "10".into()));
    assert_eq!(times(39.0), (Answer::Below, "0.2".into()));
    assert_eq!(times(200.0), (Answer::Below, "1".into()));
    // What a person asks of the probability cannot be asked of a value without u.
    let asked = Options { guard: Guard::Probability(0.95), ..Options::default() };
    assert_eq!(compare(&Amount::stated(2100.0, Unit::known("ug/L")), &iron, &asked).answer, Answer::Above);
    let ph = |y: f64| compare(&Amount::stated(y, Unit::known("pH")), &limit("pH", "EU"), &Options::default());
    assert_eq!((ph(9.9).answer, ph(7.0).answer), (Answer::Above, Answer::Below));
    // 9.9 lies 0.4 over 9.5; 7.0 lies 0.5 over 6.5 and 2.5 under 9.5.
    let gaps =
        [shown(&why::<said::WithoutUOutside>(&ph(9.9)), "gap"), shown(&why::<said::WithoutUInside>(&ph(7.0)), "gap")];
    assert_eq!(gaps.map(|g| g.said(message::Lang::En)), ["0.4 pH", "0.5 pH"]);
}

/// The rules of JCGM 106:2012, 8.2 and 8.3 (from memory), with T = 10, u = 0.5 and so U = 1: accepted at simple acceptance up
/// to 10, at guarded acceptance up to 9, rejected at guarded rejection from over 11.
#[test]
fn the_rule_of_the_limit_answers_before_the_probability() {
    use Answer::{Above, Below, CannotTell};
    let held = |rule: Rule, y: f64| {
        let mut l = limit("Pb", "WHO");
        l.terms.rule = rule;
        compare(&ug(y, 0.5), &l, &Options::default())
    };
    for (rule, answers) in [
        (Rule::SimpleAcceptance, [Below, Below, Above, Above]),
        (Rule::GuardedAcceptance, [Below, CannotTell, Above, Above]),
        (Rule::GuardedRejection, [Below, Below, CannotTell, Above]),
    ] {
        assert_eq!([8.9, 9.8, 10.4, 11.1].map(|y| held(rule, y).answer), answers, "{rule:?}");
        let c = held(rule, 9.8);
        // scipy 1.17.1: norm.cdf(0.4) = 0.6554217416103236
        assert!((c.probability_under.unwrap() - 0.6554217416).abs() < 1e-10);
        assert!(c.within_uncertainty && !held(rule, 8.9).within_uncertainty);
        assert_eq!(why::<said::RuleUnder>(&c).arg("rule"), Some(&Arg::Message(rule.message())));
    }
    assert!(held(Rule::SimpleAcceptance, 9.8).answer_message().is::<said::AnswerWithinUncertainty>());
    // The EU's own rule is found with its source, and a person's own limit brings its own.
    let eu = limit("Pb", "EU").terms;
    assert_eq!(eu.rule, Rule::SimpleAcceptance);
    assert!(eu.rule_source.contains("annex III"), "{}", eu.rule_source);
    let own = json!({"results": [{"analyte": "Pb", "value": 9.8, "u": 0.5, "unit": "ug/L"}], "authorities": [],
        "local": [{"analyte": "Pb", "unit": "ug/L", "authority": "District", "limit_high": 10, "rule": "guarded acceptance", "concern": "operation"}]});
    let row = &calc(&own)["rows"][0];
    assert_eq!(
        (&row["answer"], &row["rule"], &row["concern"]),
        (&json!("cannot tell"), &json!("guarded acceptance"), &json!("operation"))
    );
}

/// What stands in the answer of the command.
fn calc(input: &Value) -> Value {
    (CALCULATIONS[0].run)(input).unwrap()
}

/// "< L" beside a limit of 10: a 95 % bound and a detection limit bound the true value (ISO 11843-1), twice a critical value
/// does, a reporting or quantification limit does not (Currie 1968; all from memory).
#[test]
fn what_a_non_detect_shows_at_its_limit_hangs_on_what_its_limit_is() {
    use Answer::{Below, CannotTell};
    let lead = limit("Pb", "WHO");
    for (below_is, answers) in [
        (BelowIs::Bound, [Below, Below, Below, CannotTell]),
        (BelowIs::DetectionLimit, [Below, Below, Below, CannotTell]),
        (BelowIs::QuantificationLimit, [Below, Below, CannotTell, CannotTell]),
        (BelowIs::ReportingLimit, [Below, Below, CannotTell, CannotTell]),
        (BelowIs::NotStated, [Below, Below, CannotTell, CannotTell]),
        (BelowIs::CriticalValue, [Below, CannotTell, CannotTell, CannotTell]),
    ] {
        let known = Known { below_is, ..Known::default() };
        let options = Options { known, ..Options::default() };
        let answer = |x: f64| compare(&Amount::below(x, Unit::known("ug/L")), &lead, &options).answer;
        assert_eq!([5.0, 9.9, 10.0, 10.1].map(answer), answers, "{below_is:?}");
        // The same figure in another unit.
        let ng = compare(&Amount::below(10_000.0, Unit::known("ng/L")), &lead, &options).answer;
        assert_eq!(ng, answers[2], "{below_is:?}");
    }
    for (words, kind) in [
        ("MDL", BelowIs::CriticalValue),
        ("method detection limit", BelowIs::CriticalValue),
        ("LOD", BelowIs::DetectionLimit),
        ("LOQ", BelowIs::QuantificationLimit),
        ("limit of quantification", BelowIs::QuantificationLimit),
        ("MRL", BelowIs::ReportingLimit),
        ("bound", BelowIs::Bound),
    ] {
        assert_eq!(BelowIs::parse(words), Some(kind), "{words}");
    }
    assert_eq!(BelowIs::parse("X7"), None);
}

/// The limit of the EU holds at 20 °C. Of the ions of the table of limiting conductivities, as powers of viscosity (water:
/// 1.7916, 1.0016 and 0.8900 mPa·s at 0, 20 and 25 °C, IAPWS 2008, from memory), all but H+ lie within the range.
#[test]
fn conductivity_is_compared_at_the_temperature_of_its_limit() {
    let mut ions = csv::Reader::from_path("../../reference/ion_conductivity.csv").unwrap();
    let ratios: Vec<f64> = ions
        .records()
        .map(|r| r.unwrap())
        .filter(|r| &r[0] != "H+")
        .map(|r| {
            let [at_25, at_0]: [f64; 2] = [1, 2].map(|i| r[i].parse().unwrap());
            (0.8900f64 / 1.0016).powf((at_25 / at_0).ln() / (1.7916f64 / 0.8900).ln())
        })
        .collect();
    assert!(ratios.len() > 15 && ratios.iter().all(|r| (0.8895..=0.9105).contains(r)), "{ratios:?}");
    let eu = limit("conductivity", "EU");
    let at = |amount: &Amount, degc| {
        let known = Known { conductivity_at_degc: degc, ..Known::default() };
        compare(amount, &eu, &Options { known, ..Options::default() })
    };
    let stated = Amount::stated(2600.0, Unit::known("uS/cm"));
    // 2,600 at 25 °C is 2,340 at 20 °C; 2,600 at 20 °C is over 2,500.
    let c = at(&stated, None);
    assert_eq!((c.answer, c.amount.value()), (Answer::Below, Some(2340.0)));
    assert_eq!(shown(&why::<said::ConductivityAt>(&c), "to"), Shown::as_given(20.0, "°C"));
    assert_eq!(at(&stated, Some(20.0)).answer, Answer::Above);
    assert_eq!(at(&Amount::stated(2.9, Unit::known("mS/cm")), None).answer, Answer::Above);
    // u: 10·0.9 beside 2600·0.01/√3 = 15.011; together 17.502.
    let u = at(&Amount::measured(2600.0, 10.0, Unit::known("uS/cm")), None).amount.u().unwrap();
    assert!((u - 17.502).abs() < 0.001, "{u}");
    let other = at(&stated, Some(9.0));
    assert_eq!(other.answer, Answer::CannotTell);
    assert!(
        other.message.is::<said::NotComparable>() && why::<said::ConductivityAtOther>(&other).arg("from").is_some()
    );
}

/// Nitrate 1 mg/L: as N 4.4 as NO3, both under 50. Sulfide 0.03 as S is 0.0319 as H2S (34.08/32.06), both under 0.05; 0.049
/// as S is 0.0521.
#[test]
fn a_basis_that_is_left_open_is_read_both_ways() {
    let held = |y: f64, of: &str| {
        let authority = if of == "NO3" { "EU" } else { "WHO" };
        compare(&Amount::measured(y, 0.0001, Unit::known("mg/L")), &limit(of, authority), &Options::default())
    };
    assert_eq!(held(1.0, "NO3").answer, Answer::Below);
    assert_eq!(held(60.0, "NO3").answer, Answer::Above);
    why::<said::BasisOpenSame>(&held(1.0, "NO3"));
    // For the order of rows it is read as N: 4.427 (62.005/14.007) over 50.
    assert!((held(1.0, "NO3").share_of_limit() - 0.08853).abs() < 1e-4);
    assert_eq!(
        [0.03, 0.049, 0.06].map(|y| held(y, "S(-II)").answer),
        [Answer::Below, Answer::CannotTell, Answer::Above]
    );
    let open = why::<said::BasisOpen>(&held(0.049, "S(-II)"));
    assert_eq!(open.arg("write"), Some(&Arg::Name("mg/L as S".into())));
}

/// 0.08 mg/L as H2S in all against 0.05: half of it undissociated is 0.04, nine tenths 0.072.
#[test]
fn sulfide_is_compared_in_all_and_by_its_undissociated_part() {
    let held = |y: f64, undissociated: Option<f64>| {
        let known = Known { undissociated, ..Known::default() };
        let amount = Amount::measured(y, 0.001, Unit::known("mg/L as H2S"));
        compare(&amount, &limit("S(-II)", "WHO"), &Options { known, ..Options::default() })
    };
    let differ = held(0.08, Some(0.5));
    assert_eq!(differ.answer, Answer::CannotTell);
    why::<said::SulfideDiffer>(&differ);
    let both = held(0.08, Some(0.9));
    assert_eq!(both.answer, Answer::Above);
    why::<said::SulfideBoth>(&both);
    assert_eq!(held(0.03, Some(0.5)).answer, Answer::Below);
    why::<said::SulfideTotal>(&held(0.03, None));
    assert_eq!(held(0.08, None).answer, Answer::Above);
    why::<said::SulfideTotalAlone>(&held(0.08, None));
}

/// The US goal of lead is zero (40 CFR 141 subpart F, from memory).
#[test]
fn a_goal_of_zero_is_held_against_what_could_have_been_seen() {
    let goal = limits().iter().find(|l| l.analyte == "Pb" && l.high == 0.0).unwrap();
    let held = |amount: Amount, detection_limit: Option<f64>| {
        let known = Known { detection_limit, ..Known::default() };
        compare(&amount, goal, &Options { known, ..Options::default() })
    };
    let none = held(Amount::below(2.0, Unit::known("ng/L")), Some(3.0));
    assert_eq!(none.answer, Answer::CannotTell);
    // 3 ng/L, told in the unit of the limit.
    assert_eq!(shown(&why::<said::GoalNotFound>(&none), "seen").said(message::Lang::En), "0.003 µg/L");
    let found = held(ug(0.5, 0.05), None);
    assert_eq!(found.answer, Answer::Above);
    why::<said::GoalFound>(&found);
    // 0.02 ± 0.05 (u) is not told from nothing.
    why::<said::GoalOpen>(&held(ug(0.02, 0.05), None));
    why::<said::GoalNotFound>(&held(Amount::stated(0.02, Unit::known("ug/L")), Some(0.1)));
    why::<said::GoalFoundOver>(&held(Amount::stated(0.2, Unit::known("ug/L")), Some(0.1)));
    why::<said::GoalFoundWithoutLimit>(&held(Amount::stated(0.2, Unit::known("ug/L")), None));
    // It is no limit that a result could keep: it is never the strictest.
    let lead = || limits().iter().filter(|l| l.analyte == "Pb");
    assert!(lead().any(Limit::is_goal_of_zero));
    assert_eq!(limits::local::strictest(lead()).unwrap().high, 5.0);
}

/// Uncertainty and quantification limit that the EU demands of lead: U 30 % of 10 µg/L, so 3; quantified from 30 %, so 3.
#[test]
fn a_method_is_held_to_what_the_limit_demands_of_it() {
    let lead = limit("Pb", "EU");
    let held = |y: f64, u: f64, quantification_limit: Option<f64>| {
        let known = Known { quantification_limit, ..Known::default() };
        let amount = Amount::measured(1000.0 * y, 1000.0 * u, Unit::known("ng/L"));
        let m = compare(&amount, &lead, &Options { known, ..Options::default() }).method.unwrap();
        (m.uncertainty.unwrap().outcome, m.quantification.unwrap().outcome)
    };
    // U = 2 at 10: met. U = 4 at 10: not.
    assert_eq!(held(10.0, 1.0, Some(3000.0)), (Outcome::Met, Outcome::Met));
    assert_eq!(held(10.0, 2.0, Some(3100.0)), (Outcome::NotMet, Outcome::NotMet));
    // At a tenth of the limit U = 0.2 is 20 %, so at most 2 at the limit; U = 0.5 is 50 %: at the limit between 0.5 and 5.
    assert_eq!(held(1.0, 0.1, None), (Outcome::Met, Outcome::NotKnown));
    assert_eq!(held(1.0, 0.25, None).0, Outcome::NotKnown);
    // U = 4 at 20 is 20 %: at the limit between 2 and 4.
    assert_eq!(held(20.0, 2.0, None).0, Outcome::NotKnown);
    let who = compare(&ug(1.0, 0.1), &limit("Pb", "WHO"), &Options::default());
    assert_eq!(who.method, None);
    let stated = compare(&Amount::stated(1.0, Unit::known("ug/L")), &lead, &Options::default());
    assert_eq!(stated.method.unwrap().uncertainty.unwrap().outcome, Outcome::NotKnown);
}

/// Manganese 130 µg/L: above Canada's 120 and the WHO's 80 for health, above 20 and 50 for taste; below nothing of health
/// at 60, and the nearest value for health is shown all the same. Figures of the table, from memory as its rows.
#[test]
fn what_lies_above_a_limit_for_health_stands_first() {
    let ask = |value: f64| {
        calc(&json!({"results": [{"analyte": "Mn", "value": value, "u": 1, "unit": "ug/L"},
            {"analyte": "Pb", "value": 1, "u": 0.1, "unit": "ug/L"}], "on": "2026-07-14"}))
    };
    let order = |out: &Value| -> Vec<(String, String)> {
        let text = |v: &Value| v.as_str().unwrap().to_string();
        out["rows"].as_array().unwrap().iter().map(|r| (text(&r["answer"]), text(&r["concern"]))).collect()
    };
    let all = order(&ask(130.0));
    let above: Vec<&str> = all.iter().take_while(|r| r.0 == "above").map(|r| r.1.as_str()).collect();
    // WHO 80, Canada 120; then 20, 50, 50 for taste; the goal of zero for lead last of what lies above.
    assert_eq!(above, ["health", "health", "taste", "taste", "taste", "health"]);
    assert_eq!(ask(130.0)["exceedances"], 5);
    assert!(all[above.len()..].iter().all(|r| r.0 == "below"), "{all:?}");
    let met = ask(60.0);
    assert_eq!(order(&met)[0], ("above".into(), "taste".into()));
    let health = &met["nearest_health"][0];
    assert_eq!(
        (&health["limit"], &health["answer"], &health["concern"]),
        (&json!(80.0), &json!("below"), &json!("health"))
    );
}

/// Every kind of the table has its concern in `reference/limit_concerns.csv` and every authority its rule.
#[test]
fn every_limit_says_what_it_is_set_for_and_by_which_rule() {
    for l in limits() {
        assert!(!l.terms.concern_source.starts_with("not stated"), "{l:?}");
        assert!(!l.terms.rule_source.starts_with("no rule stated; JCGM 106:2012, 8.2 (recalled)"), "{l:?}");
        let named = Message::named("limit_kind", &l.kind);
        assert!(named.is_some_and(|m| message::Lang::ALL.iter().all(|lang| m.said(*lang).is_some())), "{}", l.kind);
    }
    let concern = |analyte, authority| limit(analyte, authority).terms.concern;
    assert_eq!(
        [concern("Pb", "WHO"), concern("Fe", "EU"), concern("NH4", "EU"), concern("pH", "WHO")],
        [Concern::Health, Concern::Taste, Concern::Operation, Concern::Operation]
    );
}

/// Lead in the US: 15 µg/L as action level, 10 from November 2027 (from memory, as the table).
#[test]
fn a_limit_is_that_of_the_day_and_the_next_one_is_named() {
    let ask = |on: &str| {
        calc(
            &json!({"results": [{"analyte": "Pb", "value": 12, "u": 0.1, "unit": "ug/L"}], "authorities": ["US"], "on": on}),
        )
    };
    let action = |out: &Value| -> Vec<(f64, String)> {
        let rows = out["rows"].as_array().unwrap();
        let of = rows.iter().filter(|r| r["kind"] == "action level");
        of.map(|r| (r["limit"].as_f64().unwrap(), r["answer"].as_str().unwrap().to_string())).collect()
    };
    let before = ask("2027-10-31");
    assert_eq!(action(&before), [(15.0, "below".into())]);
    assert_eq!(
        (&before["coming"][0]["limit"], &before["coming"][0]["valid_from"]),
        (&json!(10.0), &json!("2027-11-01"))
    );
    let after = ask("2027-11-01");
    assert_eq!(action(&after), [(10.0, "above".into())]);
    assert_eq!(after["coming"], json!([]));
    let lead = limits().iter().find(|l| l.high == 10.0 && l.authority == "US EPA" && l.analyte == "Pb").unwrap();
    let coming = limits::local::coming_in_words(lead);
    assert_eq!(coming.arg("year"), Some(&Arg::Name("2027".into())));
}

/// A probability near its ends is told as a bound, not by its zeros.
#[test]
fn a_probability_near_one_is_told_as_a_bound() {
    let out = calc(
        &json!({"results": [{"analyte": "Fe", "value": 2100, "u": 50, "unit": "ug/L"}, {"analyte": "Pb", "value": 0.001, "u": 0.0001, "unit": "ug/L"}], "authorities": ["EU"]}),
    );
    let told: Vec<&str> =
        out["rows"].as_array().unwrap().iter().map(|r| r["probability_in_words"].as_str().unwrap()).collect();
    assert_eq!(told, ["< 0.001", "> 0.999"]);
}

#[test]
fn a_range_has_two_ends() {
    let l = limit("pH", "EU");
    let ph = |x| Amount::measured(x, 0.05, Unit::known("pH"));
    assert_eq!(answer(&ph(7.6), &l, Guard::default()).0, Answer::Below);
    assert_eq!(answer(&ph(6.2), &l, Guard::default()).0, Answer::Above);
    assert_eq!(answer(&ph(9.5), &l, Guard::Probability(0.95)).0, Answer::CannotTell);
    // By simple acceptance the end itself is inside.
    assert_eq!(answer(&ph(9.5), &l, Guard::default()).0, Answer::Below);
}

#[test]
fn every_limit_names_its_source_and_how_it_is_known() {
    assert!(limits().len() > 100);
    for l in limits() {
        assert!(["seen", "recalled"].contains(&l.provenance.as_str()), "{l:?}");
        assert!(!l.document.is_empty() && !l.edition.is_empty() && !l.kind.is_empty() && !l.date_read.is_empty());
        assert_eq!(l.date_read == "not read", l.provenance == "recalled", "{l:?}");
        assert_eq!(l.unit.basis().is_some(), !l.basis.is_empty(), "{l:?}");
        assert!(l.low.is_none_or(|low| low < l.high));
        assert!(l.high > 0.0 || l.kind == "maximum contaminant level goal", "{l:?}");
    }
    // Lead in the EU steps from 10 to 5 on a day.
    let on = |d| -> Vec<f64> {
        limits().iter().filter(|l| l.analyte == "Pb" && l.authority == "EU" && l.holds_on(d)).map(|l| l.high).collect()
    };
    assert_eq!((on("2036-01-11"), on("2036-01-12")), (vec![10.0], vec![5.0]));
}

/// Chromium in the EU: 50 until 2036-01-11, 25 from 2036-01-12 (directive 2020/2184, annex I; from memory, as the table).
#[test]
fn a_limit_of_later_years_does_not_decide() {
    let c = &CALCULATIONS[0];
    let ask = |on: serde_json::Value| {
        let mut input =
            json!({"results": [{"analyte": "Cr", "value": 30, "u": 1, "unit": "ug/L"}], "authorities": ["EU"]});
        input.as_object_mut().unwrap().extend(on.as_object().unwrap().clone());
        (c.run)(&input)
    };
    for day in [json!({"on": "2026-07-14"}), json!({"date": "2026-07-14"}), json!({})] {
        let out = ask(day.clone()).unwrap();
        let rows = out["rows"].as_array().unwrap();
        let seen: Vec<_> = rows.iter().map(|r| (r["limit"].as_f64().unwrap(), r["answer"].as_str().unwrap())).collect();
        assert_eq!(seen, [(50.0, "below")], "{day}");
        assert_eq!((&out["strictest"][0]["limit"], &out["strictest"][0]["answer"]), (&json!(50.0), &json!("below")));
        assert_eq!(out["on"], day.get("on").or(day.get("date")).cloned().unwrap_or_default());
        assert_eq!((&out["coming"][0]["limit"], &out["coming"][0]["valid_from"]), (&json!(25.0), &json!("2036-01-12")));
        assert_eq!(out["coming"][0].get("answer"), None);
    }
    let later = ask(json!({"on": "2036-01-12"})).unwrap();
    assert_eq!((&later["rows"][0]["limit"], &later["rows"][0]["answer"]), (&json!(25.0), &json!("above")));
    assert_eq!(later["coming"], json!([]));
    for (bad, part) in [
        (json!({"on": "14.07.2026"}), "on"),
        (json!({"on": 2026}), "on"),
        (json!({"on": "2026-07-14", "date": "2027-07-14"}), "date"),
        (
            json!({"local": [{"analyte": "Cr", "unit": "ug/L", "authority": "Us", "limit_high": 9, "valid_from": "12.01.2036"}]}),
            "local[0].valid_from",
        ),
    ] {
        let message = ask(bad).unwrap_err().to_string();
        assert!(message.starts_with(part), "{message}");
    }
    let own = json!({"on": "2026-07-14", "local": [{"analyte": "Cr", "unit": "ug/L", "authority": "Us", "limit_high": 9, "valid_from": "2030-01-01"}]});
    assert_eq!(ask(own).unwrap()["rows"].as_array().unwrap().len(), 1);
    // What a caller without a day takes, for as long as the program runs.
    let standing: Option<&'static Limit> = limits::local::strictest(
        limits::local::holding(&[], None).filter(|l| l.analyte == "Cr" && l.authority == "EU"),
    );
    assert_eq!(standing.map(|l| l.high), Some(50.0));
}

#[test]
fn the_command_line_answers_and_refuses() {
    let c = &CALCULATIONS[0];
    let out = (c.run)(&serde_json::from_str(c.example).unwrap()).unwrap();
    let rows = out["rows"].as_array().unwrap();
    // What lies above stands first: manganese 52 over the EU's 50.
    assert_eq!((&rows[0]["analyte"], &rows[0]["answer"]), (&json!("Mn"), &json!("above")));
    assert_eq!(rows.iter().find(|r| r["analyte"] == "Pb").unwrap()["answer"], "below");
    assert!(out["warnings"].as_array().unwrap().iter().all(|w| !w.as_str().unwrap().contains("safe")));
    serde_json::from_str::<serde_json::Value>(c.schema).unwrap();
    let check = |input: serde_json::Value, part: &str| {
        let message = (c.run)(&input).unwrap_err().to_string();
        assert!(message.contains(part), "{message}");
    };
    check(json!({}), "results");
    check(json!({"results":[{"analyte":"Pb","value":1,"unit":"ppt"}]}), "results[0]");
    check(json!({"results":[{"value":1,"unit":"ug/L"}]}), "results[0].analyte");
    check(json!({"results":[],"authorities":["moon"]}), "one of WHO");
    check(json!({"results":[],"guard":"maybe"}), "guard");
    let named = (c.run)(&json!({"results":[{"analyte":"Lead","value":1,"u":0.1,"unit":"ug/L"},{"analyte":"Co","value":1,"u":0.1,"unit":"ug/L"}]})).unwrap();
    // Lead: WHO, Canada, the EU until 2036, US EPA with its goal; the EU from 2036 and US EPA from 2027 are still to come.
    assert_eq!(named["rows"].as_array().unwrap().len(), 5);
    assert!(named["warnings"][0].as_str().unwrap().starts_with("Co: no limit"));
}
