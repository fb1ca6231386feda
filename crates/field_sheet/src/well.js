"use strict";
// The place "Wells": state of the well, timed fills and flow, contact time, readings and whether
// they are steady, particle counts and the class they stay under.

pages.wells = () => [
  h("h2", {}, "Wells"),
  h("ul", { class: "list" }, S.wells.map((w) => h("li", {}, h("a", { href: `#well/${encodeURIComponent(w.name)}`, id: `well-${slug(w.name)}` },
    h("b", {}, w.name), h("span", {}, w.description || ""), h("span", { class: "quiet" }, wellLine(w)))))),
];

const fillsOf = (w) => of("fill", (e) => e.well === w.name);
const flowOf = (w) => {
  const fills = fillsOf(w);
  const mark = fills.find((f) => f.u_volume_L !== undefined);
  return compute.flow(fills, mark ? mark.u_volume_L : null);
};
const stateOf = (w) => of("well", (e) => e.well === w.name).pop() || null;

function wellLine(w) {
  const f = flowOf(w);
  return f ? `${compute.withU(f.value, f.u)} L/min from ${f.n} fill${f.n > 1 ? "s" : ""}` : "no fill timed yet";
}

// Open since when, and what was renewed.
function renewalLine(w) {
  const s = stateOf(w);
  if (!s) return told("open", w.flow_note ? `The programme says: ${w.flow_note}.` : "Nothing is entered: was it shut before?");
  if (s.state === "shut") return told("bad", ticking(() => `Shut since ${clock(s.since)} (${length(minutesSince(s.since))}).`));
  const c = compute.contact(w.sections, flowOf(w));
  const line = ticking(() => {
    const m = minutesSince(s.since);
    if (!c) return `Open since ${clock(s.since)} (${length(m)}). Volumes renewed need the flow${w.sections.length ? "" : " and the casing"}.`;
    const r = compute.renewed(c.litres, flowOf(w).value, m);
    return `Open since ${clock(s.since)} (${length(m)}): ${compute.digits(r.volumes, 2)} volumes renewed, `
      + `${compute.digits(100 * r.left, 2)} % standing water left at most; ${S.limits.volumes} volumes are common practice.`;
  });
  const enough = c && compute.renewed(c.litres, flowOf(w).value, minutesSince(s.since)).volumes >= S.limits.volumes;
  return told(enough ? "good" : "open", line);
}

function stateField(w) {
  const put = (state, since, words) => enter({ what: "well", well: w.name, state, since }, words);
  return field("state",
    h("div", { class: "chips" },
      button("opened-now", "Opened now", () => put("open", keep.stamp(), "opened")),
      button("shut-now", "Shut now", () => put("shut", keep.stamp(), "shut"))),
    h("details", {}, h("summary", {}, "Opened earlier"),
      stepper("opened-ago", "Minutes ago", { value: 30, step: 10, places: 0, low: 0, unit: "min ago" }),
      button("opened-ago-take", "Take", () => {
        const ago = number("opened-ago") ?? 0;
        return ago < 0 ? refuse("minutes that have been: 0 or more")
          : put("open", keep.stamp(new Date(Date.now() - 60000 * ago)), "opened earlier");
      })),
    renewalLine(w));
}

// The watch of the timed fill: it goes on while other places are open.
const watch = { well: null, start: 0 };

function fillsField(w) {
  draft.container ??= S.choices.container_L.includes(10) ? 10 : S.choices.container_L[0];
  const running = watch.well === w.name;
  const take = (seconds) => {
    const s = Number(seconds.toFixed(1));
    const wrong = beyond("fill time", s);
    return wrong ? refuse(wrong) : enter({
      what: "fill", well: w.name, volume_L: draft.container, u_volume_L: Number((draft.container * S.limits.mark_relative_u).toPrecision(6)),
      seconds: s,
    }, `${draft.container} L in ${s.toFixed(1)} s${unusual("fill.seconds", s)}`);
  };
  const f = flowOf(w);
  return field("fills",
    chips("container", S.choices.container_L.map((v) => [v, `${v} L`]), draft.container, (v) => { draft.container = v; render(); }),
    button("watch", running ? ticking(() => `Stop at the mark · ${((Date.now() - watch.start) / 1000).toFixed(0)} s`) : "Start the watch", () => {
      if (running) {
        const seconds = (performance.now() - watch.tick) / 1000;
        watch.well = null;
        take(seconds);
      } else {
        watch.well = w.name;
        watch.start = Date.now();
        watch.tick = performance.now();
        render();
      }
    }, { class: "main" }),
    h("details", {}, h("summary", {}, "Seconds by hand"),
      stepper("fill-seconds", "Seconds", { value: 30, step: 0.5, places: 1, low: 0.1, unit: S.units["fill.seconds"] }),
      button("fill-take", "Take the fill", () => {
        const s = number("fill-seconds");
        return s === null ? refuse("seconds") : take(s);
      })),
    h("ul", { class: "log" }, fillsOf(w).map((e) => h("li", {}, `${clock(e.at)}  ${e.volume_L} L in ${e.seconds} s`))),
    f ? told(f.n >= 3 ? "good" : "open", h("b", { id: "flow" }, `${compute.withU(f.value, f.u)} L/min`), ` (u), ${f.n} fill${f.n > 1 ? "s" : ""}`,
      f.u === null ? "; one fill alone shows no uncertainty" : "", f.n < 3 ? "; three fills or more" : "") : null);
}

