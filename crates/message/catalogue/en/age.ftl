### The age of water by environmental tracers: what was measured, what the models say, why there is no answer.

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
