### Why a question has no answer, or a run cannot be reduced: what was found, and what would be taken.

# $position (name)
# $first (name)
# $second (name)
refusal-position-twice = position { $position } is taken twice, by "{ $first }" and "{ $second }": give each vial a place of its own

# $isotope (name)
# $position (name)
refusal-reading-twice = { $isotope } is read twice in the vial at position { $position }: exclude one of the two

# $isotope (name)
# $position (name)
refusal-reading-without-vial = { $isotope } is read at position { $position }, where the run has no vial

# $isotope (name)
# $position (name)
# $vial (name)
# $why (message)
refusal-reading = { $isotope } at position { $position } ({ $vial }): { $why }; give replicates in counts/s ≥ 0 or mean, sd and n

refusal-reading-empty = it has neither replicates nor mean

refusal-reading-summary = mean, sd and n need n ≥ 1 and sd ≥ 0

refusal-reading-both = it has replicates and a summary

refusal-reading-no-number = a rate is not a number

refusal-reading-time = its integration time is negative or not a number

refusal-reading-negative = a counted rate is negative

refusal-reading-single = a single replicate without integration time has no uncertainty

# $isotope (name)
# $position (name)
# $vial (name)
# $found (count)
# $with (name)
# $expected (count)
refusal-replicates-unequal = { $isotope } at position { $position } ({ $vial }) has { $found ->
    [one] { $found } replicate
   *[other] { $found } replicates
} where { $with } has { $expected }: ratios are formed replicate by replicate

# $vial (name)
# $position (name)
# $value (amount)
# $u (amount)
refusal-dilution = dilution of "{ $vial }" at position { $position } is { $value } (u { $u }): a dilution factor by mass is above 0 with u ≥ 0, 1 for undiluted

# $vial (name)
# $position (name)
# $what (name): as the record names it
# $value (amount)
refusal-bottle-above-zero = { $what } of the bottle of "{ $vial }" at position { $position } is { $value }: it is above 0

# $vial (name)
# $position (name)
# $what (name): as the record names it
# $value (amount)
refusal-bottle-zero-or-more = { $what } of the bottle of "{ $vial }" at position { $position } is { $value }: it is 0 or more

# $vial (name)
# $position (name)
# $minutes (amount)
refusal-time = time of "{ $vial }" at position { $position } is { $minutes } min: give minutes since the start of the run

# $isotope (name)
# $position (name)
# $vial (name)
# $rate (amount)
# $dead (amount)
# $share (share)
# $limit (share)
refusal-dead-time = { $isotope } at position { $position } ({ $vial }): { $rate } counts/s with a dead time of { $dead } keeps the detector dead { $share } of the time; the dead-time model is refused from { $limit }: dilute, measure in analogue mode, or exclude the reading

# $vial (name)
# $position (name)
refusal-standard-without-value = standard "{ $vial }" at position { $position } has no assigned value: give value, u and unit, or another role

# $vial (name)
# $position (name)
# $element (name)
refusal-standard-without-value-of = standard "{ $vial }" at position { $position } has no assigned value for { $element }: give value, u and unit, or another role

# $vial (name)
# $position (name)
# $element (name)
refusal-standard-value-negative = standard "{ $vial }" at position { $position } has no assigned value that is a number ≥ 0 for { $element }: give value, u and unit, or another role

# $vial (name)
# $position (name)
# $element (name)
refusal-standard-of-none = standard "{ $vial }" at position { $position } has no assigned value for { $element }, nor has any other (an isotope that only monitors an overlap, or only divides, is named in the recipe: { $element } is read and not named): give value, u and unit, or another role

# $analyte (name)
# $found (count)
refusal-standards-few = { $analyte }: { $found ->
    [one] { $found } usable standard
   *[other] { $found } usable standards
}, a calibration line needs at least 2

# $analyte (name)
# $slope (amount)
refusal-line-falls = { $analyte }: the response does not rise with concentration (slope { $slope }), so the calibration line has no slope to divide by: check the assigned values and which vials are standards

# $analyte (name)
# $standards (count)
refusal-line-one-level = { $analyte }: { $standards ->
    [one] the one standard holds
   *[other] all { $standards } standards hold
} the same concentration, so the calibration line has no slope to divide by: measure standards at two levels or more

# $analyte (name)
# $role (name)
# $found (count)
refusal-blanks-few = { $analyte }: the recipe needs { $role }s and the run has { $found } usable; at least 2 are needed to know their spread: measure more, or name another blank in the recipe

