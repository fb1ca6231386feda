### The supplement for the reviewers of a paper.

# $title (message): title of the report
supplement-title = Supplement for reviewers. { $title }

supplement-what-stands-here = What stands here

# $results (count): on record
# $runs (count): of the instrument
supplement-opening = For the reviewers of a paper: { $results ->
    [one] { $results } result with its blank, limits and verdict
   *[other] { $results } results with their blanks, limits and verdicts
}, the validation of the method from its instrument runs ({ $runs }), and the evidence behind it. The folder data beside this file is the whole record as an open data package: tables, raw files, provenance and sums; it reads back into a programme of its own with the same event chain.

# What tables say under them where a value stands with its standard uncertainty.
supplement-standard = ± is the expanded uncertainty, k = 2.

# An analyte of a run.
# $element (name): its symbol
# $isotopes (name): mass numbers
# $resolution (name): mass resolution
supplement-analyte = { $element } { $isotopes } { $resolution ->
    [low] low
    [medium] medium
    [high] high
   *[other] { $resolution }
}

# $mean (amount): mean
# $sd (amount): standard deviation
# $n (count): how many
supplement-mean = { $mean }, s { $sd } ({ $n })

# The one there is.
# $value (amount): its value
supplement-mean-of-one = { $value } (1)

# The largest of several.
# $largest (amount): its value
# $n (count): how many
supplement-largest = { $largest } ({ $n })

# Validation of the method.
# $run (name): the run
supplement-validation = Method validation, run { $run }
supplement-validation-text = Line and limits hold for an undiluted sample in a bottle as large as those of the blanks. L_C, L_D and L_Q are on the net scale, from the field blanks. P: probability of residuals as large by chance; widened: factor on the points’ own uncertainty where the line did not fit.

supplement-line = Line and limits of each analyte
supplement-points = points

# $unit (name): of the range
supplement-range = range, { $unit }

# $unit (name): of a concentration
supplement-response = counts/s per { $unit }
supplement-widened = widened
supplement-dash = A dash: the evidence does not give it.

# $highest (amount): end of the line
supplement-from-zero = 0 to { $highest }

supplement-performance = Recovery, precision, trueness, interferences, uncertainty
supplement-recovery-mean = recovery, %: mean, s (n)
supplement-level-of-water = water’s level
supplement-difference-of-duplicates = largest difference of duplicates, % (pairs)
supplement-reference-of-assigned = reference material, % of assigned
supplement-overlaps-taken-off = overlaps taken off, largest share
supplement-mean-u = mean u of waters
supplement-performance-note = Recovery of spikes in the water of the programme, at its own level. Each spike, pair and reference vial stands below.
supplement-no-pair = no pair
supplement-no-overlap = none in the recipe

# $species (name): what overlaps
# $share (share): largest share of the counts taken off a water
supplement-overlaps = { $species }: { $share }

# Blanks.
# $run (name): the run
supplement-blanks = Blanks, run { $run }

# $kind (name): what the blank meets
# $unit (name): of the values
supplement-blank-kind = { $kind ->
    [calibration] calibration
    [procedural] procedural
    [bottle] bottle
    [trip] trip
    [field] field
    [equipment] equipment
   *[other] { $kind }
}, { $unit }
supplement-blanks-by-kind = Blanks by kind: mean, standard deviation (number), gross
supplement-blanks-note = Gross: over the zero of the calibration, no other blank taken off. A blank that a person took out of the evidence is not counted; the data package has it with the reason.

# Recoveries.
# $run (name): the run
supplement-recoveries = Recoveries, duplicates, reference materials, run { $run }

# $unit (name): of the values
supplement-spikes = Spikes, { $unit }

# $unit (name): of the values
supplement-duplicates = Duplicates, { $unit }

# $unit (name): of the values
supplement-references = Reference materials, { $unit }
supplement-vial = vial
supplement-spiked-in = spiked in the
supplement-field = field
supplement-laboratory = laboratory
supplement-level = level
supplement-added = added
supplement-recovery = recovery, %
supplement-duplicate = duplicate
supplement-difference = difference
supplement-of-the-mean = % of the mean
supplement-allowed = allowed by the budgets
supplement-assigned = assigned

# Budgets.
# $run (name): the run
supplement-budgets = Budgets, run { $run }
supplement-budget = Uncertainty budget of each result: share of the variance
supplement-net-value = net value
supplement-comes-from = where its uncertainty comes from
supplement-budget-note = The derivation of each result down to the counts stands in data/record/derivation.csv.

# $input (name): an input of the result
# $share (share): of the variance
supplement-part = { $input } { $share }

# $parts (count): parts that are not named
# $share (share): of the variance, together
supplement-others = { $parts ->
    [one] { $parts } other
   *[other] { $parts } others
} { $share }

# Reported results.
supplement-reported = Reported results
supplement-reported-text = Results that came as concentrations: line, budget and raw counts are with the laboratory. Blanks are those of the same laboratory and method.
supplement-laboratory-not-stated = laboratory not stated
supplement-method-not-stated = method not stated

# $laboratory (name): who reported
supplement-reported-by = Reported, { $laboratory }
supplement-results = results
supplement-below = below
supplement-reporting-limit = reporting limit
supplement-mean-u-of-reported = mean u
supplement-blanks-with-value = blanks with a value
supplement-highest-blank = highest blank
supplement-method = method
supplement-not-stated = not stated

# $low (amount): lowest
# $high (amount): highest
supplement-from-to = { $low } to { $high }

# $found (count): blanks with a value
# $blanks (count): blanks
supplement-of = { $found } of { $blanks }

# All results.
supplement-all = All results

# $results (count): on record
supplement-too-many = The record holds { $results ->
    [one] { $results } result, too many to print: it stands
   *[other] { $results } results, too many to print: they stand
} in data/results.csv and data/parquet/results.parquet with the columns of this table.
supplement-all-text = Newest revision of every result, evidence included. Where not detected the upper bound stands, net values are in data/results.csv.

# $analyte (name): what was measured
supplement-results-of = { $analyte }: results with blank, limits and verdict
supplement-kind = kind
supplement-state = state
supplement-evidence = evidence
supplement-results-note = u: standard uncertainty, k = 1. <: not detected, the number is the upper bound. L_C, L_D: net scale.

supplement-other-results = All other results: reported by a laboratory, or few of one substance
supplement-others-note = u: standard uncertainty, k = 1. <: not detected, the number is the upper bound. The limit is that of the report, else the detection limit.

# The data package.
supplement-package = The data package
supplement-sums = Files and their sums
supplement-file = file
supplement-sums-note = data/SHA256SUMS and data/BLAKE3SUMS list every file of the package; the sum of the list itself stands here.
