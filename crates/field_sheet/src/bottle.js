"use strict";
// The place "Bottles": the clean-hands steps as taps. Opening starts the clock of the cabinet or of
// the open air, closing stops it and counts; who, filter, volume and acid stand beside. At most
// twelve entries a bottle, most of them one tap; a bottle handled as the one before takes two.

// Bottles of the programme and those added on this phone.
function bottles() {
  const out = S.bottles.map((b) => ({ ...b }));
  for (const e of of("bottle")) {
    let b = out.find((x) => x.label === e.bottle);
    if (!b) {
      b = { label: e.bottle, added: true };
      out.push(b);
    }
    Object.assign(b, e.sets || {});
  }
  return out;
}

const stepsOf = (label) => of("bottle", (e) => e.bottle === label);
const did = (label, step) => stepsOf(label).filter((e) => e.step === step).pop();

// Openings and minutes from the taps, and whether it stands open now.
function exposure(label) {
  const out = { openings: 0, cabinet_min: 0, open_air_min: 0, open: null };
  for (const e of stepsOf(label)) {
    if (e.step === "opened in the cabinet" || e.step === "opened outdoors") {
      out.openings += 1;
      out.open = e;
    } else if (e.step === "closed" && out.open) {
      out[out.open.step === "opened outdoors" ? "open_air_min" : "cabinet_min"] += (Date.parse(e.at) - Date.parse(out.open.at)) / 60000;
      out.open = null;
    }
  }
  return out;
}

const tenth = (x) => Number(x.toFixed(1));
const closed = (kind) => ["trip-blank", "bottle-blank"].includes(kind);
const isDone = (b) => !!(did(b.label, "travelled closed") || did(b.label, "bags closed") || (did(b.label, "filled") && did(b.label, "closed") && !exposure(b.label).open));
const where = (open) => T(open.step === "opened outdoors" ? "outdoors" : "in-cabinet");

function bottleState(b) {
  const x = exposure(b.label);
  if (x.open) return T("state-open", { place: where(x.open) });
  if (did(b.label, "travelled closed")) return `✓ ${T("step-travelled-closed")}`;
  if (isDone(b)) return `✓ ${T("done")}`;
  if (did(b.label, "filled")) return T("step-filled");
  return T(stepsOf(b.label).length ? "begun" : "to-do");
}

const about = (b) => [b.kind && W(b.kind), b.well, b.lot ? T("lot", { lot: b.lot }) : null, b.fraction && fractionWords(b.fraction)].filter((x) => x).join(" · ");
const bottlePlace = (b) => `bottle/${encodeURIComponent(b.label)}`;

pages.bottles = () => {
  const all = bottles();
  const groups = [...S.wells.map((w) => [w.name, all.filter((b) => b.well === w.name)]), [T("without-well"), all.filter((b) => !b.well)]];
  // What the camera read is the bottle's own code: that step is done.
  const find = (label, read) => {
    const b = all.find((x) => sameLabel(x.label, label));
    if (!b) {
      draft["new-label"] = label;
      return go("bottle-new");
    }
    if (read && !did(b.label, "code read")) keep.add({ what: "bottle", bottle: b.label, step: "code read" }, draft.who);
    return go(bottlePlace(b));
  };
  return [
    h("h2", {}, T("place-bottles")),
    scan("scan-find", T("scan-bottle"), find),
    groups.filter(([, list]) => list.length).map(([name, list]) => [
      h("h3", {}, name),
      h("ul", { class: "list" }, list.map((b) => h("li", {}, h("a", { href: `#${bottlePlace(b)}`, id: `bottle-${key(b.label, all.map((x) => x.label))}` },
        h("b", {}, b.label), h("span", {}, [b.kind && W(b.kind), b.fraction && fractionWords(b.fraction)].filter((x) => x).join(", ")), h("span", { class: "state" }, bottleState(b)))))),
    ]),
    h("p", {}, button("bottle-add", T("add-bottle"), () => go("bottle-new"))),
  ];
};

