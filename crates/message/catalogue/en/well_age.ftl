### How old the water of a well is: answers, reasons, the picture, the page. Reasons that stand within another sentence have no full stop.

# A finding.
# $tracer (name): its sign
# $name (name): the history that is used
well_age-several-histories = There are several histories of { $tracer } for this site: { $name } is used, the first by name. Say which holds, by taking back the other.

# A finding.
# $tracer (name): its sign
# $day (date): of sampling
well_age-older-left-out = { $tracer } of { $day } is left out: it was sampled more than a year before the newest.

# A finding.
# $tracer (name): its sign
well_age-several-values = { $tracer } was measured several times: the newest value counts. Take the mean of bottles that agree.

# Why something was not used.
well_age-gases-without-height = noble gases give a temperature for a stated height only, and the height of the recharge area is not on record

# Why something was not used.
well_age-helium-without-neon = helium without neon: what air brought cannot be taken off

# Why something was not used.
well_age-helium-without-others = helium-3 without tritium, recharge temperature and height: what came from tritium cannot be told

# Why something was not used.
# $tracer (name): its sign
well_age-no-history = { $tracer } has no history of rain or air on record for this site

# Why something was not used.
# $tracer (name): its sign
well_age-not-used = { $tracer } says nothing in this water

# Why something was not used.
# $tracer (name): its sign
well_age-gas-without-recharge = { $tracer } cannot be read without temperature and height of recharge

# Why something was not used.
well_age-decay-not-known = tritium holds for the day of measurement, and that day is not on record

# Why something was not used.
well_age-half-life-not-said = tritium: the half-life with which the laboratory reckoned back is not on record

# Why something was not used.
well_age-not-normalised = carbon-14 was not normalised for fractionation: ask the laboratory for F14C

# A verdict.
well_age-before-needs-tritium = Cannot tell whether the water fell before 1953: without a value of tritium that could have seen younger rain this is not said, whatever other tracers suggest.

# Heading.
well_age-how-old = How old the water is

# Where an age would be asked.
well_age-none-measured = How old the water is cannot be said: no tracer was measured.

# Where an age would be asked.
# $wells (list): those without
well_age-none-measured-at = No tracer was measured at { $wells }.

# Begins the sentences of a well.
# $well (name): the well
well_age-of-well = { $well }:

# No answer.
well_age-no-age = No age is given: the tracers that were measured give none.

# No answer.
# $why (message): a reason, without full stop
well_age-no-age-because = No age is given: { $why }.

# An answer.
# $high (share): largest part that is younger
well_age-before-decided = The water fell before 1953, but for { $high } of it at most (95 %, by every model that fits).

# Follows an answer that models give.
# $younger (share): largest part that is younger, by tritium with no model
well_age-without-model = By tritium alone, without a model, at most { $younger } of it fell since 1953.

# An answer.
# $high (share): largest part that is younger
well_age-before-likely = The water likely fell before 1953, by models with 95 % of the weight; by all that fit up to { $high } of it may be younger.

# An answer.
# $low (share): smallest part that is young
well_age-young-decided = At least { $low } of the water fell since 1953 (95 %, by every model that fits).

# An answer.
# $low (share): smallest part that is young
well_age-young-likely = Nearly all of the water likely fell since 1953, by models with 95 % of the weight; by all that fit at least { $low } of it.

# An answer.
# $low (share): smallest part
# $high (share): largest part
well_age-part-decided = Part of the water fell since 1953: { $low } to { $high } of it (95 %, by every model that fits).

# An answer.
# $low (share): smallest part
# $high (share): largest part
well_age-part-likely = Part of the water likely fell since 1953, by models with 95 % of the weight; by all that fit { $low } to { $high } of it.

# An answer.
# $low (share): smallest part
# $high (share): largest part
well_age-cannot-tell = Whether the water fell before or since 1953 cannot be told: { $low } to { $high } of it may be younger, over all models that fit (95 %).

# Beside an answer.
well_age-nothing-tested = With so few tracers no model is tested: what they leave open ranges over all that was assumed before, and no age is given.

# Beside an answer.
# $tracers (list): signs
well_age-rests-on = By { $tracers }.

# Beside an answer.
# $tracers (list): signs
# $histories (list): names
well_age-rests-on-with-history = By { $tracers }; rain and air after { $histories }.

# A clause made a sentence.
# $says (message): what stands beside every age
well_age-beside = { CAPITAL($says) }.

# Beside an answer.
well_age-no-darcy = There is nothing to compare it with: the travel time by Darcy is not known here.

# In a list.
# $why (message): a reason, without full stop
well_age-not-used-because = Not used: { $why }.

# Beside an answer.
# $tracer (name): its sign
# $name (name): of the history
# $region (name): where it holds
# $source (name): where its numbers are from
well_age-history-used = { $tracer }: { $name }, { $region } ({ $source }).

