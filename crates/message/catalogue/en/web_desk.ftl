### The desk: newest days, what waits, what holds results back.

web_desk-title = Desk

# $day (name): the day
web_desk-newest-day = Newest day: { $day }

web_desk-newest = Newest day of each well
web_desk-choose = Element

# $n (count): how many
web_desk-another = { $n ->
    [one] another of { $n }
   *[other] another of { $n }
}

web_desk-show = Show
web_desk-order = Wells in the order of the record, streams last.

# $what (name): what it is
web_desk-log-scale = { $what }, each line ten times the one before

web_desk-u-95 = ± is U, 95 %. < stands for not found, at most. A number opens its case.
web_desk-u-none = † the source states no uncertainty.
web_desk-bottle = bottle

# $what (name): what it is
# $found (name): the value
web_desk-dot = { $what }: { $found }


# $well (name): the well
web_desk-dots = The bottles of { $well } on one axis

web_desk-agree = The bottles agree.
web_desk-one-bottle = One bottle: nothing says whether it repeats.

# $found (amount): the value
# $low (amount): low
# $high (amount): high
web_desk-together = together { $found } ({ $low } to { $high })


# $found (name): the value
web_desk-together-most = together { $found }

web_desk-no-common = no common value

# $day (name): the day
web_desk-year-no-trip = { $day }: no trip


# $day (name): the day
# $element (name): the element
web_desk-year-not-measured = { $day }: { $element } not measured


# $day (name): the day
web_desk-year-found = { $day }:

web_desk-not-stated = not found, limit not stated

# $n (count): how many
web_desk-more-wells = { $n ->
    [one] { $n } more well
   *[other] { $n } more wells
}

web_desk-no-results = No well has a result yet.
web_desk-waits = What waits
web_desk-nothing-waits = Nothing waits.

# $well (name): the well
web_desk-above = { $well }: above a limit

web_desk-above-no-well = Above a limit

# $element (name): the element
# $found (name): the value
# $limit (name): the limit
# $who (name): who
web_desk-above-one = { $element } { $found }; limit { $limit } ({ $who })


# $n (count): how many
web_desk-above-more = { $n ->
    [one] { $n } more above a limit
   *[other] { $n } more above a limit
}

web_desk-above-recalled = Limits marked * are quoted from memory and still to be compared with their document.
web_desk-above-health = What it means for the use of the water the local health authority says.
web_desk-look-case = Look at it

# $title (name): what it is of
web_desk-at-work = At work: { $title }

web_desk-look-work = See how far
web_desk-stale = Results may read otherwise
web_desk-stale-why = What stands on it may read otherwise.

# $n (count): how many
web_desk-stale-acts = { $n ->
    [one] { $n } act kept and not yet derived.
   *[other] { $n } acts kept and not yet derived.
}


# $n (count): how many
web_desk-stale-never = { $n ->
    [one] { $n } act kept, and never derived to the end.
   *[other] { $n } acts kept, and never derived to the end.
}

web_desk-stale-engine = Derived by another version of the program.
web_desk-derive = Derive anew

# $trip (name): the trip
web_desk-planned = Trip { $trip } is planned


# $day (name): the day
# $n (count): how many
web_desk-planned-day = { $n ->
    [one] { $day }. { $n } bottle is laid out.
   *[other] { $day }. { $n } bottles are laid out.
}

web_desk-open-trip = Open the trip

# $trip (name): the trip
# $n (count): how many
web_desk-on-the-way = { $n ->
    [one] { $trip }: { $n } bottle without a result
   *[other] { $trip }: { $n } bottles without a result
}


# $n (count): how many
web_desk-on-the-way-none = { $n ->
    [one] { $n } bottle of no trip without a result
   *[other] { $n } bottles of no trip without a result
}


# $what (name): what it is
# $found (name): the value
web_desk-clock = First clock: { $what }, { $found }.


# $limit (name): the limit
web_desk-clock-source = Longest time { $limit } (US 40 CFR 136 Table II).

web_desk-clock-none = No time of filling is on record.

# $n (count): how many
web_desk-and-more = { $n ->
    [one] and { $n } more
   *[other] and { $n } more
}

web_desk-bring-in = Bring in the laboratory’s table

# $well (name): the well
web_desk-disagree = { $well }: bottles disagree


# $what (list): what it is
web_desk-disagree-what = { $what }. Taking one out leaves the other without a second bottle, and the disagreement stays on record.


# $n (count): how many
web_desk-look-results = { $n ->
    [one] Look at { $n } result
   *[other] Look at { $n } results
}


# $lot (name): the lot
web_desk-lot-open = Lot { $lot }: not decided


# $lot (name): the lot
web_desk-lot-held = Lot { $lot }: held


# $lot (name): the lot
web_desk-open-lot = Open lot { $lot }

web_desk-sign = Nobody stands for a result yet
web_desk-sign-why = A verdict that somebody signs carries a name and a reason.
web_desk-sign-act = Look at the results
web_desk-no-trip = No trip is planned
web_desk-no-trip-why = Without a next trip no change can be seen.
web_desk-held = What holds results back

# $n (count): how many
# $found (count): the value
web_desk-held-of = { $n } of { $found ->
    [one] { $found } result
   *[other] { $found } results
}; one may be held by several

web_desk-held-order = What fails comes first, then the most.
web_desk-held-nothing = Nothing holds a result back.
web_desk-reason = Reason
web_desk-count = Results
web_desk-where = Where
web_desk-helps = What helps

# $n (count): how many
web_desk-wells-many = { $n ->
    [one] { $n } well
   *[other] { $n } wells
}


# $n (count): how many
web_desk-substances-many = { $n ->
    [one] { $n } substance
   *[other] { $n } substances
}


# $what (message): what it is
web_desk-not-met = { $what }: not met


# $what (message): what it is
web_desk-not-known = { $what }: not known


# $what (name): what it is
web_desk-of-another = “{ $what }”, a check of another version


# $n (count): how many
web_desk-more-reasons = { $n ->
    [one] { $n } more reason
   *[other] { $n } more reasons
}

web_desk-done = Done
web_desk-done-bottles = Every bottle has a result, or stands in a run.
web_desk-done-limits = No result of the newest days lies above a limit on record.
web_desk-done-clocks = No holding time is over.
web_desk-start = Start here
web_desk-start-places = 1. A place and its wells
web_desk-start-people = 2. People
web_desk-start-trip = 3. A first trip
web_desk-start-wells = Describe a well
web_desk-templates = Templates to fill in
