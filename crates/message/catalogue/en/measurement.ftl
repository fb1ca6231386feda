### What the reduction of a run finds. $analyte is element, isotopes and resolution as in "Pb 206+207+208@low".

# $share (share): largest part of the time
# $isotope (name): isotope
# $vial (name): vial
# $limit (share): part to which the model is trusted
measurement-dead-time = the detector was dead for at most { $share } of the time ({ $isotope } in "{ $vial }"); the dead-time model is trusted to { $limit }

# $standard (name): isotope of the internal standard
# $vial (name): vial
# $level (amount): percent of its mean in the calibration
# $lowest (amount): percent allowed
# $highest (amount): percent allowed
measurement-internal-standard-outside = internal standard { $standard } in "{ $vial }" is at { $level } of its mean in the calibration, outside { $lowest } to { $highest }: the matrix or the uptake differed, and the correction is no longer small

# $standard (name): isotope of the internal standard
# $low (amount): lowest, percent of its mean in the calibration
# $high (amount): highest
measurement-internal-standard-steady = internal standard { $standard } stayed between { $low } and { $high } of its mean in the calibration

# $analyte (name): what was taken out
# $vial (name): of which vial
measurement-taken-out = a person took { $analyte } in "{ $vial }" out of the run; it has no result

# $standard (name): vial
# $analyte (name): of the line
measurement-standard-left-out = standard "{ $standard }" has no value or no reading for { $analyte }; the line stands on the others

# $analyte (name): of the line
measurement-line-untested = the line of { $analyte } has no point to spare, so its fit cannot be tested

# $analyte (name): of the line
# $points (count): standards
# $chi (amount): chi-squared
# $dof (count): degrees of freedom
measurement-line-fits = the line of { $analyte } fits { $points ->
    [one] its one point
   *[other] its { $points } points
} (χ² { $chi } with { $dof ->
    [one] { $dof } degree
   *[other] { $dof } degrees
} of freedom)

# $analyte (name): of the line
# $points (count): standards
# $chi (amount): chi-squared
# $dof (count): degrees of freedom
# $widened (amount): factor
measurement-line-scatters = { $points ->
    [one] the one point of the line of { $analyte } scatters
   *[other] the { $points } points of the line of { $analyte } scatter
} more than their u (χ² { $chi } with { $dof ->
    [one] { $dof } degree
   *[other] { $dof } degrees
} of freedom); their u was widened by { $widened }

# $analyte (name): whose drift
measurement-drift-not-seen = the drift checks do not hold { $analyte }: its drift is neither known nor corrected

# $analyte (name): whose drift
# $change (share): over the run
# $limit (share): expected at most
measurement-drift = the sensitivity for { $analyte } changed by { $change } over the run after the internal standard, and was corrected; up to { $limit } is expected

# $analyte (name): whose drift
measurement-drift-not-corrected = the recipe corrects no drift of { $analyte } beyond the internal standard

# $analyte (name): of the drift checks
measurement-between-vials-unknown = too few drift checks to tell how well { $analyte } reproduces between vials; u leaves it out

# $role (name): kind of blank as the record writes it
# $count (count): blanks
# $analyte (name): of what
# $mean (amount): their mean
# $sd (amount): their standard deviation, in the unit of the mean
# $least (count): how many are wanted
measurement-blank-count = { $count } { $role ->
    [procedural-blank] { $count ->
        [one] procedural blank
       *[other] procedural blanks
    }
    [bottle-blank] { $count ->
        [one] bottle blank
       *[other] bottle blanks
    }
    [trip-blank] { $count ->
        [one] trip blank
       *[other] trip blanks
    }
    [field-blank] { $count ->
        [one] field blank
       *[other] field blanks
    }
    [calibration-blank] { $count ->
        [one] calibration blank
       *[other] calibration blanks
    }
    [equipment-blank] { $count ->
        [one] equipment blank
       *[other] equipment blanks
    }
   *[other] { $count ->
        [one] blank
       *[other] blanks
    }
} of { $analyte }: mean { $mean }, standard deviation { $sd }; at least { $least ->
    [one] { $least } is wanted
   *[other] { $least } are wanted
}

