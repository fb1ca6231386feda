"use strict";
// The place "Bottles": the clean-hands steps as taps. Opening starts the clock of the cabinet or of
// the open air, closing stops it and counts; who, filter, volume and acid stand beside. At most
// twelve entries a bottle, most of them one tap.

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

function bottleState(b) {
  const x = exposure(b.label);
  if (x.open) return `open ${x.open.step === "opened outdoors" ? "outdoors" : "in the cabinet"}!`;
  if (did(b.label, "travelled closed")) return "✓ travelled closed";
  if (did(b.label, "bags closed")) return "✓ done";
  if (did(b.label, "filled")) return "filled";
  return stepsOf(b.label).length ? "begun" : "to do";
}

function scan(id, words, take) {
  if (!("BarcodeDetector" in window)) return null;
  return h("label", { class: "scan", for: id }, words, h("input", { id, type: "file", accept: "image/*", capture: "environment", onchange: async (e) => {
    try {
      const found = await new BarcodeDetector({ formats: ["data_matrix", "qr_code"] }).detect(await createImageBitmap(e.target.files[0]));
      return found.length ? take(found[0].rawValue.trim()) : refuse("no code is seen in the picture; type the label");
    } catch (err) {
      return refuse("this browser cannot read codes; type the label");
    }
  } }));
}

pages.bottles = () => {
  const all = bottles();
  const groups = [...S.wells.map((w) => [w.name, all.filter((b) => b.well === w.name)]), ["without a well", all.filter((b) => !b.well)]];
  const find = (label) => (all.some((b) => b.label === label) ? go(`bottle/${encodeURIComponent(label)}`)
    : (draft["new-label"] = label, go("bottle-new")));
  return [
    h("h2", {}, "Bottles"),
    scan("scan-find", "Scan a bottle", find),
    groups.filter(([, list]) => list.length).map(([name, list]) => [
      h("h3", {}, name),
      h("ul", { class: "list" }, list.map((b) => h("li", {}, h("a", { href: `#bottle/${encodeURIComponent(b.label)}`, id: `bottle-${slug(b.label)}` },
        h("b", {}, b.label), h("span", {}, [b.kind, b.fraction].filter((x) => x).join(", ")), h("span", { class: "state" }, bottleState(b)))))),
    ]),
    h("p", {}, button("bottle-add", "Add a bottle", () => go("bottle-new"))),
  ];
};

pages["bottle-new"] = () => {
  draft.fresh ??= { kind: "sample", well: S.wells.length ? S.wells[0].name : null, lot: S.lots.length ? S.lots[0].name : null };
  const d = draft.fresh;
  const pick = (key) => (v) => { d[key] = v; render(); };
  return [
    h("p", {}, h("a", { href: "#bottles", class: "back" }, "‹ all bottles")),
    h("h2", {}, "Add a bottle"),
    h("label", { for: "new-label" }, "Label"),
    h("input", { id: "new-label", value: draft["new-label"] || "", autocomplete: "off", autocapitalize: "characters", oninput: (e) => { draft["new-label"] = e.target.value; } }),
    scan("scan-new", "Scan the label", (label) => { draft["new-label"] = label; render(); }),
    h("h3", {}, "Kind"), chips("new-kind", S.choices.kind.map((v) => [v]), d.kind, pick("kind")),
    h("h3", {}, "Well"), chips("new-well", [...S.wells.map((w) => [w.name, w.name]), ["", "none"]], d.well ?? "", (v) => { d.well = v || null; render(); }),
    h("h3", {}, "Lot"), chips("new-lot", S.lots.map((l) => [l.name, l.name]), d.lot, pick("lot")),
    button("new-take", "Add", () => {
      const label = (draft["new-label"] || "").trim();
      if (!label) return refuse("a label");
      if (bottles().some((b) => b.label === label)) return refuse(`${label} is there already`);
      draft["new-label"] = "";
      enter({ what: "bottle", bottle: label, step: "added", sets: { kind: d.kind, ...(d.well ? { well: d.well } : {}), ...(d.lot ? { lot: d.lot } : {}) } }, `bottle ${label}`);
      return go(`bottle/${encodeURIComponent(label)}`);
    }, { class: "main" }),
  ];
};

