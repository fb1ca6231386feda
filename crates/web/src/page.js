// What the pages gain where script runs: progress of long work as it happens, values of marks on pointing or by keyboard,
// a stretch of years of a picture. Without it every page and form works as well.

const progress = document.querySelector("#progress[data-work]");
if (progress) stream(progress, progress.dataset.work);

// The face tells how far the work is as it happens; where the stream breaks off, the browser asks for it again.
function stream(place, id) {
  const news = new EventSource(`/jobs/${id}/stream`);
  news.addEventListener("running", (event) => show(place, event.data));
  news.addEventListener("done", (event) => {
    news.close();
    show(place, event.data);
    const go = place.querySelector("a.go");
    if (go && !place.querySelector("ul li, .fault")) location.replace(go.href); // Nothing to read here: on.
    go?.focus();
    document.querySelector("form[action$='/stop']")?.remove();
  });
  // A face that was started again knows nothing of the work: its page says so.
  news.addEventListener("error", () => news.readyState === EventSource.CLOSED && location.reload());
}

function show(place, piece) {
  place.innerHTML = piece; // Made by this face, escaped there.
}

document.querySelector("#faults")?.focus();

for (const figure of document.querySelectorAll("figure")) {
  const notes = figure.querySelector("template.notes");
  if (notes) read(figure, [...notes.content.children], notes.dataset);
}

// Marks that tell their value: by pointing, and with the arrow keys when the picture has the focus. A stretch drawn from
// side to side, or + and − at a mark, shows its years alone; 0 shows all.
function read(figure, marks, words) {
  const svg = figure.querySelector(".wide svg");
  if (!svg || !marks.length) return;
  const points = marks
    .map((m) => [m.getAttribute("p").split(" "), m.textContent])
    .map(([[x, y, t], words]) => ({ x: +x, y: +y, t: +t, words }))
    .sort((a, b) => a.x - b.x);
  const zoom = document.querySelector("#zoom");
  const told = document.createElement("p");
  told.className = "told";
  told.setAttribute("aria-live", "polite");
  told.textContent = words.told + (zoom ? ` ${words.zoom}` : "");
  svg.parentElement.after(told);
  svg.setAttribute("tabindex", "0");
  const make = (name, attributes) => {
    const e = document.createElementNS("http://www.w3.org/2000/svg", name);
    for (const [k, v] of Object.entries(attributes)) e.setAttribute(k, v);
    svg.append(e);
    return e;
  };
  const stretch = make("rect", { y: 0, height: svg.viewBox.baseVal.height, fill: "#1a5863", opacity: 0.12, visibility: "hidden" });
  const ring = make("circle", { r: 7, fill: "none", stroke: "#1a5863", "stroke-width": 2, visibility: "hidden" });
  let at = -1;
  const tell = (i) => {
    at = Math.max(0, Math.min(points.length - 1, i));
    const p = points[at];
    ring.setAttribute("cx", p.x);
    ring.setAttribute("cy", p.y);
    ring.setAttribute("visibility", "visible");
    told.textContent = `${p.words} (${at + 1} ${words.of} ${points.length})`;
  };
  const here = (event) => {
    const box = svg.getBoundingClientRect();
    const scale = svg.viewBox.baseVal.width / box.width;
    return { x: (event.clientX - box.left) * scale, y: (event.clientY - box.top) * scale };
  };
  const nearest = (x, y) => {
    let best = 0, least = Infinity;
    points.forEach((p, i) => {
      const d = (p.x - x) ** 2 + (p.y - y) ** 2 / 9;
      if (d < least) [best, least] = [i, d];
    });
    return best;
  };
  const [first, last] = [points[0], points[points.length - 1]];
  const year = (x) => first.t + ((x - first.x) * (last.t - first.t)) / (last.x - first.x || 1);
  const years = (from, to) => {
    if (!zoom) return;
    zoom.elements.from.value = from === null ? "" : from.toFixed(2);
    zoom.elements.to.value = to === null ? "" : to.toFixed(2);
    sessionStorage.setItem("zoomed", figure.querySelector("svg").id || "picture");
    zoom.requestSubmit();
  };
  const shown = () => {
    const typed = (name, other) => (zoom?.elements[name].value ? +zoom.elements[name].value : other);
    return [typed("from", first.t), typed("to", last.t)];
  };
  const closer = (factor) => {
    const [from, to] = shown();
    const middle = at >= 0 ? points[at].t : (from + to) / 2;
    const half = Math.max(((to - from) * factor) / 2, 0.1);
    years(middle - half, middle + half);
  };
  svg.addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const step = { ArrowRight: 1, ArrowLeft: -1, PageDown: 10, PageUp: -10, Home: -Infinity, End: Infinity }[event.key];
    if (step !== undefined) {
      event.preventDefault();
      tell(at < 0 && step > 0 && step < Infinity ? 0 : at + step);
    } else if (zoom && points.length > 1) {
      if (event.key === "+" || event.key === "=") closer(0.5);
      else if (event.key === "-" || event.key === "−") closer(2);
      else if (event.key === "0") years(null, null);
    }
  });
  let from = null;
  const drop = () => {
    from = null;
    stretch.setAttribute("visibility", "hidden");
  };
  svg.addEventListener("pointerdown", (event) => {
    if (event.button === 0) from = here(event);
  });
  svg.addEventListener("pointermove", (event) => {
    const p = here(event);
    tell(nearest(p.x, p.y));
    if (!zoom || !from || Math.abs(p.x - from.x) < 5) return;
    stretch.setAttribute("x", Math.min(p.x, from.x));
    stretch.setAttribute("width", Math.abs(p.x - from.x));
    stretch.setAttribute("visibility", "visible");
  });
  svg.addEventListener("pointerup", (event) => {
    const to = here(event);
    if (from && Math.abs(to.x - from.x) > 20 && points.length > 1) {
      years(...[year(from.x), year(to.x)].sort((p, q) => p - q));
    }
    drop();
  });
  svg.addEventListener("pointerleave", drop);
  svg.addEventListener("pointercancel", drop);
  // After a change of years the reader stands where they stood.
  if (zoom && sessionStorage.getItem("zoomed")) {
    sessionStorage.removeItem("zoomed");
    svg.focus({ preventScroll: true });
  }
}

