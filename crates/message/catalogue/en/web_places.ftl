### Wells, trips, lots, the field sheet, accounts, long work.

## Wells.
web_places-wells = Wells
web_places-streams = Streams
web_places-wells-none = No well is described yet.
web_places-describe-well = Describe a well
web_places-describe-site = Describe a site
web_places-flow = Flow
web_places-flow-none = not timed
web_places-newest = Newest
web_places-newest-none = no result
web_places-next-visit = Next visit
web_places-next-none = none planned
web_places-pipe = Pipe
web_places-site = Site

# $n (count): how many
web_places-all-results = { $n ->
    [one] { $n } result
   *[other] { $n } results
}


# $well (name): the well
# $found (amount): the value
web_places-section-of = { $well }: { $found } deep, to scale in depth

web_places-section-none = no section on record

# $n (count): how many
web_places-wells-more = { $n ->
    [one] { $n } more
   *[other] { $n } more
}


# $well (name): the well
web_places-well-title = The well { $well }


# $well (name): the well
web_places-stream-title = The stream { $well }


# $well (name): the well
web_places-no-well = There is no well “{ $well }” in the programme.

web_places-to-newest = Newest results
web_places-to-all = All results
web_places-to-time = Over time
web_places-add-section = Add casing and screen
web_places-add-layer = Add layers
web_places-add-readings = Add readings
web_places-add-fills = Add timed fills
web_places-visits = Measured on its visits
web_places-holds = What the well holds

# $well (name): the well
web_places-holds-caption = The value of { $well } by day: the common value of the bottles that agree

web_places-holds-foot = What the bottles share is in U once and in full. Where they disagree no number is given: their values stand side by side.
web_places-what = What
web_places-value = Value ± U
web_places-verdict = Verdict
web_places-day = Day
web_places-fraction = Fraction
web_places-bottles = Bottles
web_places-bottle = Bottle
web_places-put-back = With everything put back
web_places-because = Because of
web_places-notes = Field notes

# $what (name): what it is
# $found (name): the value
web_places-note = { $what }: { $found }


# $well (name): the well
web_places-newest-caption = The newest results of { $well }

web_places-newest-empty = No result of this well is on record.
web_places-filled = Filled
web_places-entered = As entered
web_places-acts = Enter and correct
## Trips.
web_places-trips = Trips
web_places-trip = Trip

# $n (count): how many
web_places-trips-caption = { $n ->
    [one] { $n } trip, newest first
   *[other] { $n } trips, newest first
}


# $n (count): how many
# $found (count): the value
web_places-trips-newest = { $n ->
    [one] The newest of { $found } trips
   *[other] The newest { $n } of { $found } trips
}

web_places-trips-none = No trip is on record yet.
web_places-plan = Plan the next trip
web_places-enter-trip = Enter a trip
web_places-enter-lot = Enter a lot of bottles
web_places-enter-acid = Enter an acid lot
web_places-enter-filter = Enter a filter lot
web_places-enter-person = Enter a person
web_places-state = State
web_places-planned = planned
web_places-on-the-way = on the way
web_places-in-the-run = in the run
web_places-done = done
web_places-nothing-taken = no bottles on record
web_places-start = Start
web_places-question = What it is to decide
web_places-persons = Who
web_places-acids = Acid lots
web_places-filters = Filter lots
web_places-lots = Lots of bottles

# $trip (name): the trip
web_places-trip-title = Trip { $trip }


# $trip (name): the trip
web_places-no-trip = There is no trip “{ $trip }” in the programme.


# $day (name): the day
# $limit (name): the limit
web_places-from-to = { $day } to { $limit }


# $what (name): what it is
web_places-to-decide = To decide: { $what }


# $who (name): who
web_places-day-persons = Taken by { $who }.


# $what (name): what it is
web_places-day-weather = Weather: { $what }.


# $what (name): what it is
web_places-day-wind = Wind: { $what }.


# $what (name): what it is
web_places-day-dust = Dust: { $what }.


# $what (name): what it is
web_places-day-salt = Road salt: { $what }.


# $what (name): what it is
web_places-day-engines = Engines: { $what }.