// One step of the clean-hands order as a tap; done steps carry their time.
function step(b, name, sets, words) {
  const done = did(b.label, name);
  return button(`step-${slug(name)}`, [done ? `✓ ${clock(done.at)}  ` : "", words], () =>
    enter({ what: "bottle", bottle: b.label, step: name, ...(sets ? { sets: sets() } : {}) }, `${b.label} ${name}`),
  { class: done ? "step done" : "step", "aria-pressed": done ? "true" : "false" });
}

const BOTTLE_FIELDS = {
  code: (b) => {
    const same = (text) => (text.trim() === b.label
      ? enter({ what: "bottle", bottle: b.label, step: "code read" }, `${b.label}: the code is right`)
      : refuse(`the code says ${text}, this page is of ${b.label}`));
    return field("code", step(b, "code read", null, `The bottle says ${b.label}`), scan("scan-code", "Scan it", same));
  },
  sampler: (b) => field("sampler", persons("sampler", b.sampler, (name) => {
    enter({ what: "bottle", bottle: b.label, step: "clean hands", sets: { sampler: name } }, `clean hands: ${name}`);
  })),
  bags_open: (b) => field("bags_open", step(b, "bags open", null, "Bags open: outer by dirty hands, inner by clean hands")),
  opened: (b) => {
    const x = exposure(b.label);
    if (x.open) return field("opened", told("bad", ticking(() => `Open ${x.open.step === "opened outdoors" ? "outdoors" : "in the cabinet"} for ${length(minutesSince(x.open.at))}`)));
    return field("opened", h("div", { class: "chips" },
      step(b, "opened in the cabinet", null, "Open in the cabinet"), step(b, "opened outdoors", null, "Open outdoors")));
  },
  rinsed: (b) => field("rinsed", step(b, "rinsed", null, "Rinsed with the water")),
  filled: (b) => field("filled", step(b, "filled", () => ({ filled_at: keep.stamp() }), "Filled")),
  closed: (b) => {
    const x = exposure(b.label);
    return field("closed",
      step(b, "closed", () => {
        const now = exposure(b.label);
        const open = now.open ? minutesSince(now.open.at) : 0;
        const outdoors = now.open && now.open.step === "opened outdoors";
        return { openings: now.openings, cabinet_min: tenth(now.cabinet_min + (outdoors ? 0 : open)), open_air_min: tenth(now.open_air_min + (outdoors ? open : 0)) };
      }, "Closed"),
      x.openings ? h("p", { class: "quiet", id: "exposure" }, `${b.openings ?? x.openings} opening${(b.openings ?? x.openings) === 1 ? "" : "s"}, `
        + `${b.cabinet_min ?? tenth(x.cabinet_min)} min in the cabinet, ${b.open_air_min ?? tenth(x.open_air_min)} min in the open`) : null,
      h("details", {}, h("summary", {}, "Correct by hand"),
        stepper("x-openings", "Openings", { value: b.openings ?? x.openings, step: 1, places: 0, low: 0, unit: "openings" }),
        stepper("x-cabinet", "Minutes in the cabinet", { value: b.cabinet_min ?? tenth(x.cabinet_min), step: 0.5, places: 1, low: 0, unit: `${S.units["bottle.cabinet_min"]} in the cabinet` }),
        stepper("x-open", "Minutes in the open", { value: b.open_air_min ?? tenth(x.open_air_min), step: 0.5, places: 1, low: 0, unit: `${S.units["bottle.open_air_min"]} in the open` }),
        button("x-take", "Take these", () => enter({ what: "bottle", bottle: b.label, step: "corrected",
          sets: { openings: Math.round(number("x-openings") ?? 0), cabinet_min: number("x-cabinet") ?? 0, open_air_min: number("x-open") ?? 0 } }, `${b.label} corrected`))));
  },
  bags_closed: (b) => field("bags_closed", step(b, "bags closed", null, "Bags closed: inner, then outer")),
  filter: (b) => field("filter", chips("filter", [["unfiltered", "unfiltered"], ...S.filters.map((f) => [f.name, `${f.pore_um} µm, lot ${f.name}`])],
    b.filter || b.fraction, (v) => {
      const f = S.filters.find((x) => x.name === v);
      enter({ what: "bottle", bottle: b.label, step: "filter", sets: f ? { fraction: `${f.pore_um} um`, filter: f.name } : { fraction: "unfiltered" } }, f ? `filter ${v}` : "unfiltered");
    })),
  volume: (b) => {
    const lot = S.lots.find((l) => l.name === b.lot);
    return field("volume", h("div", { class: "line" },
      stepper("volume", "Volume", { value: b.volume_mL ?? (lot && lot.volume_mL) ?? 250, step: 5, places: 0, low: 1, unit: S.units["bottle.volume_mL"] }),
      button("volume-take", "Take", () => {
        const v = number("volume");
        const wrong = v === null ? "a volume" : beyond("bottle volume", v);
        return wrong ? refuse(wrong) : enter({ what: "bottle", bottle: b.label, step: "volume", sets: { volume_mL: v } }, `${b.label}: ${v} ${S.units["bottle.volume_mL"]}${unusual("bottle.volume_mL", v)}`);
      })));
  },
  acid: (b) => {
    draft.acid ??= { lot: S.acids.length ? S.acids[S.acids.length - 1].name : null, place: S.choices.acid_place[0] };
    const d = draft.acid;
    if (!S.acids.length) return field("acid", h("p", { class: "quiet" }, "No acid lot is in the programme."));
    const done = did(b.label, "acid in");
    return field("acid", caution(S.acid_caution),
      chips("acid-lot", S.acids.map((a) => [a.name, a.name]), d.lot, (v) => { d.lot = v; render(); }),
      chips("acid-place", S.choices.acid_place.map((v) => [v]), d.place, (v) => { d.place = v; render(); }),
      stepper("acid-mL", "Acid", { value: b.acid_mL, start: 0.5, step: 0.1, places: 2, low: 0, unit: S.units["bottle.acid_mL"] }),
      button("acid-take", [done ? `✓ ${clock(done.at)}  ` : "", "Acid in, now"], () => {
        const mL = number("acid-mL");
        return mL === null || mL < 0 ? refuse("mL of acid")
          : enter({ what: "bottle", bottle: b.label, step: "acid in", sets: { acid: d.lot, acid_mL: mL, acidified_at: keep.stamp(), acidified_place: d.place } }, `${b.label}: ${mL} ${S.units["bottle.acid_mL"]} of ${d.lot}${unusual("bottle.acid_mL", mL)}`);
      }, { class: done ? "step done" : "step" }));
  },
  note: (b) => field("note",
    h("textarea", { id: "note", rows: 2, "aria-label": `Note for ${b.label}`, oninput: (e) => { draft.note = e.target.value; } }, draft.note ?? b.note ?? ""),
    button("note-take", "Keep the note", () => {
      const text = (draft.note ?? "").trim();
      return text ? enter({ what: "bottle", bottle: b.label, step: "note", sets: { note: text } }, "note") : refuse("the note is empty");
    }), photo({ bottle: b.label })),
};

// Drafts that belong to one bottle are dropped when another is opened.
const OF_ONE = ["x-openings", "x-cabinet", "x-open", "volume", "note"];
let opened = null;

pages.bottle = (label) => {
  const b = bottles().find((x) => x.label === label);
  if (!b) return pages.bottles();
  if (opened !== label) for (const id of OF_ONE) delete draft[id];
  opened = label;
  const ids = closed(b.kind) ? ["code", "note"] : S.fields.bottle;
  return [
    h("p", {}, h("a", { href: "#bottles", class: "back" }, "‹ all bottles")),
    h("h2", {}, b.label),
    h("p", { class: "quiet" }, [b.kind, b.well, b.lot ? `lot ${b.lot}` : null, b.fraction].filter((x) => x).join(" · ")),
    closed(b.kind) ? field("travelled", step(b, "travelled closed", () => ({ openings: 0, cabinet_min: 0, open_air_min: 0 }), "Travelled closed, never opened")) : null,
    ids.map((id) => BOTTLE_FIELDS[id](b)),
  ];
};

render();
