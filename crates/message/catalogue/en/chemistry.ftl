### One water and several side by side: headings, sentences, tables and pictures.

## How it was worked out.

chemistry-method = What the water is

# $draws (count): of the Monte Carlo
chemistry-method-text = Mole balances solved by Newton on the logarithms of activity; extended Debye–Hückel for the major ions, Davies for the rest. Couples are held apart. Uncertainty by { $draws ->
    [one] { $draws } draw
   *[other] { $draws } draws
} over the analysis and over every constant, alternative values included; an interval also holds the answer of each alternative constant. A solid is over, under, at saturation (the interval holds zero and is no wider than 0.6), or one cannot tell.

# A source.
chemistry-table-of-constants = the table of constants of the project: each row names its source and whether it was seen or recalled

# A source.
chemistry-propagation = JCGM 101:2008 (propagation of distributions)

## One water in words.

# Heading of its section.
# $water (name): well, or bottle
chemistry-title = What the water of { $water } is

# Heading.
chemistry-dissolve-or-form = What it could dissolve or form

# Heading.
chemistry-redox = Redox

# Heading of the findings.
chemistry-of-itself = What the analysis says of itself

# An ion in the name of a kind of water.
# $symbol (name): of the ion; HCO3 for the carbonates
chemistry-ion = { $symbol ->
    [Ca] calcium
    [Mg] magnesium
    [Na] sodium
    [K] potassium
    [HCO3] bicarbonate
    [Cl] chloride
    [SO4] sulfate
    [NO3] nitrate
   *[other] { $symbol }
}

# Two ions in the name of a kind of water: calcium-magnesium.
# $one (message): the one that there is most of
# $next (message): the next
chemistry-ions = { $one }-{ $next }

# $cations (message): the main ones
# $anions (message): the main ones
# $ph (amount): pH
# $temperature (amount): of the water
# $solids (amount): dissolved matter
# $hardness (amount): mg/L
chemistry-kind = A { $cations }-{ $anions } water of pH { $ph } at { $temperature } with { $solids } of dissolved matter and a hardness of { $hardness } as CaCO₃.

chemistry-carries-sulfide = It carries sulfide: the water had lost its oxygen and part of its sulfate before it came up.

chemistry-holds-oxygen = It holds oxygen and nitrate.

# $results (count): of the run
chemistry-one-analysis = The laboratory’s report, the readings at the well and { $results ->
    [one] { $results } result
   *[other] { $results } results
} of the run of trace metals stand together here as one analysis.

# $temperature (amount): that of a cold groundwater
chemistry-temperature-assumed = No temperature on record: { $temperature } assumed.

## One water in numbers.

# $water (name): well, or bottle
chemistry-in-numbers = The water of { $water } in numbers

chemistry-measured-at-the-well = measured at the well

chemistry-from-charge-balance = from the charge balance

chemistry-assumed = assumed

chemistry-ionic-strength = ionic strength

chemistry-calculated = calculated

# $cations (amount): sum, number alone
# $anions (amount): sum, meq/L
chemistry-sides = cations { $cations } and anions { $anions } as analysed

# Two numbers where one would be.
# $low (amount): number alone
# $high (amount): number alone
chemistry-between = { $low } to { $high }

# A row of the table, beside the charge balance.
chemistry-charge-of-species = charges of the species

# $cations (amount): sum of positive charges, number alone
# $anions (amount): sum of negative charges, meq/L
chemistry-sides-of-species = positive { $cations } and negative { $anions }, complexes by their own charge

chemistry-conductivity = conductivity at 25 °C

chemistry-calculated-from-ions = calculated from the ions

# $ratio (amount): calculated over measured
chemistry-calculated-over-measured = measured; calculated is { $ratio } times it

# A unit.
chemistry-as-caco3 = mg/L as CaCO₃

# $carbonate (amount): carbonate hardness
chemistry-carbonate-hardness = calculated; { $carbonate } of it balanced by alkalinity

# $share (amount): percent of the alkalinity
chemistry-carbonate-share = { $share } of it carbonate

chemistry-dissolved-solids = dissolved solids

