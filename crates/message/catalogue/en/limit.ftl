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

limit-bound-and-range = an upper bound alone says nothing of a range

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

limit-method-text = Each result is held to a limit by the decision rule of its authority, and the probability that the true value lies under it, normal or Student’s t about the result, stands beside the answer; a value without uncertainty is answered by the value. The strictest limit of each substance is the lowest upper end in one unit and basis among all tables, a person’s own among them.

limit-introduction = Comparison with published limits and those that a person added, as they hold on the day of each sample. It says nothing of what the water may be used for.

limit-nearest = The highest result of each analyte against the strictest limit: what lies above first, limits for health before those for taste and operation, then the nearest

# $to (amount): temperature of the limit
limit-conductivity-stands-at = Conductivity stands at the temperature of its limit, { $to }.

limit-marks = * recalled: still to be compared with its document. Rejected results are left out. Unmarked limits were seen.

limit-against-local = Against local limits

# Heading of a column: below or above.
limit-result-is = the result is

# Heading of a column: probability that the true value lies under the limit.
limit-probability-under = P(under)

# $authority (name): who set it
# $kind (list): what its authority calls it
# $concern (message): what it is set for
limit-whose = { $authority }, { $kind } ({ $concern })

# The same, of a limit that nobody compared with its document yet.
# $authority (name): who set it
# $kind (list): what its authority calls it
# $concern (message): what it is set for
limit-whose-recalled = { $authority }, { $kind } ({ $concern }) *

# $names (name): what limits name and nobody measured
limit-not-tested = Not tested: { $names }.

# $names (name): what limits name and nobody measured
limit-not-tested-nor-microbes = Not tested: microbes, { $names }.

limit-microbes-not-tested = Not tested: microbes.

limit-who-decides = Who decides: the local health authority.

limit-guard-of-limit = the decision rule of each limit

limit-concern-health = health

limit-concern-taste = taste, odour, look

limit-concern-operation = operation

limit-rule-simple-acceptance = by simple acceptance, the value itself decides

limit-rule-guarded-acceptance = by guarded acceptance, below takes a distance of U = 2u

limit-rule-guarded-rejection = by guarded rejection, above takes a distance of U = 2u

# $rule (message): how the result is held to the limit
# $p (list): probability
limit-rule-under = { $rule }; the true value lies under the limit with probability { $p }

# $rule (message): how the result is held to the limit
# $p (list): probability
limit-rule-inside = { $rule }; the true value lies inside the range with probability { $p }

# $answer (message): below or above
limit-answer-within-uncertainty = { $answer }, within its uncertainty

# $analyte (name): what was measured
# $limit (message): which
# $why (message): what stands in the way
limit-not-comparable = { $analyte } cannot be compared with { $limit }: { $why }.

# $why (message): what decides
limit-sulfide-total = total sulfide, and so its undissociated part too: { $why }

# $why (message): what decides
limit-sulfide-total-alone = total sulfide alone; how much of it is undissociated H2S takes pH and temperature: { $why }

# $undissociated (message): the part as H2S
# $why (message): what decides
limit-sulfide-both = total sulfide and undissociated H2S ({ $undissociated }) alike: { $why }

# $total (message): answer by total sulfide
# $part (message): answer by undissociated H2S
# $undissociated (message): the part as H2S
limit-sulfide-differ = total sulfide is { $total }, undissociated H2S ({ $undissociated }) is { $part }, and the limit does not say which of them it means

# $unit (name): as it came
# $write (name): one way to write it
# $or (name): the other
limit-basis-open = "{ $unit }" leaves the basis open, and the answer hangs on it: write "{ $write }" or "{ $or }"

# $unit (name): as it came
# $write (name): one way to write it
# $or (name): the other
limit-basis-open-same = "{ $unit }" leaves the basis open, and both give the same answer; write "{ $write }" or "{ $or }"

# $measured (message): as it came
# $from (amount): temperature it came at
# $to (amount): temperature of the limit
# $why (message): what decides
limit-conductivity-at = { $measured } at { $from }, brought to { $to }, where the limit holds: { $why }

