### Sentences about numbers, and what was measured to them. What stands there as a name, as an amount or in words is a
### list of one; a substance that the sentence does not name is the word none.

# $x (amount): value without u
claim-amount-stated = { $x } (no uncertainty stated)

# $x (amount): bound, rounded up
claim-amount-at-most = at most { $x }

# $x (amount): end of the range of the instrument
claim-amount-over = over { $x }

# $low (amount): lower end
# $high (amount): upper end
claim-range = { $low } to { $high }

# $low (amount): lower end
claim-range-at-least = at least { $low }, no upper limit

# $high (amount): upper end
claim-range-at-most = at most { $high }, no lower limit

# Neither end is known.
claim-range-open = none can be given

claim-probability-near-one = over 0.999

claim-probability-near-zero = under 0.001

# $n (amount): a factor or a number of things
claim-at-least = at least { $n }

# $n (amount): a factor or a number of things
claim-about = about { $n }

# $n (amount): a factor or a number of things
claim-at-most = at most { $n }

# One after another, as many as there are.
# $one (message): the first
# $next (message): the rest
claim-then = { $one }; { $next }

# $name (list): whose
# $x (list): its amount
claim-with-amount = { $name } { $x }

# What the interval is of.
# $a (list): over the line
# $b (list): under the line
claim-quotient = { $a } / { $b }

claim-this-water = this water

# $name (list): whose value
claim-no-u = { CAPITAL($name) }: no uncertainty is stated, so nothing follows for a comparison until it is.

# $name (list): whose value, over the line
claim-not-found-over = { CAPITAL($name) }: only an upper bound is known, so the ratio has an upper bound only.

# $name (list): whose value, under the line
claim-not-found-under = { CAPITAL($name) } stands under the line, and only an upper bound of it is known, so the ratio has a lower bound only.

# $name (list): whose value
claim-over-range = { CAPITAL($name) } ran over the range of the instrument: only a lower bound of it is known.

# $name (list): whose value, under the line
claim-not-from-zero = { CAPITAL($name) } is not distinct from zero: the ratio has no upper limit.

# $name (list): whose value, over the line
claim-not-from-zero-over = { CAPITAL($name) } is not distinct from zero: the ratio has no lower limit over zero.

claim-two-bounds = Each bound holds with 95 %, both together with at least 90 %.

# $share (share): how far off "about" may be
claim-about-within = "About" is taken as within { $share }: our choice, a claim may state another.

# $a (list): the water with more
# $b (list): the water with less
# $what (list): the substance
# $factor (amount): how many times
claim-ratio-at-least = { CAPITAL($a) } holds at least { $factor } times as much { $what ->
    [none] as
   *[other] { $what } as
} { $b }.

# $a (list): the water with more
# $b (list): the water with less
# $what (list): the substance
# $factor (amount): how many times
claim-ratio-about = { CAPITAL($a) } holds about { $factor } times as much { $what ->
    [none] as
   *[other] { $what } as
} { $b }.

# $a (list): one water
# $b (list): the other
# $what (list): the substance
claim-ratio-as-much = { CAPITAL($b) } holds about as much { $what ->
    [none] as
   *[other] { $what } as
} { $a }.

# $a (list): the water with more
# $b (list): the water with less
# $what (list): the substance
# $factor (amount): how many times
claim-ratio-at-most = { CAPITAL($a) } holds at most { $factor } times as much { $what ->
    [none] as
   *[other] { $what } as
} { $b }.

# $a (list): the water with more
# $b (list): the water with less
# $what (list): the substance
# $factor (amount): how many times, at least
# $high (amount): at most
claim-ratio-between = { CAPITAL($a) } holds { $factor } to { $high } times as much { $what ->
    [none] as
   *[other] { $what } as
} { $b }.

# $a (list): the water with more
# $b (list): the water with less
# $what (list): the substance
# $share (amount): at most so many percent, rounded up
claim-ratio-share = { CAPITAL($b) } holds at most { $share } of { $what ->
    [none] what is
   *[other] the { $what }
} in { $a }.

# $a (list): the water with more
# $b (list): the water with less
# $what (list): the substance
claim-ratio-less = { CAPITAL($b) } holds less { $what ->
    [none] than
   *[other] { $what } than
} { $a }.

# $a (list): the water with less
# $b (list): the water with more
# $what (list): the substance
claim-ratio-more = { CAPITAL($b) } holds more { $what ->
    [none] than
   *[other] { $what } than
} { $a }.

