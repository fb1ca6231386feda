### The age of water by environmental tracers: what was measured, what the models say, why there is no answer. Parts of
### refusals have no full stop: they stand within another.

# What cannot be.
# $tracer (name): its sign
age-of-tracer = { $tracer } of the sample

# What was found.
age-no-unit = a number without a unit

# What was found.
# $unit (name): as it was given
age-unit = the unit "{ $unit }"

# What is allowed.
# $known (list): units
age-one-of-units = one of { $known }; "pMC" alone may mean 100 F14C or a value decayed to the year of measurement: ask the laboratory

# What was found.
age-no-date = no day of sampling

# What is allowed.
age-date-of-sampling = the day of sampling, from the field sheet: an age counts back from it

# What cannot be.
age-year-of-sampling = year of sampling

# What is allowed.
age-value-with-u-above = a value with a standard uncertainty above 0; for a non-detect the bound above 0: ask the laboratory for both

# What is allowed.
age-f14c-allowed = at most about 2, the highest air after the bomb tests: check whether the number is in percent, or the water is contaminated with carbon-14

# What cannot be.
# $tracer (name): its sign
age-history-of = history of { $tracer }

# What is allowed.
age-give-history = a history of the region with years, values, u, region and source

# What was found.
age-no-source = no region or no source

# What is allowed.
age-source-and-region = the region that it holds for and where the numbers are from

# What was found.
# $year (amount): a year
# $before (amount): the one that stands before it
age-year-after = { $year } after { $before }

# What is allowed.
age-rising-years = years that rise, each once

# What was found.
# $value (amount): as it was given
# $year (amount): of the history
age-value-of-year = { $value } in { $year }

# What is allowed.
age-history-value = numbers of 0 or more (tritium above 0, since it is read between years in its logarithm), u of 0 or more

# What was found.
age-not-given = nothing

# What cannot be.
# $tracer (name): its sign
# $year (amount): first of the history
age-background-before = background of { $tracer } before { $year }

# What is allowed.
age-natural-background = the natural background with its u, above 0 for tritium, 0 for a gas that was not made yet

# A fault that an answer can stand with.
# $tracer (name): its sign
# $last (amount): its last year
# $sampled (amount): year of sampling
age-history-ends = The history of { $tracer } ends in { $last }, the sample is of { $sampled }: the last value is held, with twice its u. Bring the history up to the sample.

# A fault that an answer can stand with.
# $tracer (name): its sign
# $from (amount): last year before the gap
# $to (amount): first year after it
age-history-gap = The history of { $tracer } has no value between { $from } and { $to }: it is drawn straight across.

# Which search.
age-weighting-function = the integral of the weighting function

# What cannot be.
# $parameter (name): of a model
age-parameter = { $parameter ->
    [mean-age] mean age
    [eta] η (exponential-piston)
    [dispersion] dispersion D
    [scale] scale Ta
    [screen] screen
    [share] share of the first water
   *[other] { $parameter }
}

# What is allowed.
age-one-or-more = 1 or more; 1 is the exponential model

# What is allowed.
age-youngest-before-oldest = a youngest age of 0 or more, and an older oldest one

# What was found.
# $before (amount): highest value of old water today
age-never-above = no year since 1953 whose rain decays to more than { $before }, the most that older water can have

# What is allowed.
age-rain-above-old = a history that reaches from before 1953 over the bomb tests to the sample

# A measured value.
# $value (amount): with unit
# $u (amount): its standard uncertainty, number alone
age-value-u = { $value-expanded } (k = 2)

# A non-detect.
# $limit (amount): what could be seen
age-below-limit = below { $limit }

# What tritium says.
# $value (message): with u, or below a limit
# $before (amount): L
# $younger (share): largest
age-tritium-before = Tritium { $value } lies below { $before }, the most that water from before 1953 can have here today: the water can all be from before 1953; at most { $younger } of it is younger.

# What tritium says.
# $value (message): with u, or below a limit
# $after (amount): M
# $from (amount): year
age-tritium-after = Tritium { $value } lies above { $after }, the least that water wholly from { $from } or later can have: rain of the time since then is in it.

# What tritium says.
# $value (message): with u, or below a limit
# $before (amount): L
# $after (amount): M
age-tritium-between = Tritium { $value } does not lie clearly below { $before } or above { $after }: mixed water, or it cannot be told.

# What tritium says.
# $value (message): with u, or below a limit
# $before (amount): L
# $seen (amount): least that could be seen
age-tritium-too-coarse = Tritium { $value }: the measurement sees { $seen } and more, and { $before } decides here. Enrichment or helium ingrowth with u of 0.1 TU or less can tell; this cannot.

# What cannot be.
age-months-of-rain = months of rain

# What is allowed.
age-summer-and-winter = give summer and winter months whose rain differs from the groundwater

# What cannot be.
age-summer-over-winter = summer infiltration over winter infiltration

# What was found.
age-no-gas = a tracer that is no gas of the air

