### Whose metal it is: sources of a trip, waters and their own metal, bottles filled to different marks or at different flows.

# Title of the section.
attribution-title = Whose metal it is

attribution-how = All bottles of a trip, blanks and samples, are fitted together by what each was exposed to; no source can be negative, and a rare spike hardly counts. The result that is reported stays the plain one, net of the blank; the water’s own by all bottles stands beside it.

# A value beside its 95 % interval.
# $value (amount): number alone
# $low (amount): lower end
# $high (amount): upper end
attribution-interval = { $value } ({ $low } to { $high })

# Nothing but an upper end.
# $most (amount): number alone
attribution-at-most = at most { $most }

# Heading over a metal and a trip.
# $metal (list): its name, or its symbol where it has none
# $trip (name): the trip
attribution-of-trip = { $metal }, trip { $trip }

# $why (message): what was refused
attribution-blanks-not-fitted = The blanks alone were not fitted: { $why }.

# Note under a table.
# $scope (message): which bottles were fitted
attribution-by = By { $scope }.

# Note under a table.
# $what (message): an exposure, and for which bottles it is not on record
attribution-not-asked = Not asked: { $what }.

# $metal (list): its name, or its symbol where it has none
attribution-sources = { $metal }: what each source brought, by the blanks

# The same of invented data.
# $metal (list): its name, or its symbol where it has none
attribution-sources-invented = { $metal }: what each source brought, by the blanks; invented data

# Heading of a column.
attribution-strength = strength (95 % interval)

# Unit of a source.
# $unit (name): of its exposure
attribution-pg-per = pg per { $unit }

# A source whose interval holds zero.
attribution-not-seen = not seen

# $well (name): the well
# $why (message): what was refused
attribution-water-not-fitted = { $well }: not fitted; { $why }.

# Before the sentences that say why.
# $well (name): the well
attribution-water-not-told = { $well }: the water’s own cannot be told.

# Why no line could be drawn.
# $well (name): the well
# $why (message): what was refused
attribution-no-line = { $well }: { $why }.

# Title of a picture.
# $metal (list): its name, or its symbol where it has none
# $well (name): the well
attribution-fills = { $metal } in bottles of { $well } filled to different marks

attribution-fills-under = The slope is the water, the value at zero volume what bottle and hands brought.

# An axis.
attribution-fill-volume = fill volume, mL

# An axis.
attribution-metal-in-bottle = metal in the bottle, pg

# In the legend.
attribution-at-zero-bottle = at zero: bottle and hands, pg

# Title of a picture.
# $metal (list): its name, or its symbol where it has none
# $well (name): the well
attribution-flows = { $metal } at { $well } at different flows

attribution-flows-under = The value at 1/flow = 0 is the aquifer, the slope the pipe.

# An axis.
attribution-inverse-flow = 1/flow, min/L

# An axis.
attribution-concentration = concentration, ng/L

# In the legend.
attribution-at-zero-aquifer = at zero: the aquifer, ng/L

# $p (amount): of a square term
attribution-bend = The test of the line against a bend: p = { $p }.

# In the legend.
attribution-one-bottle = one bottle, with its 95 % interval

# In the legend.
attribution-line-with-band = line with its band

# Beside the value of a line at zero, with its 95 % interval.
# $value (list): number alone
# $low (list): lower end
# $high (list): upper end
attribution-value-at-zero = { $value } ({ $low } to { $high })

# Heading.
attribution-own = What all bottles together say, beside the plain result

# Caption of a table.
attribution-own-and-plain = Plain subtraction of the blank, and all bottles fitted together, ng/L

# Heading of a column: plain subtraction of the blank.
attribution-plain = plain

# Heading of a column.
attribution-own-by-all = what all bottles together say

# Heading of a column.
attribution-share-by-blank = share, by the accounting

# In place of a share that holds more than the water's.
attribution-not-alone = not the water’s alone

# Note under a table.
attribution-own-note = In brackets 95 % intervals. The plain result is the one that is judged and reported; its share is that of the accounting. What all bottles together say is an annex to it: without the pipe where bottles stood at different flows. At most: these bottles do not tell the water from a source; the list above names the blank that would.

# Note under a table.
attribution-not-alone-note = Not the water’s alone: the pipe beyond the programme’s contact, or an air that no blank met, is not told apart from it; the table of results has that part.

# Caption of a table.
attribution-aquifer-and-pipe = Aquifer and pipe by samples at different flow

