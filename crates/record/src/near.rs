//! Did somebody mean another name? Which of the names on record a new one may be a slip of.
//!
//! In: what the names are of ([`Names`]), a name, the names known. Out: the known ones that it may stand for, nearest
//! first: another name of the same thing in English or German, the same in another case or spacing, a letter or two amiss.
//! A proposal is for a person to take or to leave; nothing here is ever applied by itself.
//!
//! What is never near, however few letters differ:
//! * names whose digits, brackets, charges, Roman numbers or letters that stand alone differ: isotopes, states of
//!   oxidation, "as N", wells and bottles of a series;
//! * names that are known to be two things (sulfate, sulfite), or that differ by a chemical ending (-ane, -ene);
//! * unlike fractions: a proposal is of the same pore size, or of water filtered or unfiltered like the other.
//!
//! Letters between two words: optimal string alignment, that is insertions, deletions, changes (Levenshtein 1966, Sov.
//! Phys. Dokl. 10:707) and neighbours that changed places (Damerau 1964, Commun. ACM 7:171), each counted once.
//! Many new names are asked of many known ones by [`known_names`](crate::known_names). Checked below.

use crate::other_names::{self, Kind};

/// What names are of; the rules of nearness follow from it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Names {
    /// Elements, compounds, measured quantities of results.
    Analytes,
    /// Fractions.
    Fractions,
    /// What is read at a well.
    Quantities,
    /// Labels of bottles and of what else stands in series.
    Labels,
    /// Wells, sites, lots: labels or words.
    Places,
    /// People.
    People,
}

/// Proposals made of one name, at most: who has to choose reads no list.
const PROPOSED: usize = 3;

/// Shortest word of which one letter may be amiss: of shorter ones too many are words of their own.
// Our own choice.
const ONE_AMISS: usize = 5;

/// Shortest word of which two letters may be amiss.
// Our own choice.
const TWO_AMISS: usize = 9;

/// Endings that make another compound or another state of oxidation (IUPAC, Nomenclature of Organic Chemistry 2013,
/// P-31 and P-65; Nomenclature of Inorganic Chemistry 2005, IR-8; German endings in common usage; from memory).
const ENDINGS: &[&str] = &[
    "ane", "ene", "yne", "ine", "one", "ole", "ate", "ite", "ide", "ol", "al", "an", "en", "in", "on", "at", "it",
    "id", "ous", "ic", "yl", "ylene",
];

/// Groups whose number is part of a compound's name.
const GROUPS: &[&str] = &["methyl", "ethyl", "propyl", "butyl", "chlor", "brom", "fluor"];

/// Letters to put in, take out, change or swap with their neighbour to make one text of the other.
///
/// ```
/// // The example of textbooks (kitten, sitten, sittin, sitting), and two letters that changed places.
/// assert_eq!((record::near::apart("kitten", "sitting"), record::near::apart("Oks", "Osk")), (3, 1));
/// ```
pub fn apart(a: &str, b: &str) -> usize {
    let (a, b): (Vec<char>, Vec<char>) = (a.chars().collect(), b.chars().collect());
    let mut before: Vec<usize> = vec![];
    let mut last: Vec<usize> = (0..=b.len()).collect();
    for i in 1..=a.len() {
        let mut row = vec![i; b.len() + 1];
        for j in 1..=b.len() {
            row[j] = (last[j - 1] + usize::from(a[i - 1] != b[j - 1])).min(last[j] + 1).min(row[j - 1] + 1);
            if i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1] {
                row[j] = row[j].min(before[j - 2] + 1);
            }
        }
        before = std::mem::replace(&mut last, row);
    }
    last[b.len()]
}

/// A name without what people leave out or write otherwise: in small letters, umlauts in two, without spaces, hyphens,
/// underscores and points.
pub fn folded(name: &str) -> String {
    name.chars().filter(|c| !matches!(c, ' ' | '-' | '‑' | '–' | '_' | '.')).flat_map(small).collect()
}

