# A result as it was measured, no blanks to hold it against.
verdict-no-limits = No blanks tell what would be found without metal in the water.

# Detected.
# $net (amount): net value
# $critical (amount): critical value
# $detection (amount): detection limit
verdict-detected = The net value, { $net }, lies above the critical value { $critical }: detected (detection limit { $detection }).

# Not detected.
# $net (amount): net value
# $critical (amount): critical value
# $bound (amount): the most that is left room for
# $detection (amount): detection limit
verdict-not-detected = The net value, { $net }, does not exceed the critical value { $critical }: not detected, at most { $bound } (detection limit { $detection }).

# What bottles at different flow say of the pipe's metal in this bottle.
# $pipe (amount): from the pipe
# $low (amount): lower end of its interval, without unit
# $high (amount): upper end, without unit
# $element (name): symbol
verdict-pipe-by-flow = By bottles at different flow the pipe gave this one { $pipe } of { $element } (95 % interval { $low } to { $high }).

# The same where nothing of the pipe is seen above zero.
# $element (name): symbol
# $high (amount): upper end of the interval
verdict-no-pipe-by-flow = Bottles at different flow show no { $element } of the pipe: at most { $high } in this one.

# No bottle blank of the lot for an element.
# $lot (name): the lot
# $element (name): symbol
verdict-no-lot-blank = No bottle blank of lot { $lot } was measured for { $element }.

# Bottle blanks of the lot beside what was found.
# $blanks (count): how many
# $lot (name): the lot
# $highest (amount): the highest of them
# $element (name): symbol
# $share (share): of what was found
# $limit (share): of the programme
verdict-lot-blanks = { $blanks ->
    [one] The { $blanks } bottle blank of lot { $lot } holds at most { $highest } of { $element }, { $share } of what was found; the programme allows { $limit }.
   *[other] The { $blanks } bottle blanks of lot { $lot } hold at most { $highest } of { $element }, { $share } of what was found; the programme allows { $limit }.
}

# No spike in this water nor in another of the run.
# $element (name): symbol
verdict-no-spike = No spike of { $element } was made in this water; a low number may be lost metal.

# No spike in this water, one in another of the run.
# $element (name): symbol
# $recovery (amount): there, with its expanded uncertainty
verdict-no-spike-here = No spike of { $element } was made in this water (in another water of the run it was { $recovery } (k = 2)); a low number may be lost metal.

# Recovery within the programme's window.
# $spikes (count): in this water
# $element (name): symbol
# $recovery (amount): with its expanded uncertainty
# $low (amount): lower end of the window, percent without sign
# $high (share): upper end
verdict-recovery-within = { $spikes ->
    [one] { $spikes } spike of { $element } in this water, at its level, came back at { $recovery } (k = 2): within the programme's { $low } to { $high }.
   *[other] { $spikes } spikes of { $element } in this water, at its level, came back at { $recovery } (k = 2): within the programme's { $low } to { $high }.
}

# Recovery outside the programme's window.
# $spikes (count): in this water
# $element (name): symbol
# $recovery (amount): with its expanded uncertainty
# $low (amount): lower end of the window, percent without sign
# $high (share): upper end
verdict-recovery-outside = { $spikes ->
    [one] { $spikes } spike of { $element } in this water, at its level, came back at { $recovery } (k = 2): outside the programme's { $low } to { $high }.
   *[other] { $spikes } spikes of { $element } in this water, at its level, came back at { $recovery } (k = 2): outside the programme's { $low } to { $high }.
}

# Recovery that decides nothing.
# $spikes (count): in this water
# $element (name): symbol
# $recovery (amount): with its expanded uncertainty
# $low (amount): lower end of the window, percent without sign
# $high (share): upper end
verdict-recovery-uncertain = { $spikes ->
    [one] { $spikes } spike of { $element } in this water, at its level, came back at { $recovery } (k = 2): too uncertain to hold against the programme's { $low } to { $high }.
   *[other] { $spikes } spikes of { $element } in this water, at its level, came back at { $recovery } (k = 2): too uncertain to hold against the programme's { $low } to { $high }.
}

# No second bottle of a well beside this one.
# $water (name): the well
# $bottle (name): this bottle
verdict-no-second-bottle = No second bottle of { $water } stands beside { $bottle }.

# The same of a bottle of no well.
# $bottle (name): this bottle
verdict-no-second-bottle-here = No second bottle of this water stands beside { $bottle }.

# A pair that agrees.
# $first (name): one bottle
# $second (name): the other
# $difference (amount): between them
# $element (name): symbol
# $allowed (amount): two standard uncertainties of it
verdict-pair-within = { $first } and { $second } differ by { $difference } of { $element }, within the { $allowed } that their uncertainties allow.

