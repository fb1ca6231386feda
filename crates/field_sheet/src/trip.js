"use strict";
// The places "Trip" (who, weather, what is near), "Box" (custody) and "Save".

draft.who ??= keep.remembered("who") || undefined;

function persons(id, chosen, take) {
  return S.people.length ? chips(id, S.people.map((p) => [p.name, p.name]), chosen, take)
    : h("p", { class: "quiet" }, T("no-person"));
}

const condition = (name) => {
  const all = of("condition", (e) => e.field === name);
  return all.length ? all[all.length - 1].value : null;
};

const conditionField = (name) => field(name,
  chips(`c-${slug(name)}`, S.choices[name].map((v) => [v]), condition(name), (value) =>
    enter({ what: "condition", field: name, value }, T("is", { what: T(`field-${name.replaceAll("_", "-")}`), value: W(value) }))));

const TRIP_FIELDS = {
  who: () => field("who", persons("who", draft.who, (name) => {
    draft.who = name;
    keep.remember("who", name);
    render();
  })),
  persons: () => {
    const there = (condition("persons") || "").split(", ").filter((p) => p);
    return field("persons", persons("persons", there, (name) => {
      const now = there.includes(name) ? there.filter((p) => p !== name) : [...there, name];
      enter({ what: "condition", field: "persons", value: now.join(", ") }, T("is", { what: T("field-persons"), value: now.join(", ") || T("nobody") }));
    }));
  },
  trip_note: () => field("trip_note",
    h("textarea", { id: "trip-note", rows: 2, "aria-label": T("field-trip-note"), oninput: (e) => type("trip-note", e.target.value) }, draft["trip-note"] || ""),
    button("trip-note-take", T("keep-note"), () => {
      const text = (draft["trip-note"] || "").trim();
      if (!text) return refuse(T("note-empty"));
      draft["trip-note"] = "";
      return enter({ what: "note", text }, T("field-note-short"));
    })),
};

pages.trip = () => [
  h("h2", {}, T("place-trip")),
  S.trip.question ? h("p", { class: "question" }, S.trip.question) : null,
  caution(T("caution-trip")),
  S.fields.trip.map((id) => (TRIP_FIELDS[id] ? TRIP_FIELDS[id]() : conditionField(id))),
];

const boxDraft = () => {
  draft.box ??= { step: "sealed", seal: "whole", place: "at the car" };
  return draft.box;
};

const boxChips = (key) => chips(`box-${key}`, S.choices[`box_${key}`].map((v) => [v]), boxDraft()[key], (v) => { boxDraft()[key] = v; render(); });

const BOX_FIELDS = {
  box_step: () => field("box_step", boxChips("step")),
  box_person: () => field("box_person", persons("box-person", boxDraft().person ?? draft.who, (v) => { boxDraft().person = v; render(); })),
  box_place: () => field("box_place", boxChips("place")),
  box_temperature: () => field("box_temperature", stepper("box-temperature", T("field-box-temperature"), { value: null, start: 4, step: 0.5, places: 1, unit: S.units["custody.temperature_C"], sign: true })),
  box_seal: () => field("box_seal", boxChips("seal")),
};

pages.box = () => [
  h("h2", {}, T("box-title")),
  S.fields.box.map((id) => BOX_FIELDS[id]()),
  button("box-take", T("now"), () => {
    const b = boxDraft();
    const person = b.person ?? draft.who;
    if (!person) return refuse(T("need-hands"));
    const make = (t) => ({ what: "custody", step: b.step, person, place: b.place, ...(t === null ? {} : { temperature_C: t }), seal: b.seal });
    const t = number("box-temperature");
    if (t === null) return enter(make(null), boxWords(make(null)));
    return offer({ x: t, bound: "box temperature", doubts: (x) => unusual("custody.temperature_C", x), make, text: (x) => boxWords(make(x)), id: "box-temperature" });
  }, { class: "main" }),
  h("ul", { class: "log" }, of("custody").map((e) => h("li", {}, `${clock(e.at)} ${boxWords(e)}`))),
];

const fileName = () => `${slug(S.trip.name)}-${keep.state.device}.json`;

function saveFile() {
  const blob = new Blob([JSON.stringify(keep.exported(), null, 1)], { type: "application/json" });
  const url = URL.createObjectURL(blob);
  const a = h("a", { href: url, download: fileName() });
  document.body.append(a);
  a.click();
  a.remove();
  setTimeout(() => URL.revokeObjectURL(url), 60000);
  keep.markSaved();
  draft.last = null;
  render();
}

async function shareFile() {
  const file = new File([JSON.stringify(keep.exported(), null, 1)], fileName(), { type: "application/json" });
  try {
    await navigator.share({ files: [file], title: S.trip.name });
    keep.markSaved();
  } catch (e) {
    refuse(T("not-sent"));
  }
  render();
}

const mayShare = () => {
  try {
    return !!navigator.canShare && navigator.canShare({ files: [new File(["{}"], "a.json", { type: "application/json" })] });
  } catch (e) {
    return false;
  }
};

// A reading is corrected where it was made: the old one is struck and stays, its value stands in the field again.
const correctable = (e) => e.what === "reading" && S.wells.some((w) => w.name === e.well) && S.watched.some((q) => q.quantity === e.quantity);

function correct(e) {
  const id = readingId(S.wells.find((w) => w.name === e.well), S.watched.find((q) => q.quantity === e.quantity));
  draft[id] = N(e.value);
  takeBack([e.n]);
  go(`well/${encodeURIComponent(e.well)}`);
  setTimeout(() => document.getElementById(id)?.select(), 100);
}

// Entries that stand unfolded: what a thumb may want to take back.
const NEWEST = 15;

pages.save = () => {
  const all = keep.state.entries;
  const out = keep.struck();
  const line = (e) => h("li", { class: out.has(e.n) ? "struck" : undefined },
    h("span", {}, inWords(e)),
    correctable(e) && !out.has(e.n) ? button(`correct-${e.n}`, T("correct"), () => correct(e)) : null,
    e.what === "strike" || out.has(e.n) ? null : button(`strike-${e.n}`, T("take-back"), () => takeBack([e.n])));
  const lacking = undone();
  return [
    h("h2", {}, T("place-save")),
    told(keep.state.lasting ? "good" : "bad", keep.state.lasting
      ? T("kept", { entries: all.length, unsaved: unsaved() }) : T("not-kept", { unsaved: unsaved() })),
    lacking.length ? told("open", T("wells-undone", { wells: lacking.length }), h("ul", {}, lacking.map((l) => h("li", {}, l)))) : null,
    button("save-file", T("save-file"), saveFile, { class: "main" }),
    mayShare() ? button("share-file", T("share-file"), shareFile) : null,
    h("p", { class: "quiet" }, T("one-file", { device: keep.state.device })),
    fold("resume", T("resume"),
      h("input", { id: "resume", type: "file", accept: ".json,application/json", "aria-label": T("resume"), onchange: async (e) => {
        const file = e.target.files[0];
        if (!file) return;
        const [key, args] = keep.resume(await file.text());
        draft.last = { all: [], words: T(key, args), plain: true };
        render();
      } })),
    h("h3", {}, T("today")),
    h("ol", { class: "log" }, [...all].reverse().slice(0, NEWEST).map(line)),
    all.length > NEWEST ? fold("older", T("older", { entries: all.length - NEWEST }), h("ol", { class: "log" }, [...all].reverse().slice(NEWEST).map(line))) : null,
  ];
};
