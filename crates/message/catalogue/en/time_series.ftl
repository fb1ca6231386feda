### The record over the years: section, tables, figures, and the control charts of a laboratory.

# $fraction (name): of a bottle: unfiltered, filtered, or a pore size
time_series-fraction = { $fraction ->
    [unfiltered] unfiltered
    [filtered] filtered
   *[other] { $fraction }
}

# In a cell or heading.
# $what (list): the word for substance or condition, or its name where no catalogue has one
# $fraction (message): of the bottle
time_series-analyte = { $what }, { $fraction }

# A series alone: too few results.
# $results (count): dated results
# $least (count): from which a trend is computed
time_series-short = { $results ->
    [one] { $results } dated result
   *[other] { $results } dated results
}: fewer than the { $least } from which summaries and a trend are computed.

# $reasons (list): each with how many
time_series-left-out = Left out: { $reasons }.

# Why results did not enter a series.
# $results (count): how many
time_series-without-date = { $results } without a date

# $results (count): how many
time_series-without-limit = { $results } not detected without a stated limit

# $results (count): how many
time_series-above-range = { $results } above the range

# $results (count): how many
time_series-other-unit = { $results } in another kind of unit

# $results (count): how many
time_series-other-isotope = { $results } of another isotope of the same bottle

# $results (count): how many
time_series-taken-out = { $results } taken out by a person

# Title of the section.
time_series-section = The record

# $results (count): dated
# $series (count): of all wells
time_series-entered = { $results ->
    [one] { $results } dated result makes
   *[other] { $results } dated results make
} { $series } series of one analyte and fraction in one well.

# $told (count): series that are told
# $least (count): values of a series that is told
# $short (count): series that are not
time_series-told = { $told ->
    [one] { $told } of them holds { $least ->
            [one] { $least } value or more
           *[other] { $least } values or more
        } and is told here
   *[other] { $told } of them hold { $least ->
            [one] { $least } value or more
           *[other] { $least } values or more
        } and are told here
}; { $short ->
    [one] { $short } is shorter and is not computed
   *[other] { $short } are shorter and are not computed
}.

# $results (count): of all wells
# $reasons (list): each with how many
time_series-not-entered = { $results ->
    [one] { $results } result
   *[other] { $results } results
} could not enter: { $reasons }.

# $series (count): that hold rejected results
time_series-with-rejected = Verdicts stand beside the series and move nothing: { $series ->
    [one] { $series } of them holds
   *[other] { $series } of them hold
} results that are rejected.

# $series (count): that are told
# $least (count): values of each
# $tested (count): with a test
# $up (count): that rise
# $down (count): that fall
# $p (amount): under which a change is called one
# $level (count): tested without a change
# $untested (count): without a test
time_series-counts = Of { $series } series with { $least ->
    [one] { $least } value or more
   *[other] { $least } values or more
}, { $tested ->
    [one] { $tested } has
   *[other] { $tested } have
} a trend test: { $up ->
    [one] { $up } rises
   *[other] { $up } rise
} and { $down ->
    [one] { $down } falls
   *[other] { $down } fall
} (p < { $p }), in { $level } no change is seen; { $untested ->
    [one] { $untested } has no trend, with its reason
   *[other] { $untested } have no trend, each with its reason
}.

# $vanish (count): series whose change is one of steps
# $changed (count): that rise or fall
time_series-vanish = In { $vanish } of the { $changed } that change, the change is not there once steps at changes of method or laboratory are taken out.

# $tests (count): how many
# $p (amount): under which a change is called one
# $changed (count): series that rise or fall
# $left (count): changes that are beyond chance
time_series-by-chance = Of { $tests ->
    [one] { $tests } test at once
   *[other] { $tests } tests at once
} some come out under { $p } by chance alone: if at most one in twenty of the changes named may be a false alarm, { $left } of { $changed } { $left ->
    [one] remains
   *[other] remain
}.

time_series-choice = Nothing is put in the place of a non-detect. The mean is by the first of product limit, regression on order statistics and lognormal likelihood that a simulation found fit for this many values and this share of non-detects (a 95 % interval that held the true mean in 90 % of simulated series or more) and whose shape the data do not contradict; where none is fit, none is given. The median is by the product limit, which assumes no shape. The trend is the Mann–Kendall test with non-detects and the slope of Akritas, Theil and Sen, because neither needs a shape nor a value for a non-detect. Neighbours in time that resemble each other make changes of chance: from 20 values on p and interval allow for the correlation that the residuals show, with 12 to 19 they stand for the worst of three that are assumed, with fewer nothing can be told of it, which is said beside the series. Where the method or laboratory changed, the test stands beside one with the steps taken out; a result that does not state its method is no change.

# Among the methods of the report.
time_series-method-name = Series with non-detects