# $role (name): kind of blank as the record writes it
# $count (count): blanks
# $analyte (name): of what
measurement-blanks-equal = the { $role ->
    [procedural-blank] procedural blanks
    [bottle-blank] bottle blanks
    [trip-blank] trip blanks
    [field-blank] field blanks
    [calibration-blank] calibration blanks
    [equipment-blank] equipment blanks
   *[other] blanks
} of { $analyte } ({ $count }) came out equal: their spread is not known, it is not zero; the u of their counting stands in for it

# $role (name): kind of blank as the record writes it
# $analyte (name): of what
measurement-reference-blank-missing = fewer than two { $role ->
    [procedural-blank] procedural blanks
    [bottle-blank] bottle blanks
    [trip-blank] trip blanks
    [field-blank] field blanks
    [calibration-blank] calibration blanks
    [equipment-blank] equipment blanks
   *[other] blanks
} of { $analyte }: reference materials stand over the zero of the calibration alone

# $role (name): kind of blank as the record writes it
# $vial (name): vial
# $found (amount): what it shows
# $analyte (name): of what
# $expected (amount): most that the others let one expect, in the unit of what was found
measurement-blank-outlier = { $role ->
    [procedural-blank] procedural blank
    [bottle-blank] bottle blank
    [trip-blank] trip blank
    [field-blank] field blank
    [calibration-blank] calibration blank
    [equipment-blank] equipment blank
   *[other] blank
} "{ $vial }" shows { $found } of { $analyte }, where the others let one expect at most { $expected }: a spike of contamination in this bottle, or a sign of what samples may hold as well

# $species (name): what overlaps
# $analyte (name): on what
measurement-overlap-fixed = a factor of { $species } on { $analyte } is fixed, without u: the budget leaves it out

# $share (share): of the counts
# $analyte (name): of what
# $vial (name): vial
# $species (name): what overlaps
measurement-overlap-large = { $share } of the counts of { $analyte } in "{ $vial }" are { $species }, measured in this run and taken off; what is left stands on that correction

# $species (name): what overlaps
# $share (share): of the counts, at most
# $analyte (name): of what
measurement-overlap-small = { $species } makes up at most { $share } of the counts of { $analyte } in any sample

# $vial (name): vial
# $analyte (name): what
# $found (amount): as found
# $certified (amount): as certified, in the unit of what was found
# $recovery (share): found over certified
# $zeta (amount): zeta score
# $en (amount): E_n
measurement-reference-material = reference material "{ $vial }": { $analyte } found { $found } where { $certified } is certified ({ $recovery }, zeta { $zeta }, E_n { $en })

# $analyte (name): of what
measurement-no-reference-material = no reference material with a value for { $analyte } was measured

# $vial (name): one bottle
# $other (name): the other
# $difference (amount): by how much
# $analyte (name): of what
# $allowed (amount): what their u let one expect, in the unit of the difference
measurement-duplicate = "{ $vial }" and "{ $other }" differ by { $difference } of { $analyte }, where their u let one expect up to { $allowed }

# $vial (name): vial
# $recovery (share): came back
# $u (amount): percent
# $added (amount): what was added
# $analyte (name): of what
# $lowest (amount): percent wanted
# $highest (share): percent wanted
measurement-field-spike = field spike "{ $vial }": { $recovery-expanded } (k = 2) of the { $added } of { $analyte } added came back; { $lowest } to { $highest } is wanted

# $vial (name): vial
# $recovery (share): came back
# $u (amount): percent
# $added (amount): what was added
# $analyte (name): of what
# $lowest (amount): percent wanted
# $highest (share): percent wanted
measurement-laboratory-spike = laboratory spike "{ $vial }": { $recovery-expanded } (k = 2) of the { $added } of { $analyte } added came back; { $lowest } to { $highest } is wanted

# $one (name): analyte
# $other (name): the other analyte of the element
# $vial (name): vial
# $found (amount): by the one
# $others (amount): by the other
measurement-isotopes-disagree = { $one } and { $other } disagree in "{ $vial }": { $found } and { $others }; one of them holds something else

# $one (name): analyte
# $other (name): the other analyte of the element
# $vials (count): compared
measurement-isotopes-agree = { $one } and { $other } agree within their u in { $vials ->
    [one] the one vial
   *[other] all { $vials } vials
}

