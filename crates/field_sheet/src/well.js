"use strict";
// The place "Wells": state of the well, timed fills and flow, contact time, readings and whether
// they are steady, what the meter's ± is, particle counts and the class they stay under.

pages.wells = () => [
  h("h2", {}, T("place-wells")),
  h("ul", { class: "list" }, S.wells.map((w) => h("li", {}, h("a", { href: `#well/${encodeURIComponent(w.name)}`, id: `well-${wellKey(w)}` },
    h("b", {}, w.name), h("span", {}, w.description || ""), h("span", { class: "quiet" }, wellLine(w)))))),
];

const wellKey = (w) => key(w.name, S.wells.map((x) => x.name));
const fillsOf = (w) => of("fill", (e) => e.well === w.name);
const airOf = (w) => of("air", (e) => e.well === w.name);
const flowOf = (w) => {
  const fills = fillsOf(w);
  const mark = fills.find((f) => f.u_volume_L !== undefined);
  return compute.flow(fills, mark ? mark.u_volume_L : null);
};
const stateOf = (w) => of("well", (e) => e.well === w.name).pop() || null;

function wellLine(w) {
  const f = flowOf(w);
  return f ? T("flow-from", { flow: N(compute.withU(f)), fills: f.n }) : T("no-fill");
}

// What is done at a well and what is to do, each with its words.
function wellRows(w) {
  const f = flowOf(w);
  const read = S.watched.filter((q) => readingsOf(w, q).length > 0);
  const steady = read.filter((q) => steadiness(w, q, null)?.state === "steady");
  const counts = airOf(w).length;
  const here = bottles().filter((b) => b.well === w.name);
  const done = here.filter(isDone).length;
  return [
    { id: "flow", to: "fills", begun: !!f, done: !!f && f.n >= 3, text: f ? T("row-flow-is", { flow: N(compute.withU(f)), fills: f.n }) : T("to-do") },
    { id: "readings", to: "readings", begun: read.length > 0, done: read.length > 0 && steady.length === read.length, text: read.length ? T("row-steady", { steady: steady.length, read: read.length }) : T("to-do") },
    { id: "air", to: "air", begun: counts > 0, done: counts > 0, text: counts ? T("row-counts", { counts }) : T("to-do") },
    { id: "bottles", to: null, begun: done > 0, done: done === here.length, text: here.length ? T("row-bottles-done", { done, all: here.length }) : T("none-planned") },
  ];
}

const homeOf = (w) => h("ul", { class: "list rows" }, wellRows(w).map((r) => h("li", {},
  button(`row-${r.id}`, [h("b", {}, T(`row-${r.id}`)), h("span", { class: "state" }, `${r.done ? "✓ " : ""}${r.text}`)],
    () => (r.to ? document.querySelector(`[data-field="${r.to}"]`).scrollIntoView() : go("bottles")), { class: "row" }))));

// Open since when, and what was renewed.
function renewalLine(w) {
  const s = stateOf(w);
  if (!s) return told("open", w.flow_note ? T("programme-says", { note: w.flow_note }) : T("state-unknown"));
  const since = { time: clock(s.since) };
  if (s.state === "shut") return told("bad", ticking(() => T("shut-for", { ...since, length: length(minutesSince(s.since)) })));
  const f = flowOf(w);
  const c = compute.contact(w.sections, f);
  const line = ticking(() => {
    const m = minutesSince(s.since);
    const open = { ...since, length: length(m) };
    if (!c) return T(w.sections.length ? "open-needs-flow" : "open-needs-casing", open);
    const r = compute.renewed(c.litres, f.value, m);
    return T("open-renewed", { ...open, volumes: N(compute.digits(r.volumes, 2)), left: N(compute.digits(100 * r.left, 2)), wanted: S.limits.volumes });
  });
  const enough = c && compute.renewed(c.litres, f.value, minutesSince(s.since)).volumes >= S.limits.volumes;
  return told(enough ? "good" : "open", line);
}

