### An analysis as it was read: what was assumed on the way, and why one cannot be worked out.

## What was assumed. Clauses: whoever shows one makes a sentence of it.

analysis-iron-taken = iron without a valence is taken as Fe(II); dissolved Fe(III) is negligible above pH 4 unless it is particles

# $valence (name): As(III) or As(V)
analysis-arsenic-taken = arsenic without a valence is taken as { $valence } from the other redox measurements

analysis-manganese-taken = dissolved manganese is taken as Mn(II)

analysis-copper-taken = copper is taken as Cu(II)

analysis-uranium-taken = uranium without a valence is taken as U(VI); in water without oxygen part of it may be U(IV), which only the couple closed at an Eh, or a measurement of its own, can tell

# $analyte (name): as it was written
# $valence (name): Sb(V), Cr(III)
analysis-valence-taken = { $analyte } without a valence is taken as { $valence } from the other redox measurements

## Elements that get no answer in this water, each with its reason.

analysis-copper-refused = no answer for copper: in water with sulfide or with an Eh below zero it is Cu(I), for which the table holds no constants that stand

analysis-antimony-refused = no answer for antimony: beside sulfide thioantimonites carry it, for which the table holds no constants

analysis-vanadium-refused = no answer for vanadium: in water with sulfide or with an Eh below zero it may be V(III), V(IV) or V(V), and which was not stated

analysis-chromium-refused = no answer for chromium: it may be Cr(III) or Cr(VI), and which was not stated

## What was assumed, further.

# $bicarbonate (message): as given
analysis-bicarbonate-alone = HCO3 { $bicarbonate } stands alone and is taken as the whole alkalinity, as laboratories compute it from a titration

analysis-carbonate-alone = CO3 without HCO3 or alkalinity

analysis-bicarbonate-beside = HCO3 or alkalinity beside it

# $alkalinity (message): as given
analysis-acidity = alkalinity { $alkalinity } is negative: that is acidity, and no carbonate follows from it

analysis-sorption-left-out = sorption on oxides, clay and organic matter is left out: the answer is of what was dissolved

# $doc (message): dissolved organic carbon, or that none was stated
# $most (list): symbols
# $part (list): symbols
analysis-organic-most-and-part = organic binding is not in this answer ({ $doc }): it can hold most of { $most } where sulfide is absent, and an unknown part of { $part }; every share is of the inorganic part, and it cannot be told closer without a titration or a measurement of the free ion

# $doc (message): dissolved organic carbon, or that none was stated
# $most (list): symbols
analysis-organic-most = organic binding is not in this answer ({ $doc }): it can hold most of { $most } where sulfide is absent; every share is of the inorganic part, and it cannot be told closer without a titration or a measurement of the free ion

# $doc (message): dissolved organic carbon, or that none was stated
# $part (list): symbols
analysis-organic-part = organic binding is not in this answer ({ $doc }): it can hold an unknown part of { $part }; every share is of the inorganic part, and it cannot be told closer without a titration or a measurement of the free ion

# $doc (message): dissolved organic carbon, or that none was stated
analysis-organic-small = organic binding is not in this answer ({ $doc }); every share is of the inorganic part

# $doc (message): as given
analysis-doc-stated = DOC { $doc }

analysis-doc-not-stated = DOC not stated

analysis-organic-metal-most = most of it, where sulfide is absent; it cannot be told closer without a titration or a measurement of the free ion

analysis-organic-metal-under-sulfide = sulfide complexes go before organic ones here; no number

analysis-organic-metal-unknown = an unknown part: weak sites hold a few percent to a third, and the few strong ones decide at such amounts

analysis-organic-metal-fifth = up to a fifth by the order of binding; no number

analysis-organic-metal-small = small

analysis-organic-metal-none = none worth naming

# $analytes (name): with commas between
# $u (share): relative standard uncertainty
analysis-u-assumed = no uncertainty stated for { $analytes }: { $u } (k = 1) assumed

# $form (name): of an element that has two
# $total (name): as it was written
analysis-form-from-total = { $form } was not measured: total { $total } less its other form is taken for it

# $alkalinity (message): a bound
analysis-alkalinity-at-limit = alkalinity { $alkalinity }: entered with its limit

analysis-ph-moves = pH was given and phases are held: pH moves from the given value as they react, the charge that the analysis leaves unbalanced is carried along

# $temperature (amount): of the water
analysis-warm = { $temperature } is above the stated range of 0 to 40 °C

# $ionic-strength (amount): of the water
# $stated (amount): the most that the model is stated for
analysis-salty = ionic strength { $ionic-strength } is above the stated range of { $stated }

# $ph (amount): of the water
analysis-ph-outside = pH { $ph } is outside 2 to 12, where the table's species were chosen for

# $analytes (name): with commas between
analysis-not-in-table = measured, but the table holds no species of: { $analytes }

