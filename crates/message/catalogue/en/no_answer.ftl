### Why a series cannot be answered; what was asked is looked up by its English: `Message::named("no_answer", what)`.

# $what (list): what was asked
# $needed (count): values that it needs
# $found (count): values there are
no_answer-few = { $what } needs at least { $needed }, there { $found ->
    [one] is { $found }
   *[other] are { $found }
}

# $n (count): values
# $share (share): at most
# $limit (amount): the highest limit, without unit
no_answer-censored = { $n ->
    [one] the one value is a non-detect
   *[other] all { $n } values are non-detects
}: at most { $share } of such values lie above { $limit } (95 % one-sided, exact binomial); nothing more can be said

# $n (count): values
# $value (amount): the one value, without unit
# $what (list): what was asked
no_answer-no-spread = { $n ->
    [one] the one known value is
   *[other] all { $n } known values are
} { $value }: no spread, { $what } cannot be computed

# $n (count): values
# $year (amount): decimal year
no_answer-one-date = { $n ->
    [one] the one value bears
   *[other] all { $n } values bear
} one date ({ $year }): there is no time in which to change

# $number (name): of the value, from 1
# $value (amount): found there
# $what (list): what was asked
no_answer-not-positive = value { $number } is { $value }: { $what } is for values above zero; the product limit and the rank methods take it as it is

# $number (name): of the value, from 1
# $value (amount): found there
no_answer-not-finite = value { $number } is { $value }: a finite number is needed

# $name (name): of the parameter
# $value (amount): as found
# $allowed (name): the range
no_answer-out-of-range = { $name } is { $value }, allowed: { $allowed }

# $what (list): which search
# $iterations (count): made
# $residual (name): what was left
no_answer-not-converged = { $what } did not converge after { $iterations ->
    [one] { $iterations } iteration
   *[other] { $iterations } iterations
} (residual { $residual })

no_answer-a-trend = a trend
no_answer-a-series = a series
no_answer-a-series-of-the-survey = a series of the survey
no_answer-the-baseline-of-a-control-chart = the baseline of a control chart
no_answer-an-order-statistic-limit-at-this-confidence = an order-statistic limit at this confidence
no_answer-a-tolerance-or-prediction-limit = a tolerance or prediction limit
no_answer-a-comparison--groups = a comparison (groups)
no_answer-a-group = a group
no_answer-a-comparison = a comparison
no_answer-a-paired-comparison--dates-in-both = a paired comparison (dates in both)
no_answer-regression-on-order-statistics--known-values = regression on order statistics (known values)
no_answer-regression-on-order-statistics = regression on order statistics
no_answer-a-seasonal-test--years-in-one-season = a seasonal test (years in one season)
no_answer-a-lognormal-likelihood = a lognormal likelihood
no_answer-a-gamma-likelihood = a gamma likelihood
no_answer-a-control-chart = a control chart
no_answer-a-lognormal-limit = a lognormal limit