// A table that goes on to the right says how many columns stand there.
const furtherColumns = document.querySelector("main")?.dataset.columns;
for (const frame of document.querySelectorAll(".frame")) {
  const heads = [...frame.querySelectorAll("thead > tr:first-child > *")];
  if (!furtherColumns || !heads.length) continue;
  const more = document.createElement("p");
  more.className = "more";
  more.setAttribute("aria-hidden", "true"); // Who hears the page hears every column.
  frame.before(more);
  const tell = () => {
    const edge = frame.getBoundingClientRect().right + 4;
    const beyond = heads.filter((h) => h.getBoundingClientRect().right > edge).length;
    more.textContent = beyond ? furtherColumns.replace("#", beyond) : "";
    frame.classList.toggle("goes-on", beyond > 0 || frame.scrollLeft > 0);
  };
  frame.addEventListener("scroll", tell, { passive: true });
  new ResizeObserver(tell).observe(frame);
}

// Keys: single ones, off while a field has the focus and where a person turned them off. The list and its switch stand on
// the page /keys, which works without script.
const GO = { d: "/", w: "/wells", t: "/trips", l: "/lots", r: "/runs", e: "/results", s: "/statements", o: "/time", p: "/report" };
let afterG = false;
let row = -1;

const typing = (e) => e.closest?.("input:not([type=checkbox],[type=radio]), textarea, select, [contenteditable]");
const off = () => localStorage.getItem("keys") === "off";

document.addEventListener("keydown", (event) => {
  if (event.ctrlKey || event.metaKey || event.altKey || event.defaultPrevented) return;
  if (event.key === "Escape") {
    document.querySelector("details.who[open]")?.removeAttribute("open");
    return;
  }
  if (typing(event.target) || off() || document.querySelector("dialog[open]")) return;
  const went = afterG ? GO[event.key] : undefined;
  afterG = event.key === "g" && !afterG;
  if (afterG) return;
  if (went) {
    event.preventDefault();
    location.href = went;
  } else if (KEYS[event.key]) {
    event.preventDefault();
    KEYS[event.key]();
  }
});

const KEYS = {
  "/": () => {
    const menu = document.querySelector("#menu");
    if (menu) menu.checked = true; // On a telephone the search stands behind the menu.
    document.querySelector("#find")?.focus();
  },
  "?": () => list(),
  j: () => step(1),
  k: () => step(-1),
  "[": () => document.querySelector("main a[rel=prev]")?.click(),
  "]": () => document.querySelector("main a[rel=next]")?.click(),
  c: () => copy(),
};

// The next row that has a link: its link gets the focus, so that Enter opens it.
function step(by) {
  const rows = [...document.querySelectorAll("main tbody tr, main article, main .item")]
    .map((r) => [r, r.querySelector("a, button")])
    .filter(([, link]) => link && link.checkVisibility());
  if (!rows.length) return;
  row = Math.max(0, Math.min(rows.length - 1, row + by));
  rows[row][1].focus();
}

function copy() {
  const sentence = document.querySelector("main [data-copy]");
  if (sentence) navigator.clipboard?.writeText(sentence.dataset.copy || sentence.textContent);
}

// The list of keys over the page at hand: nothing that was typed is lost.
async function list() {
  const page = await fetch("/keys");
  if (!page.ok) return;
  const read = new DOMParser().parseFromString(await page.text(), "text/html");
  const dialog = document.createElement("dialog");
  dialog.append(...read.querySelector("main").childNodes);
  document.body.append(dialog);
  dialog.addEventListener("close", () => dialog.remove());
  const close = dialog.querySelector("#keys-close");
  close.hidden = false;
  close.addEventListener("click", () => dialog.close());
  offer(dialog);
  dialog.showModal();
}

// The switch that turns single keys off, kept on this machine.
function offer(place) {
  const button = place.querySelector("#keys-switch");
  if (!button) return;
  const show = () => (button.textContent = off() ? button.dataset.on : button.dataset.off);
  button.hidden = false;
  show();
  button.addEventListener("click", () => {
    if (off()) localStorage.removeItem("keys");
    else localStorage.setItem("keys", "off");
    show();
  });
}

offer(document);
document.querySelector("#keys")?.addEventListener("click", (event) => {
  event.preventDefault();
  list();
});
