### Why what is known of a well or of waters gives no answer, and the parts that such a sentence is made of. None has a
### full stop: it stands within another.

# $what (message): which input
# $found (amount): the value
# $expected (message): what is allowed
aquifer-out-of-range = { $what }: found { $found }, expected { $expected }

# $what (message): which input
# $found (message): what was found
# $expected (message): what is allowed
aquifer-unlike = { $what }: found { $found }, expected { $expected }

# $what (message): what is missing
# $have (count): how many were given
# $need (count): how many are needed
# $hint (message): what to do
aquifer-too-few = { $what }: { $have } given, at least { $need } needed; { $hint }

# $from (name): a unit
# $to (name): another
aquifer-units-differ = "{ $from }" cannot be turned into "{ $to }"

aquifer-unit-not-known = a unit that is not known

# $what (message): which search
# $iterations (count): made
# $residual (amount): what was left
aquifer-not-converged = { $what } did not converge after { $iterations ->
    [one] { $iterations } iteration
   *[other] { $iterations } iterations
} (residual { $residual })

# $nought (amount): 0 with its unit
aquifer-more-than-nought = more than { $nought }

# Rows of the record after a reason.
# $why (message): what cannot be
# $rows (name): numbers of the rows
aquifer-in-rows = { $why } (well_section, row { $rows })

# What cannot be.
# $section (count): number of the section
aquifer-radius-of-section = radius of section { $section }

# What cannot be.
# $section (count): number of the section
# $material (name): what it is made of
aquifer-section = section { $section } ({ $material })

# What cannot be.
# $screen (count): number of the screen
aquifer-screen = screen { $screen }

# What cannot be.
# $layer (name): what the driller wrote
aquifer-layer = layer "{ $layer }"

# What cannot be.
aquifer-sections = sections

# What cannot be.
aquifer-screens = screens

# What cannot be.
aquifer-layers = layers

# What a stretch has to be.
aquifer-lower-end-deeper = a lower end deeper than the upper end, both in m below ground

# Two stretches as they were found.
# $upper (name): the upper one
# $from (amount): its upper end, number alone
# $to (amount): its lower end
# $lower (name): the lower one
# $next (amount): its upper end, number alone
# $end (amount): its lower end
aquifer-overlap = "{ $upper }" { $from } to { $to } overlaps "{ $lower }" { $next } to { $end }

# What stretches have to be.
aquifer-one-after-the-other = one after the other, without overlap

# What cannot be.
aquifer-depth-of-well = depth of the well

# What cannot be.
# $stretch (name): screen or section
aquifer-lower-end = lower end of the { $stretch }

# What was found.
# $depth (amount): of the lower end
aquifer-below-bottom = { $depth }, below the bottom of the well

# What is allowed.
# $most (amount): largest value
aquifer-at-most = at most { $most }

# What cannot be.
aquifer-gauge-pressure = gauge pressure

# What is allowed.
aquifer-gauge-pressure-allowed = 0 or more above the air; where the water stands below the gauge, measure the depth to water

# What cannot be.
aquifer-gauge-height = gauge height

# What is allowed.
aquifer-gauge-height-allowed = metres above ground, negative below

# What cannot be.
aquifer-water-temperature = water temperature

# What was found, or is allowed.
# $low (amount): one end, number alone
# $high (amount): the other
aquifer-between = { $low } to { $high }

# What cannot be.
aquifer-drawdown = drawdown

# What cannot be.
aquifer-radius-of-well = radius of the well

# What cannot be.
aquifer-pumping-rate = pumping rate

# What cannot be.
aquifer-distance-of-watched-well = distance of the watched well

# What is missing.
# $reading (name): flow or drawdown
aquifer-readings = readings of { $reading }

# What to do where readings are too few.
aquifer-read-more-often = two points always lie on the curve; read more often, closer together at the start

# What cannot be.
# $reading (count): number of the reading
aquifer-time-of-reading = time of reading { $reading }

# What is allowed.
aquifer-after-the-start = more than 0 s since the start

# What cannot be.
# $what (name): flow or drawdown
# $reading (count): number of the reading
aquifer-value-of-reading = { $what } of reading { $reading }

# What cannot be.
aquifer-flow-in-time = flow in time

# What was found.
aquifer-flow-does-not-fall = a flow that does not fall

# What is allowed.
aquifer-falling-flow = a falling flow: a well held at constant head gives less and less; a rising flow means the head was not held, or the well is clearing itself

# What cannot be.
aquifer-drawdown-in-time = drawdown in time

# What was found.
aquifer-drawdown-does-not-grow = a drawdown that does not grow

# What is allowed.
aquifer-growing-drawdown = a growing drawdown at constant pumping

# Which search.
aquifer-fit = fit of the well test

# Which search.
aquifer-fit-of-storage = fit of the well test: the data do not bend as the curve does, so the storage coefficient

# What cannot be.
# $input (name): of the travel time
aquifer-input = { $input ->
    [effective-porosity] effective porosity
    [hydraulic-conductivity] hydraulic conductivity
    [recharge-level] recharge level
    [head-at-the-well] head at the well
   *[other] { $input }
}

# What was found.
# $value (amount): as it was given
# $u (amount): its standard uncertainty
aquifer-value-with-u = { $value } with u { $u }

# What is allowed.
aquifer-metres-with-u = a number of m with u of 0 or more

# What is allowed.
# $head (amount): at the well
aquifer-above-the-head = above the head at the well, { $head }: water does not flow uphill

# What is allowed.
aquifer-above-nought-or-range = a value above 0 with u of at least 0, or a range from above 0 upward

# What cannot be.
aquifer-porosity = porosity

# What is allowed.
aquifer-share-not-percent = a share up to 1, not percent

# What cannot be.
aquifer-draws = draws

# What is missing.
aquifer-waters-to-mix = waters to mix

# What to do where waters are too few.
aquifer-give-river = give the river and what runs into it

# What cannot be.
aquifer-flow-of-all = flow of all waters

# What cannot be.
# $water (name): the water
aquifer-flow-of = flow of { $water }

# What is allowed.
aquifer-nought-or-more = a value of 0 or more

# What cannot be.
# $analyte (name): as the result names it
aquifer-analyte-of-water = { $analyte } of a water

# What was found.
aquifer-above-its-range = above its range

# What is allowed.
aquifer-value-or-non-detect = a value or a non-detect: dilute and measure again

# What cannot be.
aquifer-parameter-and-rule = parameter and rule

# What is allowed.
# $known (list): parameters with their rules
aquifer-one-of = one of { $known }

# What is allowed.
# $before (amount): time of the reading before
aquifer-later-than = later than the { $before } of the reading before

# What is missing.
# $parameter (name): what was read
# $spacing (amount): least time between two
aquifer-spaced-readings = readings of { $parameter ->
    [dissolved-oxygen] dissolved oxygen
   *[other] { $parameter }
} at least { $spacing } apart

# What to do where readings are too few.
aquifer-go-on-reading = go on reading