time_series-method = Summaries by product limit, regression on order statistics and likelihood; Mann–Kendall test with ties and non-detects; slope at which the statistic of the residuals is zero, with the interval of slopes that the test does not reject; variance of the statistics widened by the correlation of the residuals in time; steps at method changes by a rank-sum test; control charts of blanks by prediction limits of their first years. How far each can be trusted was simulated and is said beside the numbers.

# Picture of all series.
# $series (count): how many
time_series-table-title = Change over the years in { $series } series

# Behind the title of a figure, for those who hear it read.
time_series-table-below = The table below has the numbers.

# $least (count): values of a series
# $p (amount): under which a change is called one
time_series-table-under = Wells down, analytes across; a mark where there are { $least ->
    [one] { $least } value or more
   *[other] { $least } values or more
}. Test at p < { $p }.

time_series-table-caption = Every well and analyte with enough values: what came of the trend.

# Sheets of small pictures.
time_series-sheet-title = The series, strongest change first

# One of several sheets.
# $first (count): of the sheet
# $last (count): of the sheet
# $all (count): on all sheets
time_series-sheet-title-part = The series, strongest change first, { $first } to { $last } of { $all }

# $from (date): first year
# $to (date): last year
time_series-sheet-under = All from { $from } to { $to }; each on a log axis of its own; a dot is a value, a bar with a cap a non-detect up to its limit.

time_series-sheet-caption = Series in order of the strength of their change (p of the trend test).

# $first (count): of the sheet
# $last (count): of the sheet
# $all (count): on all sheets
time_series-sheet-caption-part = Series in order of the strength of their change (p of the trend test), { $first } to { $last } of { $all }.

# Heading.
# $series (count): that are shown large
time_series-strongest = { $series ->
    [one] The series with the strongest change
   *[other] The { $series } series with the strongest change
}

# Title of the figure of one series.
# $what (list): the word for substance or condition, or its name
# $well (name): its label
# $fraction (message): of the bottle
time_series-title = { $what } in { $well }, { $fraction }

# Its caption.
# $what (list): the word for substance or condition, or its name
# $well (name): its label
time_series-caption = { $what } in { $well } over the years.

time_series-no-blanks = No blank of this analyte and fraction is on record: a rising blank would look like a rising metal.

# A change of laboratory, method or resolution.
# $date (date): from which the new one holds
# $from (list): the practice before
# $to (list): the new one
time_series-practice = { $date }: { $from } to { $to }

# In the place of a practice.
time_series-practice-not-stated = method not stated

# In the legend.
time_series-band = trend; band: the slopes that the test does not reject, turned about the middle

# One blank of a kind.
# $kind (name): of bottle
time_series-blank = { $kind ->
    [field-blank] field blank
    [trip-blank] trip blank
    [equipment-blank] equipment blank
    [bottle-blank] bottle blank
   *[other] { $kind }
}

# Blanks of a kind.
# $kind (name): of bottle
time_series-blanks = { $kind ->
    [field-blank] field blanks
    [trip-blank] trip blanks
    [equipment-blank] equipment blanks
    [bottle-blank] bottle blanks
   *[other] { $kind }
}

time_series-blanks-heading = Blanks over the years

time_series-blanks-first = A rising blank looks like a rising metal, so the blanks are charted first. The first third of them, at least five, sets the limits for the rest.

# Table of blanks.
time_series-blanks-caption = Blanks against the limits of their first years

# Heading of a column: number of values and, in brackets, of non-detects.
time_series-n-below = n (below)

# Heading of a column: how many of the first set the limits.
time_series-baseline = baseline

time_series-action-limit = action limit

# Heading of a column: how many blanks are above the action limit.
time_series-above-it = above it

time_series-p-in-time = p in time

time_series-stands-out = stands out

# What stands out among blanks.
time_series-rise = rise

time_series-fall = fall

time_series-action = action

time_series-run = run

time_series-nothing = nothing

time_series-blanks-note = Baseline: how many of the first set the limits. Stands out: { time_series-rise }, { time_series-fall }: with the years, p < 0.05; { time_series-action }: above the action limit; { time_series-run }: eight in a row above the median of the baseline; { word-cannot-tell }: non-detects whose own limit lies above the action limit.

# Title of the figure of blanks.
# $blanks (message): their kind
# $analyte (message): substance and fraction
time_series-blanks-title = { $blanks } over the years: { $analyte }

# $basis (message): what the limits are
time_series-limits = Limits: { $basis }.

# What to beware of in a trend, in a cell; below each what it means.
time_series-alike = alike

time_series-alike-means = { time_series-alike }: neighbours in time resemble each other; p and interval allow for it

time_series-few = few