/// A letter in small, an umlaut as two, a letter with an accent without.
fn small(c: char) -> impl Iterator<Item = char> {
    let text: String = match c {
        'ä' | 'Ä' => "ae".into(),
        'ö' | 'Ö' => "oe".into(),
        'ü' | 'Ü' => "ue".into(),
        'ß' => "ss".into(),
        'é' | 'è' | 'ê' | 'É' => "e".into(),
        'á' | 'à' | 'â' => "a".into(),
        'ó' | 'ò' | 'ô' => "o".into(),
        'µ' | 'μ' => "u".into(),
        c => c.to_lowercase().collect(),
    };
    text.chars().collect::<Vec<_>>().into_iter()
}

/// A name taken apart: words of two letters and more, and what makes another thing of it (digits, signs, letters that
/// stand alone, Roman numbers), in order.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Parts {
    pub words: Vec<String>,
    pub hard: Vec<String>,
}

impl Parts {
    pub fn of(name: &str) -> Self {
        let chars: Vec<char> = name.chars().collect();
        let mut out = Self { words: vec![], hard: vec![] };
        let mut at = 0;
        while at < chars.len() {
            let start = at;
            let class = |c: char| (c.is_alphabetic(), c.is_ascii_digit());
            while at < chars.len() && class(chars[at]) == class(chars[start]) && chars[start].is_alphanumeric() {
                at += 1;
            }
            let run: String = chars[start..at].iter().collect();
            match run.chars().count() {
                0 => {
                    at += 1;
                    let between = |i: Option<usize>| i.and_then(|i| chars.get(i)).is_some_and(|c| c.is_alphanumeric());
                    let joins = between(start.checked_sub(1)) && between(Some(at));
                    match chars[start] {
                        ' ' | '_' | '.' | '(' | ')' | '[' | ']' => {}
                        // Between two signs it joins them, else it is a charge.
                        '-' | '‑' | '–' if joins => {}
                        sign => out.hard.push(sign.to_string()),
                    }
                }
                _ if run.starts_with(|c: char| c.is_ascii_digit()) => out.hard.push(run),
                1 => out.hard.push(run.to_uppercase()),
                _ if is_roman(&run) => out.hard.push(run),
                _ => out.words.push(run.chars().flat_map(small).collect()),
            }
        }
        out
    }

    pub fn letters(&self) -> String {
        self.words.concat()
    }
}

/// A Roman number in capitals, as of a state of oxidation or a second well.
fn is_roman(run: &str) -> bool {
    run.chars().all(|c| matches!(c, 'I' | 'V' | 'X'))
}

/// The known names that a new one may stand for, nearest first, at most three; none where it is known itself.
///
/// ```
/// use record::near::{Names, nearest};
/// let known = ["Pb", "Cr(VI)", "208Pb"];
/// assert_eq!(nearest(Names::Analytes, "Blei", known), ["Pb"]);
/// // Another isotope and another state of oxidation are other things.
/// assert!(nearest(Names::Analytes, "206Pb", known).is_empty() && nearest(Names::Analytes, "Cr(III)", known).is_empty());
/// ```
pub fn nearest<'k>(names: Names, new: &str, known: impl IntoIterator<Item = &'k str>) -> Vec<&'k str> {
    let mut found: Vec<(usize, &str)> = vec![];
    for k in known {
        if k == new {
            return vec![];
        }
        if let Some(how_far) = near(names, new, k) {
            found.push((how_far, k));
        }
    }
    found.sort_unstable();
    found.dedup();
    found.truncate(PROPOSED);
    found.into_iter().map(|(_, k)| k).collect()
}

/// Whether two names are of things that are known to be two: other digits, brackets, charges or letters that stand alone,
/// other species, other pores; of fractions also where one of the two is not understood.
pub fn are_two(names: Names, a: &str, b: &str) -> bool {
    if near(names, a, b).is_some() {
        return false;
    }
    let kind = match names {
        Names::Fractions => return true,
        Names::Analytes => Kind::Analyte,
        Names::Quantities => Kind::Quantity,
        Names::Labels | Names::Places | Names::People => return false,
    };
    let (of_a, of_b) = (other_names::things(kind, a), other_names::things(kind, b));
    if of_a.is_empty() || of_b.is_empty() {
        return Parts::of(a).hard != Parts::of(b).hard;
    }
    of_a.is_disjoint(&of_b)
}

