### Results against limits.

# $analyte (name): what was measured
# $result (message): with u
# $limit (message): which
# $why (message): what decides
limit-is-below = { $analyte } { $result } is below { $limit }: { $why }.

# $analyte (name): what was measured
# $result (message): with u
# $limit (message): which
# $why (message): what decides
limit-is-above = { $analyte } { $result } is above { $limit }: { $why }.

# $analyte (name): what was measured
# $result (message): with u
# $limit (message): which
# $why (message): why nothing decides
limit-is-open = { $analyte } { $result } cannot be told from { $limit }: { $why }.

# $authority (name): who set it
# $kind (list): what it is set for
# $analyte (name): of what
# $limit (amount): the limit
# $document (name): where it stands
# $edition (name): of the document
# $provenance (name): seen, recalled, local
limit-named = the { $authority } { $kind } of { $analyte } { $limit } ({ $document }, { $edition }{ $provenance ->
    [seen] {""}
    [local] , entered by a person
   *[other] , recalled
})

# $authority (name): who set it
# $kind (list): what it is set for
# $analyte (name): of what
# $low (amount): lower end, number alone
# $high (amount): upper end
# $document (name): where it stands
# $edition (name): of the document
# $provenance (name): seen, recalled, local
limit-named-range = the { $authority } { $kind } of { $analyte } { $low } to { $high } ({ $document }, { $edition }{ $provenance ->
    [seen] {""}
    [local] , entered by a person
   *[other] , recalled
})

# $p (list): probability
# $guard (message): what is asked for
limit-under-with = the true value lies under the limit with probability { $p }; asked for: { $guard }

# $p (list): probability
# $guard (message): what is asked for
limit-inside-with = the true value lies inside the range with probability { $p }; asked for: { $guard }

# $u (amount): u up to which the answer would hold
limit-without-u-under = no uncertainty is stated; the value itself lies under the limit and would stay there with 95 % probability for u up to { $u }

# $u (amount): u up to which the answer would hold
limit-without-u-over = no uncertainty is stated; the value itself lies over the limit and would stay there with 95 % probability for u up to { $u }

limit-bound-and-range = an upper bound alone says nothing of a range

limit-not-detected = only an upper bound is known, and it lies at or under the limit

limit-not-sensitive = only an upper bound is known, and it lies over the limit: a more sensitive method, or blanks that met the bottle’s whole way, would decide

limit-over-range = the reading ran over its range, which lies at or over the limit

limit-over-range-under = the reading ran over its range, which lies under the limit: dilute and measure again

limit-guard-none = no guard band: the value itself decides

# $share (share): least probability
limit-guard-probability = { $share } probability

# $r (amount): how many times U
limit-guard-band = a guard band of { $r } U, U = 2u

limit-recalled-yet = limits marked recalled have still to be compared with their document

limit-comparison = a comparison with limits; what the water may be used for is for the local health authority to say

# The section of the report.
limit-against = Against limits

limit-method = Results against limits

limit-method-text = Probability that the true value lies under the limit, normal or Student’s t about the result; below takes 95 %. The strictest limit of each substance is the lowest upper end in one unit and basis among all tables, a person’s own among them.

limit-introduction = Comparison with published limits and those that a person added, as they hold on the day of each sample. It says nothing of what the water may be used for.

limit-nearest = The highest result of each analyte against the strictest limit, the nearest to it first

limit-marks = * recalled: still to be compared with its document. Rejected results are left out. Unmarked limits were seen.

limit-against-local = Against local limits

# Heading of a column: whose limit, and what kind.
limit-whose-kind = whose, kind

# Heading of a column: below or above.
limit-result-is = the result is

# Heading of a column: probability that the true value lies under the limit.
limit-probability-under = P(under)

# $authority (name): who set it
# $kind (list): what it is set for
limit-whose = { $authority }, { $kind }

# The same, of a limit that nobody compared with its document yet.
# $authority (name): who set it
# $kind (list): what it is set for
limit-whose-recalled = { $authority }, { $kind } *

# $names (name): what limits name and nobody measured
limit-not-tested = Not tested: { $names }.

# $names (name): what limits name and nobody measured
limit-not-tested-nor-microbes = Not tested: microbes, { $names }.

limit-microbes-not-tested = Not tested: microbes.

limit-who-decides = Who decides: the local health authority.
