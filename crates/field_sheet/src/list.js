"use strict";
// Everything entered today in words, newest first, each with a way back; and what is still to do.

const seconds = (x) => `${N(x)} ${S.units["fill.seconds"]}`;
const litres = (x) => `${N(x)} L`;
const quantityValue = (q, value) => `${W(q.quantity)} ${N(value)}${q.shown_unit ? ` ${q.shown_unit}` : ""}`;
const unitWords = (e) => S.watched.find((q) => q.quantity === e.quantity)?.shown_unit ?? e.unit;
const countWords = (c) => T("count-at", { count: c.count, size: N(c.size_um) });

// Value and, where the meter's u is known, its U.
function readingWords(e) {
  const unit = unitWords(e);
  return `${W(e.quantity)} ${N(e.value)}${e.u ? ` ± ${N(Number((2 * e.u).toPrecision(2)))}` : ""}${unit ? ` ${unit}` : ""}`;
}

const fillWords = (e) => T("fill-in", { volume: litres(e.volume_L), time: seconds(e.seconds) });
const airWords = (e) => `${W(e.place)}, ${litres(e.volume_L)}: ${e.counts.map(countWords).join(", ")}`;
const sealWords = (e) => (e.seal ? T("seal-is", { seal: W(e.seal) }) : null);
const boxWords = (e) => [W(e.step), e.person, e.place && W(e.place), e.temperature_C === undefined ? null : `${N(e.temperature_C)} ${S.units["custody.temperature_C"]}`, sealWords(e)]
  .filter((x) => x).join(", ");

// What a step of a bottle set, in words.
function setsWords(sets) {
  const of = {
    kind: W, well: String, lot: (x) => T("lot", { lot: x }), fraction: fractionWords, filter: (x) => T("filter-lot", { lot: x }),
    volume_mL: (x) => `${N(x)} ${S.units["bottle.volume_mL"]}`, sampler: String, acid: (x) => T("acid-of", { lot: x }),
    acid_mL: (x) => `${N(x)} ${S.units["bottle.acid_mL"]}`, acidified_place: W, openings: (x) => T("openings-are", { openings: x }),
    cabinet_min: (x) => T("minutes-cabinet", { minutes: x }), open_air_min: (x) => T("minutes-open", { minutes: x }), note: String,
  };
  return Object.entries(sets || {}).filter(([k]) => of[k]).map(([k, v]) => of[k](v)).join(", ");
}

// An entry in one line.
function inWords(e) {
  const body = {
    reading: () => `${e.well}: ${readingWords(e)}`,
    fill: () => `${e.well}: ${fillWords(e)}`,
    air: () => `${e.well}: ${airWords(e)}`,
    well: () => `${e.well}: ${T(`${e.state}-since`, { time: clock(e.since) })}`,
    condition: () => `${T(`field-${e.field.replaceAll("_", "-")}`)}: ${W(e.value)}`,
    bottle: () => [e.bottle, e.step ? stepName(e.step) : null, setsWords(e.sets)].filter((x) => x).join(": "),
    custody: () => boxWords(e),
    photo: () => `${e.well ?? e.bottle}: ${T("photograph")}`,
    note: () => `${e.well ? `${e.well}: ` : ""}${e.text}`,
    strike: () => T("struck", { entry: e.strikes }),
  };
  return `${e.n} · ${clock(e.at)} · ${body[e.what]()}`;
}

// Wells where something was begun and something lacks, in words.
function undone() {
  return S.wells.map((w) => [w, wellRows(w)])
    .filter(([w, rows]) => rows.some((r) => r.begun) && rows.some((r) => !r.done))
    .map(([w, rows]) => T("lacks", { well: w.name, what: rows.filter((r) => !r.done).map((r) => T(`row-${r.id}`)).join(", ") }));
}
