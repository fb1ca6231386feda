### Page one of a report: the question, the answer for the well, and what a reader needs to weigh it.

# Over the question.
# $place (name): the site, or the programme
# $day (date): the trip began
front-over-trip = { $place } · report on the trip of { $day }

# Over the question, of more than one trip.
# $place (name): the site, or the programme
front-over-record = { $place } · report on the record

# Where no question is on record.
# $place (name): the site, or the programme
# $day (date): the trip began
front-asked-of-trip = What did the water of { $place } hold on { $day }?

# Where no question is on record, of more than one trip.
# $place (name): the site, or the programme
front-asked-of-record = What did the water of { $place } hold?

front-accepted = accepted: every check that this programme calls decisive is met

front-provisional = provisional: a check that this programme calls decisive is not met or not known

front-rejected = rejected: a check that this programme calls decisive speaks against it

## The answer

# Begins the answer.
# $day (date): of the bottles
front-on = On { $day }

# Begins the answer.
front-on-a-day-not-recorded = On a day that is not on record

# $day (message): when
# $well (name): the well
# $amount (amount): the common value
# $low (amount): lower end of the 95 % interval, without unit
# $high (amount): upper end
# $element (name): as it is called
# $bottles (count): in the common value, two or more
front-value = { $day } the water of { $well } held { $amount } of { $element } (95 %: { $low } to { $high }), the common value of { $bottles ->
    [one] { $bottles } bottle
   *[other] { $bottles } bottles that agree
}.

# The same of one bottle.
# $day (message): when
# $well (name): the well
# $amount (amount): its value
# $low (amount): lower end of the 95 % interval, without unit
# $high (amount): upper end
# $element (name): as it is called
front-value-of-one = { $day } the water of { $well } held { $amount } of { $element } (95 %: { $low } to { $high }), in one bottle; no second one says whether it repeats.

# $day (message): when
# $well (name): the well
# $bound (name): "at most" with its number
# $unit (name): of the number
# $element (name): as it is called
# $found (amount): with metal of a stage that no blank met
front-at-most = { $day } the water of { $well } held { $bound } { $unit } of { $element }: { $found } was found, together with what no blank of this well can tell from it.

# $day (message): when
# $well (name): the well
# $bound (message): upper bound
# $element (name): as it is called
front-not-found = { $day } no { $element } was found in the water of { $well }: { $bound }.

# $day (message): when
# $well (name): the well
# $values (list): of the bottles
# $element (name): as it is called
front-apart = { $day } the bottles of { $well } held { $values } of { $element }. They disagree: no number is given.

# Without counts on record.
# $day (message): when
# $well (name): the well
# $values (list): of the bottles
# $element (name): as it is called
front-reported = { $day } { $values } of { $element } was reported of { $well }.

# $amount (name): the value with everything put back
front-put-back = With everything put back that a person took out: { $amount }.

front-change-not-told = Whether it has changed cannot be said: there is no earlier value.

# $values (count): earlier values
front-change-seen = { $values ->
    [one] One earlier value is on record.
   *[other] { $values } earlier values are on record.
}

# $bottles (list): in the common value
front-method = The common value of { $bottles }; its interval carries once, unreduced, what they share.

# $day (date): of the first value
front-first-measured = First measured on { $day }.

## In the bottles

# A value that bounds what was found.
# $bound (name): "at most" with its number
# $unit (name): of the number
front-bounded = { $bound } { $unit }

front-not-stated = an amount that is not stated

# The end of a list.
# $n (count): bottles
front-and-more = { $n } more

## What was done to be sure

front-clean-air = Clean air

# $counted (count): particles
# $size (amount): counted from there up
# $volume (amount): air drawn
# $most (amount): upper bound, in a cubic metre
front-particles = { $counted ->
    [one] { $counted } particle
   *[other] { $counted } particles
} of { $size } or more in { $volume } of air: at most { $most } in a cubic metre (95 %)

