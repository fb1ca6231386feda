### What stands out in a series of years.

# $p (amount): chance
series-p = p { $p }

# $bound (amount): chance is less
series-p-under = p < { $bound }

# $size (amount): tau
series-tau = tau { $size }

# $size (amount): tau without its sign
series-tau-negative = tau −{ $size }

# Words of fitness: coverage of 90 % or more.
series-fit = fit

# Coverage of 85 to 90 %.
series-with-care = with care

# Less, or outside what was simulated.
series-not-fit = not fit

# $share (amount): percent of the values
series-fitness-none = { $share } non-detects: more than any simulated series had

# $figure (name): what the interval is of
# $held (amount): percent of the series whose interval held the true one
# $shape (name): lognormal or gamma
# $scatter (amount): sd of the logarithms of the simulated values
# $values (count): values a series
# $share (amount): percent of non-detects
series-fitness = a 95 % interval of the { $figure } held the true one in { $held } of simulated { $shape ->
    [gamma] gamma
   *[lognormal] lognormal
} series (sd of ln { $scatter }) of { $values ->
    [one] { $values } value
   *[other] { $values } values
}, { $share } non-detects

# $found (amount): sd of the logarithms of these values, with its own uncertainty
# $most (amount): the largest that was simulated
series-fitness-scatter = the scatter of these values (sd of ln up to { $found }) is more than any simulated series had ({ $most })

# $fitness (message): by simulation
# $share (amount): percent of the series
series-fitness-unanswered = { $fitness }; { $share } of them gave no bounded answer

# $fitness (message): by simulation
# $values (count): in this series
series-fitness-few = { $fitness }; { $values ->
    [one] { $values } value is fewer
   *[other] { $values } values are fewer
} than any simulated series had

# $word (message): how far it can be trusted
# $why (message): by simulation
series-slope-coverage = interval of the slope: { $word } ({ $why })

# $values (count): how many
# $first (date): day of the first
series-above-action = { $values ->
    [one] { $values } value
   *[other] { $values } values
} above the action limit, first on { $first }

# $values (count): non-detects
series-shows-nothing = { $values ->
    [one] { $values } non-detect with a limit above the action limit: it shows
   *[other] { $values } non-detects with a limit above the action limit: they show
} nothing

# $values (count): in a row
# $last (date): day of the last
series-run = { $values } in a row above the median of the baseline, up to { $last }

# $tau (message): with its sign
# $p (message): chance by scatter alone
series-blanks-rise = the values rise with the years ({ $tau }, { $p }): a metal corrected by them would seem to change

# $tau (message): with its sign
# $p (message): chance by scatter alone
series-blanks-fall = the values fall with the years ({ $tau }, { $p }): a metal corrected by them would seem to change

# $rho (amount): coefficient of correlation of neighbours
# $spacing (amount): years between neighbours
# $plain (message): p if there were none
# $serial (message): p that allows for it
series-neighbours = neighbours in time resemble each other (coefficient { $rho } over { $spacing } years): { $plain } would be too optimistic; { $serial } allows for it and decides, with its interval

# $rows (count): how many
# $none (amount): p without correlation
# $some (amount): p at the first coefficient
# $rho_some (amount): that coefficient
# $much (amount): p at the second
# $rho_much (amount): that coefficient
series-correlation-too-few = { $rows ->
    [one] { $rows } value is too few
   *[other] { $rows } values are too few
} to tell correlation: p is { $none } without any between neighbours, { $some } at a coefficient of { $rho_some }, { $much } at { $rho_much }; the largest decides

# $rows (count): how many
series-correlation-untold = { $rows ->
    [one] { $rows } value is too few
   *[other] { $rows } values are too few
} to tell correlation at all: p and the interval hold only if neighbours in time do not resemble each other

# $years (count): with values in the same seasons
# $least (count): years that are needed
series-few-years = { $years ->
    [one] { $years } year
   *[other] { $years } years
} with values in the same seasons: no order of so few years is rare enough to show a change; it takes { $least }

# $tau (message): of limits and years
series-limits-fell = the limits fell with the years ({ $tau }): this alone can move the test

# $tau (message): of limits and years
# $p (message): of the test at the highest limit
series-limits-fell-tested = the limits fell with the years ({ $tau }): this alone can move the test; with all below the highest limit made equal, { $p }

# $tau (message): of limits and years
series-limits-rose = the limits rose with the years ({ $tau }): this alone can move the test

# $tau (message): of limits and years
# $p (message): of the test at the highest limit
series-limits-rose-tested = the limits rose with the years ({ $tau }): this alone can move the test; with all below the highest limit made equal, { $p }

# No line.
series-slope-open = the non-detects leave the slope open: no line can be given

# One bound only.
series-slope-unbounded = the interval of the slope has no bound on one side or on both: too few values, too many non-detects, or neighbours too much alike

# $date (date): first day of the new stretch
# $what (message): what changed
# $p (message): chance by scatter alone
series-step = a step at { $date } ({ $what }): { $p }; see the trend with the step taken out

