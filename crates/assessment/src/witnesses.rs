//! What stands beside the chain of events: who signed what with which key, which heads others keep, and whether the
//! moments of the events run forward.
//!
//! The chain says that nothing was altered since it was written; whoever can write all of it anew makes another chain that
//! says the same. What others keep cannot be rewritten with it: a head that somebody elsewhere holds
//! ([`Shown`]), a signature whose key is elsewhere. In: the record, and what was shown from outside. Out: what the last
//! anchor and the last signature cover, every event since, and faults where the record is not what they know.
//!
//! Moments are compared only where they name their offset from universal time. A clock that was wrong is named and is no
//! fault: nobody's clock is always right. Checked in `crates/programme/tests/rewritten.rs` and `crates/cli/tests/proofs.rs`.

use message::{Arg, Date, Message, Name, count, trust as says};
use record::error::Error;
use record::model::{AnchorKind, KeyEnd, PersonKey, SignOff, Signed, SignedWhat};
use record::store::{Cell, Event, EventHash, Store, StoreError};
use std::collections::{BTreeMap, HashMap, HashSet};
use trust::line::NO_IDENTITY;
use trust::{Head, Key, KeyHeld, SignOffLine, SignatureError, Stamp};

/// How far a moment may lie ahead of this computer's clock before it is named, seconds: two clocks that are set by hand
/// differ by so much. A judgement.
const AHEAD_S: i64 = 120;

/// Moments out of order that a person is told one by one; programs get all.
const MOMENTS: usize = 20;

/// What somebody holds against the record.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Evidence {
    /// A line of a head.
    Head(Head),
    /// A time stamp of others.
    Stamp(Stamp),
}

/// Evidence from a file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Shown {
    /// The file, as it may be shown.
    pub file: String,
    /// Whether it lies beside the programme, where one hand can rewrite both.
    pub beside: bool,
    /// What is in it.
    pub evidence: Evidence,
}

/// What verifying is asked.
#[derive(Debug, Clone, Copy, Default)]
pub struct Asked<'a> {
    /// A head hash noted elsewhere.
    pub noted: Option<EventHash>,
    /// Anchors held against it.
    pub shown: &'a [Shown],
    /// The moment, ISO 8601; none where no clock is asked.
    pub now: Option<&'a str>,
}

/// How a sign-off was made.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Way {
    /// Signed by a key that is elsewhere.
    Key,
    /// By somebody who had logged in.
    Login,
    /// Under a name that was typed.
    Typed,
}

impl Way {
    /// In words.
    pub fn message(self) -> Message {
        match self {
            Self::Key => says::ByKey.into(),
            Self::Login => says::ByLogin.into(),
            Self::Typed => says::Typed.into(),
        }
    }
}

/// The member of a sign-off's event that says how it was made, and its word for a login.
pub const WAY: (&str, &str) = ("way", "login");

/// How each sign-off on record was made, by its row.
///
/// # Errors
/// The store cannot be read.
pub fn ways(store: &Store) -> Result<HashMap<i64, Way>, StoreError> {
    let by_key: HashSet<i64> = signatures(store)?.iter().filter_map(|s| s.sign_off_id).collect();
    let offs = store.sign_offs()?;
    if offs.is_empty() {
        return Ok(HashMap::new());
    }
    let login: HashSet<i64> =
        store.events()?.iter().filter(|e| e.json["body"][WAY.0] == WAY.1).map(|e| e.number).collect();
    let way = |s: &SignOff| match (by_key.contains(&s.id), login.contains(&s.event)) {
        (true, _) => Way::Key,
        (false, true) => Way::Login,
        (false, false) => Way::Typed,
    };
    Ok(offs.iter().map(|s| (s.id, way(s))).collect())
}

/// Signatures by key; none in a record of an older schema that cannot be written.
fn signatures(store: &Store) -> Result<Vec<Signed>, StoreError> {
    if store.has_table("signed")? { store.signatures_by_key() } else { Ok(vec![]) }
}

