### What a report says of results that were derived from counts, and of the runs they came from.

# A section.
run-results = Results

# A section.
# $element (name): as it is called
run-path-of = The path of { $element }

# A section.
# $run (name): the run
run-the-run = The run { $run }

# A heading.
# $element (name): as it is called
# $well (name): the well, or the bottle where there is none
run-at-well = { $element } at { $well }

## What was found

# $element (name): as it is called
# $well (name): the well, or the bottle where there is none
# $result (message): value, state and share
run-found = { $element } at { $well }: { $result }.

# A value with its expanded uncertainty.
# $amount (amount): the value
# $k (amount): coverage factor
run-value = { $amount } (95 %, k = { $k })

# In place of a value.
run-value-unstated = below a limit that the report does not state

# In place of a value.
run-value-untold = a value that the record does not tell

# $value (message): value with what is known of its uncertainty
# $state (message): what may be claimed of it
run-value-and-state = { $value }, { $state }

# $result (message): value and state
# $share (message): what the blanks leave of it
run-result-and-share = { $result }, { $share }

# What may be claimed of a result.
run-quantified = quantified

# What may be claimed of a result.
run-not-detected = not detected

# What may be claimed of a result.
run-estimated = estimated

# What may be claimed of a result.
run-above-range = above range

# The verdict on a key result.
run-why-accepted = Accepted: all decisive checks are met.

# Before the sentences of the checks that decided.
run-why-provisional = Provisional:

# Before the sentences of the checks that decided.
run-why-rejected = Rejected:

# $results (count): all of them
# $accepted (count): of them
# $provisional (count): of them
# $rejected (count): of them
run-verdicts = { $results ->
    [one] Of { $results } result of well water in this report { $accepted } is accepted, { $provisional } provisional, { $rejected } rejected; it names its reasons.
   *[other] Of { $results } results of well water in this report { $accepted ->
            [one] { $accepted } is accepted
           *[other] { $accepted } are accepted
        }, { $provisional } provisional, { $rejected } rejected; each names its reasons.
}

# What a key result is of.
# $well (name): the well, or the bottle where there is none
# $element (name): as it is called
# $fraction (message): filtered or not
run-subject = { $well }, { $element }, { $fraction }

# The same of one bottle of a well whose bottles disagree.
# $subject (name): what it is of
# $bottle (name): its label
run-subject-of-bottle = { $subject }, bottle { $bottle }

# $fraction (name): as the record writes it
run-fraction = { $fraction ->
    [unfiltered] unfiltered
    [filtered] filtered
   *[other] { $fraction }
}

## The tables of results

# $well (name): the well
# $fractions (list): filtered, unfiltered
run-concentrations = { $well }: concentrations in the water ({ $fractions }), with what can be detected

# Isotopes of a result.
# $isotopes (name): mass numbers
# $resolution (name): as the record writes it
run-isotopes-at = { $isotopes }, { $resolution ->
    [low] low
    [medium] medium
    [high] high
   *[other] { $resolution }
}

# A note.
run-limits-explained = L_C: a net value above it counts as detected. L_D: a level that would be missed one time in twenty. Both on the net scale.

# A note.
run-as-acidified = Values stand for the bottle as acidified; isotopes are mass numbers with the mass resolution.

# A heading of a column.
run-waters-share = water’s share

# A heading of a column.
run-left-by-blanks = came with the water

# A note under the table: what the part is that came with the water.
# $left (message): what it is called
run-came-with-water = Came with the water: { $left }.

# A note that holds for some elements.
# $elements (name): symbols
# $note (message): what holds
run-note-for = { $elements }: { $note }

## All bottles in one picture

# Title of the picture.
# $element (name): as it is called
run-overview = { $element } in every bottle of well water

# Description of the picture.
# $element (name): as it is called
run-overview-described = One interval a bottle for { $element }, grouped by well; non-detects as bars from zero to their bound.

# Under the title.
run-overview-under = 95 % intervals; shapes give the verdict.

# Caption of the picture.
# $element (name): as it is called
run-overview-caption = { $element } bottle by bottle.

## One run

# How much was measured.
# $vials (count): in the run
# $readings (count): of all isotopes
run-measured = { $vials ->
    [one] { $vials } vial
   *[other] { $vials } vials
}, { $readings ->
    [one] { $readings } reading
   *[other] { $readings } readings
}

# In place of an instrument's name.
run-no-instrument = instrument not stated

# $recipe (name): of the reduction
# $version (count): of the recipe
run-recipe = Recipe { $recipe } (version { $version }).

# Title of a picture.
# $element (name): as it is called
# $isotopes (name): mass numbers
run-calibration = Calibration of { $element } { $isotopes }

# Description of the picture.
# $element (name): as it is called
run-calibration-described = Response of the standards of { $element } against their assigned concentration with the fitted line and its residuals.

# Under the title.
run-calibration-under = Weighted by 1/u²; below, residuals with their 95 % intervals.

# An axis.
run-assigned = assigned concentration, ng/L

# An axis.
run-response = response, counts/s

# Caption of the picture.
# $element (name): as it is called
# $p (amount): of lack of fit
run-calibration-caption = Calibration line of { $element }: p of lack of fit { $p }.

# Title of a picture.
# $element (name): as it is called
run-blanks = Blanks of the run, { $element }

# Description of the picture.
# $element (name): as it is called
run-blanks-described = Blanks of { $element } by kind with critical value and detection limit.

# Under the title.
run-blanks-under = Each kind holds those above it and one stage more.

# Under the title, where the blank is taken from samples.
# $blank (amount): mean of the blank that samples lose
run-blanks-net = Each kind holds those above it and one stage more. The mean that samples lose, { $blank }, is taken off, so that blanks and limits stand on one scale.

# Caption of the picture.
# $element (name): as it is called
run-blanks-caption = Blanks of { $element } by kind.

# Behind the caption.
# $vials (name): their names
run-taken-out = Taken out by a person, with a reason on record: { $vials }.

# Title of a picture.
# $element (name): as it is called
run-in-time = The run in time: internal standard and checks, { $element }

# Description of the picture.
run-in-time-described = Internal standard of every vial in percent of the first, and recovery of drift checks and control waters.

# Under the title.
# $standard (name): isotope of the internal standard
run-in-time-under = Internal standard { $standard }, then what the checks gave after all corrections.

# Caption of the picture.
run-in-time-caption = The run from the first vial to the last.

# Caption of a table.
run-can-see = What the run can see

# A unit.
run-counts-per-level = counts/s per ng/L

# A heading of a column.
run-drift-left = drift left

# A heading of a column.
run-their-mean = their mean

# A note.
run-drift-left-explained = Drift left: change of sensitivity over the run that the internal standard did not take out; the drift checks did.

# Caption of a table.
run-recoveries = Does metal come back? Spikes of the water at its own level, and the control water

# A heading of a column.
run-field-spikes = field spikes, %

# A heading of a column.
run-laboratory-spikes = laboratory spikes, %

# A note.
run-spikes-speak = Spikes were made in the water of one well; they speak for that water.

# Beneath a table: what the field sheet says of a bottle whose results are held back.
# $bottle (name): its label
# $note (name): as it was written
run-field-note = Field note on { $bottle }: “{ $note }”.
# What may be claimed of a result.
run-not-decided = not decided: this vial scatters

# $value (message): upper bound of what was not detected
# $limit (amount): detection limit
run-value-and-detection-limit = { $value } (detection limit { $limit })
