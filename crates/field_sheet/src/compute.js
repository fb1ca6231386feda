"use strict";
// The sums of the field sheet: flow, contact time, renewal, stability, air class, U from u.
//
// In: what was entered, the construction of the well, the criteria and class limits that the
// programme embeds in the sheet. Out: plain numbers with u, in the units of the names. The same
// formulas as crates `aquifer` (well, purge) and `cleanliness` (air) of the programme, which name
// their sources; a test runs both and compares. Nothing here touches the page.

const compute = (() => {
  const sum = (xs) => xs.reduce((a, b) => a + b, 0);

  // Flow, L/min: mean of V/t. u² = s²/n + Σ over containers (part·u_mark/V)² (JCGM 100:2008).
  // u is null where a single fill has nothing to show it.
  function flow(fills, uMarkL) {
    if (fills.length === 0) return null;
    const q = fills.map((f) => (f.volume_L / f.seconds) * 60);
    const n = q.length;
    const mean = sum(q) / n;
    const sd = n > 1 ? Math.sqrt(sum(q.map((x) => (x - mean) ** 2)) / (n - 1)) : null;
    const scatter = n > 1 ? sd / Math.sqrt(n) : null;
    let mark = 0;
    if (uMarkL) {
      const volumes = [...new Set(fills.map((f) => f.volume_L))];
      mark = Math.sqrt(sum(volumes.map((v) => {
        const part = sum(q.filter((_, i) => fills[i].volume_L === v)) / n;
        return ((part * uMarkL) / v) ** 2;
      })));
    }
    const u = scatter === null || (scatter === 0 && mark === 0) ? null : Math.hypot(scatter, mark);
    // Effective degrees of freedom (Welch and Satterthwaite; JCGM 100:2008, G.4.1): n − 1 for the scatter, the mark's are endless.
    const dof = u === null || scatter === 0 ? Infinity : ((u / scatter) ** 4) * (n - 1);
    return { value: mean, u, dof, n, sd };
  }

  const volumeL = (s) => Math.PI * s.radius_m * s.radius_m * (s.to_m - s.from_m) * 1000;

  // Contact time, min, in all and by material: volume over flow, with the flow's relative u.
  function contact(sections, flow) {
    if (!flow || sections.length === 0) return null;
    const minutes = (litres) => ({
      value: litres / flow.value,
      u: flow.u === null ? null : ((litres / flow.value) * flow.u) / flow.value,
      dof: flow.dof,
    });
    const ordered = [...sections].sort((a, b) => a.from_m - b.from_m);
    const materials = new Map();
    for (const s of ordered) materials.set(s.material, (materials.get(s.material) || 0) + volumeL(s));
    const litres = sum(ordered.map(volumeL));
    return {
      litres,
      total: minutes(litres),
      by: [...materials].map(([material, l]) => ({ material, ...minutes(l) })),
    };
  }

  // Volumes renewed since the well was opened, and the standing water left if it mixes fully.
  function renewed(litres, flowLMin, minutes) {
    const n = (flowLMin * minutes) / litres;
    return { volumes: n, left: Math.exp(-n) };
  }

  const applicable = (all, mean) => all.find((c) =>
    (c.applies_below === null || mean <= c.applies_below) && (c.applies_above === null || mean > c.applies_above));

  // Is a reading steady, and since when (min)? Points: [minutes, value] in rising time.
  function steady(points, parameter, rule, criteria) {
    const all = criteria.filter((c) => c.rule === rule && c.parameter === parameter);
    if (all.length === 0) return { state: "no rule" };
    const { spacing_min: spacing, readings: need } = all[0];
    const kept = [];
    for (const p of points) {
      if (kept.length === 0 || p[0] - kept[kept.length - 1][0] >= spacing - 0.01) kept.push(p);
    }
    if (kept.length < need) return { state: "few", have: kept.length, need, spacing };
    let since = null;
    let spread = 0;
    let mean = 0;
    for (let i = 0; i + need <= kept.length; i += 1) {
      const w = kept.slice(i, i + need);
      mean = sum(w.map((p) => p[1])) / need;
      spread = Math.max(...w.map((p) => Math.abs(p[1] - mean)));
      const c = applicable(all, mean);
      const band = c ? Math.max(c.absolute || 0, ((c.relative_percent || 0) / 100) * Math.abs(mean)) : 0;
      if (spread <= band * (1 + 1e-9)) {
        if (since === null) since = w[0][0];
      } else {
        since = null;
      }
    }
    const c = applicable(all, mean) || all[0];
    return { state: since === null ? "moving" : "steady", since, spread, mean, need, spacing, source: c.source,
      absolute: c.absolute, relative_percent: c.relative_percent, unit: c.unit };
  }

  // ln Γ(x) for x > 0 by Lanczos' series, g = 7, nine terms: 15 digits.
  const LANCZOS = [0.99999999999980993, 676.5203681218851, -1259.1392167224028, 771.32342877765313,
    -176.61502916214059, 12.507343278686905, -0.13857109526572012, 9.9843695780195716e-6, 1.5056327351493116e-7];
  function lnGamma(x) {
    const z = x - 1;
    let a = LANCZOS[0];
    for (let i = 1; i < 9; i += 1) a += LANCZOS[i] / (z + i);
    const t = z + 7.5;
    return 0.5 * Math.log(2 * Math.PI) + (z + 0.5) * Math.log(t) - t + Math.log(a);
  }

  // Probability of at most n counts at a mean: Q(n + 1, mean) by series or continued fraction.
  function poissonAtMost(n, mean) {
    const a = n + 1;
    const front = Math.exp(a * Math.log(mean) - mean - lnGamma(a));
    if (mean < a + 1) {
      let term = 1 / a;
      let total = term;
      for (let k = 1; k < 100000 && term > total * 1e-17; k += 1) {
        term *= mean / (a + k);
        total += term;
      }
      return 1 - front * total;
    }
    const tiny = 1e-300;
    let b = mean + 1 - a;
    let c = 1 / tiny;
    let d = 1 / b;
    let h = d;
    for (let i = 1; i < 100000; i += 1) {
      const an = -i * (i - a);
      b += 2;
      d = an * d + b;
      if (Math.abs(d) < tiny) d = tiny;
      c = b + an / c;
      if (Math.abs(c) < tiny) c = tiny;
      d = 1 / d;
      const step = d * c;
      h *= step;
      if (Math.abs(step - 1) < 1e-16) break;
    }
    return front * h;
  }

  // Exact one-sided 95 % upper bound of a count: the mean at which so few counts have 5 %.
  function upper95(count) {
    let low = count;
    let high = count + 10 * Math.sqrt(count + 1) + 10;
    for (let i = 0; i < 200; i += 1) {
      const middle = (low + high) / 2;
      if (poissonAtMost(count, Math.max(middle, 1e-12)) > 0.05) low = middle;
      else high = middle;
    }
    return (low + high) / 2;
  }

  const threeDigits = (x) => {
    const scale = 10 ** (Math.floor(Math.log10(x)) - 2);
    return Math.round(x / scale) * scale;
  };

  // Limit of a class at a size, per m³: the table (ISO 14644-1:2015), between its sizes the formula.
  function classLimit(table, k, size) {
    const of = table.filter((c) => c[0] === k);
    const cell = of.find((c) => c[1] === size);
    if (cell) return cell[2];
    const below = of.filter((c) => c[1] < size).pop();
    const above = of.find((c) => c[1] > size);
    if (!below || !above || below[2] === null || above[2] === null) return null;
    return threeDigits(10 ** k * (0.1 / size) ** 2.08);
  }

  const volumeToShow = (table, k, size) => {
    const limit = classLimit(table, k, size);
    return limit === null ? null : Math.max((20 / limit) * 1000, 2);
  };

  // What one sample of air says. Counts: [{size_um, count}], cumulative.
  function air(counts, litres, table) {
    const readings = [...counts].sort((a, b) => a.size_um - b.size_um).map((c) => ({
      size_um: c.size_um,
      count: c.count,
      per_m3: (c.count * 1000) / litres,
      upper_95_per_m3: upper95(c.count) * (1000 / litres),
    }));
    const strictest = (test) => [1, 2, 3, 4, 5, 6, 7, 8, 9].find(test) ?? null;
    const fits = (k, key) => {
      const judged = readings.map((r) => [classLimit(table, k, r.size_um), r[key]]).filter(([l]) => l !== null);
      return judged.length > 0 && judged.every(([l, x]) => x <= l);
    };
    const enough = (k) => readings.some((r) => {
      const v = volumeToShow(table, k, r.size_um);
      return v !== null && litres >= v * (1 - 1e-3);
    });
    return {
      readings,
      under: strictest((k) => fits(k, "per_m3")),
      bounded: strictest((k) => fits(k, "upper_95_per_m3")),
      shown: strictest((k) => fits(k, "per_m3") && enough(k)),
      toShow: (k) => {
        const all = readings.map((r) => volumeToShow(table, k, r.size_um)).filter((v) => v !== null);
        return all.length ? Math.min(...all) : null;
      },
    };
  }

  // Counts that rise with size cannot be cumulative: the sizes at fault, or null.
  function rising(counts) {
    const c = [...counts].sort((a, b) => a.size_um - b.size_um);
    for (let i = 1; i < c.length; i += 1) if (c[i].count > c[i - 1].count) return [c[i - 1], c[i]];
    return null;
  }

  // The range of a quantity in words, by language, where a value lies outside what it can be at all, else null.
  function beyond(bounds, quantity, x) {
    const b = bounds.find((row) => row.quantity === quantity);
    return !b || (x >= b.lower && x <= b.upper) ? null : b.said;
  }

  // The usual range of a quantity, in the table's own unit, where a value lies outside; null where it is usual.
  function unusual(ranges, quantity, x, unit) {
    const r = ranges.find((row) => row.quantity === quantity && row.unit === unit);
    return !r || (x >= r.lower && x <= r.upper) ? null : r;
  }

  // How far outside of all that a well ever showed a value may lie before it is asked about: the width of what it showed,
  // at least three times the widest band within which any of the criteria calls such readings steady. The programme's own
  // choice: less would ask about every meter's calibration.
  const BANDS = 3;
  function margin(past, criteria) {
    const size = Math.max(Math.abs(past.low), Math.abs(past.high));
    const bands = criteria.map((c) => Math.max(c.absolute || 0, ((c.relative_percent || 0) / 100) * size));
    return Math.max(past.high - past.low, BANDS * Math.max(0, ...bands));
  }

  const outside = (x, low, high, margin) => x < low - margin || x > high + margin;

  // Repeated counts of a place are added up size by size: the sizes that a count lacks or has alone, or null.
  function otherSizes(before, counts) {
    const sizes = (all) => all.map((c) => c.size_um).sort((a, b) => a - b).join(", ");
    return before.length && sizes(before[0].counts) !== sizes(counts) ? sizes(before[0].counts) : null;
  }

  // A number to so many digits, plain notation.
  function digits(x, n) {
    if (x === 0) return "0";
    const places = n - 1 - Math.floor(Math.log10(Math.abs(x)));
    return places >= 0 ? x.toFixed(Math.min(places, 12)) : String(Math.round(x / 10 ** -places) * 10 ** -places);
  }

  // Upper 2.5 % point of Student's t, the factor k from u to U at 95 %: by bisection of the tail, whose
  // probability is half the regularised incomplete beta function (continued fraction; NIST DLMF 8.17.22).
  function betaRegularised(x, a, b) {
    const front = Math.exp(lnGamma(a + b) - lnGamma(a) - lnGamma(b) + a * Math.log(x) + b * Math.log(1 - x));
    if (x > (a + 1) / (a + b + 2)) return 1 - betaRegularised(1 - x, b, a);
    const tiny = 1e-300;
    let c = 1;
    let d = 1 / Math.max(Math.abs(1 - ((a + b) * x) / (a + 1)), tiny) * Math.sign(1 - ((a + b) * x) / (a + 1));
    let f = d;
    for (let m = 1; m < 10000; m += 1) {
      for (const t of [(m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m)), (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1))]) {
        d = 1 / (1 + t * d || tiny);
        c = 1 + t / c || tiny;
        f *= c * d;
      }
      if (Math.abs(c * d - 1) < 1e-16) break;
    }
    return (front * f) / a;
  }

  // Upper 2.5 % point of the normal distribution (mpmath: sqrt(2)·erfinv(0.95)).
  const NORMAL_975 = 1.959963984540054;
  function coverage(dof) {
    if (!(dof < 1e6)) return NORMAL_975;
    const tail = (t) => betaRegularised(dof / (dof + t * t), dof / 2, 0.5) / 2;
    let low = 1;
    let high = 2;
    while (tail(high) > 0.025) high *= 2;
    for (let i = 0; i < 200 && low < high; i += 1) {
      const middle = (low + high) / 2;
      if (tail(middle) > 0.025) low = middle;
      else high = middle;
    }
    return (low + high) / 2;
  }

  // Expanded uncertainty of a value with u and degrees of freedom, 95 %; null where u is not known.
  const expanded = (x) => (x.u === null || !(x.u > 0) ? null : coverage(x.dof) * x.u);

  // Standard uncertainty from what a manual states: an expanded one U = k·u; u itself; or limits ± a that
  // are never passed, all values between alike: u = a/√3 (JCGM 100:2008, 4.3.3, 4.3.4, 4.3.7).
  const standardU = (kind, given, k) => ({ expanded: given / k, standard: given, limits: given / Math.sqrt(3) })[kind];

  // Value ± U: U to two figures, the value to the same place; three figures where U is not known.
  function withU(x) {
    const U = expanded(x);
    if (U === null) return digits(x.value, 3);
    const places = Math.max(0, 1 - Math.floor(Math.log10(U)));
    return `${x.value.toFixed(Math.min(places, 9))} ± ${U.toFixed(Math.min(places, 9))}`;
  }

  return {
    flow, contact, renewed, steady, upper95, air, rising, beyond, unusual, margin, outside, otherSizes, classLimit, digits,
    coverage, expanded, standardU, withU,
  };
})();