# Caption.
# $well (name): the well
well_age-tracers-caption = Tracers of { $well } as they were measured; ± is the expanded uncertainty

# Heading.
well_age-column-tracer = Tracer

# Heading.
well_age-column-measured = Measured

# Heading.
well_age-column-sampled = Sampled

# Heading.
well_age-column-laboratory = Laboratory

# Carbon-14 alone.
# $low (amount): years
# $high (amount): years
# $half-life (amount): years
well_age-carbon-band = Carbon-14 alone: { $low } to { $high } years since the carbon was cut off from the soil, over all corrections that apply (half-life { $half-life }).

# Carbon-14 alone.
# $low (amount): years
# $half-life (amount): years
well_age-carbon-older = Carbon-14 alone: more than { $low } years since the carbon was cut off from the soil; no upper end can be told (half-life { $half-life }).

# Carbon-14 alone.
well_age-carbon-none = Carbon-14 alone gives no age.

# Caption.
well_age-carbon-caption = Carbon-14: each published correction that applies, with the level at the start and 95 % of its ages

# Heading.
well_age-column-correction = Correction

# Heading.
well_age-column-start = A₀

# Heading.
well_age-column-years = Years (95 %)

# Caption.
well_age-models-caption = Each model by itself: how it stands, its ages, the part of the water since 1953

# Heading.
well_age-column-model = Model

# Heading.
well_age-column-ages = Age T (95 %)

# Heading.
well_age-column-state = Stands

# Heading.
well_age-column-young = Since 1953 (95 %)

# A state.
well_age-state-rejected = rejected at 5 %

# A state.
well_age-state-fits = tested, fits

# A state.
well_age-state-untested = not tested

# Ages.
# $ranges (list): of years
well_age-ranges = { $ranges } years

# Parts of the water.
# $low (share): lowest
# $high (share): highest
well_age-share-range = { $low } to { $high }

# Where the water fell.
well_age-on-the-line = δ¹⁸O and δ²H lie on the line of rain: rain that was not evaporated.

# Where the water fell.
# $share (share): of winter rain
# $expanded (share): its expanded uncertainty
well_age-winter-share = Read as season, { $share } ± { $expanded } (k = 2) of it is winter rain.

# Where the water fell.
# $low (amount): number alone
# $high (amount): with unit
well_age-height-reading = Read as height, it fell between { $low } and { $high }.

# Where the water fell.
# $difference (amount): per mil
# $u (amount): its standard uncertainty
well_age-from-todays-rain = It lies { $difference-expanded } (k = 2) from the mean of today’s rain.

# Which tracer next.
# $tracer (name): its sign
# $left (share): of the width that is left
# $decided (share): gain in the chance of an answer
well_age-next = To measure next, for its price: { $tracer }; on average it leaves { $left } of the width of the range and raises the chance of an answer by { $decided }.

# Which tracer next.
well_age-next-no-preference = Which tracer to measure next: no preference, the first two gain as much for their price.

# Title.
# $well (name): the well
well_age-figure-title = How old the water of { $well } is, by each model

# Under the title.
well_age-figure-under = The higher, the likelier; each strip by itself.

# Alternative text.
# $well (name): the well
# $models (list): each with its ages
well_age-figure-shows = Ages of the water of { $well }, 95 % by each model that fits: { $models }.

# Alternative text.
# $well (name): the well
well_age-figure-shows-none = Ages of the water of { $well } by each model; the tracers reject them all.

# In the alternative text.
# $model (name): its name
# $ages (message): ranges
well_age-model-ages = { $model }: { $ages }

# Caption.
# $well (name): the well
well_age-figure-caption = Ages of the water of { $well } by each model, and its tritium on the rain of each year as it would be today

# Legend.
well_age-legend-fits = fits

# Legend.
well_age-legend-rejected = rejected by the tracers

# Legend.
well_age-legend-darcy = travel time by Darcy (95 %)

# Axis.
well_age-age-axis = age T, years

# Title of the lower picture.
well_age-rain-title = Rain of each year as it would be today

# Legend.
well_age-legend-rain = rain, decayed

# Legend.
# $value (message): measured
well_age-rain-measured = the water: { $value }

# Axis.
well_age-rain-axis = tritium, TU

# Beside a strip.
# $model (name): its name
# $weight (share): of the evidence
well_age-strip-name = { $model } ({ $weight } of the weight)

# Beside a strip.
# $model (name): its name
well_age-strip-rejected = { $model } (rejected)

# Title of the page.
# $well (name): the well
well_age-page-title = How old the water of { $well } is

# On the page.
# $well (name): the well
well_age-page-none = No tracer was measured at { $well }: how old its water is cannot be said. Tritium with a low detection limit, δ¹⁸O and δ²H are cheap and hold in sulfidic water.

# Link.
# $well (name): the well
well_age-back-to-well = Back to { $well }

# Link.
well_age-enter-tracers = Enter tracers

# Link.
well_age-enter-facts = Enter what is known of the recharge
