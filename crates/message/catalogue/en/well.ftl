# No fill was timed at the visit.
well-no-fill = No fill was timed, so flow and contact time are not known.

# $from (amount): upper end of the gap
# $to (amount): lower end
well-log-gap = The layer log says nothing from { $from } to { $to }.

# Sections, and no screen.
well-no-screen = The record has no screen or open hole: which layer feeds the well is not known.

# $flow (message): flow with u
# $fills (count): timed fills
well-flow = The well flows at { $flow } by { $fills ->
    [one] { $fills } timed fill
   *[other] { $fills } timed fills
}.

# $flow (message): flow with u
# $known (share): its u as a part of it
# $asked (share): largest that the programme allows
well-flow-loose = The flow, { $flow }, is known to { $known } only; the programme asks for { $asked }: time more fills.

# $flow (message): flow without u
well-flow-one-fill = The flow is { $flow } by one timed fill, so its uncertainty is not known: time three fills or more.

# $p (amount): chance of so much change by scatter alone
well-flow-steady = The flow did not change over the fills beyond their scatter (p { $p }).

# $change (amount): percent
# $p (amount): chance of so much change by scatter alone
well-flow-fell = The flow fell by { $change } over the fills (p { $p }): it was not steady yet.

# $change (amount): percent
# $p (amount): chance of so much change by scatter alone
well-flow-rose = The flow rose by { $change } over the fills (p { $p }): it was not steady yet.

# $time (message): minutes with u
# $material (name): what the pipe is made of
well-contact-in = { $time } in { $material ->
    [galvanised-steel] galvanised steel
    [stainless-steel] stainless steel
    [iron] iron
    [cast-iron] cast iron
    [copper] copper
    [steel] steel
   *[other] { $material }
}

# One stretch after another.
# $before (message): those above
# $next (message): the next one
well-contact-next = { $before }, { $next }

# $contact (message): minutes in each material
# $longest (amount): the programme's limit
well-contact-short = The water touches the well for { $contact }: within the programme's { $longest }.

# $contact (message): minutes in each material
# $longest (amount): the programme's limit
well-contact-long = The water touches the well for { $contact }: longer than the programme's { $longest }, so the pipe may speak in the metals.

# $readings (count): in a row
# $spacing (amount): least time between two
# $width (amount): half of the band, number alone
# $unit (name): unit of the width
# $source (name): who wrote the rule
# $seen (name): how well the source is known
well-rule = { $readings ->
    [one] { $readings } reading
   *[other] { $readings } readings in a row
}, { $spacing } apart or more, within { $width } { $unit } of their mean ({ $source }, { $seen ->
    [recalled] recalled
    [seen-in-part] seen in part
    [seen-in-a-secondary-source] seen in a secondary source
   *[other] { $seen }
})

# $readings (count): in a row
# $spacing (amount): least time between two
# $width (amount): half of the band, number alone
# $unit (name): unit of the width
# $relative (amount): half of the band, percent of the mean
# $source (name): who wrote the rule
# $seen (name): how well the source is known
well-rule-larger = { $readings ->
    [one] { $readings } reading
   *[other] { $readings } readings in a row
}, { $spacing } apart or more, within { $width } { $unit } or { $relative }, whichever is larger, of their mean ({ $source }, { $seen ->
    [recalled] recalled
    [seen-in-part] seen in part
    [seen-in-a-secondary-source] seen in a secondary source
   *[other] { $seen }
})

# The mean lies where the rules have no band.
well-rule-none = no band holds at this mean

# $parameter (name): what was read
# $since (amount): time of the first steady reading
# $rule (message): by which rule
well-reading-steady = The { $parameter ->
    [dissolved-oxygen] dissolved oxygen
   *[other] { $parameter }
} has been steady since { $since }: { $rule }.

# $parameter (name): what was read
# $rule (message): by which rule
well-reading-not-steady = The { $parameter ->
    [dissolved-oxygen] dissolved oxygen
   *[other] { $parameter }
} is not steady: the rule is { $rule }.