# A pair beyond two standard uncertainties.
# $first (name): one bottle
# $second (name): the other
# $difference (amount): between them
# $element (name): symbol
# $allowed (amount): two standard uncertainties of it
verdict-pair-more = { $first } and { $second } differ by { $difference } of { $element }, more than the { $allowed } that their uncertainties allow.

# A pair beyond three.
# $first (name): one bottle
# $second (name): the other
# $difference (amount): between them
# $element (name): symbol
# $allowed (amount): two standard uncertainties of it
verdict-pair-far = { $first } and { $second } differ by { $difference } of { $element }, far more than the { $allowed } that their uncertainties allow.

# A person took bottle, vial or isotope out.
# $why (name): the person's reason and name
verdict-taken-out = Taken out of the evidence: { $why }; the value is the last on record.

# A blank beside its forecast, where of some stages nothing was known.
# $finding (message): the rest of it
# $stages (message): those stages
verdict-forecast-lacks = { $finding } Nothing was known before of: { $stages }.

# A stage of the path.
verdict-stage-clean-air = clean air

# A stage of the path.
verdict-stage-bottle = bottle

# A stage of the path.
verdict-stage-cool-box = cool box

# A stage of the path.
verdict-stage-lab-run = lab run

# Blanks of training: which.
# $analyte (name): symbol
# $blanks (message): kind of blank
# $finding (message): what is said of them
verdict-training = { $analyte }, { $blanks }: { $finding }

# How many results of a series share the evidence.
# $finding (message): the first finding
# $results (count): of the series
verdict-series = { $finding } ({ $results ->
    [one] { $results } result of the series stands
   *[other] { $results } results of the series stand
} on this evidence.)

# Spikes are on record, their recovery is not.
# $analyte (name): as the laboratory names it
verdict-spikes-not-worked-out = Spikes of { $analyte } are on record, but their recovery was not worked out from reported values.

# No spike of an analyte that a laboratory reported.
# $analyte (name): as the laboratory names it
verdict-no-spike-reported = No spike of { $analyte } at its level is on record; a low number may be lost metal.

# The laboratory's own mark.
verdict-estimate = The laboratory itself calls the value an estimate.

# No blank of what a laboratory reported.
# $analyte (name): as the laboratory names it
# $fraction (name): unfiltered, or the pore size
verdict-no-blank = No blank of { $analyte }, { $fraction } is on record.

# What the blanks leave room for.
# $analyte (name): as the laboratory names it
# $fraction (name): unfiltered, or the pore size
# $found (count): blanks in which it was found
# $blanks (count): all blanks
# $limit (amount): that nine samples in ten keep, with 95 % confidence
verdict-blanks-limit = { $analyte }, { $fraction } was found in { $found } of { $blanks ->
    [one] { $blanks } blank
   *[other] { $blanks } blanks
}; with 95 % confidence no more than a tenth of samples handled alike hold more than { $limit } from elsewhere.

# Too few blanks for that.
# $analyte (name): as the laboratory names it
# $fraction (name): unfiltered, or the pore size
# $found (count): blanks in which it was found
# $blanks (count): all blanks
# $needed (count): blanks that it takes
verdict-blanks-few = { $analyte }, { $fraction } was found in { $found } of { $blanks ->
    [one] { $blanks } blank
   *[other] { $blanks } blanks
}; a limit for nine samples in ten cannot be given with this few: it takes { $needed }.

# No replicates of what a laboratory reported.
# $analyte (name): as the laboratory names it
# $fraction (name): unfiltered, or the pore size
verdict-no-replicates = No replicate set of { $analyte }, { $fraction } with two values is on record.

# The spread of replicates, relative.
# $pairs (count): of replicates
# $sd (amount): of one value, in percent
# $analyte (name): as the laboratory names it
# $fraction (name): unfiltered, or the pore size
verdict-replicates-relative = { $pairs ->
    [one] { $pairs } replicate pair gives
   *[other] { $pairs } replicate pairs give
} a relative standard deviation of { $sd } for one value of { $analyte }, { $fraction }: what the report itself does not state.

# The spread of replicates in the unit of the values.
# $pairs (count): of replicates
# $sd (amount): of one value
# $analyte (name): as the laboratory names it
# $fraction (name): unfiltered, or the pore size
verdict-replicates-plain = { $pairs ->
    [one] { $pairs } replicate pair gives
   *[other] { $pairs } replicate pairs give
} a standard deviation of { $sd } for one value of { $analyte }, { $fraction }: what the report itself does not state.

# The report states u.
verdict-uncertainty-stated = The laboratory states the uncertainty of its value.

# The report states no u.
verdict-uncertainty-not-stated = The laboratory states no uncertainty of its value.

# A value below or above a limit.
verdict-uncertainty-censored = A censored value carries no uncertainty.