# $a (list): the water with less
# $b (list): the water with more
# $what (list): the substance
# $factor (amount): how many times
claim-ratio-more-at-least = { CAPITAL($b) } holds at least { $factor } times as much { $what ->
    [none] as
   *[other] { $what } as
} { $a }.

# $a (list): one water
# $b (list): the other
# $what (list): the substance
claim-ratio-cannot-tell = Whether { $b } holds less { $what ->
    [none] than
   *[other] { $what } than
} { $a } cannot be told from these numbers.

# In scientific words.
# $a (list): over the line
# $b (list): under the line
# $xa (list): amount of a
# $xb (list): amount of b
# $ratio (amount): the ratio found
# $interval (message): its 95 % interval
claim-ratio-scientific = { $a } { $xa }; { $b } { $xb }; ratio { $a } / { $b } { $ratio } (95 % interval after Fieller: { $interval })

# The same where a bound takes the place of a number.
# $a (list): over the line
# $b (list): under the line
# $xa (list): amount of a
# $xb (list): amount of b
# $interval (message): what the bounds give
claim-ratio-scientific-bounds = { $a } { $xa }; { $b } { $xb }; ratio { $a } / { $b }: { $interval } (one-sided 95 % bounds)

# $ratio (message): one of the two above
# $factor (amount): how many times
# $p (list): probability
claim-ratio-probability = { $ratio }; probability that it is at least { $factor }: { $p }

# $ratio (message): in scientific words
claim-ratio-alone = { $ratio }.

# $what (list): the substance
# $ratio (message): in scientific words
claim-ratio-of = { CAPITAL($what) }: { $ratio }.

# The pictured amount, where it has no name.
claim-value = the value

# The number of things in the picture, not yet known.
claim-n = n

# $x (list): amount
# $what (list): the substance
# $n (message): how many litres
# $large (list): the body of water
claim-litres-in = { $x } { $what ->
    [none] is
   *[other] of { $what } is
}, by mass, like { $n } litre(s) in { $large }.

# $x (list): amount
# $what (list): the substance
# $n (message): how many kilograms
# $large (list): the body of water
claim-kilograms-in = { $x } { $what ->
    [none] is
   *[other] of { $what } is
} like { $n } kilogram(s) in { $large }.

# $x (list): amount
# $what (list): the substance
# $n (message): how many drops
# $large (list): the body of water, or pools
claim-drops-in = { $x } { $what ->
    [none] is
   *[other] of { $what } is
}, by mass, like { $n } drop(s) in { $large }.

# $x (list): amount
# $what (list): the substance
# $n (message): how many seconds
# $large (list): years
claim-seconds-in = { $x } { $what ->
    [none] is
   *[other] of { $what } is
}, by mass, like { $n } second(s) in { $large }.

# $n (amount): how many
claim-years = { $n } years

# $n (amount): how many
# $volume (amount): of one pool
claim-pools = { $n } pools of { $volume } each

# $n (amount): how many
# $large (list): the body of water
claim-times = { $n } × { $large }

# $x (list): amount
# $share (list): parts in 10¹², or their bound
# $picture (message): the picture with n
# $interval (message): of n
claim-analogy-scientific = { $x } is { $share } parts in 10¹² by mass (a litre of water counted as 1 kg); n in "{ $picture }" lies at { $interval } (95 %).

# $scientific (message): the sentence above
# $volume (amount): of the body of water
# $large (list): the body of water
# $mass (amount): metal in it
claim-analogy-with-mass = { $scientific } In the { $volume } of { $large } that makes { $mass }.

# What the interval is of.
# $picture (message): the picture with n
claim-n-in = n in: { $picture }

claim-picture-of-smallness = A picture of smallness says nothing of effect: a small amount can matter.

# $body (list): the body of water
# $stated (amount): volume that the sentence states
# $volume (amount): volume of the table
claim-volume-differs = The sentence gives { $body } { $stated }; the table has { $volume }, and that is what was used.

# $body (list): the body of water
# $volume (amount): its volume
claim-volume-recalled = The volume of { $body }, { $volume }, is recalled: compare it with print before use.

# A source: nothing but sums.
claim-arithmetic = arithmetic

# A source.
# $body (list): the body of water
# $volume (amount): its volume
# $source (name): who gives it
# $provenance (name): seen, recalled, arithmetic
claim-volume-from = { $body }: { $volume }, { $source }, { $provenance }

# A source.
# $body (list): the body of water
# $volume (amount): its volume
claim-volume-stated = { $body }: { $volume }, volume stated in the sentence, stated

