### Whose metal is in a bottle: one sum of six parts.

# A part.
accounting-aquifer = aquifer

# A part.
accounting-well-and-pipe = well and pipe

# A part.
accounting-air-and-hands = air and hands

# A part.
accounting-bottle-and-acid = bottle and acid

# A part.
accounting-journey = journey

# A part.
accounting-laboratory = laboratory

# Why a part is not told, and what would tell.
accounting-no-procedural-blanks = Fewer than two procedural blanks were measured in this run; two would tell the laboratory from the bottle.

# Why a part is not told, and what would tell.
accounting-no-bottle-blanks = Fewer than two bottle blanks of the lot were measured in this run; two would tell the bottle from the journey.

# Why a part is not told, and what would tell.
accounting-no-trip-blanks = Fewer than two trip blanks of the trip were measured in this run; two would tell the journey from air and hands.

# Why a part is not told, and what would tell.
accounting-no-field-blanks = Fewer than two field blanks were measured in this run; two opened beside the bottle would tell air and hands.

# Why a part is not told, and what would tell.
# $place (name): where the bottle stood open
accounting-no-blanks-in-open-air = No two blanks were opened in the open air at { $place }, so what it brought is not measured; two field blanks opened there would tell.

# Why a part is not told, and what would tell.
# $place (name): where the bottle was opened
accounting-no-blanks-in-this-air = No two field blanks were opened at { $place }, nor at a well whose air was counted and found alike; two opened there would tell.

# Why a part is not told, and what would tell.
accounting-pipe-short = No blank sees the pipe; the water touched it no longer than the programme allows. Bottles at different flow would tell it from the aquifer.

# Why a part is not told, and what would tell.
# $contact (amount): with the pipe
# $longest (amount): that the programme allows
accounting-pipe-long = The water touched the pipe for { $contact }, longer than the programme's { $longest }, and no blank sees the pipe; bottles at different flow would tell.

# Why a part is not told, and what would tell.
accounting-pipe-not-known = How long the water touched the pipe is not known, and no blank sees the pipe; timed fills and the sections of the well, or bottles at different flow, would tell.

# No parts.
accounting-nothing-above = Nothing above the blanks; no parts.

# $sum (amount): of the parts
# $found (amount): in the bottle
# $expanded (amount): U of the bottle
accounting-does-not-add-up = The parts do not add up: { $sum } against { $found } in the bottle, whose U is { $expanded }; no shares are given.

# $between (amount): standard deviation between the bottles of this water
# $expanded (amount): U of the bottle
accounting-bottles-disagree = By the model only: the bottles of this water lie { $between } apart, more than the U of this one, { $expanded }, so the parts are those of the model alone, and none of them is measured.

# $share (message): with its interval
# $left (message): what it is called
# $why (message): how it stands to what the programme asks
accounting-of-water = Of the metal in the bottle { $share } counts as "{ $left }"; { $why }.

# $share (message): with its interval
# $left (message): what it is called
# $why (message): how it stands to what the programme asks
accounting-water-at-most = Of the metal in the bottle { $share } counts as "{ $left }", and the water's part is at most that; { $why }.

# What the interval assumes.
# $n (count): blanks that were taken off
accounting-even-blanks = The interval takes the { $n ->
    [one] { $n } blank as evenly scattered, which one does not show; were blanks as skewed
   *[other] { $n } blanks as evenly scattered, which so few do not show; were they as skewed
} as a lognormal with a spread as large as its mean, it would hold the truth in some 91 of 100 instead of 95.

# One sentence after another.
# $one (message): the first
# $more (message): the next
accounting-and = { $one } { $more }

## Of a hundred parts

# $element (name): as it is called
# $parts (list): each with its number
accounting-of-hundred = Of 100 parts of the { $element } in this bottle: { $parts }.

# The same by the model of bottles that disagree.
# $element (name): as it is called
# $parts (list): each with its number
accounting-of-hundred-by-model = By the model, of 100 parts of the { $element } in this bottle: { $parts }.

# $number (amount): of a hundred
# $part (message): which
accounting-parts-of = { $number } { $part }

# $part (message): which
accounting-parts-under-one = under 1 { $part }

# $number (amount): of a hundred
# $part (message): which
# $most (amount): upper end of its interval
accounting-parts-at-most = { $number } { $part } (at most { $most })