# $parameter (name): what was read
# $spacing (amount): least time between two
# $have (count): readings so far apart
# $need (count): readings that the rule asks for
well-readings-too-few = Steady or not cannot be told: readings of { $parameter ->
    [dissolved-oxygen] dissolved oxygen
   *[other] { $parameter }
} at least { $spacing } apart: { $have } given, at least { $need } needed; go on reading.

# $reading (count): which one
# $time (amount): its time
# $before (amount): time of the one before
well-readings-backwards = Steady or not cannot be told: time of reading { $reading }: found { $time }, expected later than the { $before } of the reading before.

# $parameter (name): what was read
# $rule (name): set of rules
# $known (list): what there are rules for
well-readings-no-rule = Steady or not cannot be told: parameter and rule: found { $parameter ->
    [dissolved-oxygen] dissolved oxygen
   *[other] { $parameter }
} ({ $rule }), expected one of { $known }.

# $parameter (name): what is read
# $rule (name): set of rules
well-rule-of = { $parameter ->
    [dissolved-oxygen] dissolved oxygen
   *[other] { $parameter }
} ({ $rule })

# $times (amount): volumes of the well
# $left (share): of the standing water
well-renewed = The well was renewed { $times } times since it was opened; { $left } of the standing water is left at most.

# $times (amount): volumes of the well
# $least (amount): volumes that the programme asks for
# $left (share): of the standing water
well-renewed-too-little = The well was renewed { $times } times since it was opened, the programme asks for { $least }: up to { $left } of the standing water is left.

# $age (amount): years
# $u (amount): its u
well-age-with-u = { $age } ± { $u } years

# $age (amount): years
well-age-over = over { $age } years

# $age (amount): years
well-age-under = under { $age } years

# $tracer (name): what the age is by
# $age (message): with u, or a bound
# $low (amount): travel time, 2.5 %
# $high (amount): travel time, 97.5 %
well-age-within = The age by { $tracer ->
    [tracer] a tracer
   *[other] { $tracer }
}, { $age }, lies within the travel time by Darcy, { $low } to { $high } years.

# $tracer (name): what the age is by
# $age (message): with u, or a bound
# $low (amount): travel time, 2.5 %
# $high (amount): travel time, 97.5 %
well-age-contradicts = The age by { $tracer ->
    [tracer] a tracer
   *[other] { $tracer }
}, { $age }, contradicts the travel time by Darcy, { $low } to { $high } years: the path, the porosity or the mixing of waters is not as assumed.

# An amount with its expanded uncertainty, as the SI brochure writes it.
# $number (amount): value and expanded uncertainty, without unit
# $unit (name): unit
well-plus-minus = ({ $number }) { $unit }

# An amount whose source states no uncertainty.
# $amount (amount): as it was stated
well-without-u = { $amount } †

# Title of the section on a well.
# $well (name): the well
well-section = The well { $well }

# $why (message): what cannot be
well-construction-cannot-be = The construction on record cannot be: { $why }. It is not drawn.

# Heading over one visit of several.
# $trip (name): the trip
well-on-trip = On trip { $trip }

# Before the list of what is not known.
well-not-told = What the record does not tell of this well, and why:

# Title of the drawing.
# $well (name): the well
well-drawing = The well { $well }, depths to scale

# What the drawing shows, for who cannot see it.
# $well (name): the well
well-drawing-shows = Section of the well { $well }, depths to scale.

# $layer (name): what the driller wrote
# $from (amount): upper end
# $to (amount): lower end
well-drawing-layer = { $layer } from { $from } to { $to }.

# $material (name): what the pipe is made of
# $from (amount): upper end
# $to (amount): lower end
well-drawing-pipe = Pipe of { $material ->
    [galvanised-steel] galvanised steel
    [stainless-steel] stainless steel
    [cast-iron] cast iron
    [open-hole] open hole
    [material-not-stated] material not stated
   *[other] { $material }
} from { $from } to { $to }.