/// What witnesses say of a record.
#[derive(Debug, Clone, Default)]
pub struct Witnesses {
    /// Identity of the programme.
    pub identity: Option<String>,
    /// Number of the last event that the last anchor covers, and what is said of it; none without an anchor.
    pub anchor: Option<(i64, Message)>,
    /// The same of the last signature by key.
    pub signature: Option<(i64, Message)>,
    /// Numbers of the sign-offs: by key, by login, typed.
    pub sign_offs: [usize; 3],
    /// What was shown and counts as no anchor.
    pub set_aside: Vec<Message>,
    /// Where the record is not what its witnesses know: it was altered.
    pub faults: Vec<Message>,
    /// Moments out of order: named, and no fault.
    pub moments: Vec<Message>,
    /// The events after the last anchor.
    pub since_anchor: Vec<Message>,
    /// The events after the last signature by key.
    pub since_signature: Vec<Message>,
    /// How many events stand after the last anchor, and after the last signature.
    pub since: [i64; 2],
}

impl Witnesses {
    /// What a person is told, line by line; faults stand apart.
    pub fn messages(&self) -> Vec<Message> {
        let mut out = self.set_aside.clone();
        let since = |n: i64, acts: &[Message]| match n {
            0 => says::NoneSince.into(),
            n => says::Since { n, acts: acts.iter().cloned().map(Arg::Message).collect() }.into(),
        };
        match &self.anchor {
            Some((_, said)) => out.extend([said.clone(), since(self.since[0], &self.since_anchor)]),
            None => out.push(says::NoAnchor.into()),
        }
        match &self.signature {
            Some((_, said)) => out.extend([said.clone(), since(self.since[1], &self.since_signature)]),
            None => out.push(says::NoSignature.into()),
        }
        let [keys, logins, typed] = self.sign_offs.map(count);
        if keys + logins + typed > 0 {
            out.push(says::SignOffs { keys, logins, typed }.into());
        }
        out.extend(self.moments.iter().take(MOMENTS).cloned());
        if self.moments.len() > MOMENTS {
            out.push(says::MoreMoments { n: count(self.moments.len() - MOMENTS) }.into());
        }
        out
    }
}

/// Looks at all witnesses. `whole`: rows and events are what the chain says, so that the record's own witnesses can be
/// read; else only what was shown from outside is held against it.
///
/// # Errors
/// The store cannot be read.
pub fn look(store: &Store, asked: &Asked, whole: bool) -> Result<Witnesses, Error> {
    let events = store.events()?;
    let record = Record {
        identity: store.identity()?,
        heads: events.iter().map(|e| e.hash.0).collect(),
        stamped: std::cell::OnceCell::new(),
    };
    let mut out = Witnesses { identity: record.identity.clone(), ..Witnesses::default() };
    if whole {
        record.own_anchors(store, &mut out)?;
        record.own_signatures(store, &mut out)?;
        for way in ways(store)?.into_values() {
            out.sign_offs[way as usize] += 1;
        }
    }
    for shown in asked.shown {
        record.hold(shown, &mut out);
    }
    let last = count(events.len());
    let covered = |w: &Option<(i64, Message)>| w.as_ref().map_or(last, |(n, _)| *n);
    let (anchored, signed) = (covered(&out.anchor), covered(&out.signature));
    out.since = [last - anchored, last - signed];
    out.since_anchor = in_groups(&events, anchored);
    out.since_signature = in_groups(&events, signed);
    out.moments = moments(&events, asked.now);
    Ok(out)
}

/// What others know of it, held against it.
struct Record {
    identity: Option<String>,
    /// The head after each event.
    heads: Vec<[u8; 32]>,
    /// What would have been stamped after each event, with its number; made when the first stamp is looked at.
    stamped: std::cell::OnceCell<HashMap<[u8; 32], i64>>,
}

impl Record {
    fn head(&self, events: i64) -> Option<Head> {
        let head = *self.heads.get(usize::try_from(events).ok()?.checked_sub(1)?)?;
        Some(Head { programme: self.identity.clone(), events: events.unsigned_abs(), head })
    }

    /// The event whose head was stamped.
    fn stamped(&self, stamp: &Stamp) -> Option<i64> {
        let all = self.stamped.get_or_init(|| {
            let heads = (1..=count(self.heads.len())).filter_map(|n| Some((self.head(n)?.imprint(), n)));
            heads.collect()
        });
        all.get(&stamp.imprint).copied()
    }