function stateField(w) {
  const put = (state, since) => enter({ what: "well", well: w.name, state, since }, T(`${state}-since`, { time: clock(since) }));
  return field("state",
    h("div", { class: "chips" },
      button("opened-now", T("opened-now"), () => put("open", keep.stamp())),
      button("shut-now", T("shut-now"), () => put("shut", keep.stamp()))),
    fold("opened-earlier", T("opened-earlier"),
      h("div", { class: "line" },
        stepper("opened-ago", T("minutes-ago"), { value: 30, step: 10, places: 0, low: 0, unit: T("minutes-ago") }),
        button("opened-ago-take", T("take"), () => {
          const ago = number("opened-ago") ?? 0;
          return ago < 0 ? refuse(T("need-past")) : put("open", keep.stamp(new Date(Date.now() - 60000 * ago)));
        }))),
    renewalLine(w));
}

// The watch of the timed fill: it goes on while other places are open.
const watch = { well: null, start: 0 };

function fillsField(w) {
  draft.container ??= S.choices.container_L.includes(10) ? 10 : S.choices.container_L[0];
  const running = watch.well === w.name;
  const volume = draft.container;
  const u = Number((volume * S.limits.mark_relative_u).toPrecision(6));
  const past = pastOf(w, "flow");
  const take = (x) => offer({
    x: Number(x.toFixed(1)), bound: "fill time", id: "fill-seconds", after: past ? lastVisit(past) : null,
    doubts: (s) => [...unusual("fill.seconds", s), ...doubtsOfFlow(w, (60 * volume) / s)],
    make: (s) => ({ what: "fill", well: w.name, volume_L: volume, u_volume_L: u, seconds: s }),
    text: (s) => T("fill-in", { volume: litres(volume), time: seconds(s) }),
  });
  const f = flowOf(w);
  return field("fills",
    chips("container", S.choices.container_L.map((v) => [v, litres(v)]), volume, (v) => { draft.container = v; render(); }),
    button("watch", running ? ticking(() => T("watch-stop", { time: ((Date.now() - watch.start) / 1000).toFixed(0) })) : T("watch-start"), () => {
      if (running) {
        const s = (performance.now() - watch.tick) / 1000;
        watch.well = null;
        take(s);
      } else {
        watch.well = w.name;
        watch.start = Date.now();
        watch.tick = performance.now();
        render();
      }
    }, { class: "main" }),
    fold("by-hand", T("seconds-by-hand"),
      h("div", { class: "line" },
        stepper("fill-seconds", T("seconds"), { value: null, start: 30, step: 0.5, places: 1, low: 0.1, unit: S.units["fill.seconds"] }),
        button("fill-take", T("take"), () => {
          const s = number("fill-seconds");
          return s === null ? refuse(T("need-seconds")) : take(s);
        }, { class: "main" }))),
    h("p", { class: "quiet" }, T("mark", { percent: Number((200 * S.limits.mark_relative_u).toPrecision(2)) })),
    h("ul", { class: "log" }, fillsOf(w).map((e) => h("li", {}, `${clock(e.at)}  ${fillWords(e)}`))),
    f ? told(f.n >= 3 ? "good" : "open", TX("flow-is", { flow: h("b", { id: "flow" }, `${N(compute.withU(f))} L/min`), fills: f.n }),
      f.u === null ? ` ${T("one-fill")}` : "", f.n < 3 ? ` ${T("three-fills")}` : "") : null);
}

function contactField(w) {
  const c = compute.contact(w.sections, flowOf(w));
  if (!c) return field("contact", told("open", w.sections.length ? T("time-fill-first") : T("no-casing")));
  const long = c.total.value > S.limits.contact_min;
  return field("contact",
    told(long ? "bad" : "good", TX("contact-is", { minutes: h("b", { id: "contact" }, `${N(compute.withU(c.total))} min`), litres: N(compute.digits(c.litres, 3)) }),
      long ? ` ${T("contact-long", { limit: S.limits.contact_min })}` : ""),
    h("ul", { class: "log" }, c.by.map((m) => h("li", {}, `${W(m.material)}: ${N(compute.withU(m))} min`))));
}