# $well (name): the well
well-drawing-caption = { $well }: layers as the driller wrote them, casing and screen, and the level of the shut well where it was measured. Depths to scale.

# Beside the level of the shut well.
# $head (message): with its expanded uncertainty
well-head-stands = head: the water of the shut well stands { $head } above ground

# Beside the mouth of the well.
# $flow (message): with its expanded uncertainty
well-flows = flows { $flow }

# Under the title of the drawing.
# $depth (amount): from the top of the pipe to the foot
# $widest (amount): inner width of the widest pipe
well-drawn-to-scale = Depths to scale, { $depth } in all; widths of the pipe in proportion to each other, the widest { $widest } inside.

# The same where no pipe is on record.
well-drawn-without-pipe = Depths to scale. Casing and screen are not on record.

# Over the axis, where there is little room.
well-depth = depth

# Over the axis.
well-depth-below-ground = depth below ground

# $layer (name): what the driller wrote
# $from (amount): upper end
# $to (amount): lower end
well-layer-drawn = { $layer }, { $from } to { $to }

well-head-not-measured = head of the shut well: not measured

well-flow-not-measured = flow: not measured

well-pipe-not-on-record = casing and screen: not on record

well-layers-not-on-record = layers: not on record

# Beside a stretch of the drawing.
# $kind (name): casing, screen, open
# $from (amount): upper end
# $to (amount): lower end
# $width (amount): inner width
well-pipe-drawn = { $kind ->
    [casing] casing
    [screen] screen
   *[open] open hole
}, { $from } to { $to }, inner width { $width }

# The same with what it is made of.
# $kind (name): casing, screen, open
# $material (message): what it is made of
# $from (amount): upper end
# $to (amount): lower end
# $width (amount): inner width
well-pipe-drawn-of = { $kind ->
    [casing] casing
    [screen] screen
   *[open] open hole
}, { $material }, { $from } to { $to }, inner width { $width }

# What a pipe is made of, standing alone.
# $material (name): its key where every language has a word, else as it was written
well-material = { $material ->
    [galvanised-steel] galvanised steel
    [stainless-steel] stainless steel
    [iron] iron
    [cast-iron] cast iron
    [copper] copper
    [steel] steel
    [open-hole] open hole
    [material-not-stated] material not stated
   *[other] { $material }
}

# What was read, standing alone.
# $quantity (name): its key where every language has a word, else as it was written
well-quantity = { $quantity ->
    [dissolved-oxygen] dissolved oxygen
   *[other] { $quantity }
}

# Caption of the table of a visit.
# $well (name): the well
# $trip (name): the trip
well-measured = What was measured at { $well }, trip { $trip }

# How the flow is known.
# $fills (count): timed fills
well-timed-fills = { $fills ->
    [one] { $fills } timed fill
   *[other] { $fills } timed fills
}

# How the flow is not known.
well-no-fill-timed = no fill was timed

# How the flow is not known.
well-fill-cannot-be = a timed fill cannot be: see the findings

well-water-in-well = water in the well

# Where the volume of water comes from.
well-depths-and-radii = depths and radii of the record

well-contact-in-all = contact with the pipe, in all

# Where the time of contact comes from.
well-volume-over-flow = volume over flow

well-head-above-ground = head above ground

# Where the head comes from.
well-shut-pressure = pressure of the shut well

# Where the head comes from.
# $shut (date): when the valve was shut
# $opened (date): when it was opened
well-shut-pressure-between = pressure of the shut well, shut from { $shut } to { $opened }

well-head-above-sea-level = head above sea level

# Where the head above sea level comes from.
well-ground-taken-exact = with the elevation of the ground, taken as exact

well-transmissivity = transmissivity T

# Where the transmissivity comes from.
# $low (amount): lower end, m²/d
# $high (amount): upper end, m²/d
well-constant-head-test = constant-head test, full function; 95 %: { $low } to { $high }