function contactField(w) {
  const c = compute.contact(w.sections, flowOf(w));
  if (!c) {
    return field("contact", told("open", w.sections.length ? "Time a fill first." : "Depth and radius of the casing are not in the programme."));
  }
  const long = c.total.value > S.limits.contact_min;
  return field("contact",
    told(long ? "bad" : "good", h("b", { id: "contact" }, `${compute.withU(c.total.value, c.total.u)} min`),
      ` for ${compute.digits(c.litres, 3)} L in the pipe${long ? `: longer than the programme's ${S.limits.contact_min} min` : ""}`),
    h("ul", { class: "log" }, c.by.map((m) => h("li", {}, `${m.material}: ${compute.withU(m.value, m.u)} min`))));
}

const readingsOf = (w, q) => of("reading", (e) => e.well === w.name && e.quantity === q.quantity);

function steadyLine(w, q) {
  const all = readingsOf(w, q);
  if (all.length < 2 || !q.rule) return null;
  const t0 = Date.parse(all[0].at);
  // Noted to the second, compared in minutes, as the programme does.
  const points = all.map((e) => [(Date.parse(e.at) - t0) / 60000, e.value]).filter((p, i, a) => i === 0 || p[0] > a[i - 1][0]);
  const s = compute.steady(points, q.parameter, q.rule, S.criteria);
  if (s.state === "few") return told("open", `${s.have} of ${s.need} readings at least ${s.spacing} min apart`);
  const width = [s.absolute === null ? null : `${s.absolute} ${s.unit}`, s.relative_percent === null ? null : `${s.relative_percent} %`].filter((x) => x).join(" or ");
  if (s.state === "steady") {
    const since = all.find((e) => (Date.parse(e.at) - t0) / 60000 >= s.since - 1e-9);
    return told("good", `steady since ${clock(since.at)} (within ± ${width})`);
  }
  return told("bad", `not steady: ± ${compute.digits(s.spread, 2)} over the last ${s.need}, the rule is ± ${width}`);
}

function readingsField(w) {
  return field("readings", S.watched.map((q) => {
    const all = readingsOf(w, q);
    const last = all[all.length - 1];
    const id = `r-${slug(w.name)}-${slug(q.quantity)}`;
    return h("div", { class: "reading" },
      h("h4", {}, q.quantity, h("small", {}, ` ${q.unit}`)),
      h("div", { class: "line" },
        stepper(id, q.quantity, { value: last ? last.value : null, start: q.start, step: q.step, places: q.places, unit: null }),
        button(`${id}-take`, "Take", () => {
          const value = number(id);
          const wrong = value === null ? `a number for ${q.quantity}` : beyond(q.quantity, value);
          return wrong ? refuse(wrong)
            : enter({ what: "reading", well: w.name, quantity: q.quantity, value, unit: q.unit }, `${q.quantity} ${value} ${q.unit}${unusual(q.quantity, value, q.unit)}`);
        }, { class: "main" })),
      all.length ? h("p", { class: "quiet values" }, all.slice(-6).map((e) => `${clock(e.at)} ${e.value}`).join("  ·  ")) : null,
      steadyLine(w, q));
  }));
}

function airResult(e) {
  const a = compute.air(e.counts, e.volume_L, S.classes);
  const zero = a.readings.find((r) => r.count === 0);
  const wanted = S.limits.air_class;
  const need = a.toShow(wanted);
  return h("li", {}, `${clock(e.at)} ${e.place}, ${e.volume_L} L: ${e.counts.map((c) => `${c.count} ≥ ${c.size_um} µm`).join(", ")}`,
    told(a.under !== null && a.under <= wanted ? (a.shown !== null && a.shown <= wanted ? "good" : "open") : "bad",
      a.under === null ? "over the limits of class 9" : `stays under the limits of class ${a.under}`,
      a.shown === null ? "" : `; the volume can show class ${a.shown}`,
      need !== null && e.volume_L < need * 0.999 ? `; to show class ${wanted} count ${compute.digits(need, 3)} L` : "",
      zero ? `; zero counted: fewer than ${compute.digits(zero.upper_95_per_m3, 2)} per m³ (95 %)` : "",
      ". One reading at one place, no classification."));
}

function airField(w) {
  draft.air ??= { place: "cabinet", volume: 28.3 };
  const sizes = S.choices.size_um;
  return field("air",
    chips("air-place", S.choices.air_place.map((v) => [v]), draft.air.place, (v) => { draft.air.place = v; render(); }),
    chips("air-volume", S.choices.air_volume_L.map((v) => [v, `${v} L`]), draft.air.volume, (v) => { draft.air.volume = v; render(); }),
    sizes.map((size) => h("div", { class: "line" }, h("span", { class: "size" }, `≥ ${size} µm`),
      h("input", { id: `count-${slug(size)}`, inputmode: "numeric", autocomplete: "off", placeholder: "not counted", value: draft[`count-${slug(size)}`] ?? "",
        "aria-label": `Particles of at least ${size} µm`, oninput: (e) => { draft[`count-${slug(size)}`] = e.target.value; } }),
      button(`zero-${slug(size)}`, "0", () => { draft[`count-${slug(size)}`] = "0"; render(); }, { "aria-label": `none of at least ${size} µm` }))),
    button("air-take", "Take the count", () => {
      const counts = sizes.map((size) => ({ size_um: size, count: number(`count-${slug(size)}`) })).filter((c) => c.count !== null);
      if (!counts.length) return refuse("a count at one size at least");
      if (counts.some((c) => c.count < 0 || !Number.isInteger(c.count))) return refuse("counts are whole numbers");
      const up = compute.rising(counts);
      if (up) return refuse(`${up[1].count} at ${up[1].size_um} µm is more than ${up[0].count} at ${up[0].size_um} µm: counts are cumulative, all particles of at least the size`);
      const here = (e) => e.well === w.name && (e.place === "cabinet") === (draft.air.place === "cabinet");
      const other = compute.otherSizes(of("air", here), counts);
      if (other) return refuse(`counts at ${other} µm, the sizes of the count before at this place: repeated counts are added up size by size`);
      for (const size of sizes) delete draft[`count-${slug(size)}`];
      return enter({ what: "air", well: w.name, place: draft.air.place, volume_L: draft.air.volume, counts }, "particle count");
    }, { class: "main" }),
    h("ul", { class: "log" }, of("air", (e) => e.well === w.name).map(airResult)));
}

// A photograph: made smaller on the phone, kept with the entries.
function photo(subject) {
  const taken = of("photo", (e) => (subject.well ? e.well === subject.well : e.bottle === subject.bottle));
  return h("details", {}, h("summary", {}, `Photograph (${taken.length})`),
    h("input", { id: "photo", type: "file", accept: "image/*", capture: "environment", "aria-label": "Photograph", onchange: async (e) => {
      const file = e.target.files[0];
      if (!file) return;
      const all = of("photo").length;
      if (all >= S.limits.photographs) return refuse(`${S.limits.photographs} photographs are kept at most`);
      const data = await smaller(file);
      if (!data) return refuse("this picture cannot be read");
      enter({ what: "photo", ...subject, name: `${slug(Object.values(subject)[0])}-${all + 1}.jpg`, type: "image/jpeg", data }, "photograph");
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

const WELL_FIELDS = { state: stateField, fills: fillsField, contact: contactField, readings: readingsField, air: airField };

pages.well = (name) => {
  const w = S.wells.find((x) => x.name === name);
  if (!w) return pages.wells();
  return [
    h("p", {}, h("a", { href: "#wells", class: "back" }, "‹ all wells")),
    h("h2", {}, w.name),
    h("p", { class: "quiet" }, w.description || ""),
    caution(S.well_caution),
    S.fields.well.map((id) => WELL_FIELDS[id](w)),
    photo({ well: w.name }),
  ];
};
