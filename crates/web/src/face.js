// What the pages gain where script runs: progress of long work, values of marks on pointing or by keyboard, a stretch
// of years drawn on a picture, pictures as PNG. Without it every page and form works as well.

const progress = document.querySelector("#progress[data-work]");
if (progress) watch(progress, progress.dataset.work);

async function watch(place, id) {
  for (;;) {
    await new Promise((done) => setTimeout(done, 700));
    let answer;
    try {
      answer = await fetch(`/jobs/${id}/progress`);
    } catch {
      continue; // The connection dropped: the work goes on, and so do we.
    }
    if (!answer.ok) return;
    place.innerHTML = await answer.text(); // Made by this face, escaped there.
    if (answer.headers.get("x-work") !== "running") {
      const go = place.querySelector("a.go");
      if (go && !place.querySelector("ul li")) location.replace(go.href); // Nothing to read here: on.
      go?.focus();
      document.querySelector("form[action$='/stop']")?.remove();
      return;
    }
  }
}

document.querySelector("#faults")?.focus();

for (const figure of document.querySelectorAll("figure")) {
  const notes = figure.querySelector("template.notes");
  if (notes) read(figure, [...notes.content.children]);
  png(figure);
}

// Marks that tell their value: by pointing, and with the arrow keys when the picture has the focus.
function read(figure, marks) {
  const svg = figure.querySelector(".wide svg");
  if (!svg || !marks.length) return;
  const points = marks
    .map((m) => [m.getAttribute("p").split(" "), m.textContent])
    .map(([[x, y, t], words]) => ({ x: +x, y: +y, t: +t, words }))
    .sort((a, b) => a.x - b.x);
  const told = document.createElement("p");
  told.className = "told";
  told.setAttribute("aria-live", "polite");
  told.textContent = "Point at a mark, or give the picture the focus and use the arrow keys.";
  svg.parentElement.after(told);
  svg.setAttribute("tabindex", "0");
  const ring = document.createElementNS("http://www.w3.org/2000/svg", "circle");
  for (const [k, v] of [["r", 7], ["fill", "none"], ["stroke", "#1a5863"], ["stroke-width", 2], ["visibility", "hidden"]]) ring.setAttribute(k, v);
  svg.append(ring);
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
  svg.addEventListener("keydown", (event) => {
    const step = { ArrowRight: 1, ArrowLeft: -1, PageDown: 10, PageUp: -10, Home: -Infinity, End: Infinity }[event.key];
    if (step === undefined) return;
    event.preventDefault();
    tell(at < 0 && step > 0 ? 0 : at + step);
  });
  let from = null;
  svg.addEventListener("pointerdown", (event) => (from = here(event)));
  svg.addEventListener("pointermove", (event) => {
    const p = here(event);
    tell(nearest(p.x, p.y));
  });
  // A stretch drawn from left to right or back shows its years alone.
  svg.addEventListener("pointerup", (event) => {
    const zoom = document.querySelector("#zoom");
    const to = here(event);
    if (zoom && from && Math.abs(to.x - from.x) > 20 && points.length > 1) {
      const [a, b] = [points[0], points[points.length - 1]];
      const year = (x) => a.t + ((x - a.x) * (b.t - a.t)) / (b.x - a.x || 1);
      const ends = [year(from.x), year(to.x)].sort((p, q) => p - q);
      zoom.elements.from.value = ends[0].toFixed(2);
      zoom.elements.to.value = ends[1].toFixed(2);
      zoom.requestSubmit();
    }
    from = null;
  });
}

// The picture alone, as SVG with its font, drawn on a canvas of twice its size.
function png(figure) {
  const caption = figure.querySelector("figcaption");
  if (!caption || !figure.dataset.svg) return;
  const link = document.createElement("a");
  link.href = figure.dataset.svg;
  link.textContent = "Picture as PNG";
  link.addEventListener("click", async (event) => {
    event.preventDefault();
    const svg = await (await fetch(figure.dataset.svg)).blob();
    const image = new Image();
    image.src = URL.createObjectURL(svg);
    await image.decode();
    const canvas = document.createElement("canvas");
    [canvas.width, canvas.height] = [image.width * 2, image.height * 2];
    canvas.getContext("2d").drawImage(image, 0, 0, canvas.width, canvas.height);
    canvas.toBlob((blob) => {
      const save = document.createElement("a");
      save.href = URL.createObjectURL(blob);
      save.download = `${figure.dataset.name}.png`;
      save.click();
    });
  });
  caption.append(" ", link);
}