    /// What is wrong with a head, if anything.
    fn fault(&self, file: &str, head: &Head) -> Option<Message> {
        let file = || Name::from(file);
        if head.programme != self.identity {
            let of = |p: &Option<String>| Name::from(p.clone().unwrap_or_else(|| NO_IDENTITY.into()));
            let (theirs, ours) = (of(&head.programme), of(&self.identity));
            return Some(says::AnchorOfAnother { file: file(), theirs, ours }.into());
        }
        let events = i64::try_from(head.events).unwrap_or(i64::MAX);
        match self.head(events) {
            None => Some(says::AnchorLater { file: file(), events, here: count(self.heads.len()) }.into()),
            Some(here) if here.head != head.head => Some(says::AnchorOther { file: file(), event: events }.into()),
            Some(_) => None,
        }
    }

    /// Holds what was shown against the record.
    fn hold(&self, shown: &Shown, out: &mut Witnesses) {
        let file = || Name::from(shown.file.as_str());
        let (events, said) = match &shown.evidence {
            Evidence::Head(head) => {
                if let Some(fault) = self.fault(&shown.file, head) {
                    out.faults.push(fault);
                    return;
                }
                let events = i64::try_from(head.events).unwrap_or(i64::MAX);
                (events, says::AnchorShown { events, file: file() }.into())
            }
            Evidence::Stamp(stamp) => {
                let at = Date::from(stamp.at.as_str());
                let Some(events) = self.stamped(stamp) else {
                    out.faults.push(says::StampOfNone { file: file(), at }.into());
                    return;
                };
                (events, says::StampShown { events, file: file(), at }.into())
            }
        };
        // A stamp bears another's signature, wherever it lies.
        if shown.beside && matches!(shown.evidence, Evidence::Head(_)) {
            out.set_aside.push(says::AnchorBeside { file: file() }.into());
            return;
        }
        // What is shown is worth more than what is only said to be kept.
        if out.anchor.as_ref().is_none_or(|(n, said)| events >= *n || said.is::<says::AnchorKept>()) {
            out.anchor = Some((events, said));
        }
    }

    /// Anchors that the record says others keep.
    fn own_anchors(&self, store: &Store, out: &mut Witnesses) -> Result<(), Error> {
        if !store.has_table("anchor")? {
            return Ok(());
        }
        for a in store.anchors()? {
            let here = self.head(a.events);
            let stamp = a.receipt.as_deref().map(trust::stamp::read);
            let fits = here.as_ref().is_some_and(|h| trust::line::hex(&h.head) == a.head)
                && match (a.kind, stamp, &here) {
                    (AnchorKind::Line, _, _) => true,
                    (AnchorKind::TimeStamp, Some(Ok(stamp)), Some(here)) => stamp.imprint == here.imprint(),
                    (AnchorKind::TimeStamp, _, _) => false,
                };
            if !fits {
                out.faults.push(says::AnchorOnRecord { n: a.event }.into());
                continue;
            }
            let who = Name::from(a.kept_by);
            let said = match a.stamped_at {
                Some(at) => says::StampKept { events: a.events, who, at: Date::from(at) }.into(),
                None => says::AnchorKept { events: a.events, who }.into(),
            };
            if out.anchor.as_ref().is_none_or(|(n, _)| a.events >= *n) {
                out.anchor = Some((a.events, said));
            }
        }
        Ok(())
    }

    /// Signatures by key that the record holds.
    fn own_signatures(&self, store: &Store, out: &mut Witnesses) -> Result<(), Error> {
        if !store.has_table("signed")? {
            return Ok(());
        }
        let raw = Written::of(store)?;
        let keys: HashMap<i64, PersonKey> = store.person_keys()?.into_iter().map(|k| (k.id, k)).collect();
        let ends = store.key_ends()?;
        for k in keys.values() {
            if !self.proved(&raw, k) {
                let (key, person) = (Name::from(k.fingerprint.as_str()), Name::from(k.person.as_str()));
                out.faults.push(says::KeyUnproved { key, person }.into());
            }
        }
        let offs: HashMap<i64, SignOff> = store.sign_offs()?.into_iter().map(|s| (s.id, s)).collect();
        for s in signatures(store)? {
            let Some(key) = keys.get(&s.person_key_id) else { continue };
            match self.why_not(&raw, (&s, key), s.sign_off_id.and_then(|id| offs.get(&id)), &ends) {
                Some(why) => {
                    let (n, person) = (s.event, Name::from(key.person.as_str()));
                    out.faults.push(says::SignatureIsNone { n, person, why }.into());
                }
                None if out.signature.as_ref().is_none_or(|(n, _)| s.events >= *n) => {
                    let (person, key) = (key.person.as_str().into(), key.fingerprint.as_str().into());
                    out.signature = Some((s.events, says::LastSignature { person, key, events: s.events }.into()));
                }
                None => {}
            }
        }
        Ok(())
    }