# $vial (name)
# $position (name)
refusal-bottle-volume = "{ $vial }" at position { $position } has no bottle volume, and the recipe takes the blank as mass per bottle: give mL

# $analyte (name)
# $standard (name)
# $place (message)
# $hint (message)
refusal-internal-standard = { $analyte }: internal standard { $standard } has no signal { $place }: { $hint }

# $analyte (name)
# $resolution (name)
refusal-internal-standard-resolution = { $analyte }: internal standard at { $resolution } resolution has no signal in the recipe: name one of this resolution, or name none for this isotope

refusal-in-standards = in the standards and calibration blanks

refusal-anywhere = anywhere in the run

# $position (name)
# $vial (name)
refusal-at-vial = at position { $position } ("{ $vial }")

refusal-hint-every-vial = it is added to every vial; name another, or none, in the recipe

refusal-hint-exclude = exclude the vial's readings with a reason, or name no internal standard for this isotope

refusal-hint-read = read it, or name another in the recipe

refusal-hint-take-out = read it, or take it out of the recipe

refusal-recipe-probability = a probability between 0 and 1

refusal-recipe-blank = one of the nested blanks: calibration, procedural, bottle, trip, field, equipment

# $vial (name)
# $species (name)
# $target (name)
# $monitor (name)
refusal-no-vial = the recipe names vial "{ $vial }" (factor of { $species }), and the run has no such vial with a usable reading of { $target } and { $monitor }

# $monitor (name)
# $species (name)
# $target (name)
# $place (message)
refusal-monitor = { $monitor } monitors { $species } on { $target } and is not read { $place }

# $species (name)
# $target (name)
# $why (message)
refusal-factor = factor of { $species } on { $target }: { $why }

# $session (name)
refusal-factor-session = session { $session } has no vial with the interfering element alone

refusal-factor-unread = a check vial is not read

# $vial (name)
# $monitor (name)
refusal-factor-no-signal = vial "{ $vial }" shows no more { $monitor } than the calibration blanks

refusal-factor-no-vial = the recipe names no vial that holds the interfering element alone

# $nuclide (name)
refusal-nuclide = { $nuclide } is not in the table of isotopes: give the factor with u

# $value (amount)
refusal-ratio-not-positive = measured ratio is { $value }, a number above 0 is needed

# $name (name)
# $known (name)
refusal-method-unknown = no equations of "{ $name }" in the table; it holds { $known }

# $analyte (name)
# $model (name)
# $needed (count)
# $found (count)
refusal-drift-checks-few = { $analyte }: drift model "{ $model }" needs { $needed ->
    [one] { $needed } drift check
   *[other] { $needed } drift checks
} and the run has { $found }: measure more, or choose another model

# $analyte (name)
# $model (name)
# $needed (count)
refusal-drift-checks-unfit = { $analyte }: drift model "{ $model }" needs { $needed ->
    [one] { $needed } drift check
   *[other] { $needed } drift checks
} with a signal above zero, at different times: measure more, or choose another model

# $field (name)
# $found (name)
# $expected (message)
refusal-recipe = recipe: { $field } is { $found }, expected { $expected }

# $vial (name)
# $position (name)
# $why (message)
refusal-unit-of-vial = "{ $vial }" at position { $position }: { $why }

refusal-no-vials = the run has no vials

refusal-no-readings = the run has no readings of anything but internal standards and monitors

refusal-recipe-risks = below 1

refusal-recipe-dead-time = 0 or above, in ns, with u_ns ≥ 0

refusal-recipe-share = a share of time between 0 and 1

refusal-recipe-part = a share from 0 to 1

refusal-recipe-analogue = above 0 with u ≥ 0

refusal-recipe-degree = 0 to 3

refusal-recipe-recovery = above 0, as a fraction

refusal-recipe-lead-vials = the names of the vials that hold the reference

refusal-recipe-lead-ratios = at least one known ratio of 206, 207 and 208

refusal-recipe-lead-different = two different ones of 206, 207 and 208

refusal-recipe-lead-value = a ratio above 0 with 0 ≤ u < ratio

refusal-recipe-bridge = bracket or smooth: sessions are bridged by the drift checks measured in each

# $known (name)
refusal-recipe-equations = a method of the table, which holds { $known }

# $text (name)
refusal-unit-unknown = unit "{ $text }" is not known

# $text (name)
# $hint (name)
refusal-unit-unknown-hint = unit "{ $text }" is not known{ $hint }