# $element (name): symbol
measurement-no-control-water = No reference material with a value for { $element } was measured in this run.

# $recovery (share): found over assigned
# $element (name): symbol
# $vials (count): measured
# $en (amount): E_n
measurement-in-control = The control water was found at { $recovery } of its value for { $element } ({ $vials ->
    [one] { $vials } vial
   *[other] { $vials } vials
}, E_n { $en }): the method is in control.

# $recovery (share): found over assigned
# $element (name): symbol
# $vials (count): measured
# $en (amount): E_n
measurement-control-warns = The control water was found at { $recovery } of its value for { $element } ({ $vials ->
    [one] { $vials } vial
   *[other] { $vials } vials
}, E_n { $en }): the method is in control, but misses by more than its uncertainty explains.

# $recovery (share): found over assigned
# $element (name): symbol
# $vials (count): measured
# $en (amount): E_n
measurement-out-of-control = The control water was found at { $recovery } of its value for { $element } ({ $vials ->
    [one] { $vials } vial
   *[other] { $vials } vials
}, E_n { $en }): the method is not in control.

## What was recorded of solutions and bottles

# $analyte (name): of the line
# $stocks (name): names of the stocks, comma between them
measurement-stock-named = the standards of { $analyte } name their stock ({ $stocks }): its error is one for all of them

# $analyte (name): of the line
# $count (count): standards
measurement-stock-unnamed = { $count ->
    [one] { $count } standard of { $analyte } names
   *[other] { $count } standards of { $analyte } name
} no stock: they are taken as of one, so that its error is not averaged out

# $vials (count): of which nobody said it
# $analyte (name): of the value
# $vial (name): the one that was diluted most
# $dilution (amount): factor
# $bottle (amount): in the solution measured, where the value is in the bottle
# $measured (amount): in the solution measured, where the value is as measured
measurement-assigned-side-unsaid = { $vials ->
    [one] for { $vials } diluted vial
   *[other] for { $vials } diluted vials
} nobody said whether the assigned value of { $analyte } stands before or after the dilution: in "{ $vial }", diluted { $dilution } times, the solution measured holds { $bottle } if it stands in the bottle, { $measured } if it stands as measured; it is taken as in the bottle

# $analyte (name): of the line
measurement-no-second-source = no reference material and no check of another stock was measured for { $analyte }: an error of the stock would be in every result unseen

# $analyte (name): of the line
# $vials (count): measured
# $of (amount): assigned value
# $difference (amount): from it
# $most (amount): what u of both explains
measurement-second-source-agrees = a second source of { $analyte } agrees with the line: the mean of { $vials ->
    [one] { $vials } vial
   *[other] { $vials } vials
} differs from its { $of } by { $difference }, where up to { $most } is explained

# $analyte (name): of the line
# $vials (count): measured
# $of (amount): assigned value
# $difference (amount): from it
# $most (amount): what u of both explains
measurement-second-source-differs = a second source of { $analyte } does not agree with the line: the mean of { $vials ->
    [one] { $vials } vial
   *[other] { $vials } vials
} differs from its { $of } by { $difference }, where up to { $most } is explained; one of the two solutions errs

# $bottle (name): label
# $acid (amount): added
# $volume (amount): of water
# $factor (amount): from the solution to the water
measurement-acid-counted = "{ $bottle }" holds { $acid } of acid in { $volume } of water: values are per volume of water, { $factor } times the solution

# $bottle (name): label
# $acid (amount): added
measurement-acid-without-volume = "{ $bottle }" holds { $acid } of acid in an unknown volume of water: how much it thins the water is not known and not in the value

# $bottle (name): label
# $analyte (name): of the value
# $one (amount): by how much 1 % of acid would raise it
# $two (amount): by how much 2 % would
measurement-acid-unrecorded = the acid in "{ $bottle }" is not recorded: 1 % of it would raise { $analyte } by { $one }, 2 % by { $two }

## What the number and the shape of blanks let one trust

# $blanks (count): eight or more
measurement-blanks-may-be-normal = The { $blanks ->
    [one] { $blanks } blank
   *[other] { $blanks } blanks
} may be normal: the t-based limits hold their 5 % then.