/// How far apart two names are that may be one: 0 where they are other spellings or other names of one thing.
fn near(names: Names, new: &str, known: &str) -> Option<usize> {
    match names {
        Names::Analytes => of_things(Kind::Analyte, new, known),
        Names::Quantities => of_things(Kind::Quantity, new, known),
        Names::Fractions => of_fractions(new, known),
        Names::Labels => (series(new) == series(known) || swapped(&series(new), &series(known))).then_some(0),
        Names::Places => of_places(new, known),
        Names::People => of_people(new, known),
    }
}

fn of_things(kind: Kind, new: &str, known: &str) -> Option<usize> {
    let (a, b) = (other_names::things(kind, new), other_names::things(kind, known));
    if !a.is_empty() && !b.is_empty() {
        let by_other_letters = folded(new) != folded(known) && other_names::are_compounds(&a);
        return (!a.is_disjoint(&b) && !by_other_letters).then_some(0);
    }
    let (n, k) = (Parts::of(new), Parts::of(known));
    if n.hard == k.hard && n.letters() == k.letters() {
        return Some(0);
    }
    // "Chrom(VI)" for Cr(VI): the element by another name, the rest as it is.
    if n.hard == k.hard && !n.hard.is_empty() {
        let (a, b) = (other_names::things(kind, &n.words.join(" ")), other_names::things(kind, &k.words.join(" ")));
        if !a.is_empty() && !b.is_empty() {
            return (!a.is_disjoint(&b)).then_some(0);
        }
    }
    // A name that is known in the trade is no slip of another one.
    if !a.is_empty() {
        return None;
    }
    let slip = |name: &str| slip_of_a_thing(&n, &Parts::of(name));
    other_names::names(&b).filter_map(slip).chain(slip(known)).min()
}

/// One letter amiss in one word, and not where a letter makes another compound.
fn slip_of_a_thing(a: &Parts, b: &Parts) -> Option<usize> {
    let same_form = a.hard == b.hard && a.words.len() == b.words.len();
    let differ: Vec<_> = a.words.iter().zip(&b.words).filter(|(x, y)| x != y).collect();
    let [(x, y)] = differ[..] else { return None };
    let count = |word: &str, group: &str| word.matches(group).count();
    let other_compound = other_ending(x, y) || GROUPS.iter().any(|g| count(x, g) != count(y, g));
    (same_form && !other_compound && amiss(x, y, true)? == 1).then_some(1)
}

/// Whether two words differ by an ending that makes another compound.
fn other_ending(a: &str, b: &str) -> bool {
    let common = a.chars().zip(b.chars()).take_while(|(x, y)| x == y).map(|(x, _)| x.len_utf8()).sum::<usize>();
    // From the first letter that differs, or from one before: "ol" and "one" part after the o.
    [common, common.saturating_sub(1)].iter().any(|from| {
        let rest = |word: &'_ str| word.get(*from..).is_some_and(|r| ENDINGS.contains(&r));
        rest(a) && rest(b)
    })
}

/// Letters amiss between two words, where they are few for their length; `begin`: the first letter must be the same.
fn amiss(a: &str, b: &str, begin: bool) -> Option<usize> {
    let (n, m) = (a.chars().count(), b.chars().count());
    let shorter = n.min(m);
    if n.abs_diff(m) > 2 || shorter < ONE_AMISS {
        return None;
    }
    let first_same = a.chars().next() == b.chars().next();
    match apart(a, b) {
        0 => Some(0),
        1 if first_same || !begin => Some(1),
        2 if first_same && shorter >= TWO_AMISS => Some(2),
        _ => None,
    }
}

/// What water a fraction is of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Water {
    Unfiltered,
    Filtered,
    /// Through pores of this width, nm.
    Through(u64),
    Other,
}

/// Words beside a pore size that say no more than that it is one.
const OF_A_FILTER: &[&str] =
    &["filtered", "filtriert", "gefiltert", "filter", "membrane", "membran", "through", "durch", "pore", "pores"];

