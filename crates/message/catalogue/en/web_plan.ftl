### The plan of the next trip on the web: the form, the designs, what goes along. Words of fields and checks by their names,
### `Message::named("web_plan", "field-…")`.

web_plan-title = Plan a trip

web_plan-intro = Which bottles and blanks decide the question? Every combination of the choices is a design. Shown are those that no other beats in price and chance, each with what it would end as by the decisive checks of this programme. What the form leaves open comes from the blanks, duplicates and spikes on record.

web_plan-ask-otherwise = Ask otherwise

web_plan-the-question = The question

web_plan-wells = Wells

web_plan-all-wells = All of them where none is ticked.

web_plan-take-enough = Take enough to be sure that

web_plan-prices = Prices, in your own money

web_plan-choices = Choices: numbers with commas; each combination is a design

web_plan-own-numbers = Numbers of your own in place of the record's

web_plan-rank = Rank the designs

web_plan-what-is-asked = Choose what is asked.

# $text (name): as it was typed
web_plan-no-numbers = Found "{ $text }", expected numbers with commas between.

web_plan-no-bottles = Bottles are counted: 0, 1, 2 …

# $found (count): combinations
# $most (count): on a page
web_plan-too-many-designs = Found { $found ->
    [one] { $found } combination
   *[other] { $found } combinations
}, expected at most { $most } on a page.

# $name (name): as it was typed
# $hint (name): what may be meant
web_plan-not-measured = Found "{ $name }", which no run on record measured{ $hint }.

web_plan-ask-anew = The question of this plan cannot be answered any more: ask it anew.

web_plan-name-there = A trip of this name is on record already.

web_plan-ends-accepted = accepted

# $why (list): what it lacks
web_plan-ends-provisional = provisional: { $why }

web_plan-would-end-as = Would end as

# $wells (list): without one
web_plan-no-spike-in = no spike in { $wells }

# $n (count): there are
# $least (count): that a decisive check asks for
web_plan-too-few-samples = { $n ->
    [one] { $n } bottle a well, { $least } asked for
   *[other] { $n } bottles a well, { $least } asked for
}

# $n (count): there are
# $least (count): that a decisive check asks for
web_plan-too-few-field-blanks = { $n ->
    [one] { $n } field blank, { $least } asked for
   *[other] { $n } field blanks, { $least } asked for
}

# $n (count): there are
# $least (count): that a decisive check asks for
web_plan-too-few-bottle-blanks = { $n ->
    [one] { $n } bottle blank, { $least } asked for
   *[other] { $n } bottle blanks, { $least } asked for
}

# $n (count): there are
# $least (count): that a decisive check asks for
web_plan-too-few-references = { $n ->
    [one] { $n } vial of a reference material, { $least } asked for
   *[other] { $n } vials of a reference material, { $least } asked for
}

# $n (count): there are
# $least (count): that a decisive check asks for
web_plan-too-few-drift-checks = { $n ->
    [one] { $n } drift check, { $least } asked for
   *[other] { $n } drift checks, { $least } asked for
}

# $n (count): there are
# $least (count): that a decisive check asks for
web_plan-too-few-second-sources = { $n ->
    [one] { $n } standard of a second source, { $least } asked for
   *[other] { $n } standards of a second source, { $least } asked for
}

web_plan-chance-over = over 99.9 %

web_plan-chance-under = under 0.1 %

# $n (count): its number
# $price (name): as it is printed
# $chance (name): as it is printed
web_plan-design-is = Design { $n }: price { $price }, chance { $chance }

# $price (name): beyond the design before
# $from (name): chance of the design before
# $to (name): chance
web_plan-beside = +{ $price }: { $from } → { $to }

web_plan-not-believed = would not be believed

web_plan-money-buys = What its money buys

web_plan-bottles = Bottles

# $n (count): designs
# $cheaper (count): below the line
web_plan-designs-caption = { $n ->
    [one] { $n } design that nothing beats
   *[other] { $n } designs that nothing beats, cheapest first
}{ $cheaper ->
    [0] .
    [one] ; below it { $cheaper } cheaper one that would not be believed
   *[other] ; below them { $cheaper } cheaper ones that would not be believed
}

web_plan-designs-foot = A number opens its packing list; ▸ is shown. "Accepted" still hangs on clean work, whole seals and a run in control.

web_plan-no-design = No design is on offer.

# $why (name): in words
web_plan-left-out = left out: { $why }

# $n (count): its number
web_plan-to-pack = To pack, design { $n }

# $n (count): bottles
web_plan-spares = { $n ->
    [one] { $n } spare bottle, washed as the others (one in ten, two at least)
   *[other] { $n } spare bottles, washed as the others (one in ten, two at least)
}

# $n (count): pairs
web_plan-gloves = { $n ->
    [one] { $n } pair of clean gloves
   *[other] { $n } pairs of clean gloves, two for each bottle that is opened
}

# $n (count): bags
web_plan-bags = { $n ->
    [one] { $n } clean bag
   *[other] { $n } clean bags, two around each bottle
}

# $volume (amount): of acid
web_plan-acid = { $volume } of acid for trace work, half a per cent of the volume and half as much again, in a bottle that cannot leak

web_plan-counter = the particle counter with its batteries charged, and its filter for zero

web_plan-acid-caution = Acid burns: goggles, gloves, water at hand; in the open air, never in a closed car. Sulfide water gives off H₂S when it is acidified.

web_plan-well-house-caution = Do not enter a closed well house, pit or tank and use no flame. Let trained people with a gas meter open it, never alone. Local codes and licensed practice come first.

web_plan-packing-pdf = Packing list as PDF, with labels and boxes to tick