# $blanks (count): eight or more
# $risk (message): how often clean water is called detected
# $instead (message): what holds
measurement-blanks-not-normal = The { $blanks ->
    [one] { $blanks } blank does not look
   *[other] { $blanks } blanks do not look
} normal: { $risk }; { $instead }.

# $blanks (count): three or more
# $risk (message): how often clean water is called detected
# $instead (message): what holds
measurement-blanks-of-no-shape = { $blanks ->
    [one] { $blanks } blank is too few to tell their shape
   *[other] { $blanks } blanks are too few to tell their shape
}: { $risk }; { $instead }.

# $share (amount): percent of clean waters
# $blanks (count): of the simulation
measurement-false-detections = with blanks as skewed as blanks often are, { $share } of clean waters would be called detected where 5 % is meant (simulated, { $blanks ->
    [one] { $blanks } blank
   *[other] { $blanks } blanks
})

# What to use for skewed blanks.
measurement-largest-holds = the largest blank as the limit holds 5 % whatever their shape

# What to use for skewed blanks.
measurement-more-blanks = under 20 blanks no limit holds 5 % for skewed blanks; more blanks are the answer

## What a vial is in a run

measurement-role-gas-background = gas background
measurement-role-calibration-blank = calibration blank
measurement-role-standard = standard
measurement-role-procedural-blank = procedural blank
measurement-role-bottle-blank = bottle blank
measurement-role-trip-blank = trip blank
measurement-role-field-blank = field blank
measurement-role-equipment-blank = equipment blank
measurement-role-reference-material = reference material
measurement-role-drift-check = drift check
measurement-role-interference-check = interference check
measurement-role-sample = sample
measurement-role-duplicate = duplicate
measurement-role-field-spike = field spike
measurement-role-laboratory-spike = laboratory spike

## Vials that others stand on, single replicates, what stays behind, what is counted without a sample

# $role (name): what the vial is
# $vial (name): vial
# $analyte (name): whose results stand on it
# $share (share): pulses lost
# $isotope (name): isotope
# $limit (share): part to which the model is trusted
measurement-standard-dead = in { $role ->
    [standard] standard
    [calibration-blank] calibration blank
    [drift-check] drift check
    [interference-check] interference check
    [procedural-blank] procedural blank
    [bottle-blank] bottle blank
    [trip-blank] trip blank
    [field-blank] field blank
    [equipment-blank] equipment blank
   *[other] vial
} "{ $vial }", on which all results of { $analyte } stand, the detector lost { $share } of the pulses of { $isotope }; the dead-time model is trusted to { $limit }

# $role (name): what the vial is
# $vial (name): vial
# $analyte (name): whose results stand on it
# $level (amount): percent of the mean in the calibration
# $lowest (amount): percent allowed
# $highest (amount): percent allowed
measurement-standard-suppressed = in { $role ->
    [standard] standard
    [calibration-blank] calibration blank
    [drift-check] drift check
    [interference-check] interference check
    [procedural-blank] procedural blank
    [bottle-blank] bottle blank
    [trip-blank] trip blank
    [field-blank] field blank
    [equipment-blank] equipment blank
   *[other] vial
} "{ $vial }", on which all results of { $analyte } stand, the internal standard is at { $level } of its mean in the calibration, outside { $lowest } to { $highest }: what is wrong there is wrong in every result

# $analyte (name): of what
measurement-standard-signals-good = dead time and internal standard are within their limits in all vials that the results of { $analyte } stand on

# $analyte (name): of what
# $vial (name): vial
# $replicate (count): which replicate, from 1
# $rate (amount): what it shows
# $others (amount): mean of the others, in the unit of the rate
measurement-replicate-high = replicate { $replicate } of { $analyte } in "{ $vial }" shows { $rate } beside { $others } in the others, more than counting and the scatter of the run explain: possibly a particle; only a person takes it out

# $analyte (name): of what
# $vial (name): vial
# $replicate (count): which replicate, from 1
# $rate (amount): what it shows
# $others (amount): mean of the others, in the unit of the rate
measurement-replicate-low = replicate { $replicate } of { $analyte } in "{ $vial }" shows { $rate } beside { $others } in the others, less than counting and the scatter of the run explain: possibly a bubble; only a person takes it out