well-storage = storage coefficient S

# Where the storage coefficient comes from.
# $low (amount): lower end
# $high (amount): upper end
well-same-test = the same test; 95 %: { $low } to { $high }

# Caption of the washout.
# $well (name): the well
well-washout = Washout of the standing water of { $well } after the valve was opened

# Column: value of the standing water.
well-stood-in-well = stood in the well

# Column: value of the aquifer's water.
well-aquifer-gives = the aquifer gives

# Column: minutes.
well-one-percent-after = 1 % left after

# Column: litres.
well-volume-taking-part = volume that takes part

# Column: has the washout come to its end?
well-state = state

well-still-changing = still changing at the last reading

well-at-its-end = at its end

# Note of the washout.
well-washout-fitted = An exponential from the standing water to the aquifer's; a reading that does not bend is not fitted. The u of the volume is that of the rate, the flow’s own is not in it.

# Last rows of the table of contact: all stretches of one material.
# $material (message): what they are made of
well-all-of-material = all { $material }

# Caption of the table of contact.
# $well (name): the well
well-contact = How long the water touches each stretch of { $well }, from the top down

# Column.
well-length = length

# Column.
well-inner-width = inner width

# Column.
well-water-held = water held

# Column.
well-wall = wall

# Note of the table of contact.
well-contact-as-plug = Volume over flow, as a plug; the u is that of the flow.

# Caption of the table of readings.
# $well (name): the well
well-were-readings-steady = Were the readings at { $well } steady before the bottles?

# Column: how often.
well-times-read = times read

# Column: is it?
well-steady = steady

# Column: since when.
well-since = since

# Cell under "since".
well-not-steady = not steady

# Note of the table of readings.
well-what-steady-shows = A steady reading shows that nothing changes any more, not that the water is the aquifer’s. Temperature, conductivity and pH decide; redox and oxygen are told.

# Title of the picture of a flow test.
# $well (name): the well
# $drawdown (amount): held during the test
well-flow-test = Flow test of { $well }, { $drawdown } of drawdown held

# What it shows, for who cannot see it.
# $well (name): the well
well-flow-test-shows = Flow of { $well } in time after opening, with the fitted curve and its residuals.

# Under the title.
# $transmissivity (message): with its expanded uncertainty
# $storage (amount): storage coefficient
# $low (amount): its lower end
# $high (amount): its upper end
well-flow-test-holds = T { $transmissivity }, S { $storage } (95 %: { $low } to { $high }); the model is not contradicted.

# Under the title.
# $transmissivity (message): with its expanded uncertainty
# $storage (amount): storage coefficient
# $low (amount): its lower end
# $high (amount): its upper end
well-flow-test-bends = T { $transmissivity }, S { $storage } (95 %: { $low } to { $high }); the data bend away from the model.

# Name of an axis.
well-flow-axis = flow, L/min

# $well (name): the well
well-flow-test-caption = Flow of { $well } after it was opened, held at constant head: measured, fitted on the full function of Jacob & Lohman 1952, and what is left over.

# Legend.
well-fitted-curve = fitted curve

# Legend.
well-moves-the-answer = moves the answer by more than its u

# Name of an axis.
well-minutes-since = minutes since the test began

# Over the residuals, where there is little room.
well-left-over = Left over, in standard deviations

# Over the residuals.
well-left-over-pale = Left over, in standard deviations; pale: where 95 % of them should lie

# Does the model of the test hold?
well-model-no-bend = The residuals show no bend and no runs: the data do not speak against a confined, uniform aquifer.

# Does the model of the test hold?
# $bend (amount): p of a further bend
# $runs (amount): p of so few runs of like signs
well-model-bends = The data bend away from the model (bend p { $bend }, runs p { $runs }): a leak, an edge, a change of the well or of the head are not in it, so T and S hold for a part of the test at best.