# Not detected, and the report says what kind of limit it is.
# $kind (name): as the laboratory names it
verdict-limit-of-kind = Not detected below a limit of kind { $kind }.

# Not detected, below a limit of no kind.
verdict-limit-without-kind = Not detected below a stated limit; of what kind the limit is, the report does not say.

# Not detected, below nothing.
verdict-limit-not-stated = Not detected, but the report does not say below what.

# A kind of blank.
verdict-field-blanks = field blanks

# A kind of blank.
verdict-trip-blanks = trip blanks

# A kind of blank.
verdict-equipment-blanks = equipment blanks

# A kind of blank.
verdict-bottle-blanks = bottle blanks

# Another kind.
# $kind (name): as the record names it
verdict-other-blanks = { $kind }s

# A fill that cannot be.
# $why (message): the rows
verdict-flow-not-known = The flow is not known: { $why }.

# $why (message): the rows, or what the casing refuses
verdict-contact-not-known = The contact time is not known: { $why }.

# $why (message): the rows, or what the class refuses
verdict-counts-unusable = The counts over the open bottle cannot be used: { $why }.

# Readings before the bottles.
# $quantity (message): what was read
# $spread (amount): largest distance from the mean
# $mean (amount): of the last readings
# $rule (message): that it is held against
verdict-not-steady = The { $quantity } was not steady before the bottles: its last readings lie up to { $spread } from their mean of { $mean }; the rule is { $rule }.

# $finding (message): of the first
# $others (list): quantities
verdict-not-steady-either = { $finding } Not steady either: { $others }.

# $quantities (list): that could not be told
verdict-steady-few = Too few readings to tell whether steady: { $quantities }.

# $quantities (list): that could not be told
# $why (message): of the first
verdict-steady-few-because = Too few readings to tell whether steady: { $quantities } ({ $why }).

# $why (message): what is wrong with the row
verdict-value-untold = The value cannot be told: { $why }.

# $why (message): what the reduction refuses
verdict-underivable = Taken out of the evidence: it can no longer be derived ({ $why }); the value is the last on record.

## Bottles of one water

# Three bottles or more that agree.
# $bottles (list): their labels
# $element (name): symbol
# $lowest (amount): lowest value, without unit
# $highest (amount): highest value
# $chance (share): of a scatter as large
verdict-group-within = { $bottles } hold { $lowest } to { $highest } of { $element }: they agree within their uncertainties (chance of a scatter as large: { $chance }).

# The same beyond two standard uncertainties.
# $bottles (list): their labels
# $element (name): symbol
# $lowest (amount): lowest value, without unit
# $highest (amount): highest value
# $chance (share): of a scatter as large
verdict-group-more = { $bottles } hold { $lowest } to { $highest } of { $element }, more scatter than their uncertainties allow (chance of a scatter as large: { $chance }); which one is off cannot be told.

# The same where the others agree without one.
# $bottles (list): their labels
# $element (name): symbol
# $lowest (amount): lowest value, without unit
# $highest (amount): highest value
# $chance (share): of a scatter as large
# $odd (name): the one
verdict-group-more-odd = { $bottles } hold { $lowest } to { $highest } of { $element }, more scatter than their uncertainties allow (chance of a scatter as large: { $chance }); { $odd } is the odd one: without it the others agree.

# Beyond three standard uncertainties.
# $bottles (list): their labels
# $element (name): symbol
# $lowest (amount): lowest value, without unit
# $highest (amount): highest value
# $odd (name): the one without which the others agree
verdict-group-odd = { $bottles } disagree: { $lowest } to { $highest } of { $element }, far more than their uncertainties allow. { $odd } is the odd one: without it the others agree. Until a person records the cause, none of them stands.

# Beyond three standard uncertainties, no single one is the cause.
# $bottles (list): their labels
# $element (name): symbol
# $lowest (amount): lowest value, without unit
# $highest (amount): highest value
verdict-group-far = { $bottles } disagree: { $lowest } to { $highest } of { $element }, far more than their uncertainties allow. Which one is off cannot be told; none of them stands.

# A person stands for a bottle that agrees with the rest.
# $finding (message): how the bottles disagree
# $person (name): who
# $why (name): what the person wrote
verdict-odd-signed = { $finding } { $person } stands for this one: { $why }

# A bottle whose second one a person took out.
# $bottle (name): its label
# $value (amount): found in it
# $taken (list): what was taken out, each with value, reason and person
verdict-second-taken-out = One bottle alone: { $bottle }, { $value }. Beside it was taken out: { $taken }. Whether two bottles agree is not known.

# Bottles that were compared, and one that was taken out before.
# $finding (message): what was compared
# $taken (list): what was taken out, each with value, reason and person
verdict-beside-taken-out = { $finding } Taken out before: { $taken }.