# $name (list): the water of the reference
# $x (list): its figure
# $source (name): who gives it
claim-published-figure = the published figure for { $name }, { $x } ({ $source })

# $name (list): the water of the reference
claim-reference-without-u = The reference { $name } has no uncertainty and no spread: the answer is for the kind of water, so it cannot be told.

# $name (list): the water of the reference
claim-reference-without-source = The reference { $name } names no source.

# $name (list): the water of the reference
claim-reference-recalled = The figure for { $name } is recalled: compare it with its source before use.

# $name (list): the water of the reference
# $low (amount): lower end, number alone
# $high (amount): upper end with unit
claim-reference-range = { CAPITAL($name) }: the source gives a range of { $low } to { $high }; the sentence must hold against all of it.

# $name (list): the water of the reference
claim-as-published = Compared with the published figure for { $name } alone, taken as it stands.

# $name (list): the water of the reference
# $note (message): what the table notes to it
claim-reference-note = { $name }: { $note }

# $name (list): the water
# $of (list): what it is free of
claim-free-of = { CAPITAL($name) } is free of { $of ->
    [none] the substance
   *[other] { $of }
}.

# $name (list): the water
# $of (list): what it is free of
# $level (amount): what free means
claim-free-of-meaning = { CAPITAL($name) } is free of { $of ->
    [none] the substance
   *[other] { $of }
}, meaning less than { $level }.

# $name (list): the water
# $of (list): what was looked for
# $bound (amount): upper bound
claim-none-found = { $of ->
    [none] Nothing of the substance
   *[other] No { $of }
} was found in { $name }; if there is any, it is at most { $bound }.

# $name (list): the water
# $n (count): substances
# $of (list): what they are
# $bound (amount): the highest upper bound
claim-none-of-many = Of { $n ->
    [one] { $n } substance looked for
   *[other] { $n } substances looked for
} ({ $of }) none was found in { $name }; of each there is at most { $bound }.

# $name (list): the water
# $of (list): what was looked for
claim-none-without-bound = { $of ->
    [none] Nothing of the substance
   *[other] No { $of }
} was found in { $name }, but the report does not say below what.

# $name (list): the water
# $of (list): what was found in it
# $x (list): how much
claim-contains = { CAPITAL($name) } contains { $x }{ $of ->
    [none] {""}
   *[other] {" "}of { $of }
}.

# $name (list): the water
# $of (list): what was found in it
# $x (list): how much
# $level (amount): what its upper bound lies under
claim-contains-under = { CAPITAL($name) } contains { $x }{ $of ->
    [none] {""}
   *[other] {" "}of { $of }
}, under { $level }.

# $name (list): the water
# $found (message): substances with their amounts
# $level (amount): what the upper bound of each lies under
claim-found-in-under = Found in { $name }, each under { $level }: { $found }.

# What was found is not all the water's.
# $name (list): the water
# $found (message): substances with their bounds
claim-found-in-bottle = Found in the bottle of { $name }, with the metal of a stage that no blank met: { $found }.

# $name (list): the water
# $found (message): substances with their amounts
claim-found-in = Found in { $name }: { $found }.

# $items (message): substances with their amounts
# $found (count): of them
# $n (count): looked for
claim-absence-scientific = { $items }; found (over the critical value, or over zero with 95 %): { $found } of { $n }.

# The first of many.
# $items (message): those that are shown
# $n (count): all
claim-and-so-on = { $items }; … ({ $n })

claim-absence-without-level = No measurement shows that nothing is there; it shows how much at most. Say what "free of" means (means_below), and that can be answered.

claim-only-tested = Nothing is said of any substance that was not looked for, nor of microbes.

# $name (name): the water
# $what (list): the substance
claim-lowest = { CAPITAL($name) } holds the least { $what ->
    [none] of
   *[other] { $what } of
} all.

# $name (name): the water
# $what (list): the substance
claim-highest = { CAPITAL($name) } holds the most { $what ->
    [none] of
   *[other] { $what } of
} all.

# $names (name): the waters with < between them
# $what (list): the substance
claim-order = In rising { $what ->
    [none] order
   *[other] order of { $what }
}: { $names }.

# $low (name): the lower one
# $high (name): the higher one
claim-is-lower = { CAPITAL($low) } holds less than { $high }.

# $low (name): the one that was said to be lower
# $high (name): the other
claim-is-higher = { CAPITAL($low) } does not hold less than { $high } but more.