web_plan-every-design = What every design that is accepted contains

web_plan-every-design-why = A bottle is accepted by the table of checks; what answers those that decide is in each of these designs.

web_plan-from-the-record = From the record

web_plan-to-bear-in-mind = To bear in mind

web_plan-make-trip = Make this trip

web_plan-make-with-bottles = Make this trip with its bottles

# $n (count): number of the design
# $wells (list): of the trip
web_plan-one-act-of = One act of the record with your name: the trip, and a label for every bottle of design { $n } at { $wells }.

# $lot (name): the newest
web_plan-of-lot = Bottles of lot { $lot }:

web_plan-may-it-go-out = may it go out?

# $fraction (name): as it is printed
web_plan-of-fraction = Fraction: { $fraction }.

web_plan-blanks-in-turn = Field blanks are opened at each well in turn.

web_plan-for-samplers = Making the trip is for sampler or more.

web_plan-kind-detect = a water of this level is detected

web_plan-kind-limit = a water is shown to lie on its side of a limit

web_plan-kind-lower = one water is shown to be lower than another

web_plan-kind-trend = a change over the years is seen

web_plan-kind-detection-limit = a detection limit is reached

web_plan-field-analyte = Metal

web_plan-hint-analyte = One that a run on record measured.

web_plan-field-detect-level = Level, ng/L

web_plan-hint-detect-level = What you expect in the water.

web_plan-field-limit-level = Level, ng/L

web_plan-hint-limit-level = What you expect.

web_plan-field-limit-limit = Limit, ng/L

web_plan-hint-limit-limit = The limit to decide about.

web_plan-field-lower-a = The lower one, ng/L

web_plan-field-lower-b = The higher one, ng/L

web_plan-field-trend-level = Level at the start, ng/L

web_plan-field-trend-percent-per-year = Change, % a year

web_plan-hint-trend-percent-per-year = Below zero: a fall.

web_plan-field-trend-years = Years

web_plan-field-trend-visits-per-year = Visits a year

web_plan-hint-trend-visits-per-year = 1 where left out.

web_plan-field-trend-natural-share = Scatter of the water itself

web_plan-hint-trend-natural-share = A share of the level, from visit to visit; 0 where left out.

web_plan-field-detection-limit-target = Detection limit, ng/L

web_plan-field-detection-limit-level = Level, ng/L

web_plan-hint-detection-limit-level = For the relative uncertainty; the target where left out.

web_plan-field-prices-bottle = A bottle

web_plan-hint-prices-bottle = Washed, filled, analysed; sample or blank.

web_plan-field-prices-spike = A spiked bottle

web_plan-field-prices-minute-saved = A minute saved

web_plan-hint-prices-minute-saved = Keeping bottles open for less time costs work.

web_plan-field-prices-litre = A litre carried

web_plan-field-prices-trip = The trip itself

web_plan-field-prices-vial = A vial of the run

web_plan-hint-prices-vial = Reference material, drift check, second source.

web_plan-field-choices-samples = Sample bottles a well

web_plan-field-choices-field-blanks = Field blanks

web_plan-hint-choices-field-blanks = Two at least: one shows no scatter.

web_plan-field-choices-trip-blanks = Trip blanks

web_plan-field-choices-bottle-blanks = Bottle blanks

web_plan-hint-choices-bottle-blanks = They stay at home.

web_plan-field-choices-spikes = Spiked bottles

web_plan-hint-choices-spikes = Of all wells together.

web_plan-field-choices-volume-ml = Fill volume, mL

web_plan-field-choices-minutes = Minutes open

web_plan-field-past-blanks-pg = Blanks so far, pg per bottle

web_plan-hint-past-blanks-pg = At least two, with commas.

web_plan-field-between-bottles-pg = Deviation between blanks, pg

web_plan-field-past-dof = Degrees of freedom of it

web_plan-field-laboratory-pg = Deviation of the laboratory, pg a bottle

web_plan-field-relative-sd = Scatter of one sample bottle

web_plan-hint-relative-sd = A share of its level.

web_plan-field-spike-sd = Scatter of one spike recovery

web_plan-hint-spike-sd = A share.

web_plan-field-recovery-u = Uncertainty of the recovery without a spike

web_plan-hint-recovery-u = A share, one standard uncertainty.

web_plan-field-name = Name of the trip

web_plan-hint-name = It stays; labels are made from it.

web_plan-field-starts = Day

web_plan-hint-starts = As 13 July 2027.

web_plan-check-run-blank-count = enough blanks

web_plan-check-number-blanks = blanks on record

web_plan-check-bottle-blank-against-forecast = blank as forecast

web_plan-check-number-duplicates = bottles agree

web_plan-check-number-duplicates-spread = bottles scatter little

web_plan-check-number-replicates = replicates agree

web_plan-check-run-duplicate = duplicates of the run agree

web_plan-check-number-recovery = metal comes back

web_plan-check-run-field-spike = field spike comes back

web_plan-check-run-lab-spike = spike of the laboratory comes back

web_plan-check-bottle-lot-blank = lot blanks low

web_plan-check-run-reference-material = control water right

web_plan-check-run-reference-warning = control water within its warning

web_plan-check-run-drift = drift

web_plan-check-run-drift-open = drift known to both ends

web_plan-check-run-fast-drift = fast drift seen

web_plan-check-run-second-source = second source

web_plan-check-cool-box-seal = seals whole

web_plan-check-number-above-blanks = above the blanks

web_plan-check-number-stability = same on a second run

web_plan-check-number-uncertainty = uncertainty stated

web_plan-check-number-water-share = the water's part

web_plan-check-number-excluded = taken out

web_plan-check-run-excluded = vial taken out