# What is allowed.
age-gas-of-the-air = SF6, CFC-11, CFC-12 or CFC-113

# What cannot be.
age-recharge-temperature = recharge temperature

# What cannot be.
age-recharge-height = recharge height

# What is allowed.
age-temperature-and-height = temperature and height of recharge with u, by noble gases or as a range: a gas cannot be read without them

# What cannot be.
age-excess-air = excess air

# What is allowed.
age-neon-or-argon = excess air by neon or argon: each cm³ STP/kg adds a tenth to SF6, so that there is no SF6 age without it

# Why a CFC gives no age.
# $tracer (name): its sign
age-cfc-methane = { $tracer ->
    [CFC-12] CFC-12 gives no age: methane was found, and where it forms bacteria take CFCs apart; the water is not older than the apparent CFC-12 age, and that is all
   *[other] { $tracer } gives no age: methane was found, and where it forms bacteria take CFCs apart
}

# Why a CFC gives no age.
# $tracer (name): its sign
age-cfc-sulfide = { $tracer ->
    [CFC-12] CFC-12 is shown as "not older than" only: hydrogen sulfide was found
   *[other] { $tracer } gives no age: hydrogen sulfide was found, and bacteria of such water take it apart
}

# Why a CFC gives no age.
# $tracer (name): its sign
# $least (amount): oxygen
age-cfc-oxygen = { $tracer ->
    [CFC-12] CFC-12 is shown as "not older than" only: oxygen is below { $least }
   *[other] { $tracer } gives no age: oxygen is below { $least }, and it can have been taken apart
}

# Why a CFC gives no age.
# $tracer (name): its sign
age-cfc-not-looked-at = { $tracer ->
    [CFC-12] CFC-12 is shown as "not older than" only: oxygen, hydrogen sulfide and methane were not all looked at
   *[other] { $tracer } gives no age: oxygen, hydrogen sulfide and methane were not all looked at; measure them
}

# What is allowed.
# $most (amount): highest of the history
age-at-most-air = at most { $most }, the highest of the air: more is contamination, and gives no age

# What cannot be.
age-copper-tube = helium of the copper tube

# What was found.
age-bubbles = bubbles while it was filled

# What is allowed.
age-tube-at-well-head = a tube without bubbles: take it from the well head under the well's own pressure, never from the basin

# What cannot be.
age-half-life = half-life of tritium

# What is allowed.
age-half-life-of-laboratory = the half-life with which the laboratory decayed the value to the day of sampling (12.32 years; older reports 12.43): ask for it

# What cannot be.
# $gas (name): helium or neon
age-gas-of-tube = { $gas ->
    [helium] total helium
    [neon] total neon
   *[other] { $gas }
}

# What is allowed.
# $least (amount): equilibrium with air
age-at-least-solubility = about { $least } or more, what air alone dissolves: less means that gas was lost on the way or in the tube; sample again

# What cannot be.
age-terrigenic-helium = helium from the rock

# What is allowed.
# $most (amount): equilibrium with air
age-terrigenic-ratio = at most { $most } where the 3He/4He of the rock is not known: mantle helium would pass for tritium's; find the ratio, or use another tracer

# What cannot be.
age-tritiogenic-helium = helium-3 from tritium

# What is allowed.
age-tritiogenic-allowed = 0 or more within three u: less means lost gas, or a temperature or excess air that is not that of this water

# What cannot be.
age-models-to-try = models to try

# What is allowed.
age-name-a-model = name one at least; partial-exponential needs a screen that ends above the bottom

# What cannot be.
age-tracers-to-fit = tracers to fit

# What is allowed.
age-measure-one = give one tracer at least

# What is allowed.
# $year (amount): of the other tracers
age-within-a-year = within a year of { $year }, when the other tracers were sampled

# What was found.
age-one-twice = one tracer twice

# What is allowed.
age-one-of-each = each tracer once: take the mean of bottles that agree

# What cannot be.
age-initial-carbon = A0, carbon-14 at recharge

# What is allowed.
age-band-of-initial-carbon = a band of F14C above 0 and up to 1.5, over the models that apply: no carbon-14 age without it

# Which search.
# $model (name): its key
age-draws-of-model = the weighted draws of the model { $model }, which are worth too few; draw more,

# A question, as a clause.
age-ask-before-bomb = less than a twentieth of the water fell since 1953

# A question, as a clause.
age-ask-part-young = more than a twentieth of the water fell since 1953

# A question, as a clause.
age-ask-wholly-young = more than 19 parts in 20 of the water fell since 1953

# An answer over the models that fit.
# $asked (message): the question
# $count (count): models
age-decided-yes = { $count ->
    [one] Decided: { $asked }, by the one model that is not rejected.
   *[other] Decided: { $asked }, by all { $count } models that are not rejected.
}

# An answer over the models that fit.
# $asked (message): the question
# $count (count): models
age-decided-no = { $count ->
    [one] Decided that it is not so: { $asked }, by the one model that is not rejected.
   *[other] Decided that it is not so: { $asked }, by all { $count } models that are not rejected.
}