impl Water {
    pub fn of(fraction: &str) -> Self {
        match other_names::written_here(Kind::Fraction, fraction) {
            Some("unfiltered") => return Self::Unfiltered,
            Some("filtered") => return Self::Filtered,
            _ => {}
        }
        Self::through(fraction).map_or(Self::Other, Self::Through)
    }

    /// A pore size: one number with a unit of length, and no word but that it was filtered.
    fn through(fraction: &str) -> Option<u64> {
        let text: String = fraction.chars().flat_map(small).map(|c| if c == ',' { '.' } else { c }).collect();
        // What stays on the filter (>) is another thing than what passes it (<).
        let text = text.trim_start_matches(['<', ' ']).replace(['(', ')'], " ");
        let from = text.find(|c: char| c.is_ascii_digit())?;
        let (before, rest) = text.split_at(from);
        let to = rest.find(|c: char| !c.is_ascii_digit() && c != '.').unwrap_or(rest.len());
        let (number, after) = rest.split_at(to);
        let mut words = after.split(|c: char| c.is_whitespace() || c == '-').filter(|w| !w.is_empty());
        let in_nm = match words.next() {
            Some("um" | "micron" | "microns" | "mikrometer" | "micrometer" | "micrometre") => 1000.0,
            Some("nm") => 1.0,
            _ => return None,
        };
        let said = before.split_whitespace().map(|w| w.trim_end_matches(['.', ':', ';'])).chain(words);
        let plain = said.filter(|w| !w.is_empty()).all(|w| OF_A_FILTER.contains(&w));
        let nm: f64 = number.parse::<f64>().ok()? * in_nm;
        // Pores are told to the nanometre.
        (plain && nm > 0.0).then(|| nm.round() as u64)
    }
}

fn of_fractions(new: &str, known: &str) -> Option<usize> {
    let (a, b) = (Water::of(new), Water::of(known));
    if a != Water::Other && b != Water::Other {
        return (a == b).then_some(0);
    }
    let (n, k) = (Parts::of(new), Parts::of(known));
    if n == k {
        return Some(0);
    }
    if a != Water::Other || n.hard != k.hard || is_negated(&n) != is_negated(&k) {
        return None;
    }
    let slip = |name: &str| words_amiss(&n.words, &Parts::of(name).words, true);
    let all = other_names::things(Kind::Fraction, known);
    other_names::names(&all).filter_map(slip).chain(slip(known)).min()
}

/// Whether a fraction says that something was not done.
fn is_negated(fraction: &Parts) -> bool {
    fraction.words.iter().any(|w| ["un", "non", "not", "nicht"].iter().any(|no| w.starts_with(no)))
}

/// Letters amiss in all of the words together; none where there are too many, or other words.
fn words_amiss(a: &[String], b: &[String], begin: bool) -> Option<usize> {
    if a.concat() == b.concat() {
        return Some(0);
    }
    let mut far = 0;
    for (x, y) in a.iter().zip(b).filter(|(x, y)| x != y) {
        far += amiss(x, y, begin)?;
    }
    (a.len() == b.len() && (1..=2).contains(&far)).then_some(far)
}

/// A label as it stands in its series, whatever its case, with one sign between its parts, O read as 0.
pub(crate) fn series(label: &str) -> String {
    let chars: Vec<char> = label.chars().flat_map(small).map(|c| if c == 'o' { '0' } else { c }).collect();
    let parts = |c: char| matches!(c, ' ' | '-' | '‑' | '–' | '_' | '.' | '/');
    let mut out = String::new();
    let mut after = false;
    for c in chars {
        if parts(c) {
            after = true;
            continue;
        }
        // Between two digits a sign tells one number from two: 1-11 is not 11-1.
        if after && c.is_ascii_digit() && out.ends_with(|l: char| l.is_ascii_digit()) {
            out.push('-');
        }
        after = false;
        out.push(c);
    }
    out
}