const readingsOf = (w, q) => of("reading", (e) => e.well === w.name && e.quantity === q.quantity);

// Is a quantity steady, by the rule that the record judges by? `extra`: a value that is typed and not taken yet.
function steadiness(w, q, extra) {
  const all = readingsOf(w, q);
  if (extra !== null) all.push({ at: keep.stamp(), value: extra });
  if (all.length < 2 || !q.rule) return null;
  const t0 = Date.parse(all[0].at);
  // Noted to the second, compared in minutes, as the programme does.
  const points = all.map((e) => [(Date.parse(e.at) - t0) / 60000, e.value]).filter((p, i, a) => i === 0 || p[0] > a[i - 1][0]);
  const s = compute.steady(points, q.parameter, q.rule, S.criteria);
  return { ...s, at: s.state === "steady" ? all.find((e) => (Date.parse(e.at) - t0) / 60000 >= s.since - 1e-9).at : null };
}

// In words, with a sign; while something is typed: what it would make of them.
function steadyLine(w, q) {
  const typed = number(readingId(w, q));
  const s = steadiness(w, q, typed);
  if (!s) return h("div", { id: `${readingId(w, q)}-steady` });
  const width = [s.absolute ?? null, s.relative_percent ?? null];
  const band = [width[0] === null ? null : `${N(width[0])}${q.shown_unit ? ` ${q.shown_unit}` : ""}`, width[1] === null ? null : `${N(width[1])} %`].filter((x) => x);
  const [sign, text] = {
    few: () => ["open", T("steady-few", { have: s.have, need: s.need, spacing: s.spacing })],
    steady: () => ["good", T("steady-since", { time: clock(s.at), band: band.join(` ${T("or")} `) })],
    moving: () => ["bad", T("steady-not", { spread: N(compute.digits(s.spread, 2)), need: s.need, band: band.join(` ${T("or")} `) })],
  }[s.state]();
  return h("div", { id: `${readingId(w, q)}-steady`, "aria-live": "polite" },
    told(sign, typed === null ? text : T("with-this", { value: quantityValue(q, typed), what: text })));
}

const readingId = (w, q) => `r-${wellKey(w)}-${slug(q.quantity)}`;

function readingsField(w) {
  const asked = draft.past === w.name;
  return field("readings",
    w.past.length ? button("past", asked ? T("past-hide") : T("past-show"), () => { draft.past = asked ? null : w.name; render(); }, { "aria-expanded": asked ? "true" : "false" }) : null,
    S.watched.map((q) => {
      const all = readingsOf(w, q);
      const last = all[all.length - 1];
      const past = pastOf(w, q.quantity);
      const id = readingId(w, q);
      return h("div", { class: "reading" },
        h("h4", {}, W(q.quantity), q.shown_unit ? h("small", {}, ` ${q.shown_unit}`) : null),
        h("div", { class: "line" },
          stepper(id, W(q.quantity), { value: null, start: last ? last.value : q.start, step: q.step, places: q.places, unit: null, sign: q.quantity === "Eh",
            live: () => document.getElementById(`${id}-steady`).replaceWith(steadyLine(w, q)) }),
          button(`${id}-take`, T("take"), () => {
            const x = number(id);
            const u = draft.meters?.[q.quantity]?.u;
            if (x === null) return refuse(T("need-number", { what: W(q.quantity) }));
            return offer({
              x, bound: q.quantity, id, doubts: (y) => doubtsOf(w, q, y), text: (y) => quantityValue(q, y), after: past ? lastVisit(past) : null,
              make: (y) => ({ what: "reading", well: w.name, quantity: q.quantity, value: y, unit: q.unit, ...(u ? { u } : {}) }),
            });
          }, { class: "main" })),
        asked && past ? h("p", { class: "quiet past" }, lastVisit(past)) : null,
        all.length ? h("p", { class: "quiet values" }, all.slice(-6).map((e) => `${clock(e.at)} ${N(e.value)}`).join("  ·  ")) : null,
        steadyLine(w, q));
    }));
}