# $text (name)
# $hint (name)
refusal-unit-ambiguous = unit "{ $text }" is ambiguous: { $hint }

# $from (name)
# $to (name)
# $why (name)
refusal-unit-different = "{ $from }" cannot be turned into "{ $to }": { $why }

# $formula (name)
refusal-formula = formula "{ $formula }" cannot be read: write element symbols with counts, for instance CaCO3 or SO4^2-

# $what (name)
# $found (name)
# $expected (name)
refusal-out-of-range = { $what }: found { $found }, expected { $expected }

# $what (name)
# $have (count)
# $need (count)
# $hint (name)
refusal-too-few = { $what }: { $have } given, at least { $need } needed; { $hint }

# $what (name)
# $iterations (count)
# $residual (name)
refusal-not-converged = { $what } did not converge after { $iterations ->
    [one] { $iterations } iteration
   *[other] { $iterations } iterations
} (residual { $residual })

# $run (name)
# $why (message)
refusal-run = run { $run }: { $why }

# $name (name)
# $why (name)
refusal-recipe-unread = recipe { $name }: { $why }

# $what (name)
# $name (name)
# $hint (name)
refusal-absent = there is no { $what } "{ $name }" in the programme{ $hint }

# $what (name)
# $why (name)
refusal-science = { $what }: { $why }

# $step (name)
refusal-stopped = stopped before: { $step }

# $why (name)
refusal-not-derived = kept, not yet derived: run `limpid recompute` ({ $why })

# $why (name)
refusal-store = the record: { $why }

# $what (name)
# $found (count)
# $expected (count)
refusal-length = { $what }: found { $found ->
    [one] { $found } value
   *[other] { $found } values
}, expected { $expected }, one for each point

# $what (name)
# $found (count)
# $needed (count)
refusal-values-few = { $what }: found { $found }, at least { $needed ->
    [one] { $needed } is needed
   *[other] { $needed } are needed
}

# $what (name)
# $value (amount)
refusal-not-finite = { $what }: found { $value }, expected a finite number

# $n (count)
# $x (amount)
refusal-one-level = { $n ->
    [one] the one standard stands
   *[other] all { $n } standards stand
} at x = { $x }: a slope needs two levels; add a standard at another level, or force the line through zero

# $column (name)
refusal-singular = the line is singular: column { $column } is a combination of the ones before it

# $slope (amount)
refusal-flat-line = the slope is { $slope }: the line is flat and cannot be read from signal to concentration

# $what (name)
refusal-zero-denominator = { $what } is zero: the quotient is not defined

# $smallest (name)
# $pair (name)
refusal-correlations = the correlations are not positive semidefinite (smallest eigenvalue { $smallest }): no quantities can be correlated like this; check { $pair }

# $position (name)
# $why (name)
refusal-model = model, character { $position }: { $why }

# $value (amount)
# $hint (name)
refusal-no-value = the model gives { $value } at the estimates: { $hint }

# $input (name): by which the slope is taken
# $value (amount): the slope, no finite number
refusal-no-slope = the slope of the model in { $input } is { $value } at the estimates: linear propagation fails there; draw (Monte Carlo), or keep the estimate away from there

# $what (name)
refusal-unsupported = not done here: { $what }

refusal-recipe-dark-rate = counts/s of 0 or above with u of 0 or above, one entry an isotope

refusal-recipe-carry-over = a part of the level before, 0 or above and below 1

# $isotope (name)
# $position (name)
# $vial (name)
# $rate (amount)
# $dead (amount)
# $most (amount)
refusal-dead-time-most = { $isotope } at position { $position } ({ $vial }): { $rate } counts/s is at or over { $most } counts/s, the most that a detector with an extending dead time of { $dead } can give: dilute, measure in analogue mode, correct the dead time or its model, or exclude the reading

# A run that names no recipe.
# $there (name): recipes on record
refusal-run-without-recipe = no recipe is named for it, and without one its counts mean nothing: write one (`limpid recipes --template` makes its beginning), take it in with the mapping "recipe" and name it for the run (`limpid recipes --give`); on record: { $there }

# $key (name): of the recipe
# $vial (name): as the recipe names it
# $there (name): vials of the run
refusal-recipe-vial = { $key }: a vial named "{ $vial }" is missing in the run; there are { $there }

# $key (name): of the recipe
# $isotope (name): as the recipe names it
# $there (name): isotopes of the run
refusal-recipe-isotope = { $key }: no readings of { $isotope } in the run; there are { $there }