/// Whether two neighbouring letters of a word of three or more changed places, and nothing else.
fn swapped(a: &str, b: &str) -> bool {
    let (a, b): (Vec<char>, Vec<char>) = (a.chars().collect(), b.chars().collect());
    let differ: Vec<usize> = (0..a.len().min(b.len())).filter(|i| a[*i] != b[*i]).collect();
    let [i, j] = differ[..] else { return false };
    // A 0 that was an O is a letter here.
    let in_word = |i: Option<usize>| i.and_then(|i| a.get(i)).is_some_and(|c| c.is_alphabetic());
    let word = in_word(Some(i)) && in_word(Some(j)) && (in_word(i.checked_sub(1)) || in_word(Some(j + 1)));
    a.len() == b.len() && j == i + 1 && a[i] == b[j] && a[j] == b[i] && word
}

fn of_places(new: &str, known: &str) -> Option<usize> {
    if series(new) == series(known) {
        return Some(0);
    }
    let (n, k) = (Parts::of(new), Parts::of(known));
    if n.hard != k.hard {
        return None;
    }
    if swapped(&series(new), &series(known)) {
        return Some(1);
    }
    words_amiss(&n.words, &k.words, false)
}

/// The words of a person's name in small letters.
pub(crate) fn words_of(name: &str) -> Vec<String> {
    let all = name.split(|c: char| !c.is_alphanumeric()).filter(|w| !w.is_empty());
    all.map(|w| w.chars().flat_map(small).collect()).collect()
}

/// The digits of all words of a name.
pub(crate) fn digits(words: &[String]) -> String {
    words.concat().chars().filter(char::is_ascii_digit).collect()
}