// What a manual's ± is: U with its k, u, or limits. Asked, because u goes into the record and the manual seldom says it.
function meterField() {
  draft.meter ??= { quantity: S.watched[0].quantity, kind: null };
  const d = draft.meter;
  const q = S.watched.find((x) => x.quantity === d.quantity);
  const known = Object.entries(draft.meters ?? {});
  const keepIt = () => {
    const given = number("meter-given");
    const k = d.kind === "expanded" ? number("meter-k") ?? 2 : 1;
    if (given === null || given <= 0) return refuse(T("need-meter"));
    if (!d.kind) return refuse(T("need-meter-kind"));
    if (!(k > 0)) return refuse(T("need-k"));
    const u = Number(compute.standardU(d.kind, given, k).toPrecision(6));
    draft.meters = { ...draft.meters, [d.quantity]: { given, kind: d.kind, k, u } };
    const text = meterWords(q, draft.meters[d.quantity]);
    draft["meter-given"] = "";
    return enter({ what: "note", text }, text);
  };
  return field("meter", fold("meter", T("meter-open"),
    chips("meter-quantity", S.watched.map((x) => [x.quantity]), d.quantity, (v) => { d.quantity = v; render(); }),
    stepper("meter-given", T("meter-given"), { value: null, start: q.step, step: q.step, places: q.places, low: 0, unit: q.shown_unit }),
    chips("meter-kind", ["expanded", "standard", "limits"].map((v) => [v, T(`meter-${v}`)]), d.kind, (v) => { d.kind = v; render(); }),
    d.kind === "expanded" ? stepper("meter-k", "k", { value: 2, start: 2, step: 1, places: 0, low: 1, unit: "k" }) : null,
    button("meter-take", T("meter-keep"), keepIt)),
  h("ul", { class: "log" }, known.map(([name, m]) => h("li", {}, meterWords(S.watched.find((x) => x.quantity === name), m)))));
}

function meterWords(q, m) {
  const unit = q.shown_unit ? ` ${q.shown_unit}` : "";
  const args = { what: W(q.quantity), given: `± ${N(m.given)}${unit}`, k: m.k, standard: `${N(Number(m.u.toPrecision(3)))}${unit}` };
  return T(`meter-is-${m.kind}`, args);
}

function airResult(e) {
  const a = compute.air(e.counts, e.volume_L, S.classes);
  const zero = a.readings.find((r) => r.count === 0);
  const wanted = S.limits.air_class;
  const need = a.toShow(wanted);
  const says = [
    a.under === null ? T("air-over") : T("air-under", { class: a.under }),
    a.shown === null ? null : T("air-shows", { class: a.shown }),
    need !== null && e.volume_L < need * 0.999 ? T("air-needs", { class: wanted, litres: N(compute.digits(need, 3)) }) : null,
    zero ? T("air-zero", { bound: N(compute.digits(zero.upper_95_per_m3, 2)) }) : null,
    T("air-one"),
  ];
  return h("li", {}, `${clock(e.at)} ${airWords(e)}`,
    told(a.under !== null && a.under <= wanted ? (a.shown !== null && a.shown <= wanted ? "good" : "open") : "bad", says.filter((x) => x).join(" ")));
}

