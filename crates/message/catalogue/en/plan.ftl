### What to take on the next trip: the question, what a design buys, what to pack, what the plan rests on.

## The question.

# In place of a metal that is not named.
plan-the-metal = the metal

# In place of a concentration.
plan-no-level = a level not given

# In place of a number.
plan-no-number = a number not given

# $metal (list): as the person named it
# $level (list): with its unit, as it was written
plan-detect = Will { $metal } of { $level } be detected?

# $metal (list): as the person named it
# $level (list): with its unit, as it was written
# $limit (list): with its unit, as it was written
plan-limit = Will { $metal } of { $level } be shown to lie on its side of { $limit }?

# $metal (list): as the person named it
# $lower (list): with its unit, as it was written
# $higher (list): with its unit, as it was written
plan-lower = Will { $metal } of { $lower } be shown to be lower than { $higher }?

# $metal (list): as the person named it
# $percent (list): a year, as it was written
# $years (list): as they were written
plan-trend = Will a change of { $metal } of { $percent } % a year in { $years } years be seen?

# $metal (list): as the person named it
# $limit (list): with its unit, as it was written
plan-detection-limit = Is a detection limit of { $limit } for { $metal } reached?

## What a design buys.

# $chance (share): to decide
# $limit (amount): of detection
plan-cheapest = The cheapest: decides with { $chance } chance, detects { $limit }.

# $price (amount): beyond the design before
# $changes (message): one after the other
# $chance (share): to decide
# $before (share): that of the design before
# $limit (amount): of detection
plan-more = For { $price } more, { $changes }: decides with { $chance } instead of { $before } chance, detects { $limit }.

# $bottles (message): so many of a kind
plan-bottles-more = { $bottles } more

# $bottles (message): so many of a kind
plan-bottles-less = { $bottles } less

# $now (amount): fill volume
# $before (amount): number alone
plan-volume = { $now } in place of { $before }

# $now (amount): minutes open
# $before (amount): number alone
plan-open = open { $now } in place of { $before }

# $n (count): how many
plan-sample-bottles = { $n ->
    [one] { $n } sample bottle
   *[other] { $n } sample bottles
}

# $n (count): how many
plan-field-blanks = { $n ->
    [one] { $n } field blank
   *[other] { $n } field blanks
}

# $n (count): how many
plan-trip-blanks = { $n ->
    [one] { $n } trip blank
   *[other] { $n } trip blanks
}

# $n (count): how many
plan-bottle-blanks = { $n ->
    [one] { $n } bottle blank
   *[other] { $n } bottle blanks
}

# $n (count): how many
plan-spikes = { $n ->
    [one] { $n } spike
   *[other] { $n } spikes
}

## What to pack, a line each.

# $well (name): the well
# $bottles (message): how many sample bottles
# $volume (amount): of each
# $minutes (amount): open at most
plan-pack-samples = { $well }: { $bottles }, { $volume } each, open at most { $minutes }

# $blanks (message): how many field blanks
# $volume (amount): of each
plan-pack-field-blanks = { $blanks }: opened and filled at the well like a sample, { $volume }

# $blanks (message): how many trip blanks
# $volume (amount): of each
plan-pack-trip-blanks = { $blanks }: filled at home, carried, never opened, { $volume }

# $blanks (message): how many bottle blanks
# $volume (amount): of each
plan-pack-bottle-blanks = { $blanks }: filled at home, stays at home, { $volume }

# $n (count): how many
# $volume (amount): of each
plan-pack-spikes = { $n ->
    [one] { $n } bottle
   *[other] { $n } bottles
} for spikes in the water, { $volume }

## What to bear in mind, and what was assumed.

plan-clean-work = the chance is that of clean work: a spike of contamination is not in it

plan-none-decides = no design on offer decides with a chance of 80 %: offer more bottles, larger fills, or fewer minutes

# $assumed (amount): pg
plan-laboratory-assumed = laboratory_pg not given: { $assumed } assumed (pg, one bottle in the laboratory)

# $assumed (amount): a share
plan-scatter-assumed = relative_sd not given: { $assumed } assumed (scatter of a sample bottle, a share)

# $assumed (amount): a share
plan-spike-assumed = spike_sd not given: { $assumed } assumed (scatter of one spike recovery, a share)

# $assumed (amount): a share
plan-recovery-assumed = recovery_u not given: { $assumed } assumed (u of the recovery without a spike, a share)

## What the record gave.

# $blanks (count): how many
# $run (name): that measured them
plan-blanks-of-run = { $blanks ->
    [one] { $blanks } field blank
   *[other] { $blanks } field blanks
} of run { $run }

# $blanks (message): which
plan-between-blanks = between { $blanks }, the laboratory's part taken off

# $blanks (message): which
plan-dof-of-blanks = degrees of freedom of { $blanks }

# $blanks (message): which
plan-laboratory-of-blanks = the laboratory's own u of one of { $blanks }

plan-scatter-of-pairs = scatter of one bottle, from pairs of duplicates

plan-scatter-of-spikes = scatter of spike recoveries

plan-u-of-spikes = u of the recovery by the spikes so far

# A number of the question by its key.
# $key (name): its key
# $value (amount): number alone
# $why (message): from what
plan-taken = { $key } { $value }: { $why }

# The same of a mass, a reason that goes on behind the unit.
# $key (name): its key
# $value (amount): number alone
# $why (message): from what
plan-taken-mass = { $key } { $value }: pg { $why }

# The same of a mass, a reason that stands alone.
# $key (name): its key
# $value (amount): number alone
# $why (message): from what
plan-taken-mass-alone = { $key } { $value }: pg, { $why }

# $mean (amount): of the blanks
# $blanks (message): which
# $air (amount): of it by air and hands
plan-blank = blank { $mean }: mean of { $blanks }; of it { $air } by air and hands while open (field less trip blanks)

# The first design where checks decide what it must contain.
# $chance (share): to decide
# $limit (amount): of detection
plan-cheapest-accepted = The cheapest whose bottles can be accepted: decides with { $chance } chance, detects { $limit }.

# $n (count): how many
plan-reference-materials = { $n ->
    [one] { $n } vial of a reference material
   *[other] { $n } vials of a reference material
}

# $n (count): how many
plan-drift-checks = { $n ->
    [one] { $n } drift check
   *[other] { $n } drift checks
}

# $n (count): how many
plan-second-sources = { $n ->
    [one] { $n } standard of a second source
   *[other] { $n } standards of a second source
}

# $well (name): the well
# $n (count): how many
# $volume (amount): of each
plan-pack-spikes-at = { $well }: { $n ->
    [one] { $n } bottle
   *[other] { $n } bottles
} for spikes in the water, { $volume }

# $vials (list): how many of each kind
plan-pack-vials = for the run: { $vials }

## What every design contains.

# $check (name): of the table of checks
# $least (message): how many of what
plan-need-decides = { $check } decides: at least { $least }

# $check (name): of the table of checks
# $least (message): how many of what
plan-need-warns = { $check } warns: at least { $least }

# $bottles (message): how many sample bottles
plan-of-each-well = { $bottles } of each well

# $n (count): how many
plan-spikes-in-each-water = { $n ->
    [one] { $n } spike
   *[other] { $n } spikes
} in each water

# $checks (list): by their names
plan-met-by-care = decisive too, and met by care rather than by numbers: { $checks }

# $sd (amount): of one recovery, a share
# $most (amount): that lets the check decide
plan-spikes-too-wide = one spike recovery scatters by { $sd }: over { $most } no number of spikes lets the recovery be decided

plan-vial-not-priced = the price of a vial of the run is not given: 0 assumed