fn of_people(new: &str, known: &str) -> Option<usize> {
    let (mut n, mut k) = (words_of(new), words_of(known));
    if n.concat() == k.concat() {
        return Some(0);
    }
    // Numbers tell people of one name apart: "Sampler 1" is nobody's slip for "Sampler 2".
    if digits(&n) != digits(&k) {
        return None;
    }
    // "M. Osk" for Marit Osk.
    if let ([first, rest @ ..], [other, others @ ..]) = (&n[..], &k[..])
        && !rest.is_empty()
        && rest == others
        && (first.chars().count() == 1 || other.chars().count() == 1)
        && first.chars().next() == other.chars().next()
    {
        return Some(1);
    }
    // "Osk, Marit": the same words in another order.
    n.sort_unstable();
    k.sort_unstable();
    if n == k {
        return Some(0);
    }
    let whole = |name: &[String]| name.join(" ");
    let (a, b) = (whole(&words_of(new)), whole(&words_of(known)));
    amiss(&a, &b, false)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn letters_between_two_names() {
        assert_eq!((apart("", "Osk"), apart("Osk", ""), apart("Osk", "Osk")), (3, 3, 0));
        assert_eq!((apart("Müller", "Muller"), apart("ca", "abc")), (1, 3));
    }

    /// Real pairs of unlike things, none of which may ever be proposed for the other.
    const UNLIKE: &[(Names, &str, &str)] = &[
        (Names::Analytes, "Cr", "Cr(VI)"),
        (Names::Analytes, "Cr(III)", "Cr(VI)"),
        (Names::Analytes, "Chrom(III)", "Cr(VI)"),
        (Names::Analytes, "Chrom gesamt", "Cr(VI)"),
        (Names::Analytes, "As", "As(III)"),
        (Names::Analytes, "As(III)", "As(V)"),
        (Names::Analytes, "Pb", "208Pb"),
        (Names::Analytes, "Pb206", "Pb208"),
        (Names::Analytes, "206Pb/207Pb", "208Pb/206Pb"),
        (Names::Analytes, "Kalium-40", "Kalium"),
        (Names::Analytes, "Kalium-40", "K"),
        (Names::Analytes, "U234", "U238"),
        (Names::Analytes, "Fe2+", "Fe3+"),
        (Names::Analytes, "Fe(II)", "Fe"),
        (Names::Analytes, "NO3", "NO2"),
        (Names::Analytes, "nitrate", "nitrite"),
        (Names::Analytes, "nitrate", "N"),
        (Names::Analytes, "NO3", "NO3-N"),
        (Names::Analytes, "nitrate as N", "nitrate as NO3"),
        (Names::Analytes, "nitrate as N", "NO3"),
        (Names::Analytes, "nitrate N", "nitrate"),
        (Names::Analytes, "NH3", "NH4"),
        (Names::Analytes, "Ammoniak", "ammonium"),
        (Names::Analytes, "sulfate", "sulfite"),
        (Names::Analytes, "Sulfid", "SO4"),
        (Names::Analytes, "Chlorat", "Cl"),
        (Names::Analytes, "Chlor", "Cl"),
        (Names::Analytes, "CO", "Co"),
        (Names::Analytes, "CO2", "CO3"),
        (Names::Analytes, "HCO3", "CO3"),
        (Names::Analytes, "Mg", "Mn"),
        (Names::Analytes, "Cer", "Cs"),
        (Names::Analytes, "terbium", "erbium"),
        (Names::Analytes, "curium", "cerium"),
        (Names::Analytes, "trichloroethane", "trichloroethene"),
        (Names::Analytes, "1,1-dichloroethane", "1,2-dichloroethane"),
        (Names::Analytes, "dimethyl phthalate", "diethyl phthalate"),
        (Names::Analytes, "dichlorobenzene", "chlorobenzene"),
        (Names::Analytes, "methanol", "methanal"),
        (Names::Analytes, "PFOA", "PFOS"),
        (Names::Analytes, "DOC", "TOC"),
        // One compound under two names in a laboratory's list, each with its own limit, counted once by its CAS number.
        (Names::Analytes, "gamma-HCH", "lindane"),
        (Names::Fractions, "unfiltered", "filtered"),
        (Names::Fractions, "unfilterd", "filtered"),
        (Names::Fractions, "filterd", "unfiltered"),
        (Names::Fractions, "ungefiltert", "gefiltert"),
        (Names::Fractions, "unfiltered", "0.45 um"),
        (Names::Fractions, "0.45um", "0.2 um"),
        (Names::Fractions, "filtered", "0.45 um"),
        (Names::Fractions, ">0.45 um", "0.45 um"),
        (Names::Fractions, "0.02-0.45 um", "0.45 um"),
        (Names::Fractions, "total", "unfiltered"),
        (Names::Quantities, "Eh", "pH"),
        (Names::Quantities, "air temperature", "temperature"),
        (Names::Labels, "A-1", "A-2"),
        (Names::Labels, "SL2-26-07-A", "SL2-26-07-B"),
        (Names::Labels, "SL1-11", "SL11-1"),
        (Names::Labels, "FB-26-07-1", "FB-26-07-12"),
        (Names::Labels, "AB-1", "BA-1"),
        (Names::Labels, "E1-2024", "E1-2042"),
        (Names::Places, "SL-1", "SL-2"),
        (Names::Places, "Brunnen Erlengrund 1", "Brunnen Erlengrund 2"),
        (Names::Places, "Brunnen II", "Brunnen III"),
        (Names::Places, "Brunnen A", "Brunnen B"),
        (Names::Places, "Westbrunnen", "Ostbrunnen"),
        (Names::Places, "Nordhang", "Südhang"),
        (Names::People, "Ada Lund", "Ida Berg"),
        (Names::People, "Marit Osk", "Tobin Rell"),
        (Names::People, "Signer 1", "Signer 0"),
        (Names::People, "Sampler 12", "Sampler 2"),
    ];

    #[test]
    fn what_is_another_thing_is_never_proposed() {
        assert!(UNLIKE.len() >= 40);
        for (names, a, b) in UNLIKE {
            for (new, known) in [(a, b), (b, a)] {
                assert_eq!(nearest(*names, new, [*known]), Vec::<&str>::new(), "{new} for {known}");
            }
        }
    }

    #[test]
    fn names_of_two_things_are_told_from_other_words_for_one() {
        for (names, a, b, two) in [
            (Names::Analytes, "Pb", "208Pb", true),
            (Names::Analytes, "Pb", "Zn", true),
            (Names::Analytes, "Pb", "Blei", false),
            (Names::Analytes, "Pb", "Blei laut Labor", false),
            (Names::Analytes, "lindane", "gamma-HCH", false),
            (Names::Fractions, "0.45um", "0.45 um", false),
            (Names::Fractions, "total", "unfiltered", true),
            (Names::Places, "Quelle am Hang", "WK1", false),
        ] {
            assert_eq!((are_two(names, a, b), are_two(names, b, a)), (two, two), "{a} {b}");
        }
    }

    /// Likely slips in English and German, from memory, with what was meant.
    const SLIPS: &[(Names, &str, &str)] = &[
        (Names::Analytes, "Blei", "Pb"),
        (Names::Analytes, "lead", "Pb"),
        (Names::Analytes, "pb", "Pb"),
        (Names::Analytes, "PB", "Pb"),
        (Names::Analytes, "Pb", "Blei"),
        (Names::Analytes, "Kalium", "K"),
        (Names::Analytes, "Kalim", "K"),
        (Names::Analytes, "Arsenic", "As"),
        (Names::Analytes, "cadmiun", "Cd"),
        (Names::Analytes, "Mangaan", "Mn"),
        (Names::Analytes, "Kobalt", "Co"),
        (Names::Analytes, "sulphate", "SO4"),
        (Names::Analytes, "Sulfat", "sulfate"),
        (Names::Analytes, "Hydrogencarbonat", "HCO3"),
        (Names::Analytes, "Chrom(VI)", "Cr(VI)"),
        (Names::Analytes, "Cr VI", "Cr(VI)"),
        (Names::Analytes, "cr(VI)", "Cr(VI)"),
        (Names::Analytes, "Pb-208", "208Pb"),
        (Names::Analytes, "atrazin", "atrazine"),
        (Names::Analytes, "Leitfähigkeit", "conductivity"),
        (Names::Analytes, "Leitfaehigkeit", "conductivity"),
        (Names::Fractions, "unfilterd", "unfiltered"),
        (Names::Fractions, "Unfiltered", "unfiltered"),
        (Names::Fractions, "unfiltriert", "unfiltered"),
        (Names::Fractions, "non-filtered", "unfiltered"),
        (Names::Fractions, "gefiltert", "filtered"),
        (Names::Fractions, "0.45um", "0.45 um"),
        (Names::Fractions, "0,45 µm", "0.45 um"),
        (Names::Fractions, "450 nm", "0.45 um"),
        (Names::Fractions, "filtered 0.45 µm", "0.45 um"),
        (Names::Fractions, "< 0.45 um", "0.45 um"),
        (Names::Quantities, "Temperatur", "temperature"),
        (Names::Quantities, "temprature", "temperature"),
        (Names::Quantities, "ph", "pH"),
        (Names::Quantities, "Conductivity", "conductivity"),
        (Names::Quantities, "Leitfähigkeit", "conductivity"),
        (Names::Labels, "wk1-a", "WK1-A"),
        (Names::Labels, "WK1 A", "WK1-A"),
        (Names::Labels, "WKO-1", "WK0-1"),
        (Names::Labels, "SLA-BLNAK-1", "SLA-BLANK-1"),
        (Names::Places, "Wk 1", "WK1"),
        (Names::Places, "Brunnen Erlengurnd 1", "Brunnen Erlengrund 1"),
        (Names::Places, "Suedbrunnen", "Südbrunnen"),
        (Names::Places, "Sallow Sprng", "Sallow Spring"),
        (Names::People, "Marit Oks", "Marit Osk"),
        (Names::People, "marit osk", "Marit Osk"),
        (Names::People, "Osk, Marit", "Marit Osk"),
        (Names::People, "M. Osk", "Marit Osk"),
        (Names::People, "Müller", "Mueller"),
    ];

    #[test]
    fn a_likely_slip_is_proposed_as_what_was_meant() {
        for (names, slip, meant) in SLIPS {
            // Beside others of its kind, so that nearest means something.
            let known = ["Zn", "silver", "SL-9", "0.1 um", "tritium", meant];
            assert_eq!(nearest(*names, slip, known), [*meant], "{slip}");
        }
    }
}