    /// Whether the key itself says whose it is.
    fn proved(&self, raw: &Written, k: &PersonKey) -> bool {
        let Some(person) = raw.key_persons.get(&k.id).and_then(|id| raw.persons.get(id)) else { return false };
        let held = KeyHeld { programme: self.identity.as_deref(), person, fingerprint: &k.fingerprint }.to_string();
        Key::parse(&k.public_key)
            .is_ok_and(|key| key.fingerprint() == k.fingerprint && trust::verify(&key, &held, &k.proof).is_ok())
    }

    /// Why a signature is none, if so.
    fn why_not(
        &self,
        raw: &Written,
        (s, k): (&Signed, &PersonKey),
        off: Option<&SignOff>,
        ends: &[KeyEnd],
    ) -> Option<Message> {
        let line = match s.what {
            SignedWhat::Head => self.head(s.events).map(|h| h.to_string()),
            SignedWhat::SignOff => s.sign_off_id.and_then(|id| self.line_of(raw, id)).map(|(_, line)| line),
        };
        if line.as_deref() != Some(s.line.as_str()) {
            return Some(says::WhyLine.into());
        }
        if off.is_some_and(|off| off.person != k.person) {
            return Some(says::WhyPerson.into());
        }
        if ends.iter().any(|e| e.person_key_id == k.id && e.event < s.event) {
            return Some(says::WhyEnded.into());
        }
        let key = Key::parse(&k.public_key).ok()?;
        Some(match trust::verify(&key, &s.line, &s.signature).err()? {
            SignatureError::Namespace => says::WhyNamespace.into(),
            SignatureError::OtherKey => says::WhyOtherKey.into(),
            SignatureError::OtherText => says::WhyOtherText.into(),
            _ => says::WhyForm.into(),
        })
    }

    /// The event that holds a sign-off, and the line that its person signs.
    fn line_of(&self, raw: &Written, sign_off: i64) -> Option<(i64, String)> {
        let off = raw.sign_offs.get(&sign_off)?;
        let (subject, person) = (raw.subjects.get(&off.subject)?, raw.persons.get(&off.person)?);
        let upon = self.head(off.event)?;
        Some((off.event, SignOffLine { upon, subject, person, why: &off.why }.to_string()))
    }
}

/// A sign-off as it was written.
struct OffWritten {
    event: i64,
    subject: i64,
    person: i64,
    why: String,
}

/// What lines are made of, as it was written: a name that was corrected later does not make an old signature none.
struct Written {
    persons: HashMap<i64, String>,
    subjects: HashMap<i64, String>,
    sign_offs: BTreeMap<i64, OffWritten>,
    key_persons: HashMap<i64, i64>,
}

impl Written {
    fn of(store: &Store) -> Result<Self, StoreError> {
        let first = |table: &str| {
            let mut out = HashMap::new();
            store.dump(table, |id, _, cells| {
                if let Cell::Text(name) = cells[0] {
                    out.insert(id, name.to_owned());
                }
                Ok(())
            })?;
            Ok::<_, StoreError>(out)
        };
        let (mut sign_offs, mut key_persons) = (BTreeMap::new(), HashMap::new());
        store.dump("sign_off", |id, event, cells| {
            if let [Cell::Integer(subject), Cell::Integer(person), Cell::Text(why), ..] = cells {
                let why = (*why).to_owned();
                sign_offs.insert(id, OffWritten { event, subject: *subject, person: *person, why });
            }
            Ok(())
        })?;
        store.dump("person_key", |id, _, cells| {
            if let Cell::Integer(person) = cells[1] {
                key_persons.insert(id, person);
            }
            Ok(())
        })?;
        // Names of the lines: the first column of each.
        Ok(Self { persons: first("person")?, subjects: first("subject")?, sign_offs, key_persons })
    }
}