# $n (count): how many
# $found (count): the value
web_places-day-bottles = { $n ->
    [one] { $n } bottle, { $found } of them measured.
   *[other] { $n } bottles, { $found } of them measured.
}

web_places-tabs = Parts of the trip
web_places-readings = Readings
web_places-air = Air
web_places-journey = Journey
web_places-enter-bottle = Enter a bottle
web_places-enter-readings = readings
web_places-enter-fills = timed fills
web_places-enter-counts = particle counts
web_places-enter-custody = a step of custody
web_places-enter-spikes = spikes
web_places-gas = Hydrogen sulfide gathers in closed well houses and kills: measure the air before going in, and follow local rules.
web_places-no-flow = no fill was timed
web_places-flow-cannot = a timed fill cannot be

# $what (message): what it is
web_places-flow-unknown = Flow not known: { $what }.


# $found (name): the value
web_places-flow-is = Flow { $found }.


# $found (name): the value
# $what (name): what it is
web_places-contact = The water touches { $what } for { $found }.

web_places-no-readings = Nothing was read at a well on this trip yet.

# $well (name): the well
web_places-steady-caption = Whether the readings at { $well } were steady before the bottles

web_places-reading = Reading
web_places-how-many = Readings
web_places-steady = Steady
web_places-since = Since
web_places-rule = Rule
web_places-air-title = The air over the open bottles
web_places-no-air = No bottle of a well is on record, so no air is judged.

# $n (count): how many
web_places-bottles-caption = { $n ->
    [one] { $n } bottle and what it was exposed to
   *[other] { $n } bottles and what each was exposed to
}

web_places-bottles-none = No bottle of this trip is on record yet.
web_places-kind = Kind
web_places-well = Well
web_places-lot = Lot
web_places-by = By
web_places-acid = Acid
web_places-openings = Openings
web_places-in-cabinet = Open in cabinet
web_places-outdoors = Open outdoors
web_places-correct = Correct
web_places-nothing = Nothing is on record.
web_places-none-reading = No reading is on record.
web_places-none-fill = No timed fill is on record.
web_places-none-count = No particle count is on record.
web_places-none-custody = No step of custody is on record.
web_places-none-section = Casing and screen are not on record.
web_places-none-layer = The layers are not on record.
web_places-none-lot = No lot is on record.
web_places-none-acid = No acid lot is on record.
web_places-none-filter = No filter lot is on record.
web_places-of-well = The well
web_places-of-sections = Casing and screen
web_places-of-layers = Layers
web_places-of-readings = Readings at the wells
web_places-of-fills = Timed fills
web_places-of-counts = Particle counts
web_places-of-custody = Steps of custody
web_places-of-trip = The trip
## Lots.
web_places-lots-title = Lots of bottles
web_places-lots-how = May a lot go out? Its bottle blanks are held against the target of each metal by a one-sided tolerance limit (Owen 1958, from memory). Blanks must be drawn at random from the lot and handled like it.
web_places-lots-acid = Acid for washing is concentrated: gloves, goggles, acid into water, local rules first.
web_places-lots-none = No lot of bottles is on record.
web_places-lots-caption = Every lot on record

# $lot (name): the lot
web_places-lot-title = Lot { $lot }

web_places-released = released
web_places-held = held
web_places-not-decided = not decided
web_places-decision = Decision
web_places-cleaned-on = Cleaned on
web_places-blanks-measured = Blanks measured
web_places-with-target = Metals with a target
web_places-why-no-blank = No bottle blank of it was measured yet.
web_places-why-no-target = No target is set for any of its metals.

# $n (count): how many
# $found (count): the value
web_places-why-decided = { $n } of { $found ->
    [one] { $found } metal
   *[other] { $found } metals
} decided.


# $what (list): what it is
web_places-why-over = Over the target: { $what }.


# $what (list): what it is
web_places-why-open = More blanks would decide: { $what }.

web_places-why-all = Every metal with a target stays under it.
web_places-does-note = In this programme the lot’s decision moves no verdict.
web_places-does-warning = In this programme results from a lot that is held are provisional; one not decided moves none.
web_places-does-decisive = In this programme results from a lot that is held are rejected, from one not decided provisional.
web_places-correct-lot = Correct the lot
web_places-bottle-of-lot = Enter a bottle of it

