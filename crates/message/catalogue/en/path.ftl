### The path of the metal in one bottle, stage by stage: the picture, its caption, the short forms of checks in it.

# Title of the picture.
# $element (name): as it is called
# $bottle (name): the bottle
path-title = { $element } in bottle { $bottle }, picograms on the way from aquifer to number

# Caption, where the blanks leave the water's own.
# $element (name): as it is called
# $bottle (name): the bottle
path-caption = { $element } in { $bottle }: what each stage was to bring before the trip, what it added by the accounting, and the water’s part. A dashed column is an upper bound; a hollow ring was not measured here.

# Caption, where they leave more than that.
# $element (name): as it is called
# $bottle (name): the bottle
path-caption-left = { $element } in { $bottle }: what each stage was to bring before the trip, what it added by the accounting, and the part that came with the water, from which something else is not told apart. A dashed column is an upper bound; a hollow ring was not measured here.

# Behind the caption.
# $stages (message): each with its basis
path-forecast = Forecast: { $stages }.

# $stage (message): of the path
# $basis (list): sources of the record, blanks of earlier runs
path-forecast-from = { $stage } from { $basis }

# One stage after another.
# $one (message): the first
# $more (message): the rest
path-forecasts = { $one }; { $more }

# A basis of a forecast.
# $source (name): of the dust, as a person wrote it
path-counts-and-dust = counts and “{ $source }”

# A basis of a forecast.
# $words (name): as a person wrote it
path-as-written = “{ $words }”

# A basis of a forecast.
# $blanks (count): of earlier runs
path-earlier-blanks = { $blanks ->
    [one] { $blanks } blank of earlier runs
   *[other] { $blanks } blanks of earlier runs
}

# Which of a stage.
path-open-air-hands = open air, hands

# Which of a stage.
path-cabinet-hands = cabinet, hands

# Which of a stage.
# $lot (name): the bottle's
path-lot = lot { $lot }

# Which of a stage.
path-procedure-acid = procedure, acid

# The water as it leaves the well, where its pipe was not measured.
# $value (amount): its concentration
path-leaves-well = { $value } as it leaves the well

# In place of what the aquifer gives.
# $most (amount): upper bound, rounded up
path-aquifer-at-most = at most { $most }, not told apart

# In place of what the aquifer gives, where no sum can be given.
path-no-parts = not told

# At the end of the picture.
# $verdict (message): its word
path-verdict = verdict: { $verdict }

## The picture

# Under the title.
# $bottle (message): by its volume
path-under = Picograms in { $bottle }, on the way from the aquifer to the number.

# Under the title of the narrow picture.
# $bottle (message): by its volume
path-under-narrow = Picograms in { $bottle }, log axis.

# $volume (amount): mL
path-bottle-of = a bottle of { $volume }

# In place of a bottle by its volume.
path-bottle-of-no-volume = a bottle of a volume not given

# In place of a volume.
path-no-volume = a volume not given

# An axis.
path-axis = pg per bottle (log axis)

path-forecast-before = forecast before the trip
path-measured-with-interval = measured, with its 95 % interval
path-nothing-found-bound = nothing found, upper bound
path-at-or-below-zero = at or below zero
path-waters-own-metal = the water’s own metal
path-waters-own-metal-bound = the water’s own metal, upper bound
path-metal-left = metal that came with the water
path-metal-left-bound = metal that came with the water, upper bound

# $left (message): what it is
# $value (name): pg as the picture prints them
# $low (name): lower end of the interval
# $high (name): upper end
path-left-value = { $left }: { $value } pg ({ $low } to { $high })

# $left (message): what it is
# $limit (name): pg as the picture prints them
path-left-bound = { $left }: nothing found, < { $limit } pg

# $left (message): what it is
# $limit (name): pg as the picture prints them, rounded up
path-left-at-most = { $left }: at most { $limit } pg

# $left (message): what it is
path-left-not-given = { $left }: not given

# In place of a number.
path-not-given = not given

# An upper bound.
# $limit (name): as the picture prints it
path-under-limit = < { $limit }

# An upper bound of what was found together with something else.
# $limit (name): as the picture prints it, rounded up
path-at-most = at most { $limit }

# A number with its interval.
# $value (name): as the picture prints it
# $low (name): lower end
# $high (name): upper end
path-interval = { $value } ({ $low } to { $high })

# A number at or below zero.
# $value (name): as the picture prints it
# $high (name): upper end of its interval
path-up-to = { $value } (to { $high })

# At the right edge: all that the blanks leave.
path-the-water = the water

# At the right edge: all that the blanks leave.
path-what-is-left = what is left

# At the right edge: a part of it.
# $share (share): of what the blanks leave
path-of-it = { $share } of it

## The picture in words

# $left (message): what the blanks leave, with its number
path-in-the-bottle = In the bottle, { $left }.

# $amount (message): pg
path-found-in-all = Found in all: { $amount } pg.

# $low (name): pg as the picture prints them
# $high (name): upper end
path-forecast-range = forecast { $low } to { $high } pg

# $amount (message): pg
path-measured = measured { $amount } pg

# $amount (message): pg
path-nothing-found = nothing found, { $amount } pg

# $amount (message): pg
path-bounded = { $amount } pg

path-not-measured-here = not measured here
path-upper-bound = upper bound

path-no-check = no check of its own

## Checks in two or three words

# $contact (amount): time with the pipe
path-contact = contact { $contact }
path-flow-not-timed = flow not timed
path-flow-not-steady = flow not steady
path-class-shown = class shown
path-class-not-reached = class not reached
path-class-not-shown = class not shown
path-lot-blanks-low = lot blanks low
path-lot-blanks-high = lot blanks high
path-no-lot-blank = no lot blank
path-seals-whole = seals whole
path-seal-broken = seal broken
path-no-custody = no custody
path-held-too-long = held too long
path-acid-late = acid late
path-not-in-control = not in control
path-overlap-corrected = overlap corrected
path-isotopes-disagree = isotopes disagree
path-line-misfits = line misfits
path-no-spike-here = no spike here

# $recovery (share): of what was added
path-recovery = recovery { $recovery }
path-bottles-disagree = bottles disagree
path-no-second-bottle = no second bottle
path-bottles-agree = bottles agree
