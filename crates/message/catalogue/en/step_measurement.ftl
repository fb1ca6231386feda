### How results of a run, of standard additions and of isotope dilution came to be: methods, nodes, steps, parts of the
### uncertainty. Formulas without words in them stand in the code: they are the same in every language.

## A run: method, and where given numbers come from

step_measurement-run = counts → dead time → background → overlaps → internal standard → drift → weighted line → dilution → blank

# $recipe (name): recipe
step_measurement-recipe = recipe "{ $recipe }"

# $stock (name): stock solution
step_measurement-stock = stock "{ $stock }"

# $run (name): run
# $position (name): of the vial
step_measurement-position = run "{ $run }", position { $position }

# $run (name): run
# $position (name): of the vial
# $rates (name): as they are kept, comma after comma: data stand in every language as in the file
# $time (amount): of each replicate
step_measurement-replicates = run "{ $run }", position { $position }: replicates { $rates } counts/s, { $time } each

# $run (name): run
# $position (name): of the vial
# $n (count): replicates
step_measurement-instrument-mean = run "{ $run }", position { $position }: mean of { $n ->
    [one] { $n } replicate
   *[other] { $n } replicates
} as the instrument gave it

## A run: rates

step_measurement-dead-time = dead time τ

step_measurement-cross-factor = analogue cross factor X

# $target (name): isotope that is overlapped
# $monitor (name): isotope that tells of it
step_measurement-overlap-factor = overlap factor f, { $target } per { $monitor }

# $target (name): isotope that is overlapped
# $monitor (name): isotope that tells of it
# $vial (name): where it was measured
step_measurement-overlap-factor-in = overlap factor f, { $target } per { $monitor }, in "{ $vial }"

# T: counts of the target, M: of the monitor.
step_measurement-overlap-formula = (T − T of the calibration blanks) / (M − M of the calibration blanks)

step_measurement-overlap-measured = measured in this run in a vial with the interfering element alone

# $isotope (name): isotope
# $vial (name): vial
step_measurement-observed-rate = observed rate n, { $isotope } in "{ $vial }"

# $isotope (name): isotope
# $vial (name): vial
step_measurement-rate-after-dead-time = rate N after dead time, { $isotope } in "{ $vial }"

# $isotope (name): isotope
# $vial (name): vial
step_measurement-rate-after-cross-factor = rate N after cross factor, { $isotope } in "{ $vial }"

# $isotope (name): isotope
step_measurement-background = gas background B, { $isotope }

step_measurement-background-mean = mean of the background vials of this run

# $isotope (name): isotope
# $vial (name): vial
step_measurement-rate-minus-background = rate minus background, { $isotope } in "{ $vial }"

## A run: response, drift, line

# $analyte (name): analyte
# $vial (name): vial
step_measurement-response = response R, { $analyte } in "{ $vial }"

# $formula (name): formula of the response, without words
step_measurement-response-formula = { $formula }; replicate by replicate, then the mean

# $formula (name): formula of the response before the internal standard, without words
# $i (amount): internal standard of this vial over its mean
step_measurement-response-over-standard = { $formula } / I, I = { $i } the internal standard over its mean in the calibration; replicate by replicate, then the mean

# $vial (name): vial
step_measurement-without-drift = response with drift removed, "{ $vial }"

# $time (amount): of the vial in the run
# $g (amount): sensitivity then
step_measurement-drift-formula = y = R / g(t), g({ $time }) = { $g } from the drift checks

# $element (name): symbol
# $vial (name): standard
step_measurement-assigned = assigned value, { $element } in "{ $vial }"

# How a line was fitted.
step_measurement-line-free = weighted least squares y = a + b·x, weights 1/u², calibration blanks at zero

# How a line was fitted.
step_measurement-line-through-blank = weighted least squares through the mean of the calibration blanks

# How a line was fitted.
step_measurement-line-through-zero = weighted least squares through zero

