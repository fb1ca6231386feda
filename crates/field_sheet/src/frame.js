"use strict";
// The frame of the sheet: building blocks of the pages, what every page shares (who is at work,
// what was kept last, taking back), the five places at the foot, and the clock.
//
// Every text of the programme goes in as text, never as markup. Places are drawn anew after each
// entry; what is half typed lives in `draft` and the focus is put back.

const S = keep.state.sheet;
const draft = {};
const pages = {};
let ticks = [];

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

// A row of choices; the one that stands is pressed. Options: [value, words].
function chips(id, options, chosen, take) {
  return h("div", { class: "chips", role: "group" }, options.map(([value, words]) => {
    const on = Array.isArray(chosen) ? chosen.includes(value) : chosen === value;
    return button(`${id}-${slug(value)}`, words ?? value, () => take(value), {
      class: on ? "chip on" : "chip", "aria-pressed": on ? "true" : "false",
    });
  }));
}

// A number by taps: less, the number itself (it can be typed), more. Where nothing stands yet it is
// empty, so that nobody takes a number that nobody read; the first tap puts `start` there.
function stepper(id, label, { value, start, step, places, low, unit }) {
  if (!(id in draft)) draft[id] = value === null || value === undefined ? "" : Number(value).toFixed(places);
  const move = (by) => {
    const now = number(id);
    draft[id] = Math.max(low ?? -1e9, now === null ? start ?? 0 : now + by).toFixed(places);
    render();
  };
  return h("div", { class: "stepper" },
    button(`${id}-less`, "−", () => move(-step), { "aria-label": `${label}: less` }),
    h("input", { id, value: draft[id], inputmode: "decimal", autocomplete: "off", "aria-label": `${label}${unit ? `, ${unit}` : ""}`,
      oninput: (e) => { draft[id] = e.target.value; } }),
    button(`${id}-more`, "+", () => move(step), { "aria-label": `${label}: more` }),
    unit ? h("span", { class: "unit" }, unit) : null);
}

// The number typed or tapped; null where there is none.
function number(id) {
  const text = String(draft[id] ?? "").trim().replace(",", ".");
  const x = Number(text);
  return text === "" || !Number.isFinite(x) ? null : x;
}

// One field of the sheet, in the order that paper has it too.
function field(id, ...children) {
  const label = S.words[id];
  return h("section", { class: "field", "data-field": id, "aria-label": label.label },
    h("h3", {}, label.label, label.hint ? h("small", {}, ` ${label.hint}`) : null), ...children);
}

const caution = (text) => h("p", { class: "caution" }, h("b", {}, "Caution. "), text);
const told = (sign, ...text) => h("p", { class: `told ${sign}` },
  h("b", { "aria-hidden": "true" }, { good: "✓ ", bad: "✗ ", open: "? ", "": "" }[sign]), ...text);

// Adds an entry and says so. Answers whether it is kept on the phone.
function enter(entry, words) {
  keep.add(entry, draft.who);
  draft.last = { n: keep.state.entries[keep.state.entries.length - 1].n, words };
  render();
}

function refuse(words) {
  draft.last = { n: null, words };
  render();
}

const beyond = (quantity, x) => compute.beyond(S.bounds, quantity, x);
const unusual = (quantity, x, unit) => compute.unusual(S.usual, quantity, x, unit ?? S.units[quantity]);

const of = (what, test) => keep.standing().filter((e) => e.what === what && (!test || test(e)));

function statusLine() {
  const last = draft.last;
  return h("div", { id: "status", role: "status", "aria-live": "polite" },
    last ? h("span", {}, last.n === null ? `Not entered: ${last.words}` : `Entered: ${last.words}`) : "",
    last && last.n !== null ? button("take-back", "Take back", () => {
      keep.add({ what: "strike", strikes: last.n }, draft.who);
      draft.last = null;
      render();
    }) : null);
}

const unsaved = () => keep.state.entries.length - keep.state.saved;

// What stands above every page while something threatens what was entered.
function banners() {
  const out = [];
  if (S.invented) out.push(h("p", { class: "invented" }, "Invented data"));
  if (!keep.state.lasting) {
    out.push(h("div", { class: "alarm", role: "alert", id: "no-storage" },
      h("p", {}, h("b", {}, "This browser does not keep entries: "), `${keep.state.why}. Save a file after each entry, or use the paper sheet.`),
      unsaved() > 0 ? button("save-now", `Save now (${unsaved()} not saved)`, saveFile, { class: "main" }) : null));
  }
  const off = clockOff();
  if (off) {
    out.push(h("div", { class: "alarm", role: "alert", id: "clock-off" },
      h("p", {}, h("b", {}, "Look at the clock of this phone. "),
        `It says ${keep.stamp().slice(0, 10)}; the trip is planned for ${S.trip.starts.slice(0, 10)}. Set it before you enter anything: the programme refuses times that cannot be.`)));
  }
  return out;
}

// Days between the phone's clock and the trip, where they are too many.
function clockOff() {
  const days = (Date.parse(keep.stamp().slice(0, 10)) - Date.parse(S.trip.starts.slice(0, 10))) / 86400000;
  return days < -S.clock.before_days || days > S.clock.after_days ? days : 0;
}

const PLACES = [["trip", "Trip"], ["wells", "Wells"], ["bottles", "Bottles"], ["box", "Box"], ["save", "Save"]];

function go(hash) {
  location.hash = hash;
}

function nav(here) {
  return h("nav", { "aria-label": "Places" }, PLACES.map(([id, words]) =>
    h("a", { href: `#${id}`, id: `nav-${id}`, "aria-current": here === id ? "page" : undefined },
      id === "save" && unsaved() > 0 ? `${words} (${unsaved()})` : words)));
}

function render() {
  const focus = document.activeElement && document.activeElement.id;
  const [place, ...rest] = decodeURIComponent(location.hash.slice(1) || "trip").split("/");
  const page = pages[place] ? place : "trip";
  ticks = [];
  const home = { well: "wells", bottle: "bottles", "bottle-new": "bottles" };
  const main = h("main", { id: "main" }, banners(), pages[page](rest.join("/")));
  document.body.replaceChildren(
    h("header", {}, h("h1", {}, S.trip.name), h("span", {}, S.programme.name)),
    main, statusLine(), nav(home[page] ?? page));
  if (focus) document.getElementById(focus)?.focus({ preventScroll: true });
}

let shown = "";
addEventListener("hashchange", () => {
  render();
  if (location.hash !== shown) scrollTo(0, 0);
  shown = location.hash;
});
setInterval(() => ticks.forEach((t) => t()), 1000);
keep.state.changed = () => {};
addEventListener("storage", render);
