
// Forms: what was done has the focus; the workshop answers while one chooses; the grid of a visit tells what it holds,
// takes a block from a spreadsheet and goes by keys. Without script all of it is asked for by a button.
{
  document.documentElement.classList.add("script");
  document.querySelector("#done")?.focus();

  const later = (work, wait) => {
    let timer;
    return () => {
      clearTimeout(timer);
      timer = setTimeout(work, wait);
    };
  };

  // A piece of the page, made by the same program and escaped there; an answer that was overtaken is dropped.
  const pieces = (place, ask) => {
    let last = 0;
    return async () => {
      const n = ++last;
      place.setAttribute("aria-busy", "true");
      try {
        const answer = await ask();
        if (n === last && answer.ok) place.innerHTML = await answer.text();
      } finally {
        if (n === last) place.removeAttribute("aria-busy");
      }
    };
  };

  const ask = document.querySelector("form[data-answer]");
  const answer = document.querySelector("#answer");
  if (ask && answer) {
    const look = pieces(answer, () => {
      const words = new URLSearchParams(new FormData(ask));
      history.replaceState(null, "", `${ask.getAttribute("action")}?${words}`);
      return fetch(`${ask.dataset.answer}?${words}`);
    });
    const soon = later(look, 250);
    ask.addEventListener("input", (event) => {
      // Another substance has other lists: the whole page.
      if (event.target.dataset.whole !== undefined) ask.requestSubmit();
      else soon();
    });
  }

  document.addEventListener("click", async (event) => {
    const button = event.target.closest?.("button[data-copy]");
    if (!button) return;
    const text = document.getElementById(button.dataset.copy)?.textContent ?? "";
    const before = button.textContent;
    try {
      await navigator.clipboard.writeText(text);
      button.textContent = button.dataset.done;
    } catch {
      getSelection().selectAllChildren(document.getElementById(button.dataset.copy));
    }
    setTimeout(() => (button.textContent = before), 2000);
  });

  const visit = document.querySelector("form[data-look]");
  if (visit) grid(visit);

  function grid(form) {
    const field = (id) => document.getElementById(id);
    const place = field("visit-told");
    const look = pieces(place, () => {
      const words = new URLSearchParams(new FormData(form));
      words.set("piece", "1");
      return fetch(form.dataset.look, { method: "POST", body: words });
    });
    const soon = later(look, 400);
    const step = Number(form.querySelector("[data-step]").dataset.step);
    // Times three minutes apart, from the first that was typed, where nobody typed another.
    const offer = (from) => {
      const [h, m] = from.value.split(":").map(Number);
      if (!(h >= 0 && h < 24 && m >= 0 && m < 60)) return;
      let minutes = h * 60 + m;
      for (let n = Number(from.id.slice(1)) + 1; field(`t${n}`); n += 1) {
        const next = field(`t${n}`);
        if (next.value && next.dataset.offered === undefined) return;
        minutes = (minutes + step) % 1440;
        next.value = `${String(Math.floor(minutes / 60)).padStart(2, "0")}:${String(minutes % 60).padStart(2, "0")}`;
        next.dataset.offered = "";
      }
    };
    form.addEventListener("input", (event) => {
      const id = event.target.id;
      delete event.target.dataset.offered;
      if (/^t\d+$/.test(id)) offer(event.target);
      soon();
    });
    const beside = (id, down, right) => {
      const [, row, n, column] = /^([tcf])(\d+)(?:\.(\w+))?$/.exec(id) ?? [];
      if (row === undefined) return null;
      if (row === "f") {
        const columns = ["l", "s", "t"];
        return field(`f${+n + down}.${columns[columns.indexOf(column) + right]}`);
      }
      const to = (row === "t" ? -1 : +column) + right;
      return field(to < 0 ? `t${+n + down}` : `c${+n + down}.${to}`);
    };
    form.addEventListener("keydown", (event) => {
      const at = event.target;
      const go = { ArrowDown: [1, 0], ArrowUp: [-1, 0], Enter: [1, 0] }[event.key];
      const edge = { ArrowRight: at.value?.length, ArrowLeft: 0 }[event.key];
      const next =
        go ? beside(at.id, ...go)
        : edge !== undefined && at.selectionStart === edge && at.selectionEnd === edge
          ? beside(at.id, 0, event.key === "ArrowRight" ? 1 : -1)
          : null;
      if (next) {
        event.preventDefault();
        next.focus();
        next.select?.();
      } else if (event.key === "Enter" && at.closest?.(".grid")) event.preventDefault();
    });
    form.addEventListener("paste", (event) => {
      const text = event.clipboardData?.getData("text") ?? "";
      if (!/[\t\n]/.test(text.trim()) || !event.target.closest(".grid")) return;
      event.preventDefault();
      text.trimEnd().split(/\r?\n/).forEach((line, down) => {
        line.split("\t").forEach((value, right) => {
          const cell = beside(event.target.id, down, right);
          if (cell) cell.value = value.trim();
        });
      });
      soon();
    });
  }
}