# $lot (name): the lot
web_places-lot-blanks = Lot { $lot }: each bottle blank, pg per bottle, ± U

web_places-metal = Metal
web_places-target = Target
web_places-none-set = none set
web_places-no-u = (no U)
web_places-opens-case = ± is U, 95 %. A number opens its case.

# $lot (name): the lot
web_places-lots-fold = Lot { $lot }: what its bottles met, and its blanks metal by metal

## Field sheet.
web_places-field = Field sheet
web_places-field-phone = On the phone: one file that works without network, in both languages.
web_places-field-phone-act = field sheet for a phone
web_places-field-paper = on paper
web_places-field-labels = labels with codes

web_places-field-home = What the phone saves comes home here:
web_places-field-fits = Prints at full size (100 %).
web_places-other-labels = Labels for another sheet
web_places-labels-act = Labels as PDF
web_places-page-width = Page width, mm
web_places-page-height = Page height, mm
web_places-across = Labels across
web_places-down = Labels down
web_places-label-width = Label width, mm
web_places-label-height = Label height, mm
web_places-left = Left margin, mm
web_places-top = Top margin, mm
web_places-gap-across = Gap across, mm
web_places-gap-down = Gap down, mm
web_places-differ = Field sheets that differ

# $what (name): what it is
# $found (name): the value
web_places-differ-of = { $what }, { $found }


# $who (name): who
web_places-says = { $who } says


# $found (name): the value
web_places-take-this = Take { $found }

web_places-record-says = The record says
web_places-what-holds = What holds
web_places-settle-reason = Reason
web_places-settle-both = Both entries stay on record.
web_places-decide = Decide
## Accounts.
web_places-accounts = Accounts
web_places-accounts-where = They stand in a file of their own beside the programme, so that a copy of the record carries no secrets.
web_places-accounts-who = Who may come in
web_places-accounts-none = Nobody has an account: whoever uses this machine acts as lead.
web_places-name = Name
web_places-role = Role
web_places-yourself = yourself
web_places-take-away = Take away

# $who (name): who
web_places-take-away-of = Take away the account of { $who }

web_places-account-form = Add an account, or give a name another role or password
web_places-account-first = From the first account on everybody has to log in, on this machine too. The first is a lead’s.
web_places-account-ends = Another role or password, or an account taken away, ends the sessions of that name.
web_places-account-name = As it is to stand as author in the record.
web_places-password = Password

# $n (count): how many
web_places-password-hint = { $n ->
    [one] At least { $n } character. It is kept as its hash, and typed again after a fault.
   *[other] At least { $n } characters. It is kept as its hash, and typed again after a fault.
}

web_places-keep = Keep
web_places-role-reader = reader: looks, makes a report
web_places-role-sampler = sampler: enters what was done and read in the field
web_places-role-analyst = analyst: brings in files, weighs evidence
web_places-role-lead = lead: signs, describes wells, changes checks, makes accounts
## Login.
web_places-who-are-you = Who are you?
web_places-log-in = Log in
web_places-come-in = Come in
web_places-accounts-made = Accounts are made by who keeps this programme, with

# $n (count): minutes
web_places-too-many = Too many tries that failed; try again in { $n } min.


## Jobs.

# $who (name): who
web_places-begun-by = Begun by { $who }.

web_places-look-again = Look again
web_places-stop = Stop
web_places-stop-how = It stops at the next place where nothing is left half done.

# $n (count): how many
web_places-at-work = { $n ->
    [one] at work, { $n } s
   *[other] at work, { $n } s
}

web_places-may-leave = You can leave this page; the work goes on.
web_places-not-done = Not done.
web_places-back-to-form = Back to the form
web_places-typed-stands = What was typed stands there.
web_places-done-word = Done.
web_places-go-on = Go on
web_places-stopped = Stopped before this step; what was done before it stands.
web_places-job-gone = This work is not known here: the program was started again since. What it did stands in the record.
web_places-deriving-decision = Deriving anew after the decision
web_places-deriving-step = The decision is kept; deriving everything anew
