### The value of a well on a day: the common value of its bottles.

# $element (name): as it is called
# $well (name): the well
# $fraction (message): filtered or not
# $day (date): of sampling
# $amount (amount): the value with its expanded uncertainty
# $low (amount): lower end of the 95 % interval, without unit
# $high (amount): upper end
# $bottles (list): labels of the bottles in it
well_value-common = { $element } at { $well }, { $fraction }, { $day }: { $amount } (95 % interval { $low } to { $high }), the common value of { $bottles }, which agree.

# The same of one bottle.
# $element (name): as it is called
# $well (name): the well
# $fraction (message): filtered or not
# $day (date): of sampling
# $amount (amount): the value with its expanded uncertainty
# $low (amount): lower end of the 95 % interval, without unit
# $high (amount): upper end
# $bottle (name): its label
well_value-one-bottle = { $element } at { $well }, { $fraction }, { $day }: { $amount } (95 % interval { $low } to { $high }), one bottle alone, { $bottle }.

# Not detected.
# $element (name): as it is called
# $well (name): the well
# $fraction (message): filtered or not
# $day (date): of sampling
# $bound (amount): upper bound
# $bottles (list): labels of the bottles in it
well_value-at-most = { $element } at { $well }, { $fraction }, { $day }: not detected, at most { $bound }, from { $bottles }.

# A bound on what was found.
# $element (name): as it is called
# $well (name): the well
# $fraction (message): filtered or not
# $day (date): of sampling
# $bound (message): the bound, and what was found
# $bottles (list): labels of the bottles in it
well_value-bound = { $element } at { $well }, { $fraction }, { $day }: { $bound }, from { $bottles }.

# Bottles that disagree.
# $element (name): as it is called
# $well (name): the well
# $fraction (message): filtered or not
# $day (date): of sampling
# $values (list): of the bottles
well_value-apart = { $element } at { $well }, { $fraction }, { $day }: { $values }. The bottles disagree; no number is given.

# The value of one of them.
# $bottle (name): its label
# $amount (amount): found in it
well_value-of-bottle = { $amount } ({ $bottle })

# The bound of one of them, and what was found in it.
# $bottle (name): its label
# $bound (amount): rounded up
# $value (amount): found in it
well_value-bound-of-bottle = at most { $bound }, { $value } found ({ $bottle })

# The value once more, with what a person took out.
# $found (message): the value as it stands
# $amount (amount): with everything put back
well_value-with = { $found } With what was taken out put back: { $amount }.

# The same where it is a bound.
# $found (message): the value as it stands
# $bound (amount): upper bound with everything put back
well_value-with-bound = { $found } With what was taken out put back: at most { $bound }.

# The same where the bottles disagree then.
# $found (message): the value as it stands
# $values (list): of the bottles
well_value-with-no-number = { $found } With what was taken out put back: { $values }, which disagree.

# Bottles that are not in it because a check that the programme calls decisive is not met.
# $found (message): the value
# $bottles (list): labels, each with the checks
well_value-left-out = { $found } Not in it: { $bottles }.

# One of them.
# $bottle (name): its label
# $checks (name): names of the checks
well_value-bottle-and-checks = { $bottle } ({ $checks })

## Derivation

well_value-method = the common value of bottles of one water: weights by what the bottles do not share; what they share is carried once and in full

# $bottle (name): its label
# $weight (share): in the common value
well_value-net = net value of { $bottle }, weight { $weight }

well_value-case-of-bottle = its own case

well_value-shared = what the bottles share: stock and line, drift, dead time, mean blank, recovery

well_value-shared-step = u of the weighted sum, the bottles' own parts taken off

# $element (name): symbol
# $well (name): the well
well_value-value = { $element } in { $well }, common value

# $factor (amount): of the variance
well_value-widened = Σ w·c; the variance that the bottles do not share { $factor } times, by the scatter of all bottles, also of those taken out

## Tables

well_value-caption = The wells that day: one value a well, from the bottles that agree

# Heading of a column.
well_value-bottles-in-it = bottles in it

# Heading of a column.
well_value-fraction = fraction

# Heading of a column.
well_value-day = day

# Heading of a column.
well_value-put-back = with everything put back

well_value-disagree = disagree: no number

well_value-table-note = The interval carries once, unreduced, what the bottles share. A bottle that a person took out is not in the value; its scatter is in the interval.

# What all rows of the table have in common.
# $day (date): of sampling
# $fraction (message): filtered or not
well_value-all-of-day = All on { $day }, { $fraction }.