# Heading of a column.
attribution-p-of-bend = p of a bend

# Heading of a column: what the points form over 1/flow.
attribution-in-inverse-flow = in 1/flow

attribution-a-line = a line

attribution-bends = bends

# Note under a table.
attribution-particles = A bend towards more metal at faster flow may be particles: filtered beside unfiltered, or Fe and Al, tell.

# Heading.
attribution-patterns = Patterns of metals beside known sources

attribution-patterns-note = A pattern that fits is a hint where to look, no proof: metal does not dissolve in the proportion of the alloy, so amounts count as known to a third. The signatures, and where they come from:

# One signature.
# $name (message): the source that it is of
# $metals (name): symbols with commas between
# $from (list): where the amounts come from, as the table or the programme has it
attribution-signature = { $name } ({ $metals }): { $from }

## Exposures of a bottle: what it met.

attribution-bottle = bottle

attribution-acid = acid

attribution-days = days in the bottle

attribution-journey = journey

attribution-filter = filter

attribution-openings = openings

attribution-cabinet = minutes in the cabinet

attribution-open-air = minutes in the open air

attribution-pipe = pipe

# $well (name): the well
attribution-water-of = the water of { $well }

## The same where a sentence begins with it.

attribution-begins-bottle = Bottle

attribution-begins-acid = Acid

attribution-begins-days = Days in the bottle

attribution-begins-journey = Journey

attribution-begins-filter = Filter

attribution-begins-openings = Openings

attribution-begins-cabinet = Minutes in the cabinet

attribution-begins-open-air = Minutes in the open air

attribution-begins-pipe = Pipe

# $well (name): the well
attribution-begins-water-of = The water of { $well }

## The bottle that would tell an exposure from the others.

attribution-apart-bottle = a blank in a bottle of another lot

attribution-apart-acid = a bottle blank with twice the acid

attribution-apart-days = a bottle blank filled some weeks earlier

attribution-apart-journey = a bottle blank that stays at home

attribution-apart-filter = a field blank without the filter

attribution-apart-openings = a field blank opened twice as often

attribution-apart-cabinet = a field blank left open twice as long in the cabinet

attribution-apart-open-air = a field blank opened in the open air at that well

attribution-apart-pipe = a sample at another flow

# Exposures that went together.
# $before (message): all but the last
# $last (message): the last
attribution-and = { $before } and { $last }

# $sources (message): exposures, the first as a sentence begins with it
# $apart (message): the bottle that would tell
attribution-together = { $sources } went together in every bottle and are fitted as one; { $apart } would tell.

# $sources (list): exposures and the water, the first as a sentence begins with it
# $apart (message): the bottle that would tell
attribution-rose-together = { $sources } rose and fell together in these bottles and cannot be told apart; { $apart } would tell.

# The same where nothing is known that would tell.
# $sources (list): exposures and the water, the first as a sentence begins with it
attribution-rose-together-for-good = { $sources } rose and fell together in these bottles and cannot be told apart.

# $exposure (message): what is not on record
# $bottles (list): their labels
attribution-not-on-record = { $exposure }: not on record for { $bottles }

# $exposure (message): what is not on record
# $first (name): label of a bottle
# $second (name): label of another
# $more (count): further bottles
attribution-not-on-record-for-many = { $exposure }: not on record for { $first }, { $second } and { $more } more

# Which bottles were fitted.
# $trip (name): the trip
# $bottles (count): with its waters
attribution-blanks-of-trip = blanks of { $trip }, { $bottles ->
    [one] { $bottles } bottle
   *[other] { $bottles } bottles
}

# Which bottles were fitted.
# $bottles (count): with the waters of the trip
attribution-blanks-of-recipe = blanks of all trips by this recipe, { $bottles ->
    [one] { $bottles } bottle
   *[other] { $bottles } bottles
}

## Bottles filled to different marks, and at different flows.

# $water (amount): slope
# $u-water (amount): its u, number alone
# $brought (amount): by bottle and hands
# $u-brought (amount): its u, number alone
attribution-fills-on-line = The water holds { $water-expanded } (k = 2), and bottle and hands brought { $brought-expanded } (k = 2): the points lie on a line.

# $water (amount): slope
# $u-water (amount): its u, number alone
# $brought (amount): by bottle and hands
# $u-brought (amount): its u, number alone
attribution-fills-bend = The water holds { $water-expanded } (k = 2), and bottle and hands brought { $brought-expanded } (k = 2); but the points bend away from a line: what the bottle brings depends on the volume, and slope and intercept do not part the two.