# One that was taken out.
# $bottle (name): its label
# $value (amount): found in it
# $why (name): the person's reason and name
verdict-out-with-value = { $bottle }, { $value }, because of “{ $why }”

# The same where no value comes out.
# $bottle (name): its label
# $why (name): the person's reason and name
verdict-out = { $bottle }, because of “{ $why }”

# What the field sheet says of a bottle.
# $finding (message): before it
# $bottle (name): its label
# $note (name): as it was written
verdict-with-note = { $finding } Field note on { $bottle }: “{ $note }”.

# Metal of particles.
# $element (name): symbol
# $unfiltered (amount): in the whole water
# $fraction (name): filtered, or the pore size
# $filtered (amount): behind the filter
# $particles (amount): the difference
verdict-particles = { $element }: unfiltered { $unfiltered }, { $fraction } { $filtered }; the particles hold { $particles }.

# No metal of particles is seen.
# $element (name): symbol
# $unfiltered (amount): in the whole water
# $fraction (name): filtered, or the pore size
# $filtered (amount): behind the filter
# $most (amount): upper bound of the difference
verdict-no-particles = { $element }: unfiltered { $unfiltered }, { $fraction } { $filtered }; the two do not differ, the particles hold at most { $most }.

# More behind the filter than before it.
# $element (name): symbol
# $unfiltered (amount): in the whole water
# $fraction (name): filtered, or the pore size
# $filtered (amount): behind the filter
# $less (amount): by how much the whole water holds less
verdict-filtered-above = { $element }: unfiltered { $unfiltered }, { $fraction } { $filtered }; behind the filter there is more, by { $less }: the filter or the bottle brought metal, or the waters differ.

# The number with everything put back: it stands.
# $taken (list): names of what was taken out
# $now (message): the number and its verdict as they stand
# $with (message): with everything put back
verdict-put-back-stands = With { $taken } put back: { $with }; as it stands: { $now }. The answer does not hang on what was taken out.

# The same: it does not stand.
# $taken (list): names of what was taken out
# $now (message): the number and its verdict as they stand
# $with (message): with everything put back
verdict-put-back-hangs = With { $taken } put back: { $with }; as it stands: { $now }. The answer hangs on what was taken out.

# A number and its verdict.
# $amount (amount): the number
# $verdict (message): the verdict
verdict-number-and-verdict = { $amount }, { $verdict }

# A bound and its verdict.
# $bound (amount): at most
# $verdict (message): the verdict
verdict-bound-and-verdict = at most { $bound }, { $verdict }

# Bottles that disagree, and their verdict.
# $values (list): of the bottles
# $verdict (message): the verdict
verdict-no-number-and-verdict = { $values } (the bottles disagree), { $verdict }
# Over the critical value, and yet not detected.
# $net (amount): net value
# $critical (amount): critical value
# $needed (amount): net value that this vial needs
verdict-not-decided = The net value, { $net }, lies above the critical value { $critical }, but this vial scatters so much that it needs { $needed } to be detected: not decided.

# A vial that scatters more than the others.
# $vial (name): vial
# $times (amount): its scatter over that of the others
# $needed (amount): net value that it needs
verdict-vial-scatter = The replicates of "{ $vial }" scatter { $times } times as much as those of the other vials let expect: by its own scatter it needs a net value of { $needed } to be detected. Measured again, it can be decided.

# What makes a coverage factor large.
# $k (amount): coverage factor
# $dof (amount): degrees of freedom of the part
# $then (amount): coverage factor with one more
verdict-few-blanks = The coverage factor is { $k } because few blanks tell how much blanks differ ({ $dof } degrees of freedom); with one more it would be { $then }.

# $k (amount): coverage factor
# $dof (amount): degrees of freedom of the part
# $then (amount): coverage factor with one more
verdict-few-checks = The coverage factor is { $k } because few drift checks tell how much vials of one solution differ ({ $dof } degrees of freedom); with one more it would be { $then }.

# $k (amount): coverage factor
# $dof (amount): degrees of freedom of the part
# $then (amount): coverage factor with one more
verdict-few-replicates = The coverage factor is { $k } because few replicates tell the scatter of a vial that stands alone ({ $dof } degrees of freedom); with one more it would be { $then }.

# $k (amount): coverage factor
# $dof (amount): degrees of freedom of the part
# $then (amount): coverage factor with one more
verdict-few-spikes = The coverage factor is { $k } because few spikes tell the recovery ({ $dof } degrees of freedom); with one more it would be { $then }.

# $k (amount): coverage factor
# $dof (amount): degrees of freedom of the part
# $then (amount): coverage factor with one more
verdict-few-values = The coverage factor is { $k } because one part of u rests on few values ({ $dof } degrees of freedom); with one more it would be { $then }.
