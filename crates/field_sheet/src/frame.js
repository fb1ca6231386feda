"use strict";
// The frame of the sheet: its words, building blocks of the pages, what every page shares (who is
// at work, what was kept last, taking back), the five places at the foot, light, language, clock.
//
// Every text of the programme goes in as text, never as markup. Places are drawn anew after each
// entry; what is half typed lives in `draft`, outlasts a reload, and the focus is put back.

const S = keep.state.sheet;
const draft = keep.remembered("draft") || {};
const view = { language: S.language, light: "light", ...keep.remembered("view") };
const pages = {};
let ticks = [];

// The words of a message; arguments stand in braces. Numbers take the decimal sign of the language.
const words = () => S.words[view.language] || S.words.en;
const N = (x) => String(x).replaceAll(".", words()["decimal-sign"]).replace(/^-/, "−");
const say = (x) => (typeof x === "number" ? N(x) : String(x));
const T = (key, args) => words()[key].replace(/\{([a-z-]+)\}/g, (_, name) => say(args[name]));

// The same with elements among the words, as a list of what goes into an element.
const TX = (key, args) => words()[key].split(/(\{[a-z-]+\})/).map((part) => {
  const x = /^\{.*\}$/.test(part) ? args[part.slice(1, -1)] : part;
  return x instanceof Node ? x : say(x);
});

// A code of the record in words; what a person wrote stays as it is.
const W = (code) => words()[`word-${String(code).replace(/[^A-Za-z0-9]/g, "-")}`] ?? String(code);

// Which part of the water: the record writes a pore size as "0.45 um".
const fractionWords = (f) => (/^[\d.]+ um$/.test(f) ? `${N(f.slice(0, -3))} µm` : W(f));

// A day of the record, spoken.
const dayWords = (day) => new Date(`${day}T12:00:00`).toLocaleDateString({ en: "en-GB" }[view.language] ?? view.language, { day: "numeric", month: "long", year: "numeric" });

// An element: h("button", {onclick}, "text", child …).
function h(tag, attributes, ...children) {
  const e = document.createElement(tag);
  for (const [k, v] of Object.entries(attributes || {})) {
    if (v === undefined || v === null || v === false) continue;
    if (k.startsWith("on")) e.addEventListener(k.slice(2), v);
    else e.setAttribute(k, v === true ? "" : v);
  }
  for (const c of children.flat(Infinity)) if (c !== null && c !== undefined && c !== false) e.append(c);
  return e;
}

const slug = (text) => String(text).replace(/[^A-Za-z0-9]+/g, "-").toLowerCase();
// The same of one of several names: two that differ by signs alone stay apart.
function key(name, all) {
  const alike = all.filter((x) => slug(x) === slug(name));
  return alike.length > 1 ? `${slug(name)}-${all.indexOf(name)}` : slug(name);
}

const clock = (at) => at.slice(11, 16);
const minutesSince = (at) => (Date.now() - Date.parse(at)) / 60000;
const length = (minutes) => {
  const s = Math.max(0, Math.round(minutes * 60));
  return s < 3600 ? `${Math.floor(s / 60)}:${String(s % 60).padStart(2, "0")}`
    : `${Math.floor(s / 3600)} h ${Math.floor((s % 3600) / 60)} min`;
};

// A text that changes with the clock.
function ticking(make) {
  const e = h("span", {}, make());
  ticks.push(() => { e.textContent = make(); });
  return e;
}

function button(id, text, onclick, more) {
  return h("button", { id, type: "button", onclick, ...more }, text);
}

// Something folded up; it stays as it was left when the place is drawn anew.
const fold = (id, text, ...children) => h("details", { open: draft.folds?.[id], ontoggle: (e) => { draft.folds = { ...draft.folds, [id]: e.target.open }; } },
  h("summary", {}, text), ...children);