# A step that a person named.
series-step-given = date given

# $from (name): method before
# $to (name): method after
series-step-method = method "{ $from }" to "{ $to }"

# Nobody stated a method before.
# $to (name): method after
series-step-first-stated = method not stated before, then "{ $to }"

# $share (share): of the product limit
# $lowest (amount): lowest known value
series-mass-below = { $share } of the product limit lies below the lowest known value ({ $lowest }): its mean is given as the two figures it lies between

# $correlation (amount): of the probability plot
series-shape-doubtful = the probability plot correlates at { $correlation } only (under 0.95): a lognormal shape is doubtful

# Nothing fit.
series-no-method = no method gives a mean that simulation found fit for this many values and non-detects

# $values (count): non-detects above every value
# $highest (amount): highest value
series-limits-above-values = { $values ->
    [one] { $values } non-detect with a limit above every value ({ $highest }): it tells
   *[other] { $values } non-detects with a limit above every value ({ $highest }): they tell
} nothing about these values

# $values (count): non-detects, all of them above every value
# $highest (amount): highest value
series-all-limits-above-values = { $values ->
    [one] { $values } non-detect
   *[other] { $values } non-detects
} with a limit above every value ({ $highest }): no non-detect tells anything about these values

# $values (count): values and limits
series-not-positive = { $values ->
    [one] { $values } value or limit at or below zero: kept as it is
   *[other] { $values } values or limits at or below zero: kept as they are
}; no logarithm, so no lognormal or gamma answer

# Rows out of order.
series-order = the rows are not in order of date: they were put in order

# $rows (count): rows
# $first (date): first such day
series-date-repeated = { $rows ->
    [one] { $rows } row shares
   *[other] { $rows } rows share
} a date with another (first: { $first }): values of one date are not compared with each other

## Figures, and how a figure was found.

# A figure with a proper sign.
# $sign (name): minus or plus
# $size (amount): without its sign
series-figure = { $sign ->
    [minus] −{ $size }
   *[plus] { $size }
}

# An end of an interval that the data do not bound.
series-unbounded = ∞

# The lower end of an interval that the data do not bound.
series-unbounded-below = −∞

# A non-detect, or a percentile below the lowest known value.
# $limit (message): a figure
series-below = <{"\u00A0"}{ $limit }

# What the limits of a chart of blanks are: no non-detect in the baseline.
series-limits-normal = normal prediction limits of the baseline (2 and 3 sd for a long one)

# $confidence (share): that one more value lies under it
series-limits-highest = highest known value of a baseline with non-detects: one more value lies under it with { $confidence } confidence

# Where a p comes from.
series-p-exact = exact: all arrangements counted

series-p-normal = normal approximation with the variance for ties and non-detects, continuity corrected

# $draws (count): how many were drawn
series-p-arrangements = { $draws ->
    [one] { $draws } random arrangement
   *[other] { $draws } random arrangements
}

# $freedom (count): degrees of freedom
series-p-chi-squared = chi-squared with { $freedom ->
    [one] { $freedom } degree of freedom
   *[other] { $freedom } degrees of freedom
}

series-p-permutation-variance = normal approximation with the permutation variance, continuity corrected

series-p-seasons = normal approximation over the orders of the years, each with all its seasons

series-p-years-counted = exact: all orders of the years counted, each with all its seasons

# Tests of a trend.
series-mann-kendall = Mann–Kendall test

series-seasonal-month = seasonal Kendall test by month

series-seasonal-quarter = seasonal Kendall test by quarter

# Which slope, and why.
series-slope-non-detects = Akritas–Theil–Sen, because there are non-detects (two non-detects, or a value under a limit, have no sure order)

series-slope-all-known = Theil–Sen, because every value is known

# $test (message): which test
# $p (message): where its p comes from
# $slope (message): which slope
series-trend-method = { $test }; p: { $p }; slope: { $slope }; its interval holds the slopes that the test does not reject; p and interval that allow for the correlation of neighbours stand beside and decide

series-power-method = simulation of lognormal values that change from the first date on, Mann–Kendall test

# Methods of a mean, after the figure.
series-by-product-limit = by product limit

series-by-order-statistics = by order statistics

series-by-lognormal = by lognormal likelihood

series-by-gamma = by gamma likelihood

series-summary-method = four methods side by side, nothing put in place of a non-detect; 95 % intervals: product limit by Greenwood's variance (percentiles: exact ranks above the limits), order statistics by bootstrap, likelihood by profile

# $weight (name): gehan, peto-peto or log-rank
series-compare-scores = score test with { $weight } weight; shift: second group less first, the shift at which Gehan's statistic is zero (Hodges–Lehmann)

series-compare-signed-ranks = signed-rank test of the pairs (all known); shift: median of the pair means of the differences, second less first

series-compare-signs = sign test of the pairs with a sure order, because there are non-detects (or no difference); no shift is given