function airField(w) {
  draft.air ??= { place: "cabinet", volume: 28.3 };
  const sizes = S.choices.size_um;
  return field("air",
    chips("air-place", S.choices.air_place.map((v) => [v]), draft.air.place, (v) => { draft.air.place = v; render(); }),
    chips("air-volume", S.choices.air_volume_L.map((v) => [v, litres(v)]), draft.air.volume, (v) => { draft.air.volume = v; render(); }),
    sizes.map((size) => h("div", { class: "line" }, h("span", { class: "size" }, `≥ ${N(size)} µm`),
      h("input", { id: `count-${slug(size)}`, inputmode: "numeric", autocomplete: "off", placeholder: T("not-counted"), value: draft[`count-${slug(size)}`] ?? "",
        "aria-label": T("particles-of", { size: N(size) }), oninput: (e) => type(`count-${slug(size)}`, e.target.value) }),
      button(`zero-${slug(size)}`, "0", () => { draft[`count-${slug(size)}`] = "0"; render(); }, { "aria-label": T("none-of", { size: N(size) }) }))),
    button("air-take", T("air-take"), () => {
      const counts = sizes.map((size) => ({ size_um: size, count: number(`count-${slug(size)}`) })).filter((c) => c.count !== null);
      if (!counts.length) return refuse(T("need-count"));
      if (counts.some((c) => c.count < 0 || !Number.isInteger(c.count))) return refuse(T("need-whole"));
      const up = compute.rising(counts);
      if (up) return refuse(T("counts-rise", { larger: countWords(up[1]), smaller: countWords(up[0]) }));
      const here = (e) => e.well === w.name && (e.place === "cabinet") === (draft.air.place === "cabinet");
      const other = compute.otherSizes(of("air", here), counts);
      if (other) return refuse(T("other-sizes", { sizes: other.split(", ").map(N).join(" · ") }));
      for (const size of sizes) delete draft[`count-${slug(size)}`];
      const e = { what: "air", well: w.name, place: draft.air.place, volume_L: draft.air.volume, counts };
      return enter(e, airWords(e));
    }, { class: "main" }),
    h("ul", { class: "log" }, airOf(w).map(airResult)));
}

// A photograph: made smaller on the phone, kept with the entries.
function photo(subject) {
  const taken = of("photo", (e) => (subject.well ? e.well === subject.well : e.bottle === subject.bottle));
  return fold("photo", `${T("photograph")} (${taken.length})`,
    h("input", { id: "photo", type: "file", accept: "image/*", capture: "environment", "aria-label": T("photograph"), onchange: async (e) => {
      const file = e.target.files[0];
      if (!file) return;
      const all = of("photo").length;
      if (all >= S.limits.photographs) return refuse(T("photographs-most", { most: S.limits.photographs }));
      const data = await smaller(file);
      if (!data) return refuse(T("picture-unread"));
      enter({ what: "photo", ...subject, name: `${slug(Object.values(subject)[0])}-${all + 1}.jpg`, type: "image/jpeg", data }, T("photograph"));
    } }));
}

async function smaller(file) {
  try {
    const picture = await createImageBitmap(file);
    for (const [side, quality] of [[1280, 0.7], [1024, 0.6], [640, 0.5]]) {
      const scale = Math.min(1, side / Math.max(picture.width, picture.height));
      const canvas = h("canvas", { width: Math.round(picture.width * scale), height: Math.round(picture.height * scale) });
      canvas.getContext("2d").drawImage(picture, 0, 0, canvas.width, canvas.height);
      const data = canvas.toDataURL("image/jpeg", quality).split(",")[1];
      if (data.length <= S.limits.photograph_bytes * 4 / 3) return data;
    }
  } catch (e) {
    return null;
  }
  return null;
}

const WELL_FIELDS = { state: stateField, fills: fillsField, contact: contactField, readings: readingsField, meter: meterField, air: airField };

pages.well = (name) => {
  const w = S.wells.find((x) => x.name === name);
  if (!w) return pages.wells();
  return [
    h("p", {}, h("a", { href: "#wells", class: "back" }, T("all-wells"))),
    h("h2", {}, w.name),
    h("p", { class: "quiet" }, w.description || ""),
    caution(T("caution-well")),
    homeOf(w),
    S.fields.well.map((id) => WELL_FIELDS[id](w)),
    photo({ well: w.name }),
  ];
};