time_series-few-means = { time_series-few }: too few values to tell correlation: p is the largest of those for assumed ones or, under 12 values, holds only without any

time_series-many = many tests

time_series-many-means = { time_series-many }: among so many tests more than one in twenty of the changes that are as strong may be false alarms

time_series-limits-moved = limits

time_series-limits-moved-means = { time_series-limits-moved }: the limits moved with the years, which alone can move the test

time_series-step = step

time_series-step-means = { time_series-step }: the level differs across a change of method or laboratory

time_series-coverage = coverage

time_series-coverage-means = { time_series-coverage }: in simulation the interval of the slope held the true one too seldom for this many values and non-detects, or gave no answer too often

time_series-open = open

time_series-open-means = { time_series-open }: the interval of the slope has no bound on one side or on both

time_series-no-line = no line

time_series-no-line-means = { time_series-no-line }: the non-detects leave the slope open

time_series-blanks-rise-means = { word-blanks }: blanks of the same analyte rise with the years

# One meaning after another.
# $before (message): those before
# $next (message): the next one
time_series-next = { $before }; { $next }

# $meanings (message): of the words in the cells
time_series-beware-of-note = Beware of: { $meanings }.

# A figure with its interval.
# $figure (message): the figure
# $low (message): lower end
# $high (message): upper end
time_series-interval = { $figure } ({ $low } to { $high })

time_series-no-method-fit = no method fit

# Table of summaries.
time_series-summaries-caption = Every series: values, median, mean

time_series-years = years

time_series-median = median

time_series-n-below-note = n (below): values and, of them, non-detects. In brackets 95 % intervals; ∞: not bounded.

time_series-median-note = Median by the product limit; < means that it lies below the lowest known value. Mean by PL product limit, OS regression on order statistics, LL lognormal likelihood: the first that is fit.

# Table of trends.
time_series-trends-caption = Every series with a trend, strongest change first

time_series-change-column = change, % a year

time_series-steps-out = steps out

time_series-beware-of = beware of

time_series-trends-note = Change in percent a year from the slope of the logarithms with its 95 % interval; where a value is zero or negative, in the unit a year; where no change is seen, the changes that are not ruled out. ▲ rises, ▼ falls at p < 0.05; p and interval allow for the correlation of neighbours where it can be told or assumed. Steps out: p with the steps at changes of method or laboratory taken out.

# Table of series without a trend.
time_series-no-trend-caption = Series without a trend, and why

time_series-why-no-trend = why there is no trend

# What came of a trend, also in legends.
time_series-rises = rises

time_series-falls = falls

time_series-no-change-seen = no change seen

# A series in words.
time_series-trend-none = no trend can be given.

# Begins the sentence of a series.
# $values (count): how many
# $from (date): first year
# $to (date): last year
# $below (count): non-detects
# $course (message): what came of the trend
# $test (message): tau and p
time_series-course = { $values ->
    [one] { $values } value from
   *[other] { $values } values from
} { $from }–{ $to }, { $below ->
    [one] { $below } of them a non-detect
   *[other] { $below } of them non-detects
}: { $course } ({ $test })

# $tau (message): with its sign
# $p (amount): chance by scatter alone
time_series-test = { $tau }, p { $p }

# $tau (message): with its sign
# $p (amount): with the correlation of neighbours
# $plain (amount): as if there were none
time_series-test-serial = { $tau }, p { $p } with the correlation of neighbours, { $plain } as if there were none

# $tau (message): with its sign
# $p (amount): the largest over the correlations assumed
# $plain (amount): as if there were none
time_series-test-assumed = { $tau }, p up to { $p } for a correlation of neighbours that so few values cannot tell, { $plain } without one

# $tau (message): with its sign
# $p (amount): as if there were no correlation
time_series-test-untold = { $tau }, p { $p } if neighbours do not resemble each other, which so few values cannot tell

# No line.
# $course (message): values, years, test
time_series-trend-open = { $course }.

# Too few values, or too many non-detects, for an interval of the slope.
# $course (message): values, years, test
time_series-trend-not-fit = { $course }; so many values and non-detects are not fit for a slope, and none is given.

# No change is seen: what may still be.
# $course (message): values, years, test
# $unit (name): of the series
# $low (message): lower end of the interval of the slope
# $high (message): upper end
time_series-trend-within = { $course }; a change between { $low } and { $high } { $unit } a year is not ruled out.

# The same in a table.
# $low (message): lower end of the interval of the slope
# $high (message): upper end
time_series-from-to = { $low } to { $high }

# $course (message): values, years, test
# $slope (message): figure
# $unit (name): of the series
# $low (message): lower end of its interval
# $high (message): upper end
time_series-trend-slope = { $course }, { $slope } { $unit } a year ({ $low } to { $high }).