pages["bottle-new"] = () => {
  draft.fresh ??= { kind: "sample", well: S.wells.length ? S.wells[0].name : null, lot: S.lots.length ? S.lots[0].name : null };
  const d = draft.fresh;
  const pick = (key) => (v) => { d[key] = v; render(); };
  return [
    h("p", {}, h("a", { href: "#bottles", class: "back" }, T("all-bottles"))),
    h("h2", {}, T("add-bottle")),
    h("label", { for: "new-label" }, T("label")),
    h("input", { id: "new-label", value: draft["new-label"] || "", autocomplete: "off", autocapitalize: "characters", oninput: (e) => type("new-label", e.target.value) }),
    h("h3", {}, T("kind")), chips("new-kind", S.choices.kind.map((v) => [v]), d.kind, pick("kind")),
    h("h3", {}, T("well")), chips("new-well", [...S.wells.map((w) => [w.name, w.name]), ["", T("no-well")]], d.well ?? "", (v) => { d.well = v || null; render(); }),
    S.lots.length ? [h("h3", {}, T("lot-name")), chips("new-lot", S.lots.map((l) => [l.name, l.name]), d.lot, pick("lot"))] : null,
    button("new-take", T("add"), () => {
      const label = (draft["new-label"] || "").trim();
      if (!label) return refuse(T("need-label"));
      const there = bottles().find((b) => sameLabel(b.label, label));
      if (there) return refuse(T("there-already", { label: there.label }));
      draft["new-label"] = "";
      enter({ what: "bottle", bottle: label, step: "added", sets: { kind: d.kind, ...(d.well ? { well: d.well } : {}), ...(d.lot ? { lot: d.lot } : {}) } }, T("step-of", { label, step: T("step-added") }));
      return go(bottlePlace({ label }));
    }, { class: "main" }),
  ];
};

// A step in words; one of another version stays as it is.
const stepName = (name) => words()[`step-${slug(name)}`] ?? name;
const stepWords = (b, name) => T("step-of", { label: b.label, step: stepName(name) });

// One step of the clean-hands order as a tap; done steps carry their time.
function step(b, name, sets, text) {
  const done = did(b.label, name);
  return button(`step-${slug(name)}`, [done ? `✓ ${clock(done.at)}  ` : "", text], () =>
    enter({ what: "bottle", bottle: b.label, step: name, ...(sets ? { sets: sets() } : {}) }, stepWords(b, name)),
  { class: done ? "step done" : "step", "aria-pressed": done ? "true" : "false" });
}

// Openings and minutes when it is closed now.
function exposureNow(label) {
  const now = exposure(label);
  const open = now.open ? minutesSince(now.open.at) : 0;
  const outdoors = now.open && now.open.step === "opened outdoors";
  return { openings: now.openings, cabinet_min: tenth(now.cabinet_min + (outdoors ? 0 : open)), open_air_min: tenth(now.open_air_min + (outdoors ? open : 0)) };
}

// A correction by hand of openings and minutes.
function correction(b, x) {
  const [openings, minutes] = [T("openings"), S.units["bottle.cabinet_min"]];
  return fold("correct", T("correct-by-hand"),
    stepper("x-openings", openings, { value: b.openings ?? x.openings, step: 1, places: 0, low: 0, unit: openings }),
    stepper("x-cabinet", T("minutes-in-cabinet"), { value: b.cabinet_min ?? tenth(x.cabinet_min), step: 0.5, places: 1, low: 0, unit: `${minutes} ${T("in-cabinet")}` }),
    stepper("x-open", T("minutes-in-open"), { value: b.open_air_min ?? tenth(x.open_air_min), step: 0.5, places: 1, low: 0, unit: `${minutes} ${T("outdoors")}` }),
    button("x-take", T("take-these"), () => enter({ what: "bottle", bottle: b.label, step: "corrected",
      sets: { openings: Math.round(number("x-openings") ?? 0), cabinet_min: number("x-cabinet") ?? 0, open_air_min: number("x-open") ?? 0 } }, stepWords(b, "corrected"))));
}

const volumeOf = (b) => b.volume_mL ?? S.lots.find((l) => l.name === b.lot)?.volume_mL ?? null;