# $how (message): the kind of line
# $covariance (name): with its exponent, as files write it: the number goes on to be computed with
# $chi (amount): chi-squared
# $dof (count): degrees of freedom
# $widened (amount): factor
step_measurement-line = { $how }; cov(a, b) = { $covariance }; χ² = { $chi } with { $dof ->
    [one] { $dof } degree
   *[other] { $dof } degrees
} of freedom; u widened by { $widened }

step_measurement-with-weights = JCGM 100 H.3, with weights

step_measurement-intercept = intercept a

# $unit (name): of the concentrations
step_measurement-slope = slope b, per { $unit }

## A run: gross, blank, net, recovery

# $vial (name): vial
step_measurement-gross = gross concentration, "{ $vial }"

# $vial (name): vial
step_measurement-dilution-by-mass = dilution D of "{ $vial }", by mass

# $vial (name): vial
step_measurement-dilution-by-volume = dilution F of "{ $vial }", by volume

# $bottle (name): label
step_measurement-density = density ρ of the water in "{ $bottle }"

step_measurement-density-of-diluent = density r of the acid it was diluted with

step_measurement-density-letters = D the dilution by mass, ρ the density of the water, r that of the diluent

# $bottle (name): label
step_measurement-volume-of-water = volume V of water in "{ $bottle }"

# $bottle (name): label
step_measurement-acid-added = acid v added to "{ $bottle }"

# $bottle (name): label
step_measurement-acid-in-bottle = acid in the bottle "{ $bottle }", factor A from the solution to the water

step_measurement-volumes-add-up = volumes of water and acid add up

step_measurement-recorded-at-bottle = recorded with the bottle

step_measurement-acid-without-u = recorded with the bottle without u; a twentieth of it is taken

step_measurement-own-choice = the programme's own choice

step_measurement-between-vials = reproducibility between vials of one solution, as a factor

step_measurement-from-drift-checks = from the drift checks of this run

# $role (name): kind of blank as the record writes it
step_measurement-blank = { $role ->
    [procedural-blank] procedural blank
    [bottle-blank] bottle blank
    [trip-blank] trip blank
    [field-blank] field blank
    [calibration-blank] calibration blank
    [equipment-blank] equipment blank
   *[other] blank
} b

# How many blanks, for the two sentences below.
# $count (count): blanks
# $role (name): kind of blank as the record writes it
step_measurement-blanks = { $count } { $role ->
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
}

# $blanks (message): how many of what kind
# $sd (amount): between them, in the unit of the node
step_measurement-blanks-mean = mean of { $blanks }, standard deviation between them { $sd }

# $blanks (message): how many of what kind
# $sd (amount): between them, in the unit of the node
step_measurement-blanks-location = Huber's location of { $blanks }, standard deviation between them { $sd }

# $vial (name): vial
step_measurement-net = net concentration, "{ $vial }"

step_measurement-net-by-volume = c − b/V, b the mass per bottle, V the bottle's volume

step_measurement-net-u = u holds s² of the blanks for this bottle and s²/n for their mean

# $vial (name): vial
step_measurement-at-most = at most, "{ $vial }"

step_measurement-at-most-formula = one-sided 95 % upper bound of the net value: a stage of the way was met by no blank, so what it brought is still in it

# The value by the recipe's rule, beside one that is a bound.
# $blanks (message): how many of what kind
# $vial (name): vial
step_measurement-net-by-recipe = less the { $blanks } of the run, which met other air or another well, "{ $vial }"

step_measurement-net-by-recipe-formula = c − b with the blank of the recipe; not reported

# $vial (name): vial
step_measurement-net-over-recovery = net concentration ÷ recovery, "{ $vial }"

step_measurement-net-over-recovery-formula = net / R

step_measurement-recovery = recovery R

step_measurement-recovery-of-field-spikes = mean of the field spikes of this run

step_measurement-recovery-of-laboratory-spikes = mean of the laboratory spikes of this run

step_measurement-recovery-given = given in the recipe

# $vial (name): the spike
step_measurement-spike-added = metal added to the spike "{ $vial }"