# $counted (message): particles
# $class (count): that the programme asks for
# $allowed (amount): in a cubic metre
front-particles-of-class = { $counted }; class { $class } allows { $allowed }.

front-blanks = Blanks

# $n (count): blanks
# $kind (message): what they are
# $mean (amount): their mean
front-blanks-taken-off = { $n } × { $kind }, mean { $mean }, taken off.

# $vials (list): blanks that a person took out
front-blanks-taken-out = Taken out, with a reason on record: { $vials }.

front-loss = Loss

# $recovery (amount): of spikes, %
# $most (amount): upper bound of the loss, %
front-loss-at-most = Spikes came back at { $recovery }. Loss: at most { $most }, from the spike on; before it not told.

front-bottles-agree = Bottles agree

front-bottles-disagree = Bottles disagree

front-one-bottle-alone = One bottle alone: nothing says whether it repeats.

front-not-on-record = Not on record.

## The table of wells

# Caption.
# $element (name): as it is called
front-every-well = { $element } in every well that day

# A heading.
# $letter (name): A, B, C
front-bottle-letter = bottle { $letter }

# A heading.
front-because = because

front-never-left-out = Bottles of one well stand beside each other; a rejected one is shown, never left out.

# $n (count): bottles of a well beyond those shown
front-more-bottles = Up to { $n ->
    [one] { $n } more bottle of a well stands
   *[other] { $n } more bottles of a well stand
} in annex A.

# $n (count): wells
front-more-wells = Shown are the asked well, the highest and the lowest; { $n ->
    [one] { $n } more stands
   *[other] { $n } more stand
} in annex A.

## Above a limit

# $substances (list): each with its wells
# $n (count): substances
front-above = Above a published limit: { $substances } ({ $n ->
    [one] one substance
   *[other] { $n } substances
} in all; values, limits and verdicts in the chapter on limits).

# One of them.
# $substance (name): as it is called
# $places (list): wells and streams
front-above-in = { $substance } in { $places }

# $n (count): substances with a limit that nobody measured
front-none-above = Nothing measured is above a limit; { $n ->
    [one] one substance with a limit was not measured.
   *[other] { $n } substances with a limit were not measured.
}

## What cannot be told

# $element (name): as it is called
front-whether-changed = Whether { $element } changed: one trip is one point.

# $wells (list): where no blank met the air
front-what-air-brought = What the air brought at { $wells }: no two blanks were opened there.

# $wells (list): where nothing tells the pipe
front-what-pipe-gives = How much the pipe of { $wells } gives: no bottles at different flow tell it.

# $wells (list): whose bottles disagree
front-what-water-holds = What the water of { $wells } holds: its bottles disagree.

# $wells (list): without a spike
front-whether-lost = Whether metal was lost at { $wells }: no spike was made in this water.

front-how-it-came = What air, bottles, journey and laboratory brought: no counts and no blanks of a run are on record.

front-microbes = Microbes: never tested.

## What would decide it

front-second-trip = A second trip.

# $wells (list): where no blank met the air
front-two-blanks = Two field blanks opened in the air of { $wells }.

# $wells (list): without a spike
front-one-spike = A spike in the water of { $wells }.

# $wells (list): whose bottles disagree
front-third-bottle = A third bottle at { $wells }.

# $wells (list): with one bottle
front-second-bottle = A second bottle at { $wells }.

front-blanks-and-spikes = Field blanks and spikes beside the samples, and the counts of the run.

## Earlier trips

front-one-point = One point is no trend.

# $values (count): with the newest
# $unit (name): of the values
front-several-points = { $values ->
    [one] { $values } value, { $unit }, with its 95 % interval
   *[other] { $values } values, { $unit }, with their 95 % intervals
}.

# In place of the drawing.
# $values (count): earlier values
# $newest (message): the newest value
front-earlier-described = Earlier values: { $values }; the newest: { $newest }.
