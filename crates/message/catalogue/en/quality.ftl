# A chart that is followed from run to run.
quality-control-water = control water

# A chart that is followed from run to run.
quality-drift-checks = drift checks

# A chart that is followed from run to run.
quality-field-spikes = field spikes

# A chart that is followed from run to run.
quality-laboratory-spikes = laboratory spikes

# A chart that is followed from run to run.
quality-mean-of-the-blanks = mean of the blanks

# A chart that is followed from run to run.
quality-single-blanks = single blanks

# A rule of a chart.
quality-beyond-three = one beyond 3 sd

# A rule of a chart.
quality-beyond-two = two of three beyond 2 sd

# A rule of a chart.
quality-beyond-one = four of five beyond 1 sd

# A rule of a chart.
quality-on-one-side = eight on one side

# A rule of a chart.
quality-in-a-row = six rising or falling

# A rule of a chart.
quality-cumulative-sum = cumulative sum over its limit

# A rule of a chart.
quality-moving-average = moving average over its limit

# A rule of a chart.
quality-another-rule = another rule

# A rule that is broken on the high side.
# $rule (message): which
quality-high = { $rule }, high

# A rule that is broken on the low side.
# $rule (message): which
quality-low = { $rule }, low

# A pattern that goes on beyond the points that it needs.
# $rule (message): which, with its side
# $points (count): of the pattern
quality-long = { $points ->
    [one] { $rule }, over { $points } point
   *[other] { $rule }, over { $points } points
}

# Charts that a run keeps.
# $charts (message): which
# $runs (count): so far
quality-kept = This run keeps the charts of { $charts } over { $runs ->
    [one] { $runs } run
   *[other] { $runs } runs
}.

# Charts that cannot be drawn.
# $charts (message): which
# $runs (count): so far
# $needed (count): at least
quality-few = { $runs ->
    [one] Charts of { $charts } cannot be given with this few: { $runs } run, at least { $needed ->
            [one] { $needed } is needed
           *[other] { $needed } are needed
        }.
   *[other] Charts of { $charts } cannot be given with this few: { $runs } runs, at least { $needed ->
            [one] { $needed } is needed
           *[other] { $needed } are needed
        }.
}

# A chart that a run breaks.
# $chart (message): which
# $element (name): symbol
# $runs (count): so far
# $now (amount): of this run
# $baseline (count): points that set centre and sd
# $centre (amount): centre line
# $sd (amount): of single points
# $rules (message): broken
quality-broken = The chart of { $chart } ({ $element }) over { $runs ->
    [one] { $runs } run
   *[other] { $runs } runs
}: this run, at { $now } where { $baseline ->
    [one] the first
   *[other] the first { $baseline }
} gave { $centre } with sd { $sd }, breaks a rule ({ $rules }).

# Too few runs for what the years say.
# $runs (count): with a control water
# $needed (count): at least
quality-years-few = { $runs ->
    [one] What the years say of u cannot be given with this few: { $runs } run with a control water, at least { $needed ->
            [one] { $needed } is needed
           *[other] { $needed } are needed
        }.
   *[other] What the years say of u cannot be given with this few: { $runs } runs with a control water, at least { $needed ->
            [one] { $needed } is needed
           *[other] { $needed } are needed
        }.
}

# The blanks in what the years say.
quality-no-blanks = no blanks

# The blanks in what the years say.
# $sd (amount): of single blanks about the mean of their run
quality-blanks = single blanks scatter by { $sd }

# u from the years, held by the budget.
# $runs (count): with a control water
# $element (name): symbol
# $bias (share): of the control water
# $between (share): standard deviation between runs
# $blanks (message): what they do
# $u (amount): standard uncertainty by the years
# $budget (amount): standard uncertainty by the budget
quality-years-held = Over { $runs ->
    [one] { $runs } run
   *[other] { $runs } runs
} the control water of { $element } came back with a bias of { $bias } ± { $between } between runs, { $blanks }: that makes u { $u } beside the budget's { $budget }; the budget holds.

# u from the years, larger than the budget.
# $runs (count): with a control water
# $element (name): symbol
# $bias (share): of the control water
# $between (share): standard deviation between runs
# $blanks (message): what they do
# $u (amount): standard uncertainty by the years
# $budget (amount): standard uncertainty by the budget
quality-years-not-held = Over { $runs ->
    [one] { $runs } run
   *[other] { $runs } runs
} the control water of { $element } came back with a bias of { $bias } ± { $between } between runs, { $blanks }: that makes u { $u } beside the budget's { $budget }; the budget leaves something out.

# A value of a bottle's visit to the instrument.
# $value (amount): without unit
# $u (amount): standard uncertainty
quality-value = { $value } ± { $u }

# A value of a later visit.
# $value (amount): without unit
# $u (amount): standard uncertainty
# $years (amount): without unit
quality-value-later = { $value } ± { $u } { $years } years later

# How much of a bottle's first value came back.
# $recovery (share): of the first value
# $u (share): its standard uncertainty
quality-came-back = { $recovery } ± { $u } (u) of the first value came back

# Where that cannot be said.
quality-no-recovery = a recovery cannot be given, the first value is too uncertain

# A bottle that keeps its metal.
# $bottle (name): the bottle
# $element (name): symbol
# $first (message): value of the first visit
# $first-run (name): its run
# $last (message): value of the last visit
# $last-run (name): its run
# $back (message): how much came back
quality-no-change = { $bottle } held { $first } of { $element } in { $first-run } and { $last } in { $last-run } (u): { $back }; no change beyond the uncertainties.

