"use strict";
// The places "Trip" (who, weather, what is near), "Box" (custody) and "Save".

const WHO = `limpid:${S.sheet}:who`;
try {
  draft.who = localStorage.getItem(WHO) || undefined;
} catch (e) {
  draft.who = undefined;
}

function persons(id, chosen, take) {
  return S.people.length ? chips(id, S.people.map((p) => [p.name, p.name]), chosen, take)
    : h("p", { class: "quiet" }, "No person is in the programme; enter them there first.");
}

const condition = (name) => {
  const all = of("condition", (e) => e.field === name);
  return all.length ? all[all.length - 1].value : null;
};

const conditionField = (name) => field(name,
  chips(`c-${slug(name)}`, S.choices[name].map((v) => [v]), condition(name), (value) =>
    enter({ what: "condition", field: name, value }, `${S.words[name].label.toLowerCase()}: ${value}`)));

const TRIP_FIELDS = {
  who: () => field("who", persons("who", draft.who, (name) => {
    draft.who = name;
    try {
      localStorage.setItem(WHO, name);
    } catch (e) {
      // Without storage the name lasts as long as the page.
    }
    render();
  })),
  persons: () => {
    const there = (condition("persons") || "").split(", ").filter((p) => p);
    return field("persons", persons("persons", there, (name) => {
      const now = there.includes(name) ? there.filter((p) => p !== name) : [...there, name];
      enter({ what: "condition", field: "persons", value: now.join(", ") }, `there: ${now.join(", ") || "nobody"}`);
    }));
  },
  trip_note: () => field("trip_note",
    h("textarea", { id: "trip-note", rows: 2, "aria-label": S.words.trip_note.label, oninput: (e) => { draft["trip-note"] = e.target.value; } }, draft["trip-note"] || ""),
    button("trip-note-take", "Keep the note", () => {
      const text = (draft["trip-note"] || "").trim();
      if (!text) return refuse("the note is empty");
      draft["trip-note"] = "";
      return enter({ what: "note", text }, "note");
    })),
};

pages.trip = () => [
  h("h2", {}, "Trip"),
  S.trip.question ? h("p", { class: "question" }, S.trip.question) : null,
  S.cautions.map(caution),
  S.fields.trip.map((id) => (TRIP_FIELDS[id] ? TRIP_FIELDS[id]() : conditionField(id))),
];

const boxDraft = () => {
  draft.box ??= { step: "sealed", seal: "whole", place: "at the car" };
  return draft.box;
};

const BOX_FIELDS = {
  box_step: () => field("box_step", chips("box-step", S.choices.box_step.map((v) => [v]), boxDraft().step, (v) => { boxDraft().step = v; render(); })),
  box_person: () => field("box_person", persons("box-person", boxDraft().person ?? draft.who, (v) => { boxDraft().person = v; render(); })),
  box_place: () => field("box_place", chips("box-place", S.choices.box_place.map((v) => [v]), boxDraft().place, (v) => { boxDraft().place = v; render(); })),
  box_temperature: () => field("box_temperature", stepper("box-temperature", "Temperature in the box", { value: null, start: 4, step: 0.5, places: 1, unit: S.units["custody.temperature_C"] })),
  box_seal: () => field("box_seal", chips("box-seal", [["whole"], ["broken"]], boxDraft().seal, (v) => { boxDraft().seal = v; render(); })),
};

pages.box = () => [
  h("h2", {}, "Box and custody"),
  S.fields.box.map((id) => BOX_FIELDS[id]()),
  button("box-take", "Now", () => {
    const b = boxDraft();
    const person = b.person ?? draft.who;
    const t = number("box-temperature");
    if (!person) return refuse("say in whose hands the box is");
    const wrong = t === null ? null : beyond("box temperature", t);
    if (wrong) return refuse(wrong);
    return enter({ what: "custody", step: b.step, person, place: b.place, ...(t === null ? {} : { temperature_C: t }), seal: b.seal },
      `${b.step}, ${person}${t === null ? "" : unusual("custody.temperature_C", t)}`);
  }, { class: "main" }),
  h("ul", { class: "log" }, of("custody").map((e) => h("li", {},
    `${clock(e.at)} ${e.step}, ${e.person}, ${e.place}${e.temperature_C === undefined ? "" : `, ${e.temperature_C} ${S.units["custody.temperature_C"]}`}, seal ${e.seal}`))),
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
    refuse("the file was not sent; save it instead");
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

// An entry in one line.
function inWords(e) {
  const rest = Object.entries(e).filter(([k]) => !["n", "at", "who", "what", "data"].includes(k));
  const value = (v) => (typeof v === "object" ? Object.entries(v).map(([k, x]) => `${k} ${typeof x === "object" ? JSON.stringify(x) : x}`).join(", ") : v);
  return `${e.n} · ${clock(e.at)} · ${e.what}: ${rest.map(([k, v]) => (k === "sets" ? value(v) : `${k} ${value(v)}`)).join(", ")}`;
}

pages.save = () => {
  const all = keep.state.entries;
  const out = keep.struck();
  return [
    h("h2", {}, "Save"),
    told(keep.state.lasting ? "good" : "bad", keep.state.lasting
      ? `${all.length} entries are kept on this phone; ${unsaved()} of them are in no file yet.`
      : `${unsaved()} entries are in no file yet, and this browser does not keep them.`),
    button("save-file", "Save the file to bring home", saveFile, { class: "main" }),
    mayShare() ? button("share-file", "Send the file", shareFile) : null,
    h("p", { class: "quiet" }, `One file holds everything entered on this phone (${keep.state.device}). Saving again later does no harm: the programme takes each entry once, and joins the files of several phones.`),
    h("details", {}, h("summary", {}, "Go on from a file saved before"),
      h("input", { id: "resume", type: "file", accept: ".json,application/json", "aria-label": "A file saved before", onchange: async (e) => {
        const file = e.target.files[0];
        if (file) refuse(keep.resume(await file.text()));
      } })),
    h("h3", {}, "All entries"),
    h("ol", { class: "log" }, [...all].reverse().slice(0, 200).map((e) => h("li", { class: out.has(e.n) ? "struck" : undefined },
      h("span", {}, inWords(e)),
      e.what === "strike" || out.has(e.n) ? null : button(`strike-${e.n}`, "Take back", () => {
        keep.add({ what: "strike", strikes: e.n }, draft.who);
        render();
      })))),
  ];
};