step_measurement-spike-added-from = recorded with the spike

## A run: parts of the uncertainty

step_measurement-part-replicates = replicates of this vial

step_measurement-part-between-vials = reproducibility between vials

step_measurement-part-dilution = dilution

step_measurement-part-bottle = blank, bottle to bottle

step_measurement-part-blank-mean = blank, mean

step_measurement-part-line = counts of the calibration line

step_measurement-part-assigned = assigned values of the standards

step_measurement-part-drift = drift checks

step_measurement-part-interference = interference factor

step_measurement-part-dead-time = dead time

step_measurement-part-analogue = analogue cross factor

step_measurement-part-background = gas background

step_measurement-part-recovery = recovery

step_measurement-part-volume = volume of water in the bottle

step_measurement-part-acid = acid in the bottle

## Standard addition

step_measurement-addition = standard addition

step_measurement-addition-intercept = intercept of the additions

step_measurement-addition-fit = weighted least squares of signal against added concentration

step_measurement-addition-slope = slope of the additions

step_measurement-addition-fit-slope = weighted least squares; covariance with the intercept kept

step_measurement-addition-blank = blank signal

step_measurement-addition-in-solution = concentration in the measured solution

step_measurement-addition-in-solution-formula = (intercept − blank) / slope

step_measurement-addition-dilution = dilution factor

step_measurement-addition-in-sample = concentration in the sample

step_measurement-addition-in-sample-formula = × dilution factor

# A part of the uncertainty.
step_measurement-part-addition-line = line

## Isotope dilution

step_measurement-isotope-dilution = isotope dilution

step_measurement-blend-ratio = ratio of the blend after mass bias

step_measurement-sample-content = content of the sample

# $isotope (name)
step_measurement-dark-rate = dark rate of the detector, { $isotope }

step_measurement-part-drift-open = drift beyond the drift checks

## What a result rests on that its data cannot show

step_measurement-unseen-handling = samples are taken to have been handled as cleanly as the blanks: a metal that the handling of samples alone brings in looks like metal of the water; two bottles of one water filled by two people, or filled after different waits, would show it

# $blanks (count): blanks taken
# $least (count): from which their shape is seen
step_measurement-unseen-skew = with { $blanks ->
    [one] { $blanks } blank their shape
   *[other] { $blanks } blanks their shape
} cannot be seen: where blanks are skewed, clean water is called detected more often than the stated chance; { $least ->
    [one] { $least } blank or more
   *[other] { $least } or more blanks
} of the lot would show it

step_measurement-unseen-vial = the file is taken to hold every vial that was measured: one that was left out of it leaves no trace here; the instrument's own list of measurements would show it

step_measurement-unseen-wave = the sensitivity is taken to have moved no faster than the drift checks tell: a wave between them is not seen, and no solution was measured twice between them; a reference material measured several times in the run would show it

step_measurement-unseen-runs = u is that of this run: what differs from run to run (new standards, another day's plasma) is not in it; a control water measured in every run shows it
# $blanks (message): how many of what kind
# $sd (amount): standard deviation
# $own (amount): that of this run alone
# $runs (name): names of the earlier runs
# $dof (amount): degrees of freedom
step_measurement-blanks-mean-of-runs = mean of { $blanks }, standard deviation between them { $sd } with { $dof } degrees of freedom: their own, { $own }, pooled with that of the earlier runs { $runs }, which agree with it

# $phi (amount): pooled ratio of observed to counting variance
# $flicker (share): scatter in proportion to the signal, of one replicate
# $dof (amount): degrees of freedom
step_measurement-spread-of-all-vials = u from the replicates of all vials of the run together: { $phi } times the counting variance, and { $flicker } of the signal in each replicate; { $dof } degrees of freedom

# $times (amount): its scatter over that of the others
step_measurement-spread-of-this-vial = u from this vial's own replicates, which scatter { $times } times as much as those of the others

# Where a u comes from.
step_measurement-spread-of-counting = u from counting alone; where nothing was counted, that of one count
