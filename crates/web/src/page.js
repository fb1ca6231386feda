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
  if (notes) read(figure, [...notes.content.children]);
}

// Marks that tell their value: by pointing, and with the arrow keys when the picture has the focus. A stretch drawn from
// side to side, or + and − at a mark, shows its years alone; 0 shows all.
function read(figure, marks) {
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
  told.textContent =
    "Point at a mark, or give the picture the focus and use the arrow keys." +
    (zoom ? " Draw from side to side, or press + at a mark, for its years alone; − for more years, 0 for all." : "");
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
    told.textContent = `${p.words} (${at + 1} of ${points.length})`;
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