# $aquifer (amount): value at 1/flow = 0
# $u-aquifer (amount): its u, number alone
# $pipe (amount): slope
# $u-pipe (amount): its u, number alone
attribution-flows-on-line = Without the pipe the water would hold { $aquifer-expanded } (k = 2); the pipe gives { $pipe-expanded } (k = 2): the points lie on a line in 1/flow.

# $aquifer (amount): value at 1/flow = 0
# $u-aquifer (amount): its u, number alone
# $pipe (amount): slope
# $u-pipe (amount): its u, number alone
attribution-flows-rise = Without the pipe the water would hold { $aquifer-expanded } (k = 2); the pipe gives { $pipe-expanded } (k = 2); but it rises with faster flow: particles may be carried, look at filtered beside unfiltered, Fe and Al.

# $aquifer (amount): value at 1/flow = 0
# $u-aquifer (amount): its u, number alone
# $pipe (amount): slope
# $u-pipe (amount): its u, number alone
attribution-flows-level-off = Without the pipe the water would hold { $aquifer-expanded } (k = 2); the pipe gives { $pipe-expanded } (k = 2); but the points bend in 1/flow: the pipe's metal levels off with contact time, so the intercept is too high or too low.

## What is refused. No full stop: it stands within a longer sentence.

attribution-no-bottles = bottles and sources: 0 given, at least 1 needed; give the bottles of the trip and the sources asked about

attribution-no-blank = blanks: 0 given, at least 1 needed; without a blank everything may be the water's

# $have (count): blanks
# $need (count): sources asked about
attribution-few-blanks = blanks: { $have } given, at least { $need } needed; { $need ->
    [one] { $need } source is asked about
   *[other] { $need } sources are asked about
}: take a blank for each, or join sources that always go together

# $have (count): bottles
# $need (count): one more than can be told
# $sources (count): asked about
# $waters (count): asked about
attribution-few-bottles = bottles: { $have } given, at least { $need } needed; asked for are { $sources ->
    [one] { $sources } source
   *[other] { $sources } sources
} and { $waters ->
    [one] { $waters } water
   *[other] { $waters } waters
}: take more blanks, or join sources that always go together

# $bottle (name): its label
# $volume (amount): found
attribution-volume = volume of bottle { $bottle }: found { $volume }, expected more than 0 mL

# $bottle (name): its label
# $mass (amount): found
# $u (amount): its u, number alone
attribution-mass = mass of bottle { $bottle }: found { $mass } with u { $u }, expected the net mass, negative or not, with u above 0; a non-detect enters as its net value with u

# An exposure of the record that cannot be.
# $exposure (message): which
# $bottle (name): label of the bottle
# $found (amount): number alone
attribution-exposure = { $exposure } of bottle { $bottle }: found { $found }, expected 0 or more

# $have (count): points
attribution-few-points = points of the line: { $have } given, at least 3 needed; two points always lie on a line

attribution-one-place = different x of the line: 1 given, at least 2 needed; fill different volumes, or let the well flow at different rates

# $point (count): which one
# $x (amount): found
# $y (amount): found
# $u (amount): of y
attribution-point = point { $point }: found x { $x }, y { $y }, u { $u }, expected finite numbers with u above 0

# $fill (count): which one
# $volume (amount): found
attribution-volume-of-fill = volume of fill { $fill }: found { $volume }, expected more than 0 mL

# $sample (count): which one
# $flow (amount): found
attribution-flow-of-sample = flow of sample { $sample }: found { $flow }, expected more than 0 L/min

# Numbers of a fit whose weights did not settle.
# $rounds (count): that were made
attribution-not-settled = The weights of the joint fit had not settled after { $rounds ->
    [one] { $rounds } round
   *[other] { $rounds } rounds
}: its values and intervals are good to two digits.

# A value beside the one before it was divided by the recovery.
# $water (name): which
# $value (amount): divided
# $before (amount): not divided
# $recovery (share): of the spikes
attribution-recovery-divided-out = { $water }: { $value } is divided by a recovery of { $recovery }; before, it was { $before }.

# What a line tells, where its scatter beyond u was not found.
# $line (message): what it tells
attribution-line-not-settled = { $line } Its scatter beyond u was not found, so its u is too small.