# A bottle that loses metal.
# $bottle (name): the bottle
# $element (name): symbol
# $first (message): value of the first visit
# $first-run (name): its run
# $last (message): value of the last visit
# $last-run (name): its run
# $back (message): how much came back
quality-loss = { $bottle } held { $first } of { $element } in { $first-run } and { $last } in { $last-run } (u): { $back }; a loss with time beyond the uncertainties: metal may sit on the wall or in a solid.

# A bottle that gains metal.
# $bottle (name): the bottle
# $element (name): symbol
# $first (message): value of the first visit
# $first-run (name): its run
# $last (message): value of the last visit
# $last-run (name): its run
# $back (message): how much came back
quality-gain = { $bottle } held { $first } of { $element } in { $first-run } and { $last } in { $last-run } (u): { $back }; a gain with time beyond the uncertainties: bottle, acid or air may have given metal.

# The trend over three visits or more.
# $finding (message): first and last visit
# $visits (count): of the bottle to the instrument
# $change (amount): a year, without unit
# $u (amount): its standard uncertainty
quality-trend = { $finding } Over { $visits ->
    [one] { $visits } visit
   *[other] { $visits } visits
} the change is { $change } ± { $u } a year (u).

## The section of a report

# A section.
quality-over-the-runs = Quality over the runs

# In place of the section's content.
# $runs (count): that charts need
quality-one-run = There is one run. What holds from run to run cannot be told from it: charts need { $runs ->
    [one] { $runs } run
   *[other] { $runs } runs
}, the stability of a bottle two.

# Before the charts.
# $runs (count): two or more
# $first (name): the first run
# $last (name): the last
quality-before = { $runs ->
    [one] { $runs } run, from
   *[other] { $runs } runs, from
} { $first } to { $last }. A point is the mean of a run; centre and sd come from the first runs, and a rule that a later run breaks is told in the findings of its results.

# Title of a chart.
# $chart (message): which
# $element (name): as it is called
quality-chart = { $chart } of { $element }, run by run

# Description of a chart.
# $chart (message): which
# $element (name): as it is called
quality-chart-described = { $chart } of { $element } in every run with centre and limits.

# Under the title.
quality-bars = Bars: 2 u of the run. The first rule broken stands beside its point.

# Under the title, where there is no chart.
# $state (message): why there is none
quality-chart-is = The chart { $state }.

# Caption of a chart.
# $chart (message): which
# $element (name): as it is called
# $state (message): what the rules say
quality-chart-caption = { $chart } of { $element } in every run: { $state }.

# An axis.
quality-recovery-axis = Recovery, %

# An axis.
# $unit (name): of the blanks
quality-blank-axis = Blank, { $unit }

# State of a chart.
# $found (count): points
# $needed (count): at least
quality-points-few = { $found ->
    [one] cannot be given with this few: { $found } point of at least { $needed }
   *[other] cannot be given with this few: { $found } points of at least { $needed }
}

# State of a chart.
quality-not-drawn = cannot be drawn: the points do not scatter, or one of them is no number

# State of a chart.
# $points (count): of the chart
quality-none-broken = no rule broken by { $points ->
    [one] { $points } point
   *[other] { $points } points
}

# State of a chart.
# $places (message): points with their rules
quality-broken-at = broken at { $places }

# $point (name): a run or a vial
# $rules (message): that it breaks
quality-place = { $point } ({ $rules })

# One point after another.
# $one (message): the first
# $more (message): the rest
quality-places = { $one }; { $more }

# Caption of a table.
quality-charts = Charts of all runs: run rules, cumulative sum, moving average

# A heading of a column.
quality-points = points

# A heading of a column: the centre line.
quality-centre = centre

# A heading of a column: whether the chart is kept.
quality-is-kept = kept

# A heading of a column.
quality-rules = rules

# A note.
quality-skewed = Blanks are skewed with rare spikes: a rule broken by a single blank may be chance.

# A note.
quality-drift-checks-see-less = Drift checks also correct the drift of their run, so that their chart sees less than the control water's.

# Caption of a table.
# $element (name): as it is called
quality-run-by-run = { $element } run by run

# A heading of a column.
quality-run = run

# A heading of a column: when a run began.
quality-start = start

# What became of a bottle's metal.
quality-no-change-seen = no change seen

# What became of a bottle's metal.
quality-perhaps = perhaps

# What became of a bottle's metal.
quality-a-loss = loss

# What became of a bottle's metal.
quality-a-gain = gain

# In place of a recovery.
quality-first-too-uncertain = first value too uncertain

# Caption of a table.
quality-same-bottle = The same bottle measured again: what became of the metal

# A heading of a column: the first value.
quality-first = first

# A heading of a column: the last value.
quality-last = last

# A heading of a column.
quality-years-between = years between

# A heading of a column.
quality-recovery = recovery, %

# A heading of a column.
quality-stable = stable

# A note.
quality-which-bottles = All bottles for lead, of the other elements those that changed by more than two standard uncertainties; of a hundred pairs about five do so by chance.

# A note.
quality-independent = The u of both runs are taken as independent. The earlier value stays on record as an earlier revision.

# In place of a number.
quality-this-few = cannot be given with this few

# Caption of a table.
quality-years-say = What the years say of u, beside the budget of each number

# A heading of a column.
quality-runs = runs

# A heading of a column.
quality-bias = bias of the control water

# A heading of a column.
quality-between-runs = between runs

# A heading of a column: of the control water.
quality-u-of-value = u of its value

# A heading of a column.
quality-single-blanks-sd = single blanks, sd

# A note.
quality-another-water = The control water is another water than the samples. These parts replace no uncertainty; the findings of each result set both side by side.