// A row of choices; the one that stands is pressed. Options: [value, words].
function chips(id, options, chosen, take) {
  const values = options.map((o) => o[0]);
  return h("div", { class: "chips", role: "group" }, options.map(([value, text]) => {
    const on = Array.isArray(chosen) ? chosen.includes(value) : chosen === value;
    return button(`${id}-${key(value, values)}`, text ?? W(value), () => take(value), {
      class: on ? "chip on" : "chip", "aria-pressed": on ? "true" : "false",
    });
  }));
}

// Puts what is half typed into the phone's storage: a reload loses nothing.
const type = (id, text) => {
  draft[id] = text;
  keep.remember("draft", draft);
};

// A number by taps: less, the number itself (it can be typed), more. Where nothing stands yet it is
// empty, so that nobody takes a number that nobody read; the first tap puts `start` there.
// `sign`: a key that turns the sign, for keyboards of numbers that have no minus. `live` is called as one types.
function stepper(id, label, { value, start, step, places, low, unit, sign, live }) {
  if (!(id in draft)) draft[id] = value === null || value === undefined ? "" : N(Number(value).toFixed(places));
  const put = (x) => {
    draft[id] = N(x.toFixed(places));
    render();
  };
  const move = (by) => {
    const now = number(id);
    put(Math.max(low ?? -1e9, now === null ? start ?? 0 : now + by));
  };
  return h("div", { class: sign ? "stepper signed" : "stepper" },
    button(`${id}-less`, "−", () => move(-step), { "aria-label": T("less", { what: label }) }),
    sign ? button(`${id}-sign`, "±", () => put(-(number(id) ?? 0)), { "aria-label": T("turn-sign", { what: label }) }) : null,
    h("input", { id, value: draft[id], inputmode: "decimal", autocomplete: "off", enterkeyhint: "done", "aria-label": unit ? `${label}, ${unit}` : label,
      oninput: (e) => { type(id, e.target.value); if (live) live(); },
      onkeydown: (e) => { if (e.key === "Enter") e.target.closest(".line")?.querySelector("button.main, .line > button")?.click(); } }),
    button(`${id}-more`, "+", () => move(step), { "aria-label": T("more", { what: label }) }),
    unit ? h("span", { class: "unit" }, unit) : null);
}

// The number typed or tapped, with comma or point; null where there is none.
function number(id) {
  const text = String(draft[id] ?? "").trim().replace(",", ".").replace("−", "-");
  const x = Number(text);
  return text === "" || !Number.isFinite(x) ? null : x;
}

// One field of the sheet, in the order that paper has it too.
function field(id, ...children) {
  const key = id.replaceAll("_", "-");
  const [label, hint] = [T(`field-${key}`), words()[`hint-${key}`]];
  return h("section", { class: "field", "data-field": id, "aria-label": label },
    h("h3", {}, label, hint ? h("small", {}, ` ${hint}`) : null), ...children);
}

const caution = (text) => h("p", { class: "caution" }, h("b", {}, T("caution")), " ", text);
const told = (sign, ...text) => h("p", { class: `told ${sign}` },
  h("b", { "aria-hidden": "true" }, { good: "✓ ", bad: "✗ ", open: "? ", "": "" }[sign]), ...text);

// Adds entries made by one tap and says so; one tap takes them back.
function enterAll(entries, text) {
  draft.ask = null;
  draft.last = { all: entries.map((e) => keep.add(e, draft.who)), words: text };
  render();
}

const enter = (entry, text) => enterAll([entry], text);

function refuse(text) {
  draft.ask = null;
  draft.last = { all: [], words: text };
  render();
}

function takeBack(all) {
  for (const n of all) keep.add({ what: "strike", strikes: n }, draft.who);
  draft.last = null;
  render();
}

const beyond = (quantity, x) => compute.beyond(S.bounds, quantity, x)?.[view.language] ?? null;

const of = (what, test) => keep.standing().filter((e) => e.what === what && (!test || test(e)));

