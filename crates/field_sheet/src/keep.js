"use strict";
// Keeping what was entered: each entry is written to the phone's own storage before the page says
// so, under a key of its own, with a counter that only rises; what is half typed is kept beside it.
// Where the browser gives an opened file no lasting storage, `keep.state.lasting` is false and
// `keep.state.why` is the key of the sentence that says why, with its arguments.
//
// An entry: { n, at, who, what, … }. `at` is the phone's time with its offset from UTC.

const keep = (() => {
  const sheet = JSON.parse(document.getElementById("sheet").textContent);
  const root = `limpid:${sheet.sheet}:`;
  const state = { sheet, entries: [], device: null, lasting: false, why: null, saved: 0, changed: () => {} };

  function probe() {
    // Pages from a phone's file viewer have an address of their own each time they are opened.
    if (["content:", "blob:", "data:", "about:"].includes(location.protocol)) return ["why-inside-app"];
    try {
      const key = `${root}probe`;
      const mark = String(Math.random());
      localStorage.setItem(key, mark);
      const back = localStorage.getItem(key);
      localStorage.removeItem(key);
      return back === mark ? null : ["why-not-given-back"];
    } catch (e) {
      return ["why-refused", { name: e.name }];
    }
  }

  const random = (bytes) => [...crypto.getRandomValues(new Uint8Array(bytes))]
    .map((b) => b.toString(16).padStart(2, "0")).join("");

  function load() {
    const out = [];
    for (let i = 0; i < localStorage.length; i += 1) {
      const key = localStorage.key(i);
      if (/^\d+$/.test(key.slice(root.length)) && key.startsWith(root)) {
        try {
          out.push(JSON.parse(localStorage.getItem(key)));
        } catch (e) {
          // A value cut off by a full storage: its entry was never confirmed.
        }
      }
    }
    return out.sort((a, b) => a.n - b.n);
  }

  function start() {
    state.why = probe();
    state.lasting = state.why === null;
    if (state.lasting) {
      state.entries = load();
      state.device = localStorage.getItem(`${root}device`);
      state.saved = Number(localStorage.getItem(`${root}saved`) || 0);
    }
    if (!state.device) {
      state.device = random(6);
      if (state.lasting) localStorage.setItem(`${root}device`, state.device);
    }
    // The same sheet in a second tab: its entries come in here.
    addEventListener("storage", (e) => {
      if (e.key && e.key.startsWith(root) && state.lasting) {
        state.entries = load();
        state.changed();
      }
    });
  }

  // Something small that is kept beside the entries: what is half typed, who holds the phone, light and language.
  // Without storage it lasts as long as the page.
  function remember(name, value) {
    try {
      localStorage.setItem(root + name, JSON.stringify(value));
    } catch (e) {
      // The page says on top that nothing lasts.
    }
  }

  function remembered(name) {
    try {
      return JSON.parse(localStorage.getItem(root + name));
    } catch (e) {
      return null;
    }
  }

  // Local time with offset: 2026-07-14T09:12:33+02:00.
  function stamp(date) {
    const d = date || new Date();
    const two = (x) => String(Math.abs(x)).padStart(2, "0");
    const offset = -d.getTimezoneOffset();
    const sign = offset < 0 ? "-" : "+";
    return `${d.getFullYear()}-${two(d.getMonth() + 1)}-${two(d.getDate())}T${two(d.getHours())}:${two(d.getMinutes())}:`
      + `${two(d.getSeconds())}${sign}${two(Math.trunc(offset / 60))}:${two(offset % 60)}`;
  }

  // Adds an entry, answers its number. A full storage is told, nothing is dropped.
  function add(entry, who) {
    if (state.lasting) {
      // Another tab may have counted on.
      const known = load();
      if (known.length > state.entries.length) state.entries = known;
    }
    const n = state.entries.length ? state.entries[state.entries.length - 1].n + 1 : 1;
    const full = { n, at: stamp(), ...(who ? { who } : {}), ...entry };
    if (state.lasting) {
      try {
        localStorage.setItem(root + n, JSON.stringify(full));
      } catch (e) {
        state.lasting = false;
        state.why = ["why-full", { name: e.name }];
      }
    }
    state.entries.push(full);
    state.changed();
    return n;
  }

  const struck = () => new Set(state.entries.filter((e) => e.what === "strike").map((e) => e.strikes));
  const standing = () => {
    const out = struck();
    return state.entries.filter((e) => e.what !== "strike" && !out.has(e.n));
  };

  function exported() {
    return {
      format: sheet.format, version: sheet.version, sheet: sheet.sheet, programme: sheet.programme, trip: sheet.trip.name,
      device: state.device, exported_at: stamp(), entries: state.entries,
    };
  }

  function markSaved() {
    state.saved = state.entries.length;
    if (state.lasting) localStorage.setItem(`${root}saved`, String(state.saved));
    state.changed();
  }

  // Goes on from a file saved before, where the browser kept nothing: answers what came of it, as key and arguments.
  function resume(text) {
    let file;
    try {
      file = JSON.parse(text);
    } catch (e) {
      return ["resume-no-sheet"];
    }
    if (file.format !== sheet.format || file.sheet !== sheet.sheet) return ["resume-other-sheet"];
    if (state.entries.length && file.device !== state.device) return ["resume-own-entries"];
    const known = new Set(state.entries.map((e) => e.n));
    const more = file.entries.filter((e) => !known.has(e.n));
    state.device = file.device;
    state.entries = [...state.entries, ...more].sort((a, b) => a.n - b.n);
    if (state.lasting) {
      localStorage.setItem(`${root}device`, state.device);
      for (const e of more) localStorage.setItem(root + e.n, JSON.stringify(e));
    }
    markSaved();
    return ["resume-done", { entries: more.length }];
  }

  start();
  return { state, add, remember, remembered, stamp, standing, struck, exported, markSaved, resume };
})();