# What the first points do.
# $transmissivity (amount): largest change of T, percent
# $storage (amount): largest factor of S
well-model-without-first = Without the first points T moves by up to { $transmissivity } and S by a factor of up to { $storage }.

# The same where S moves far more.
# $transmissivity (amount): largest change of T, percent
# $storage (amount): largest factor of S
well-model-rests-on-first = Without the first points T moves by up to { $transmissivity } and S by a factor of up to { $storage }: S rests on the early readings far more than T.

# Follows one of the two before.
well-model-beyond-scatter = That is more than scatter explains: the stated u is too small for this aquifer.

# Title of the scheme.
# $well (name): the well
well-scheme = From the recharge area to { $well }

# What it shows, for who cannot see it.
# $level (amount): of the recharge area
# $distance (amount): of the recharge area
# $well (name): the well
well-scheme-shows = Scheme of the way of the water from its recharge area, { $level } above sea level and { $distance } away, to { $well }.

# $level (amount): of the recharge area
well-recharge-area = recharge area, { $level } above sea level

# $well (name): the well
# $level (amount): of the ground
well-ground = { $well }, ground { $level } above sea level

# Legend.
# $head (message): above sea level at the well, with its expanded uncertainty
# $gradient (message): with u
well-head-along = head: from the recharge area’s level to { $head } above sea level at the well, gradient { $gradient }

# Legend.
# $years (message): travel time
well-way-of-water = way of the water: { $years }

# Travel time.
# $low (amount): 2.5 %
# $high (amount): 97.5 %
# $middle (amount): median
well-years = { $low } to { $high } years (95 %), middle { $middle }

# $well (name): the well
well-scheme-caption = Where the water of { $well } comes from: a scheme, not to scale.

# Under the title.
well-schematic = Schematic, not to scale.

well-distance-not-on-record = distance: not on record

# $layer (name): what the driller wrote
well-aquifer-layer = aquifer: { $layer }

well-aquifer-not-on-record = aquifer: layer at the screen: not on record

# $layers (name): what the driller wrote, one after the other
well-cover-layers = cover: { $layers }

well-cover-not-on-record = cover: layers above it: not on record

well-head-no-line = head along the way: not known, no line drawn

# $years (message): travel time
# $input (name): what brings most of its spread
# $part (share): of the spread
well-travel-time = Travel time by Darcy: { $years }. Most of the spread comes from the { $input ->
    [effective-porosity] effective porosity
    [hydraulic-conductivity] hydraulic conductivity
   *[other] { $input }
} ({ $part } of it). No dispersion, no change of gradient in time: the range is the honest answer.

# Before a list of inputs.
well-known-by-measurement = Known by measurement at this well or on the map:

# Before a list of inputs.
well-taken-from-textbook = Taken from a textbook:

# The only line of an empty list.
well-nothing = Nothing

# $width (amount): median, number alone
# $low (amount): lower end, number alone
# $high (amount): upper end
# $stagnation (amount): how far downstream
well-capture = In a uniform flow field the well draws from a strip { $width } wide far upstream (95 %: { $low } to { $high }); water up to { $stagnation } downstream still turns back to it.

# A range of a textbook.
# $low (amount): lower end, without unit
# $high (amount): upper end
well-range = { $low } to { $high }

# Input of the travel time.
# $value (message): with u, or a range
# $origin (message): what it stands on
well-input-distance = Distance: { $value }, { $origin }

# Input of the travel time.
# $value (message): with u, or a range
# $origin (message): what it stands on
well-input-gradient = Gradient: { $value }, { $origin }

# Input of the travel time.
# $value (message): with u, or a range
# $origin (message): what it stands on
well-input-conductivity = Hydraulic conductivity: { $value }, { $origin }

# Input of the travel time.
# $value (message): with u, or a range
# $origin (message): what it stands on
well-input-porosity = Effective porosity: { $value }, { $origin }

# What an input stands on.
well-origin-record = record