# $analytes (name): with commas between
analysis-at-limit = non-detects enter with their limit, what follows from them is a bound: { $analytes }

# $temperature (amount): of the water
# $species (name): with commas between
analysis-without-temperature-term = at { $temperature } without a temperature term (value of 25 °C, wider u): { $species }

# $temperature (amount): of the water
# $species (name): with commas between
analysis-temperature-term-estimated = at { $temperature } with an estimated temperature term (its u is in the interval): { $species }

analysis-couples-closed = couples closed at the measured Eh: an assumption, natural couples are seldom at equilibrium

## Why there is no answer. Each speaks of names and of the parts below.

# $quantity (list): what it is
# $value (amount): as found
# $allowed (list): the range
analysis-out-of-range = { $quantity } is { $value }; allowed: { $allowed }

# $quantity (list): what it is
# $found (list): what was found
# $expected (list): what would be understood
analysis-unclear = { $quantity }: found { $found }; expected { $expected }

# $quantity (list): what it is
# $first (list): the first statement
# $second (list): the second
# $hint (list): what to do
analysis-contradiction = { $quantity } is given as { $first } and as { $second }; { $hint }

# $equation (list): which
# $why (list): why
analysis-no-solution = { $equation } has no solution: { $why }

# $equation (list): which
# $iterations (count): made
# $residual (amount): largest, relative
analysis-not-converged = { $equation } did not converge after { $iterations ->
    [one] { $iterations } iteration
   *[other] { $iterations } iterations
} (relative residual { $residual })

## Parts of the refusals.

# $low (amount): lower end
# $high (amount): upper end
analysis-range = { $low } to { $high }

analysis-zero-and-above = 0 and above

analysis-above-zero = above 0 mol/kg (leave a component out where there is none)

# $element (name): its label
analysis-total = total { $element }

analysis-analytes = analytes

analysis-only-limits = only values below their limits

analysis-one-measured = at least one measured value: limits alone do not make a water

# $unit (name): as given
analysis-unit = unit { $unit }

analysis-units-known = mass, amount or equivalents per litre or per kilogram, for instance mg/L, µmol/kg, meq/L

analysis-neutral = equivalents of a neutral substance

analysis-mass-or-amount = mass or amount per litre

# $formula (name): as given
analysis-basis = basis { $formula }

# $element (name): its symbol
analysis-basis-of = a basis that holds { $element }

# $amount (message): as given
analysis-without-basis = { $amount } without a basis

# $unit (name): as given
# $one (name): formula
# $other (name): formula
analysis-basis-for-instance = the basis beside the unit, for instance { $unit } as { $one } or as { $other }

# $unit (name): as given
analysis-basis-as-weighed = the basis beside the unit, for instance { $unit } as the formula that was weighed

# $amount (message): as given
analysis-alkalinity-without-basis = { $amount } without a basis that alkalinity is stated on

analysis-alkalinity-bases = the basis beside the unit: mg/L as CaCO3, mg/L as HCO3, or meq/L

analysis-several-forms = an element that comes in several forms

analysis-say-the-form = the form: nitrate, nitrite or ammonium; SO4 or S(-II); DIC, alkalinity or CH4

analysis-names-known = an element (Ca), an ion (SO4), an element with valence (S(-II)), alkalinity, silica, DIC …

# $molality (amount): of the element
analysis-in-total = { $molality } in total

# $molality (amount): of the forms together
analysis-in-its-forms = { $molality } in its forms

analysis-total-below-form = a total cannot be less than one of its forms: leave the wrong one out

# $molality (amount): of the component
# $name (name): as it was written
analysis-under-name = { $molality } ({ $name })

analysis-leave-one-out = leave the wrong one out, or say which is filtered and which is not

analysis-ph-from-charge = pH from charge

analysis-alkalinity-leaves-ph-open = alkalinity, which is itself the charge of the strong ions and leaves pH open

analysis-carbon-beside = inorganic carbon (DIC) beside or instead of it, or a CO2 pressure to hold

analysis-alkalinity-balance = alkalinity balance

# $component (name): its label
analysis-mole-balance = mole balance of { $component }

# $phase (name): solid or gas
analysis-saturation-with = saturation with { $phase }

analysis-phases-present = which phases are present

analysis-singular = first-order doubt (singular Jacobian)

# $failed (count): draws without a solution
# $draws (count): all
analysis-draws = { $failed } of { $draws ->
    [one] { $draws } draw
   *[other] { $draws } draws
}

analysis-ph-below = it would need a pH below 0; the ions given do not balance

analysis-ph-above = it would need a pH above 14; the ions given do not balance

# $held (amount): by the bases
# $given (amount): alkalinity
analysis-bases-hold-more = at this pH hydroxide and other bases alone hold { $held }, more than the { $given } given

# $carbon (amount): that would be needed
analysis-needs-carbon = at this pH it would need { $carbon } of inorganic carbon
