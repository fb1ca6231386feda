### Labels within pictures; titles, captions and what a picture shows are said where it is filled.

## In several pictures

figure-taken-out = taken out by a person
figure-programmes-limits = the programme’s limits
figure-programmes-limit = the programme’s limit

## Results of one analyte

figure-value-with-u = value with its expanded uncertainty
figure-value-without-u = value, uncertainty not stated
figure-up-to-bound = at most: somewhere up to the bound

## A calibration line

figure-standard = standard, with its interval
figure-line-with-band = line with its band
figure-left-over = Left over, in multiples of u; pale: where 95 % of them should lie

# In a narrow picture.
figure-left-over-narrow = Left over, in u; pale: 95 % of them

# An axis.
# $axis (name): what the line's own axis shows
figure-standards-in-order = standards in their order, { $axis }

## The blanks of a run

figure-mean-of-kind = mean of the kind

# $value (amount): without unit
figure-critical-value = critical value { $value }

# $value (amount): without unit
figure-detection-limit = detection limit { $value }

# An axis.
# $unit (name): of the values
figure-bent-axis = { $unit }; near zero linear, beyond logarithmic

# How many blanks of a kind.
# $blanks (count): of the kind
figure-blanks-of-kind = n = { $blanks }

## A run in time

figure-check = check
figure-drift-removed = drift that was removed
figure-internal-standard = Internal standard, % of its first readings
figure-checks = Checks, % of the assigned value, with 95 % interval

# In a narrow picture.
figure-checks-narrow = Checks, % of the assigned value

# An axis.
figure-time-of-day = time of day

## Blanks over the years

figure-up-to-limit = not detected: somewhere up to the limit
figure-above-warning = above the warning limit
figure-above-action = above the action limit

# $value (amount): without unit
figure-action-limit = action limit { $value }

# $value (amount): without unit
figure-warning-limit = warning limit { $value }

# $value (amount): without unit
figure-median = median of the baseline { $value }

# $blanks (count): of the baseline
figure-baseline = baseline: { $blanks ->
    [one] the first one sets
   *[other] the first { $blanks } set
} the limits

# An axis.
# $unit (name): of the values
figure-log-axis-from-zero = { $unit }; logarithmic, zero at the foot

## How often

# An axis: how many.
figure-waters = waters

## Pairs

figure-pair = a pair, both detected
figure-pair-apart = further apart than their u predicts
figure-pair-non-detect = a pair with a non-detect: no difference to show

# An axis.
figure-difference = Difference of the two, % of their mean

# An axis.
# $unit (name): of the level
figure-level = level, { $unit } (log axis)

# A number that is none.
figure-not-given = not given

# A line of shares, with its share at the water's own pH.
# $name (name): of the species
# $percent (name): whole percent, or under one
figure-here = { $name } ({ $percent } % here)