# $from (amount): temperature it came at
# $to (amount): temperature of the limit
limit-conductivity-at-other = a conductivity at { $from } is not brought to { $to } here, only one at 20 or 25 °C

# $times (amount): value over limit
limit-without-u = uncertainty not stated; by the value, { $times } times the limit

# $gap (amount): to the nearer end
limit-without-u-inside = uncertainty not stated; by the value, { $gap } inside the nearer end of the range

# $gap (amount): to the nearer end
limit-without-u-outside = uncertainty not stated; by the value, { $gap } outside the nearer end of the range

limit-below-not-stated = a limit of which nobody says what it is

limit-below-bound = an upper bound of the true value

limit-below-detection-limit = a detection limit

limit-below-quantification-limit = a quantification limit

limit-below-reporting-limit = a reporting limit

limit-below-critical-value = a critical value

# $what (message): what the figure is
limit-below-is-bound = not detected; the figure is { $what }, which bounds the true value, and it lies at or under the limit

# $what (message): what the figure is
limit-below-by-value = reported under a figure that lies under the limit; it is { $what }, which does not bound the true value, and the uncertainty is not stated

# $what (message): what the figure is
limit-below-at-limit = reported under a figure that is the limit itself; it is { $what }, which does not bound the true value: a detection limit would

# $most (amount): true value that may go undetected
limit-below-critical-under = not detected; the figure is a critical value, true values up to about { $most } may go undetected, and that lies at or under the limit

# $most (amount): true value that may go undetected
limit-below-critical-over = not detected; the figure is a critical value, and true values up to about { $most } may go undetected, which lies over the limit

# $seen (amount): what would have been seen
limit-goal-not-found = a goal of zero cannot be shown by any measurement; not found, and seen would have been { $seen } and more

limit-goal-found = a goal of zero, and it was found

# $seen (amount): the detection limit
limit-goal-found-over = a goal of zero, and it was found by a method with a detection limit of { $seen }

limit-goal-found-without-limit = a goal of zero, and a value is reported; neither its uncertainty nor a detection limit is stated

limit-goal-open = a goal of zero; whether it was found cannot be told, a detection limit would tell

# $u (amount): expanded uncertainty
# $most (amount): most that is allowed
limit-demand-u-met = U = { $u }, and at the limit at most { $most } as is demanded

# $u (amount): expanded uncertainty
# $most (amount): most that is allowed
limit-demand-u-not-met = U = { $u } is too large: at the limit at most { $most } is demanded

# $u (amount): expanded uncertainty
# $most (amount): most that is allowed
limit-demand-u-open = U = { $u } at this level says nothing of U at the limit, where at most { $most } is demanded

# $most (amount): most that is allowed
limit-demand-u-not-stated = uncertainty not stated; U of at most { $most } is demanded

# $quantified (amount): quantification limit
# $share (share): of the limit, at most
limit-demand-quantification-met = the quantification limit { $quantified } is at most { $share } of the limit, as is demanded

# $quantified (amount): quantification limit
# $share (share): of the limit, at most
limit-demand-quantification-not-met = the quantification limit { $quantified } is too high: at most { $share } of the limit is demanded

# $share (share): of the limit, at most
limit-demand-quantification-not-stated = no quantification limit is stated; at most { $share } of the limit is demanded

# $substance (list): of what
# $authority (name): who set it
# $year (name): of its first day
# $limit (amount): the limit
limit-coming = { $substance }: { $authority } from { $year }: { $limit }

# $limits (list): each with its day
limit-coming-all = Still to come on the day of the sample, and not decided by: { $limits }.

# $limit (name): nearest value for health
# $authority (name): who set it
# $answer (message): below, above, cannot tell
limit-health-value = health: { $limit } ({ $authority }), { $answer }

limit-is-for-health = this limit

limit-no-health-value = none in the tables

limit-nearest-health = nearest value for health

# $substance (list): what was measured
# $bottle (name): in which bottle
# $authority (name): whose demand
# $why (message): which demand
limit-method-short = { $substance } in { $bottle }: the method falls short of what { $authority } demands: { $why }.