# $low (name): one
# $high (name): the other
claim-not-in-order = { CAPITAL($low) } and { $high } cannot be put in order.

# Two sentences of pairs.
# $one (message): the first
# $next (message): the rest
claim-sentences = { $one } { $next }

# $items (message): waters with their amounts
# $what (list): the substance
# $pairs (message): a sentence a pair
claim-ranking-scientific = { $items }. Pairs tested together at 95 %{ $what ->
    [none] {""}
   *[other] {" "}({ $what })
}: { $pairs }

claim-before = before

claim-after = after

# $what (list): the substance, or the value
# $name (list): the water
claim-fallen = { CAPITAL($what) } in { $name } has fallen.

# $what (list): the substance, or the value
# $name (list): the water
claim-risen = { CAPITAL($what) } in { $name } has risen.

# $what (list): the substance, or the value
# $name (list): the water
claim-unchanged = { CAPITAL($what) } in { $name } has not changed.

# $what (list): the substance, or the value
# $name (list): the water
# $percent (amount): by how much
claim-fallen-by = { CAPITAL($what) } in { $name } has fallen by at least { $percent }.

# $what (list): the substance, or the value
# $name (list): the water
# $percent (amount): by how much
claim-risen-by = { CAPITAL($what) } in { $name } has risen by at least { $percent }.

# $what (list): the substance, or the value
# $name (list): the water
# $percent (amount): what counts as no change
claim-unchanged-within = { CAPITAL($what) } in { $name } has changed by no more than { $percent }.

# $what (list): the substance, or the value
# $name (list): the water
# $percent (amount): what is not excluded
claim-no-change-within = No change of { $what } in { $name } was found; a change of up to { $percent } is not excluded.

# $what (list): the substance, or the value
# $name (list): the water
claim-no-change = No change of { $what } in { $name } can be shown or excluded.

# $what (list): the substance, or the value
# $name (list): the water
claim-method-changed = The method changed between the two: whether { $what } in { $name } changed cannot be told from the method's own step.

# $what (list): the substance, or the value
# $before (list): name of the earlier one
# $after (list): name of the later one
# $xb (list): amount before
# $xa (list): amount after
# $interval (message): 95 % interval of the ratio
claim-change-scientific = { CAPITAL($what) }: { $before } { $xb }; { $after } { $xa }; ratio { $before } / { $after } (95 % interval after Fieller): { $interval }.

# The same where a bound takes the place of a number.
# $what (list): the substance, or the value
# $before (list): name of the earlier one
# $after (list): name of the later one
# $xb (list): amount before
# $xa (list): amount after
# $interval (message): what the bounds give
claim-change-scientific-bounds = { CAPITAL($what) }: { $before } { $xb }; { $after } { $xa }; ratio { $before } / { $after }: { $interval } (one-sided 95 % bounds).

# $what (list): the substance, or the value
# $name (list): the water
# $span (list): first and last day, or none
claim-falling = { CAPITAL($what) } in { $name } has been falling{ $span ->
    [none] {""}
   *[other] {" "}{ $span }
}.

# $what (list): the substance, or the value
# $name (list): the water
# $span (list): first and last day, or none
claim-rising = { CAPITAL($what) } in { $name } has been rising{ $span ->
    [none] {""}
   *[other] {" "}{ $span }
}.

# $what (list): the substance, or the value
# $name (list): the water
# $span (list): first and last day, or none
claim-no-slope = No rise or fall of { $what } in { $name } was found{ $span ->
    [none] {""}
   *[other] {" "}{ $span }
}; that does not show that there was none.

# $from (date): first day
# $to (date): last day
claim-span = from { $from } to { $to }

# $what (list): the substance, or the value
# $slope (amount): with unit
# $low (amount): lower end of its interval
# $high (amount): upper end
# $span (list): first and last day, or none
claim-slope-scientific = { CAPITAL($what) }: slope { $slope } (95 % interval { $low } to { $high }){ $span ->
    [none] {""}
   *[other] {" "}{ $span }
}.

# What the interval is of.
# $unit (name): of the values
claim-slope-in = slope, { $unit }

# $methods (name): one after another
claim-methods-apart = The method changed ({ $methods }) and the two were not run side by side.

claim-unchanged-without-level = That no difference was found does not show that there is none. Say how much would count as none (within_percent).

claim-two-points = Two points in time are no trend.

# A slope has no level of its own.
claim-percent-of-slope = A slope alone does not say how many percent it makes: that takes the level at its beginning with its u (start) and the years it was followed.