# What an input stands on.
well-origin-head-and-level = head of the shut well and level of the recharge area

# What an input stands on.
# $thickness (amount): of the layer
# $layer (name): what the driller wrote
well-origin-flow-test = flow test, T over { $thickness } of { $layer }

# What an input stands on: a row of the table of formations.
# $formation (message): its name
# $source (name): the textbook
# $seen (name): how well the source is known
well-origin-textbook = { $formation }, { $source } ({ $seen ->
    [recalled] recalled
    [seen] seen
   *[other] { $seen }
})

# The same with what the table adds.
# $formation (message): its name
# $source (name): the textbook
# $note (message): what the table adds
# $seen (name): how well the source is known
well-origin-textbook-noted = { $formation }, { $source }; { $note } ({ $seen ->
    [recalled] recalled
    [seen] seen
   *[other] { $seen }
})

# Title of the picture of flow against water.
# $metal (list): its word, or its symbol
# $well (name): the well
well-choice = { $metal } from the pipe of { $well } against the water spent

# What it shows, for who cannot see it.
# $metal (list): its word, or its symbol
# $well (name): the well
well-choice-shows = The { $metal } that the pipe of { $well } adds at most, over the flow and the water spent in a year.

# Under the title.
# $metal (list): its word, or its symbol
# $most (amount): most that the pipe can have added
well-choice-bound = An upper bound: as if all { $metal } found, at most { $most }, were the pipe’s. The aquifer’s own part makes it less.

# Name of an axis.
# $metal (list): its word, or its symbol
well-choice-axis = { $metal } at most, ng/L

# $well (name): the well
# $metal (list): its word, or its symbol
well-choice-caption = { $well }: a faster flow leaves less of the pipe’s { $metal } in each litre and spends more water. The target is the programme’s own choice.

# Legend: the flow as it is.
# $flow (amount): L/min
# $added (amount): what the pipe adds at most
# $water (amount): m³ in a year
well-choice-now = now: { $flow }, at most { $added }, { $water } of water a year

# Legend.
# $flow (amount): L/min
# $added (amount): what the pipe adds at most
# $water (amount): m³ in a year
well-choice-enough = lowest flow that keeps the target: { $flow }, at most { $added }, { $water } of water a year

# Legend.
# $target (amount): the programme's choice
well-choice-target = target, { $target }

# Name of an axis.
well-water-a-year = water spent in a year, m³

# What is not known of a well. The same of flow test and travel time below.
well-head-without-pressure = Head: no pressure of the shut well is on record.

well-head-without-gauge = Head: a pressure was read, but not how high the gauge stood above the ground (below it: a negative height), so the head is not known.

# $why (message): why not
well-head-not-known = Head: { $why }.

well-test-without-opening = Flow test: the record does not say when the valve was opened.

well-test-without-outlet = Flow test: the height of the outlet is not on record.

well-test-without-radius = Flow test: the radius of the well is not on record.

well-test-time-cannot-be-read = Flow test: a time that cannot be read.

# $at (date): when the flow was read
# $unit (name): of the reading
well-test-flow-in-other-unit = Flow test: the flow of { $at } is in { $unit }, which is no volume per time.

# $why (message): why not
well-test-not-fitted = Flow test: { $why }.

well-travel-without-distance = Travel time: no distance to recharge area is on record.

well-travel-without-level = Travel time: no level of recharge area is on record.

well-travel-without-head = Travel time: the head above sea level is not known.

well-travel-without-layer = Travel time: no layer of the log stands at the screen.

# $layer (name): what the driller wrote
well-travel-without-conductivity = Travel time: no flow test was made, and the formation table has no conductivity of "{ $layer }".

# $layer (name): what the driller wrote
well-travel-without-porosity = Travel time: the formation table has no porosity of "{ $layer }".

# $why (message): why not
well-travel-not-told = Travel time: { $why }.

# What people wrote of a well.
# $words (name): as they wrote it
well-noted = “{ $words }”