# $analyte (name): of what
# $replicates (count): replicates tested
measurement-replicates-alike = { $replicates ->
    [one] the one replicate of { $analyte } is no farther
   *[other] none of the { $replicates } replicates of { $analyte } is farther
} from the others of its vial than counting and the scatter of the run explain

# $analyte (name): of what
# $vial (name): vial
# $before (name): the vial before it
# $rate (share): part of a level that reaches the next vial
# $from (name): how that part is known
# $carried (amount): what that brings
# $u (amount): of the result, in the unit of what is carried
measurement-wash-out = "{ $vial }" was measured after "{ $before }": { $from ->
    [found] blanks after high vials of this run show that up to { $rate } of { $analyte } is carried over
    [given] with the { $rate } of { $analyte } that the recipe states as the most carried over
    [bounded] blanks after high vials of this run leave open that { $rate } of { $analyte } is carried over
   *[assumed] no blanks of this run tell what is carried over; with a usual { $rate } of { $analyte }
}, which would be { $carried } here, more than half of its u of { $u }

# $analyte (name): of what
# $rate (share): part of a level that reaches the next vial
# $from (name): how that part is known
measurement-wash-out-small = no vial before a result of { $analyte } is so high that a carry-over of { $rate } ({ $from ->
    [found] found in this run
    [given] stated in the recipe
    [bounded] the most that blanks of this run leave open
   *[assumed] a usual one, not known of this run
}) would be more than half of its u

# $analyte (name): of what
# $from (name): how it is known
measurement-detector-background = what the detector counts without a sample was taken off every rate of { $analyte }, { $from ->
    [gas] from the gas background of this run
   *[recipe] from the dark rate that the recipe states
}

# $analyte (name): of what
# $vial (name): vial
# $rate (amount): dark rate
# $shift (amount): how far it moves the result
# $u (amount): of the result, in the unit of the shift
measurement-detector-background-open = neither a gas background nor a dark rate was recorded: a dark rate of { $rate } would move { $analyte } in "{ $vial }" by { $shift }, more than half of its u of { $u }

# $analyte (name): of what
# $rate (amount): dark rate
measurement-detector-background-small = neither a gas background nor a dark rate was recorded; a dark rate of { $rate } would move no result of { $analyte } by more than half of its u

# $analyte (name): whose drift
# $vial (name): vial
# $minutes (amount): from the nearest check
# $side (name): before the first check, or after the last
# $share (share): of the variance of the result
measurement-drift-open = "{ $vial }" was measured { $minutes } { $side ->
    [before] before the first drift check
   *[after] after the last drift check
}: the drift of { $analyte } there is not known; as far as the checks of this run moved, it makes { $share } of the variance of the result

# $analyte (name): whose drift
# $vial (name): vial
# $share (share): of the variance of the result
measurement-drift-open-standards = standards or blanks of { $analyte } were measured before the first or after the last drift check; the drift that is not known there makes { $share } of the variance of the result of "{ $vial }"

# $analyte (name): whose drift
measurement-drift-closed = every result of { $analyte } stands between drift checks, and none rests mainly on standards that do not

# $analyte (name): of what
# $vial (name): first measurement of the solution
# $times (count): how often it was measured
# $scatter (amount): standard deviation found
# $expected (amount): what u lets one expect, in the unit of the scatter
measurement-fast-drift = the solution of "{ $vial }" was measured { $times ->
    [one] { $times } time
   *[other] { $times } times
}, and its { $analyte } scatters by { $scatter } where u lets one expect { $expected }: the sensitivity moved faster than the drift checks show, or one of the vials is not what it should be

# $analyte (name): of what
# $solutions (count): measured more than once
measurement-no-fast-drift = { $solutions ->
    [one] { $solutions } solution measured more than once agrees
   *[other] { $solutions } solutions measured more than once agree
} in { $analyte } within u: no drift between the checks is seen

# $vial (name): one vial
# $other (name): the other
# $isotopes (name): which repeat
measurement-repeated-readings = "{ $vial }" and "{ $other }" have the same readings to the last digit ({ $isotopes }), which counting does not give by chance: one of them was probably written twice

# $vials (count): compared
measurement-no-repeated-readings = { $vials ->
    [one] the one vial has its own readings
   *[other] no two of the { $vials } vials have the same readings
}
