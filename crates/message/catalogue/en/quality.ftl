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

# Charts that a run keeps.
# $charts (message): which
# $runs (count): so far
quality-kept = This run keeps the charts of { $charts } over { $runs } runs.

# Charts that cannot be drawn.
# $charts (message): which
# $runs (count): so far
# $needed (count): at least
quality-few = { $runs ->
    [one] Charts of { $charts } cannot be given with this few: { $runs } run, at least { $needed } are needed.
   *[other] Charts of { $charts } cannot be given with this few: { $runs } runs, at least { $needed } are needed.
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
quality-broken = The chart of { $chart } ({ $element }) over { $runs } runs: this run, at { $now } where the first { $baseline } gave { $centre } with sd { $sd }, breaks a rule ({ $rules }).

# Too few runs for what the years say.
# $runs (count): with a control water
# $needed (count): at least
quality-years-few = { $runs ->
    [one] What the years say of u cannot be given with this few: { $runs } run with a control water, at least { $needed } are needed.
   *[other] What the years say of u cannot be given with this few: { $runs } runs with a control water, at least { $needed } are needed.
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
quality-years-held = Over { $runs } runs the control water of { $element } came back with a bias of { $bias } ± { $between } between runs, { $blanks }: that makes u { $u } beside the budget's { $budget }; the budget holds.

# u from the years, larger than the budget.
# $runs (count): with a control water
# $element (name): symbol
# $bias (share): of the control water
# $between (share): standard deviation between runs
# $blanks (message): what they do
# $u (amount): standard uncertainty by the years
# $budget (amount): standard uncertainty by the budget
quality-years-not-held = Over { $runs } runs the control water of { $element } came back with a bias of { $bias } ± { $between } between runs, { $blanks }: that makes u { $u } beside the budget's { $budget }; the budget leaves something out.

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
quality-trend = { $finding } Over { $visits } visits the change is { $change } ± { $u } a year (u).
