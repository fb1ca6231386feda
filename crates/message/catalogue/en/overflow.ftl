### What the overflow of wells does for the stream that takes it.

# Title of the section.
overflow-section = What the overflow does for the stream

# Heading over one stream and trip.
# $stream (name): the stream
# $trip (name): the trip
overflow-on-trip = { $stream }, trip { $trip }

# $share (amount): of the wells together, percent, number alone
# $u (amount): its expanded uncertainty, percent
# $stream (name): the stream
# $wells (list): the wells
# $flow (message): of the stream above the wells, with u
overflow-share = { $share } ± { $u } (k = 2) of the water of { $stream } below is overflow of { $wells } ({ $stream } was { $flow } above).

# The same without an uncertainty.
# $share (amount): of the wells together, percent
# $stream (name): the stream
# $wells (list): the wells
# $flow (message): of the stream above the wells, with u
overflow-share-without-u = { $share } of the water of { $stream } below is overflow of { $wells } ({ $stream } was { $flow } above).

# Last row of the table of waters.
# $stream (name): the stream
overflow-below = { $stream } below

# Caption of the table of waters.
# $stream (name): the stream
overflow-waters = The waters that meet in { $stream }

# A value of the mixture where a water is below its limit.
# $low (amount): lower end, number alone
# $high (amount): upper end
overflow-between = { $low } to { $high }

# No value of the mixture.
# $waters (list): those that have none
overflow-not-known-of = not known of { $waters }

# What is mixed.
# $analyte (name): as the result names it
overflow-value = { $analyte ->
    [alkalinity] alkalinity
   *[other] { $analyte }
}

# The same where the result names a fraction.
# $analyte (name): as the result names it
# $fraction (name): filtered, or another
overflow-value-of = { $analyte ->
    [alkalinity] alkalinity
   *[other] { $analyte }
}, { $fraction ->
    [filtered] filtered
   *[other] { $fraction }
}

# Caption of the table of values.
# $stream (name): the stream
overflow-change = What the wells change in { $stream }

# Column.
overflow-wells-together = wells together

# Column.
overflow-below-computed = below, computed

# Note of the table of values.
overflow-mass-balance = Mass balance of flows and amounts, full mixing; ± with k = 2. A water below its limit gives a range.

# Note of the table of values.
overflow-not-conserved = (a) Does not stay as it is when water without oxygen meets air: the figure is before it reacts or falls out.

# $stream (name): the stream
overflow-flow-not-read = The flow of { $stream } above the wells was not read on this trip: nothing can be said of the stream below.

# $water (name): stream or well
overflow-no-result = No result of { $water } on this trip: its share is known, what it brings is not.

# $why (message): why not
overflow-not-mixed = The waters could not be mixed: { $why }.