const BOTTLE_FIELDS = {
  code: (b) => {
    const same = (text) => (sameLabel(text, b.label)
      ? enter({ what: "bottle", bottle: b.label, step: "code read" }, stepWords(b, "code read"))
      : refuse(T("code-other", { code: text, label: b.label })));
    return field("code", step(b, "code read", null, T("bottle-says", { label: b.label })),
      fold("scan", T("scan-code"), scan("scan-code", T("scan-live"), same)));
  },
  sampler: (b) => field("sampler", persons("sampler", b.sampler, (name) => {
    enter({ what: "bottle", bottle: b.label, step: "clean hands", sets: { sampler: name } }, T("is", { what: T("field-sampler-short"), value: name }));
  })),
  bags_open: (b) => field("bags_open", step(b, "bags open", null, T("do-bags-open"))),
  opened: (b) => {
    const x = exposure(b.label);
    if (x.open) return field("opened", told("bad", ticking(() => T("open-for", { place: where(x.open), length: length(minutesSince(x.open.at)) }))));
    return field("opened", h("div", { class: "chips" },
      step(b, "opened in the cabinet", null, T("do-open-cabinet")), step(b, "opened outdoors", null, T("do-open-outdoors"))));
  },
  rinsed: (b) => field("rinsed", step(b, "rinsed", null, T("do-rinse"))),
  filled: (b) => field("filled", step(b, "filled", () => ({ filled_at: keep.stamp() }), T("do-fill"))),
  closed: (b) => {
    const x = exposure(b.label);
    return field("closed",
      step(b, "closed", () => exposureNow(b.label), T("do-close")),
      x.openings ? h("p", { class: "quiet", id: "exposure" }, T("exposure", {
        openings: b.openings ?? x.openings, cabinet: b.cabinet_min ?? tenth(x.cabinet_min), open: b.open_air_min ?? tenth(x.open_air_min) })) : null,
      correction(b, x));
  },
  bags_closed: (b) => field("bags_closed", step(b, "bags closed", null, T("do-bags-close"))),
  filter: (b) => field("filter", chips("filter", [["unfiltered"], ...S.filters.map((f) => [f.name, T("pore-lot", { pore: f.pore_um, lot: f.name })])],
    b.filter || b.fraction, (v) => {
      const f = S.filters.find((x) => x.name === v);
      const sets = f ? { fraction: `${f.pore_um} um`, filter: f.name } : { fraction: "unfiltered" };
      enter({ what: "bottle", bottle: b.label, step: "filter", sets }, `${b.label}: ${setsWords(sets)}`);
    })),
  volume: (b) => field("volume", h("div", { class: "line" },
    stepper("volume", T("field-volume-short"), { value: volumeOf(b) ?? 250, step: 5, places: 0, low: 1, unit: S.units["bottle.volume_mL"] }),
    button("volume-take", T("take"), () => {
      const v = number("volume");
      const make = (x) => ({ what: "bottle", bottle: b.label, step: "volume", sets: { volume_mL: x } });
      if (v === null) return refuse(T("need-volume"));
      return offer({ x: v, bound: "bottle volume", doubts: (x) => unusual("bottle.volume_mL", x), make, text: (x) => `${b.label}: ${setsWords(make(x).sets)}` });
    }))),
  acid: (b) => {
    draft.acid ??= { lot: S.acids.length ? S.acids[S.acids.length - 1].name : null, place: S.choices.acid_place[0] };
    const d = draft.acid;
    if (!S.acids.length) return field("acid", h("p", { class: "quiet" }, T("no-acid")));
    const done = did(b.label, "acid in");
    return field("acid", caution(T("caution-acid")),
      chips("acid-lot", S.acids.map((a) => [a.name, a.name]), d.lot, (v) => { d.lot = v; render(); }),
      chips("acid-place", S.choices.acid_place.map((v) => [v]), d.place, (v) => { d.place = v; render(); }),
      stepper("acid-mL", T("field-acid-short"), { value: b.acid_mL, start: 0.5, step: 0.1, places: 2, low: 0, unit: S.units["bottle.acid_mL"] }),
      button("acid-take", [done ? `✓ ${clock(done.at)}  ` : "", T("do-acid")], () => {
        const mL = number("acid-mL");
        if (mL === null || mL < 0) return refuse(T("need-acid"));
        const make = (x) => ({ what: "bottle", bottle: b.label, step: "acid in", sets: { acid: d.lot, acid_mL: x, acidified_at: keep.stamp(), acidified_place: d.place } });
        return offer({ x: mL, bound: "none", doubts: (x) => unusual("bottle.acid_mL", x), make, text: (x) => `${b.label}: ${setsWords(make(x).sets)}` });
      }, { class: done ? "step done" : "step" }));
  },
  note: (b) => field("note",
    h("textarea", { id: "note", rows: 2, "aria-label": T("note-for", { label: b.label }), oninput: (e) => type("note", e.target.value) }, draft.note ?? b.note ?? ""),
    button("note-take", T("keep-note"), () => {
      const text = (draft.note ?? "").trim();
      return text ? enter({ what: "bottle", bottle: b.label, step: "note", sets: { note: text } }, stepWords(b, "note")) : refuse(T("note-empty"));
    }), photo({ bottle: b.label })),
};