# $name (list): the water
# $what (list): the substance
# $x (list): amount, or what bounds it
claim-holds = { CAPITAL($name) } holds { $x }{ $what ->
    [none] {""}
   *[other] {" "}of { $what }
}.

# $name (list): the water
# $what (list): the substance
# $level (amount): what it is said to lie under
claim-holds-less = { CAPITAL($name) } holds less than { $level }{ $what ->
    [none] {""}
   *[other] {" "}of { $what }
}.

# $name (list): the water
# $what (list): the substance
# $level (amount): what it is said to lie over
claim-holds-more = { CAPITAL($name) } holds more than { $level }{ $what ->
    [none] {""}
   *[other] {" "}of { $what }
}.

# $name (list): the water
# $what (list): the substance
claim-holds-unbounded = How much { $what ->
    [none] {""}
   *[other] { $what }{" "}
}{ $name } holds cannot be told from this number.

# $name (list): the water
# $x (list): its amount
# $interval (message): what the bounds give, in the unit
# $unit (name): unit of the interval
claim-threshold-scientific = { $name } { $x }; true value { $interval } { $unit } (one-sided 95 % bounds)

# $threshold (message): the sentence above
# $level (amount): what the sentence speaks of
# $p (list): probability
claim-threshold-probability = { $threshold }; probability that it lies under { $level }: { $p }

# $name (list): whose value
claim-upper-bound-only = { CAPITAL($name) }: only an upper bound is known.

# $name (list): whose value
claim-lower-bound-only = { CAPITAL($name) }: only a lower bound is known.

# $a (list): the water with more
# $b (list): the water with less
# $what (list): the substance
# $x (amount): how much more
claim-difference-at-least = { CAPITAL($a) } holds at least { $x } more { $what ->
    [none] than
   *[other] { $what } than
} { $b }.

# $a (list): the water with more
# $b (list): the water with less
# $what (list): the substance
# $x (amount): how much more
claim-difference-at-most = { CAPITAL($a) } holds at most { $x } more { $what ->
    [none] than
   *[other] { $what } than
} { $b }.

# $a (list): one water
# $b (list): the other
# $what (list): the substance
claim-difference-cannot-tell = Whether { $a } or { $b } holds more{ $what ->
    [none] {""}
   *[other] {" "}{ $what }
} cannot be told from these numbers.

# What the interval is of.
# $a (list): from which
# $b (list): what is taken off
# $unit (name): of the difference
claim-difference = { $a } − { $b }, { $unit }

# In scientific words.
# $a (list): from which
# $b (list): what is taken off
# $xa (list): amount of a
# $xb (list): amount of b
# $interval (message): 95 % interval of the difference
# $unit (name): its unit
claim-difference-scientific = { $a } { $xa }; { $b } { $xb }; difference { $a } − { $b }: { $interval } { $unit } (95 % interval)

# The same where a bound takes the place of a number.
# $a (list): from which
# $b (list): what is taken off
# $xa (list): amount of a
# $xb (list): amount of b
# $interval (message): what the bounds give
# $unit (name): its unit
claim-difference-scientific-bounds = { $a } { $xa }; { $b } { $xb }; difference { $a } − { $b }: { $interval } { $unit } (one-sided 95 % bounds)

# $name (list): the water of the reference
# $low (amount): lower end with unit
claim-reference-from = { CAPITAL($name) }: the source gives a range from { $low } on; the sentence must hold against all of it.

# $name (list): the water of the reference
# $high (amount): upper end with unit
claim-reference-up-to = { CAPITAL($name) }: the source gives a range up to { $high }; the sentence must hold against all of it.

# A sentence of age.
# $name (list): the water; none where it is not named
# $year (amount): of the bomb tests
claim-age-before-bomb = All of { $name ->
    [none] this water
   *[other] the water of { $name }
} fell before the bomb tests, before { $year }.

# A sentence of age.
# $name (list): the water; none where it is not named
# $year (amount): that it fell before
claim-age-before = All of { $name ->
    [none] this water
   *[other] the water of { $name }
} fell before { $year }.

# A sentence of age.
# $name (list): the water; none where it is not named
# $years (amount): number alone
claim-age-older = All of { $name ->
    [none] this water
   *[other] the water of { $name }
} is older than { $years } years.

# A part of a water, behind "is".
# $year (amount): since
claim-age-since = from { $year } or later

# A part of a water, behind "is".
# $years (amount): number alone
claim-age-younger = younger than { $years } years