function statusLine() {
  const last = draft.last;
  return h("div", { id: "status", role: "status", "aria-live": "polite" },
    last ? h("span", {}, last.plain ? last.words : T(last.all.length ? "entered" : "not-entered", { what: last.words })) : "",
    last && last.all.length ? button("take-back", T("take-back"), () => takeBack(last.all)) : null);
}

const unsaved = () => keep.state.entries.length - keep.state.saved;

// What stands above every page while something threatens what was entered.
function banners() {
  const out = [];
  if (S.invented) out.push(h("p", { class: "invented" }, T("invented")));
  if (!keep.state.lasting) {
    out.push(h("div", { class: "alarm", role: "alert", id: "no-storage" },
      h("p", {}, h("b", {}, T("no-storage")), " ", T(...keep.state.why), " ", T("save-each")),
      unsaved() > 0 ? button("save-now", T("save-now", { entries: unsaved() }), saveFile, { class: "main" }) : null));
  }
  if (clockOff()) {
    out.push(h("div", { class: "alarm", role: "alert", id: "clock-off" },
      h("p", {}, h("b", {}, T("clock-look")), " ", T("clock-off", { now: dayWords(keep.stamp().slice(0, 10)), planned: dayWords(S.trip.starts.slice(0, 10)) }))));
  }
  return out;
}

// Days between the phone's clock and the trip, where they are too many.
function clockOff() {
  const days = (Date.parse(keep.stamp().slice(0, 10)) - Date.parse(S.trip.starts.slice(0, 10))) / 86400000;
  return days < -S.clock.before_days || days > S.clock.after_days ? days : 0;
}

const PLACES = ["trip", "wells", "bottles", "box", "save"];

function go(hash) {
  location.hash = hash;
}

function nav(here) {
  return h("nav", { "aria-label": T("places") }, PLACES.map((id) =>
    h("a", { href: `#${id}`, id: `nav-${id}`, "aria-current": here === id ? "page" : undefined },
      id === "save" && unsaved() > 0 ? `${T("place-save")} (${unsaved()})` : T(`place-${id}`))));
}

// Light: by day, by night, in the sun. A person chooses; the system of a phone does not know where one stands.
const LIGHTS = ["light", "dark", "sun"];

function look(change) {
  Object.assign(view, change);
  // What was said last was said in the other language.
  if (change.language) draft.last = null;
  keep.remember("view", view);
  render();
}

function controls() {
  const next = LIGHTS[(LIGHTS.indexOf(view.light) + 1) % LIGHTS.length];
  const other = Object.keys(S.words).find((l) => l !== view.language);
  return h("div", { class: "controls" },
    button("light", T(`light-${next}`), () => look({ light: next })),
    button("language", S.words[other].name, () => look({ language: other }), { lang: other }));
}

function render() {
  const focus = document.activeElement && document.activeElement.id;
  const [place, ...rest] = decodeURIComponent(location.hash.slice(1) || "trip").split("/");
  const page = pages[place] ? place : "trip";
  ticks = [];
  document.documentElement.lang = view.language;
  document.documentElement.dataset.light = view.light;
  document.title = T("title", { trip: S.trip.name });
  const home = { well: "wells", bottle: "bottles", "bottle-new": "bottles" };
  const main = h("main", { id: "main" }, banners(), pages[page](rest.join("/")));
  document.body.replaceChildren(
    h("header", {}, h("div", {}, h("h1", {}, S.trip.name), h("span", {}, S.programme.name)), controls()),
    main, h("footer", {}, question(), statusLine(), nav(home[page] ?? page)));
  keep.remember("draft", draft);
  const again = focus ? document.getElementById(focus) : null;
  const asked = document.getElementById("ask");
  if (asked && !asked.contains(again)) asked.focus();
  else if (again) again.focus({ preventScroll: true });
}

let shown = "";
addEventListener("hashchange", () => {
  camera.stop();
  render();
  if (location.hash !== shown) scrollTo(0, 0);
  shown = location.hash;
});
setInterval(() => ticks.forEach((t) => t()), 1000);
keep.state.changed = () => {};
addEventListener("storage", () => render());
