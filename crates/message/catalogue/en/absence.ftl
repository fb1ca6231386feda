### Long lists of compounds, found or not.

# Whose limit it is.
# $authority (name): who set it
# $document (name): where it stands
absence-whose = { $authority }, { $document }

# The same, of a limit that nobody compared with its document yet.
# $authority (name): who set it
# $document (name): where it stands
absence-whose-recalled = { $authority }, { $document }, recalled

# Whose limit it is, in short.
# $authority (name): who set it
absence-whose-short = set by { $authority }

# The same, of a limit that nobody compared with its document yet.
# $authority (name): who set it
absence-whose-short-recalled = set by { $authority }, recalled

# Whose limit it is: the one who asks gave it.
absence-whose-stated = stated in the input

# $n (count): compounds
# $samples (count): samples
# $sum (amount): the highest possible sum
absence-none-found = Of { $n ->
    [one] { $n } substance looked for
   *[other] { $n } substances looked for
} in { $samples ->
    [one] one sample
   *[other] { $samples } samples
}, none was found. All together they make at most { $sum }.

# $n (count): compounds
# $samples (count): samples
# $open (count): compounds without a bound
absence-none-without-sum = Of { $n ->
    [one] { $n } substance looked for
   *[other] { $n } substances looked for
} in { $samples ->
    [one] one sample
   *[other] { $samples } samples
}, none was found; for { $open } of them no bound stands: none is stated, or the result is rejected.

# $n (count): compounds
# $samples (count): samples
# $k (count): compounds that were found
# $items (message): which, with value, limit and laboratory
absence-found = Of { $n ->
    [one] { $n } substance looked for
   *[other] { $n } substances looked for
} in { $samples ->
    [one] one sample
   *[other] { $samples } samples
}, { $k ->
    [one] { $k } was found
   *[other] { $k } were found
}: { $items }.

# One that was found.
# $name (list): the compound
# $x (list): value with its expanded uncertainty
# $beside (message): how it lies to its limit
# $laboratory (list): who measured it
absence-found-one = { $name } { $x } ({ $beside }; { $laboratory })

absence-laboratory-not-stated = laboratory not stated

# $limit (amount): the limit
# $whose (message): whose limit
absence-over-limit = over the limit of { $limit }, { $whose }

# $limit (amount): the limit
# $whose (message): whose limit
absence-under-limit = under the limit of { $limit }, { $whose }

# $limit (amount): the limit
# $whose (message): whose limit
absence-beside-limit = limit { $limit }, { $whose }: under or over it cannot be told

absence-no-limit = no limit in the table

absence-found-rejected = rejected: the value does not stand

# What was not found beside what was.
# $n (count): compounds
# $high (amount): the highest bound
absence-others-not-found = { $n ->
    [one] The other one was not found: at most { $high }.
   *[other] The other { $n } were not found: at most { $high } each.
}

# $n (count): compounds
# $open (count): of them without a bound
absence-others-without-bound = { $n ->
    [one] The other one was not found; no bound of it stands: none is stated, or the result is rejected.
   *[other] The other { $n } were not found; for { $open } of them no bound stands: none is stated, or the result is rejected.
}

# The sum of a group that a limit names.
# $group (list): its name
# $n (count): members looked for
# $k (count): members found
# $lower (amount): sum of what was found
# $upper (amount): the same with the bounds of what was not found
# $beside (message): how it lies to its limit
absence-group-sum = { CAPITAL($group) } ({ $n } looked for, { $k } found): the sum of what was found is { $lower }, with the bounds of the rest at most { $upper }; { $beside }.

# $group (list): its name
# $n (count): members looked for
# $k (count): members found
# $lower (amount): sum of what was found
# $names (name): members that bound nothing
# $beside (message): how it lies to its limit
absence-group-sum-open = { CAPITAL($group) } ({ $n } looked for, { $k } found): the sum of what was found is { $lower }; how much at most is not known, as no bound is stated for { $names }; { $beside }.

# $limit (amount): for the sum
# $whose (message): whose limit
absence-sum-limit-over = over the limit of their sum, { $limit } ({ $whose })

# $limit (amount): for the sum
# $whose (message): whose limit
absence-sum-limit-under = under the limit of their sum, { $limit } ({ $whose })

# $limit (amount): for the sum
# $whose (message): whose limit
absence-sum-limit-beside = whether that keeps to the limit of their sum, { $limit } ({ $whose }), cannot be told

# $limit (amount): for the sum
# $whose (message): whose limit
# $missing (count): members that nobody looked for
absence-sum-limit-missing = whether that keeps to the limit of their sum, { $limit } ({ $whose }), cannot be told: { $missing } of the list { $missing ->
    [one] was
   *[other] were
} not looked for