# A sentence of age.
# $share (share): bound from above
# $name (list): the water; none where it is not named
# $part (message): which part of it
claim-age-at-most = At most { $share } of { $name ->
    [none] this water
   *[other] the water of { $name }
} is { $part }.

# A sentence of age.
# $share (share): bound from below
# $name (list): the water; none where it is not named
# $part (message): which part of it
claim-age-at-least = At least { $share } of { $name ->
    [none] this water
   *[other] the water of { $name }
} is { $part }.

# A sentence of age.
# $low (share): bound from below
# $high (share): bound from above
# $name (list): the water; none where it is not named
# $part (message): which part of it
claim-age-between = Between { $low } and { $high } of { $name ->
    [none] this water
   *[other] the water of { $name }
} is { $part }.

# A sentence of age.
# $name (list): the water; none where it is not named
# $part (message): which part of it
claim-age-open = How much of { $name ->
    [none] this water
   *[other] the water of { $name }
} is { $part } cannot be told from what was measured.

# A sentence of age that the data bear.
# $name (list): the water; none where it is not named
# $year (amount): that it fell before
# $share (share): bound from above
claim-age-before-but = { $name ->
    [none] This water
   *[other] The water of { $name }
} fell before { $year }, but for { $share } of it at most, by every model of its flow that the tracers leave.

# A sentence of age that the data bear.
# $name (list): the water; none where it is not named
# $years (amount): number alone
# $share (share): bound from above
claim-age-older-but = { $name ->
    [none] This water
   *[other] The water of { $name }
} is older than { $years } years, but for { $share } of it at most, by every model of its flow that the tracers leave.

# What the interval is of.
# $name (list): the water; none where it is not named
# $part (message): which part of it
claim-age-share-of = share of { $name ->
    [none] this water
   *[other] the water of { $name }
} that is { $part }

# $name (list): the water; none where it is not named
# $part (message): which part of it
# $low (share): bound from below
# $high (share): bound from above
# $models (list): names of the models
# $tracers (list): their signs
# $day (list): of sampling, a date or a decimal year
claim-age-scientific = Share of { $name ->
    [none] this water
   *[other] the water of { $name }
} that is { $part }: { $low } to { $high } (one-sided 95 % bounds, the widest of the models that are not rejected: { $models }; by { $tracers }, sampled { $day }).

# $name (list): the water; none where it is not named
# $part (message): which part of it
claim-age-no-model = No model of the age of { $name ->
    [none] this water
   *[other] the water of { $name }
} stands: the share of it that is { $part } is not known.

# $name (list): the water; none where it is not named
claim-age-no-tracer = No tracer of age was measured in { $name ->
    [none] this water
   *[other] the water of { $name }
}.

# Which tracer would tell.
claim-age-tell-young = Tritium with u of 0.1 TU or less (enrichment, or helium ingrowth) would tell; with helium and neon of a copper tube it also tells the age of the young part. CFCs do not tell in water with sulfide or methane.

# Which tracer would tell.
claim-age-tell-middle = Between some 75 and 1000 years argon-39 alone tells well; tritium with u of 0.1 TU or less tells whether younger rain is in it, carbon-14 whether most of it is far older.

# Which tracer would tell.
claim-age-tell-old = Carbon-14 with δ¹³C and the full carbonate chemistry would tell, within a band over its corrections.

# Which tracer would tell.
claim-age-tell-oldest = Beyond some 30 000 years carbon-14 no longer tells: krypton-81 or helium-4 may.

# $first (message): a model
# $a (message): its share of young water
# $second (message): another
# $b (message): its share of young water
claim-age-models-differ = The data do not tell these models apart: by { $first } the share is { $a }, by { $second } { $b }.

# $models (list): their names
claim-age-untested = Not tested, for want of tracers: { $models }.

# $tracers (list): their signs
claim-age-one-sided = Known on one side only (below a limit, or not older than): { $tracers }.

# $low (amount): years
# $high (amount): years
claim-age-carbon-band = Carbon-14 alone: { $low } to { $high } years over all its corrections; each end of that band was counted in full.

# $low (amount): years
claim-age-carbon-open = Carbon-14 alone: more than { $low } years over all its corrections, without an upper end; the whole band was counted.

claim-age-carbon-not-in-full = An end of the band of carbon-14 could not be worked out with the other tracers: of ages before the bomb tests nothing is told.

# $share (share): that is as good as none
claim-age-all-means = “All” and “older than” speak of the whole water but for less than { $share } of it, never of its mean age, which is higher.