// The bottle closed last on this phone, and what was done with it: what the next one may repeat.
function before(b) {
  const last = of("bottle", (e) => e.step === "closed" && e.bottle !== b.label).pop();
  const p = last && bottles().find((x) => x.label === last.bottle);
  return p && !exposure(p.label).open && isDone(p) ? p : null;
}

// Steps of the bottle before that come at opening and at closing, as entries of this bottle now. Nothing is repeated
// that was not done there; the acid only where both bottles hold the same volume, by which it is measured.
function repeated(p, b) {
  const make = (name, sets) => ({ what: "bottle", bottle: b.label, step: name, ...(sets ? { sets } : {}) });
  const opening = stepsOf(p.label).filter((e) => /^opened /.test(e.step)).pop();
  const now = keep.stamp();
  const acid = did(p.label, "acid in");
  const filter = did(p.label, "filter");
  return {
    open: [
      p.sampler ? make("clean hands", { sampler: p.sampler }) : null,
      did(p.label, "bags open") ? make("bags open") : null,
      make(opening.step),
    ].filter((e) => e),
    close: [
      did(p.label, "rinsed") ? make("rinsed") : null,
      did(p.label, "filled") ? make("filled", { filled_at: now }) : null,
      make("closed", exposureNow(b.label)),
      did(p.label, "bags closed") ? make("bags closed") : null,
      filter ? make("filter", { ...filter.sets }) : null,
      acid && volumeOf(p) === volumeOf(b) ? make("acid in", { ...acid.sets, acidified_at: now }) : null,
    ].filter((e) => e),
  };
}

// "Same as the bottle before": one tap opens, one closes, and each says beforehand what it enters.
function asBefore(b) {
  const p = before(b);
  if (isDone(b)) {
    const next = bottles().find((x) => !isDone(x) && !closed(x.kind) && x.well === b.well && !exposure(x.label).open)
      ?? bottles().find((x) => !isDone(x) && !closed(x.kind));
    return next ? button("next-bottle", T("next-bottle", { label: next.label }), () => go(bottlePlace(next)), { class: "main" }) : null;
  }
  if (!p) return null;
  const open = exposure(b.label).open;
  if (!open && stepsOf(b.label).some((e) => /^(opened|filled|closed)/.test(e.step))) return null;
  const all = repeated(p, b)[open ? "close" : "open"];
  const list = all.map((e) => [stepName(e.step), e.step === "closed" ? "" : setsWords(e.sets)].filter((x) => x).join(": "));
  return h("section", { class: "before" },
    all.some((e) => e.step === "acid in") ? caution(T("caution-acid")) : null,
    button(open ? "before-close" : "before-open", T(open ? "close-as" : "open-as", { label: p.label }), () =>
      enterAll(repeated(p, b)[open ? "close" : "open"], T("step-of", { label: b.label, step: list.join(", ") })), { class: "main" }),
    h("p", { class: "quiet" }, T("enters", { what: list.join(", ") })));
}

// Drafts that belong to one bottle are dropped when another is opened.
const OF_ONE = ["x-openings", "x-cabinet", "x-open", "volume", "note", "acid-mL"];

pages.bottle = (label) => {
  const b = bottles().find((x) => x.label === label);
  if (!b) return pages.bottles();
  if (draft.opened !== label) for (const id of OF_ONE) delete draft[id];
  draft.opened = label;
  const x = exposure(label);
  const ids = closed(b.kind) ? ["code", "note"] : S.fields.bottle;
  return [
    h("p", {}, h("a", { href: "#bottles", class: "back" }, T("all-bottles"))),
    h("h2", {}, b.label),
    h("p", { class: "quiet" }, about(b)),
    x.open ? told("bad", ticking(() => T("open-for", { place: where(x.open), length: length(minutesSince(x.open.at)) }))) : null,
    closed(b.kind) ? field("travelled", step(b, "travelled closed", () => ({ openings: 0, cabinet_min: 0, open_air_min: 0 }), T("do-travelled"))) : asBefore(b),
    ids.map((id) => BOTTLE_FIELDS[id](b)),
  ];
};

render();