# $limit (amount): for the sum
# $whose (message): whose limit
# $names (name): compounds that no table knows
absence-sum-limit-unknown = under the limit of their sum, { $limit } ({ $whose }), only if none of these is one of them, which is not known: { $names }

# $limit (amount): for the sum
# $whose (message): whose limit
# $from (date): the first day
absence-sum-limit-coming = a limit of their sum, { $limit } ({ $whose }), holds from { $from } only

# $n (count): compounds
# $names (name): which, the first of them
absence-without-limit = No limit in the table for { $n ->
    [one] one of them
   *[other] { $n } of them
}: { $names }.

# $limit (amount): for the sum
# $whose (message): whose limit
absence-sum-under = The highest possible sum lies under the limit for sums of { $limit } ({ $whose }).

# $limit (amount): for the sum
# $whose (message): whose limit
absence-sum-over = The highest possible sum lies over the limit for sums of { $limit } ({ $whose }): whether the sum keeps to it cannot be told.

# $n (count): compounds that the report is blind to
# $total (count): compounds
# $names (name): which
absence-blind = Of { $n } of { $total ->
    [one] { $total } compound
   *[other] { $total } compounds
} the report can say nothing, because the detection limit lies over the limit: { $names }.

# $n (count): compounds without u
absence-by-critical-value = net + critical value for { $n }

# $n (count): compounds
# $low (list): the lowest upper bound
# $high (list): the highest
# $unit (name): of both and of the sum
# $net (count): compounds with a bound by net and U
# $critical (list): compounds with a bound by net and critical value, or none
# $limit (count): compounds with a bound by reporting limit
# $sum (list): the highest possible sum
# $samples (count): samples
# $frequency (amount): percent of samples that may hold a compound
absence-scientific = { $n ->
    [one] { $n } compound
   *[other] { $n } compounds
}; upper bounds { $low } to { $high } { $unit } (net + U, k = 2, for { $net }{ $critical ->
    [none] {""}
   *[other] ; { $critical }
}; reporting limit for { $limit }); highest possible sum { $sum } { $unit }; not found in { $samples } of { $samples }, so a compound is present at its limit in fewer than { $frequency } of such samples (95 %).

# $name (name): the compound
# $number (name): as written
absence-number-form = { $name }: { $number } is not of the form 1912-24-9

# $name (name): the compound
# $number (name): as written
# $digit (count): what would fit
absence-check-digit = { $name }: the check digit of { $number } would be { $digit }

# $name (name): the compound
# $number (name): as written
# $digit (count): what would fit
# $known (name): the number of the table
absence-check-digit-known = { $name }: the check digit of { $number } would be { $digit }; our table has { $known }

# $name (name): the compound
# $number (name): as written
# $known (name): the number of the table
absence-other-number = { $name }: the number { $number }, our table (recalled) has { $known }

# $name (name): the compound
# $number (name): as written
# $known (name): whose number it is
absence-number-of-another = { $name }: the number { $number } is that of { $known } in our table (recalled)

# As a sentence.
# $fault (message): one of the faults above
absence-fault = { $fault }.

# $names (list): names of the compound
absence-one-compound = { $names } are one compound; it counts once, with the higher bound

# $names (list): names of the compound
absence-two-names = { $names } are one compound under two names; it counts once, with the higher bound.

# $names (name): compounds
absence-open = no value and no limit: { $names }

absence-not-spoken-of = nothing is said of compounds that were not looked for, nor of microbes

absence-who-decides = what water may be used for is for the local health authority to say

# $n (count): compounds that the report is blind to
# $share (share): of the compounds that have a limit
# $names (name): which
absence-blind-share = For { $n ->
    [one] { $n } compound
   *[other] { $n } of the compounds
} ({ $share }) the detection limit lies over the limit that they are held to: { $names }.

absence-compounds = Organic compounds

absence-caption = Upper bounds of the compounds that were not found

# Heading of a column: upper bounds.
absence-at-most = at most

absence-not-said = not said

# Caption of the table of what was found.
absence-found-caption = Compounds that were found

# Headings of columns.
absence-value = value
absence-beside-column = beside the limit
absence-laboratory = laboratory

absence-blind-mark = ‡ the detection limit lies over the limit: nothing can be said.

absence-method = Lists of compounds

absence-method-text = Upper bound of each: max(net, 0) + U with k = 2 where a net value is given, never under its critical value, else the reporting limit; the highest possible sum adds them up within a sample. Sums of groups are those that a limit names, by its list of members: from the sum of what was found to that with the bounds of the rest. Not found in n of n samples bounds the frequency at 1 − 0.05^(1/n).