/// A line that waits to be signed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ToSign {
    /// What is signed.
    pub line: String,
    /// Number of the last event that it covers.
    pub events: i64,
    /// The sign-off; none for the head.
    pub sign_off: Option<i64>,
    /// What the sign-off speaks of; none for the head.
    pub subject: Option<i64>,
}

/// What a person's key has not signed yet: each sign-off that the person made, and the head.
///
/// # Errors
/// The store cannot be read.
pub fn to_sign(store: &Store, person: &str) -> Result<Vec<ToSign>, StoreError> {
    let record = Record {
        identity: store.identity()?,
        heads: store.heads()?.into_iter().map(|h| h.0).collect(),
        stamped: std::cell::OnceCell::new(),
    };
    let raw = Written::of(store)?;
    let signed: HashSet<i64> = signatures(store)?.iter().filter_map(|s| s.sign_off_id).collect();
    let waiting = store.sign_offs()?.into_iter().filter(|s| s.person == person && !signed.contains(&s.id));
    let line = |s: SignOff| {
        record.line_of(&raw, s.id).map(|(events, line)| ToSign {
            line,
            events,
            sign_off: Some(s.id),
            subject: Some(s.subject_id),
        })
    };
    let mut out: Vec<ToSign> = waiting.filter_map(line).collect();
    let events = count(record.heads.len());
    out.extend(record.head(events).map(|h| ToSign { line: h.to_string(), events, sign_off: None, subject: None }));
    Ok(out)
}

/// The head of a record as it stands, as a line for others; none where nothing was done yet.
///
/// # Errors
/// The store cannot be read.
pub fn head(store: &Store) -> Result<Option<Head>, StoreError> {
    let (programme, events, head) = (store.identity()?, store.last_event_number()?, store.head()?);
    Ok(head.map(|h| Head { programme, events: events.unsigned_abs(), head: h.0 }))
}

/// The line of the head after so many events.
///
/// # Errors
/// The store cannot be read.
pub fn head_after(store: &Store, events: i64) -> Result<Option<Head>, StoreError> {
    let (programme, heads) = (store.identity()?, store.heads()?);
    let at = usize::try_from(events - 1).ok().and_then(|n| heads.get(n));
    Ok(at.map(|h| Head { programme, events: events.unsigned_abs(), head: h.0 }))
}

/// Events after one, in groups of the same act by the same person.
fn in_groups(events: &[Event], after: i64) -> Vec<Message> {
    let since: Vec<&Event> = events.iter().filter(|e| e.number > after).collect();
    let groups = since.chunk_by(|a, b| (&a.kind, &a.author) == (&b.kind, &b.author));
    let said = |group: &[&Event]| {
        let (first, last) = (group[0], group[group.len() - 1]);
        let (act, who) = (Name::from(first.kind.as_str()), Name::from(first.author.as_str()));
        match group.len() {
            1 => says::Event { event: first.number, act, who }.into(),
            _ => says::Events { first: first.number, last: last.number, act, who }.into(),
        }
    };
    groups.map(said).collect()
}

/// Events whose moments run backwards, or lie ahead of the clock.
fn moments(events: &[Event], now: Option<&str>) -> Vec<Message> {
    let read = |text: &str| text.parse::<jiff::Timestamp>().ok();
    let now = now.and_then(read);
    let mut out = vec![];
    let mut latest: Option<(jiff::Timestamp, &Event)> = None;
    for e in events {
        let Some(at) = read(&e.at) else { continue };
        if let Some((time, before)) = latest.filter(|(time, _)| at < *time) {
            let (at, earlier) = (Date::from(e.at.as_str()), Date::from(before.at.as_str()));
            out.push(says::ClockBack { event: e.number, at, before: before.number, earlier }.into());
            latest = Some((time, before));
        } else {
            latest = Some((at, e));
        }
        if now.is_some_and(|now| at.as_second() > now.as_second() + AHEAD_S) {
            out.push(says::ClockAhead { event: e.number, at: Date::from(e.at.as_str()) }.into());
        }
    }
    out
}