chemistry-as-dried = calculated, as weighed after drying

chemistry-pressure = log₁₀ pressure of CO₂

chemistry-upper-bound = upper bound

# $air (amount): log of the pressure in outdoor air
chemistry-outdoor-air = calculated; outdoor air { $air }

chemistry-two-u = ± is two standard uncertainties.

## The ions of a water.

# $water (name): well, or bottle
chemistry-equivalents = Equivalents of { $water }

# $cations (list): each with its meq/L
# $anions (list): each with its meq/L
chemistry-equivalents-said = meq/L. Cations: { $cations }. Anions: { $anions }.

# $ion (name): as a chemist writes it
# $equivalents (amount): meq/L
chemistry-layer = { $ion } { $equivalents }

chemistry-columns-differ = What the columns differ by is the charge that the analysis leaves open.

chemistry-one-scale = Cations and anions on one scale, complexes counted with their ion.

# $water (name): well, or bottle
chemistry-shape = Shape of { $water }

chemistry-shapes = Shapes of the waters

# One water among several; no full stop.
# $water (name): well, or bottle
# $sodium (amount): sodium and potassium
# $calcium (amount): calcium
# $magnesium (amount): magnesium
# $chloride (amount): chloride
# $carbonate (amount): both carbonates
# $sulfate (amount): sulfate, meq/L
chemistry-shape-said = { $water }: Na + K { $sodium }, Ca { $calcium }, Mg { $magnesium } against Cl { $chloride }, HCO₃ + CO₃ { $carbonate }, SO₄ { $sulfate }

chemistry-shape-reads = Cations to the left, anions to the right; size is concentration, shape is kind.

## Solids.

# $solids (list): names
chemistry-solids-over = Over: { $solids }.

# $solids (list): names
chemistry-solids-at-saturation = At saturation: { $solids }.

# $solids (list): names
chemistry-solids-under = Under: { $solids }.

# $solids (list): names
chemistry-solids-cannot-tell = Cannot tell: { $solids }.

# $solids (list): names
chemistry-solids-far-under = Far under, by more than three decades: { $solids }.

# A solid that the water could dissolve more of.
chemistry-under = under

# $water (name): well, or bottle
chemistry-solids-against = Solids against the water of { $water }

chemistry-need-not-form = A solid over saturation may form, it need not: quartz seldom does in the cold.

chemistry-indices = Saturation indices with their 95 % intervals over analysis and constants.

## Redox couples.

chemistry-no-couple = No couple was measured at both ends.

# $couples (list): each with its Eh
chemistry-couples = Each couple gives an Eh of its own: { $couples }.

# $couple (name): its two ends
# $eh (amount): mV
chemistry-couple = { $couple } { $eh }

# $couple (name): its two ends
# $eh (amount): mV
chemistry-couple-bound = { $couple } { $eh } (a bound)

# $spread (amount): highest less lowest Eh
chemistry-couples-disagree = They disagree by { $spread }: a cold groundwater has no single redox state, and none is computed here.

# $floor (amount): what a probe may read in water without oxygen
chemistry-oxygen-at-floor = Oxygen reads no more than a probe may read in water without any ({ $floor }): its couple is the highest Eh that it allows.

# $eh (amount): as it read
chemistry-electrode-read = The electrode read { $eh }; it answers to whatever couple is fast on platinum.

# $water (name): well, or bottle
chemistry-redox-couples = Redox couples of { $water }

chemistry-couples-down = Couples from the most oxidised down, with the electrode’s reading.

## Several waters.

# Heading.
chemistry-side-by-side = The waters side by side

# Heading.
chemistry-of-the-record = The waters of the record

# $analyses (count): with major ions
# $solved (count): of them
chemistry-all-solved = { $analyses ->
    [one] { $analyses } analysis holds
   *[other] { $analyses } analyses hold
} the major ions; { $solved } could be worked out, all of them.

# A list follows.
# $analyses (count): with major ions
# $solved (count): of them
# $failed (count): of them
chemistry-some-solved = { $analyses ->
    [one] { $analyses } analysis holds
   *[other] { $analyses } analyses hold
} the major ions; { $solved } could be worked out, { $failed } not:

# $water (name): well, or bottle
# $why (message): refusal of the calculation
chemistry-failed = { $water }: { $why }

# $median (amount): percent
# $low (amount): percent, number alone
# $high (amount): percent
# $inside (count): of the waters
# $waters (count): all
# $open (count): of the waters
chemistry-balances = Charge balance: median { $median }, the middle nine tenths from { $low } to { $high }. By more than its u { $inside } of { $waters } stand inside the gate; of { $open } it cannot be told.

# $ratio (amount): calculated over measured, median
# $inside (count): of the waters
# $waters (count): with a measured conductivity
chemistry-conductivities = Calculated conductivity is { $ratio } times the measured one in the middle; { $inside } of { $waters } lie between 0.9 and 1.1.

# $waters (count): all
chemistry-balance-of = Charge balance of { $waters ->
    [one] { $waters } water
   *[other] { $waters } waters
}

# $inside (count): of the waters
# $waters (count): all
# $gate (amount): percent
chemistry-within-gate = { $inside } of { $waters } lie within { $gate }.

# $beyond (count): waters
chemistry-beyond-ten = { $beyond ->
    [one] { $beyond } beyond ±10 % stands in the outermost bars.
   *[other] { $beyond } beyond ±10 % stand in the outermost bars.
}

# An axis.
chemistry-balance-axis = (cations − anions) / (cations + anions), %

# $gate (amount): percent
chemistry-gate-either-way = { $gate } either way

chemistry-unbalanced = What the analyses leave unbalanced; a water whose non-detects leave a range is not drawn.

chemistry-waters-in-numbers = The waters in numbers

chemistry-conductivity-ratio = conductivity ratio

chemistry-conductivity-ratio-is = Conductivity ratio: calculated over measured, both at 25 °C.

chemistry-by-shares = The waters by the shares of their ions

chemistry-shares-of-equivalents = Shares of the equivalents.

# One water among several; no full stop.
# $water (name): well, or bottle
# $calcium (amount): calcium
# $magnesium (amount): magnesium
# $sodium (amount): sodium and potassium, percent
# $carbonate (amount): both carbonates
# $chloride (amount): chloride
# $sulfate (amount): sulfate, percent
chemistry-shares-said = { $water }: Ca { $calcium }, Mg { $magnesium }, Na + K { $sodium }; HCO₃ + CO₃ { $carbonate }, Cl { $chloride }, SO₄ { $sulfate }

# $waters (count): in the picture
chemistry-shares-of-many = Shares of the equivalents of { $waters ->
    [one] { $waters } water as a cloud
   *[other] { $waters } waters as a cloud
}; the table of results holds the numbers.

chemistry-shares-read = Shares of the equivalents: cations to the left, anions to the right, both together above; a line each 20 %.

# $waters (list): names
chemistry-without-a-place = Without a place in it: { $waters }.

## Within pictures.

# Side of an axis.
chemistry-dissolves = ← dissolves

# Side of an axis.
chemistry-may-form = may form →

# An axis.
chemistry-index-axis = saturation index, log₁₀(IAP/K)

chemistry-index-with-interval = index with its 95 % interval

chemistry-bound-from-non-detect = upper bound from a non-detect

chemistry-alternative-answer = answer with an alternative constant

# $waters (count): drawn alike
chemistry-waters = { $waters ->
    [one] { $waters } water
   *[other] { $waters } waters
}

# An axis.
chemistry-sides-axis = ← cations, meq/L    anions, meq/L →

chemistry-cations = cations

chemistry-anions = anions

# Thin layers as one; species of little share as one.
chemistry-others = others

# An axis.
chemistry-eh-axis = Eh against the standard hydrogen electrode, mV

# $eh (amount): by the electrode
chemistry-eh-measured = measured { $eh }

chemistry-couple-with-interval = couple with its interval

chemistry-couple-at-limit = a bound: an end is at what can be detected

chemistry-electrode = electrode

## How a figure is known.

chemistry-recalled = memory

chemistry-computed = computed

# How a figure is known.
chemistry-estimated = estimated
