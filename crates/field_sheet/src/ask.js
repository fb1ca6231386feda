"use strict";
// A value that can be and seldom is: outside what is usual, or far from all that this well ever
// showed. It is asked about, and kept only when a person says that it is right; that answer is kept
// too, as a note. A slip of the decimal point is offered put right. And the last visit's value: it
// is said behind an entry, never before it.

const pastOf = (w, quantity) => w.past.find((p) => p.quantity === quantity) ?? null;

// The last visit in words.
function lastVisit(past) {
  return T("last-visit", { value: withUnit(past.last, past.unit), day: dayWords(past.day) });
}

const withUnit = (x, unit) => `${N(Number(x.toPrecision(6)))}${unit ? ` ${unit}` : ""}`;

// How far outside the well's own range a value may lie before it is asked about, in the unit of the quantity.
const margin = (q, past) => compute.margin(past, S.criteria.filter((c) => c.parameter === q.parameter));

// Everything that speaks against a reading, in sentences; none where it is as ever.
function doubtsOf(w, q, x) {
  const past = pastOf(w, q.quantity);
  const far = past && compute.outside(x, past.low, past.high, margin(q, past));
  return [...unusual(q.quantity, x, q.unit), ...(far ? [farWords(past)] : [])];
}

// The same of a flow: a third of the least or three times the most.
function doubtsOfFlow(w, x) {
  const past = pastOf(w, "flow");
  const far = past && (x < past.low / 3 || x > past.high * 3);
  return [...unusual("flow", x, "L/min"), ...(far ? [farWords(past)] : [])];
}

function farWords(past) {
  const range = past.low === past.high ? withUnit(past.low, past.unit) : `${N(Number(past.low.toPrecision(6)))} … ${withUnit(past.high, past.unit)}`;
  return T("doubt-well", { range, days: past.days, last: lastVisit(past) });
}

// Outside the table of what is usual: the sentence, or none.
function unusual(quantity, x, unit) {
  const r = compute.unusual(S.usual, quantity, x, unit ?? S.units[quantity]);
  return r ? [T("doubt-usual", { lower: r.lower, upper: `${N(r.upper)}${r.shown_unit ? ` ${r.shown_unit}` : ""}` })] : [];
}

// A number with its point one or two places elsewhere, or its sign turned, that nothing speaks against.
function slipOf(x, against) {
  const all = [x / 10, x / 100, x * 10, x * 100, -x].map((y) => Number(y.toPrecision(12)));
  return all.find((y) => y !== x && against(y).length === 0) ?? null;
}

// Enters a value, or asks first. `bound`: what it can be at all; `doubts(x)`: what speaks against it, in sentences;
// `make(x)`: its entry; `text(x)`: its words; `after`: what is said behind it; `id`: the draft that it stood in.
function offer({ x, bound, doubts, make, text, after, id }) {
  const wrong = beyond(bound, x);
  const against = (y) => (beyond(bound, y) ? [beyond(bound, y)] : doubts(y));
  const said = against(x);
  if (!said.length) {
    if (id) draft[id] = "";
    return enter(make(x), after ? T("entered-last", { what: text(x), last: after }) : text(x));
  }
  const slip = slipOf(x, against);
  if (wrong && slip === null) return refuse(wrong);
  draft.last = wrong ? { all: [], words: wrong } : null;
  draft.ask = {
    id, words: text(x), against: said, entry: wrong ? null : make(x),
    slip: slip === null ? null : { entry: make(slip), words: text(slip) }, after: after ?? null,
  };
  return render();
}

// The question, above the places at the foot; nothing where none is open.
function question() {
  const a = draft.ask;
  if (!a) return null;
  const keepIt = (entry, text, note) => {
    if (a.id) draft[a.id] = "";
    enterAll([entry, ...(note ? [{ what: "note", text: note, ...(entry.well ? { well: entry.well } : {}) }] : [])],
      a.after ? T("entered-last", { what: text, last: a.after }) : text);
  };
  return h("div", { id: "ask", role: "alertdialog", tabindex: "-1", "aria-label": T("ask", { value: a.words }) },
    h("p", {}, h("b", {}, T("ask", { value: a.words })), " ", a.against.join(" ")),
    h("div", { class: "chips" },
      a.slip ? button("ask-slip", T("ask-slip", { value: a.slip.words }), () => keepIt(a.slip.entry, a.slip.words, null)) : null,
      a.entry ? button("ask-right", T("ask-right", { value: a.words }), () => keepIt(a.entry, a.words, T("asked-note", { value: a.words, why: a.against.join(" ") }))) : null,
      button("ask-again", T("ask-again"), () => { draft.ask = null; draft.last = null; render(); if (a.id) document.getElementById(a.id)?.select(); })));
}