# An answer over the models that fit.
# $asked (message): the question
age-likely-yes = Likely, by models with 95 % of the weight: { $asked }.

# An answer over the models that fit.
# $asked (message): the question
age-likely-no = Likely not so, by models with 95 % of the weight: { $asked }.

# An answer over the models that fit.
# $asked (message): the question
age-cannot-tell = Cannot tell whether it is so: { $asked }. The models that fit do not agree.

# A model.
# $model (name): its key
age-model-name = { $model ->
    [exponential-piston] exponential-piston
    [partial-exponential] partial exponential
    [piston-dead] piston with dead water
    [exponential-dead] exponential with dead water
    [two] exponential with old piston water
   *[other] { $model }
}

# How models were tested.
# $models (list): their names
age-not-determined = Not determined by so few tracers: { $models }. What they show is mostly the prior.

# How models were tested.
# $models (list): their names
age-by-construction = Fits by construction, nothing is tested: { $models }.

# How models were tested.
# $models (list): their names
age-rejected = Rejected at 5 %: { $models }.

# How models were tested.
# $models (list): their names
age-fits = Tested and not rejected: { $models }.

# How models were tested.
# $tracer (name): its sign
# $p (amount): best p without it
# $reason (message): a usual one
age-disturbed = No model fits all tracers; without { $tracer } one does (p { $p }): { $reason }. It was not dropped.

# How models were tested.
age-none-fits = No model fits the tracers, and leaving out any one does not mend it: no age is given.

# What the models that fit say.
# $low (share): lowest
# $high (share): highest
age-young-share = Of the water { $low } to { $high } fell since 1953, over all models that fit (95 %).

# What the models that fit say.
# $ranges (list): of years
age-mean-age = Mean age { $ranges } years, over all models that fit (95 %; of mixtures with dead water that of the young part). Separate ranges are separate possible ages; their middle is none.

# What the models that fit say.
age-dead-part-fits = A mixture with old water of unknown age fits as well: the mean age of all the water has no upper end.

# What the models that fit say.
# $first (message): a model
# $second (message): another
# $low (share): young water of the first
# $high (share): of the second
# $tracer (name): its sign
age-most-unlike = The two most unlike models that fit are { $first } ({ $low } since 1953) and { $second } ({ $high }); they differ most in { $tracer }.

# Why a tracer is often disturbed.
age-reason-cfc = CFCs are taken apart where there is sulfide or methane, and added by contamination

# Why a tracer is often disturbed.
age-reason-sf6 = some rock gives off SF6, and excess air adds it

# Why a tracer is often disturbed.
age-reason-helium = helium is lost as gas, and rock adds it

# Why a tracer is often disturbed.
age-reason-carbon = carbon without carbon-14 comes in from carbonate rock and old organic matter

# Why a tracer is often disturbed.
age-reason-tritium = contamination adds tritium, and the history may not be that of the recharge area

# The age beside the travel time by Darcy.
# $p (share): chance
age-older-than-darcy = The age by tracers exceeds the travel time by Darcy (chance { $p }): look at porosity, at water that does not move and trades tracer with what does, at another recharge area.

# The age beside the travel time by Darcy.
# $p (share): chance
age-younger-than-darcy = The travel time by Darcy exceeds the age by tracers (chance { $p }): look at a leak along the casing, at porosity and conductivity, at a nearer recharge area.

# The age beside the travel time by Darcy.
# $p (share): chance
age-agrees-with-darcy = The age by tracers does not contradict the travel time by Darcy (chance that it is the longer: { $p }).

# A number that is compared.
age-tracer-age-low = age by tracers, 2.5 %

# A number that is compared.
age-tracer-age-high = age by tracers, 97.5 %

# What cannot be.
age-candidate-tracers = tracers that could be measured

# What cannot be.
# $tracer (name): its sign
age-price-of = price of { $tracer }

# What was found.
age-all-rejected = every one rejected

# What is allowed.
age-find-disturbed = one that fits: find the disturbed tracer first

# A finding beside the fit.
# $thickness (amount): of the dry zone
age-dry-zone = The dry zone is { $thickness } thick: tritium starts with the rain, gases at the water table, carbon-14 where carbonate is cut off from soil air. One age for all of them mixes clocks.

# What stands beside every age.
age-no-proof = an age is no proof of purity, and none that water is fit to drink; that is for the analysis and the local authority

# What stands beside every age.
# $low (amount): years
# $high (amount): years
age-prior = before the tracers every age from { $low } to { $high } counts alike on its logarithm, every model alike; flow is taken as steady

# What stands beside every age.
# $tracer (name): its sign
# $region (name): of the history
# $source (name): of the history
age-history-used = { $tracer }: history of { $region } ({ $source })

# What stands beside every age.
# $tritium (amount): years
# $carbon (amount): years
age-half-lives = half-lives: tritium { $tritium }, carbon-14 { $carbon }

# A ranking.
age-no-preference = the first two tracers gain as much a price within the error of the simulation: no preference