# $course (message): values, years, test
# $slope (message): figure
# $unit (name): of the series
# $low (message): lower end of its interval
# $high (message): upper end
# $percent (message): change with its interval
time_series-trend-percent = { $course }, { $slope } { $unit } a year ({ $low } to { $high }), { $percent } % a year.

# The middle of the slopes is zero where a change is seen: many pairs of values are alike.
# $course (message): values, years, test
# $unit (name): of the series
# $low (message): lower end of its interval
# $high (message): upper end
time_series-trend-flat = { $course }, yet so many values are alike that the middle of the slopes is 0 { $unit } a year ({ $low } to { $high }).

# $stretches (count): of one method
# $p (amount): chance by scatter alone
time_series-steps-out-stays = With the steps between { $stretches ->
    [one] { $stretches } stretch of
   *[other] { $stretches } stretches of
} one method taken out p is { $p }: the change stays.

# $stretches (count): of one method
# $p (amount): chance by scatter alone
time_series-steps-out-vanishes = With the steps between { $stretches ->
    [one] { $stretches } stretch of
   *[other] { $stretches } stretches of
} one method taken out p is { $p }: the change is not seen any more, so it may be one of method.

# $stretches (count): of one method
# $p (amount): chance by scatter alone
# $course (message): rises or falls
time_series-steps-out-turns = With the steps between { $stretches ->
    [one] { $stretches } stretch of
   *[other] { $stretches } stretches of
} one method taken out p is { $p }, and the series { $course }: what is seen across the steps is a change of method.

# No change is seen with the steps in.
# $stretches (count): of one method
# $p (amount): chance by scatter alone
time_series-steps-out-none = With the steps between { $stretches ->
    [one] { $stretches } stretch of
   *[other] { $stretches } stretches of
} one method taken out p is { $p }: no change is seen so either.

# No change is seen with the steps in.
# $stretches (count): of one method
# $p (amount): chance by scatter alone
# $course (message): rises or falls
time_series-steps-out-appears = With the steps between { $stretches ->
    [one] { $stretches } stretch of
   *[other] { $stretches } stretches of
} one method taken out p is { $p }, and the series { $course }: the steps hide it.

# A step that the data choose.
# $before (date): last day before it
# $after (date): first day after it
# $p (amount): chance by scatter alone
time_series-change-point = Asked for one step at a date of their own, the data put it between { $before } and { $after } (p { $p }; a trend looks like a step and a step like a trend).

# $median (message): with its interval
# $unit (name): of the series
# $mean (message): with its interval
# $method (message): by which it is
time_series-median-mean = Median { $median } { $unit } by the product limit; mean { $mean } { $unit } { $method }.

# $median (message): with its interval
# $unit (name): of the series
# $mean (message): with its interval
# $method (message): by which it is
# $fitness (message): why this one
time_series-median-mean-because = Median { $median } { $unit } by the product limit; mean { $mean } { $unit } { $method }, chosen because { $fitness }.

# $median (message): with its interval
# $unit (name): of the series
time_series-median-alone = Median { $median } { $unit } by the product limit; no method for the mean is fit for this many values and non-detects.

time_series-all-years = A summary of all years is a summary of no year where the level changes.

# Figure of one series: legend.
time_series-not-detected = not detected: somewhere up to the limit

time_series-at-or-below-zero = at or below zero

time_series-method-changes = the method changes

# What a mark stands for.
# $date (date): of the sample
# $reading (message): figure, or below which it is
# $unit (name): of the series
time_series-mark = { $date }: { $reading } { $unit }

# $date (date): of the sample
# $reading (message): figure, or below which it is
# $unit (name): of the series
time_series-mark-rejected = { $date }: { $reading } { $unit }, rejected

# $changes (count): changes of method that are not told
time_series-more-changes = and { $changes } more, drawn as lines

# Small pictures.
# $percent (amount): change a year
time_series-rises-by = +{ $percent } % a year

# $percent (amount): change a year, without its sign
time_series-falls-by = −{ $percent } % a year

time_series-no-trend = no trend

# Legend of the small pictures.
time_series-open-mark = open: not so with the steps at method changes taken out

time_series-sizes = less than 2, 2 to 5, more than 5 % a year

time_series-dash = no trend can be given

# Control chart of a laboratory: legend.
time_series-keeps-rules = keeps the rules

time_series-breaks-rule = breaks a rule

time_series-beyond-three-sd = beyond 3 sd

time_series-centre = centre

time_series-two-sd = 2 sd

time_series-three-sd = 3 sd, and limits of the average

# $points (count): of the baseline
time_series-first-points = { $points ->
    [one] the first sets centre and sd
   *[other] the first { $points } set centre and sd
}

time_series-moving-average = Moving average (EWMA) with its limits
