### What the numbers beside a finding are, by the name that the record keeps: `Message::named("compared", name)`.

compared-assigned = assigned
compared-between-runs = between runs
compared-bias-of-the-control-water = bias of the control water
compared-blanks = blanks
compared-calculated = calculated
compared-calculated--25--C = calculated, 25 °C
compared-centre = centre
compared-certified = certified
compared-charge-balance = charge balance
compared-contact-time = contact time
compared-contact-with-the-pipe = contact with the pipe
compared-critical-value = critical value
compared-days-held = days held
compared-degrees-of-freedom = degrees of freedom
compared-difference = difference
compared-dissolved-oxygen = dissolved oxygen
compared-field-blank = field blank
compared-filtered = filtered
compared-first = first
compared-first-value = first value
compared-flow = flow
compared-forecast--97-5 = forecast, 97.5 %
compared-found = found
compared-found-in = found in
compared-from-alkalinity = from alkalinity
compared-highest-bottle-blank = highest bottle blank
compared-hours-to-acid = hours to acid
compared-in-the-open-air = in the open air
compared-last-value = last value
compared-least-share-asked-for = least share asked for
compared-limit-for-their-mean--95 = limit for their mean, 95 %
compared-limit-of-the-blanks = limit of the blanks
compared-longest-asked-for = longest asked for
compared-longest-contact = longest contact
compared-mean-of-the-training-blanks = mean of the training blanks
compared-measured = measured
compared-measured--25--C = measured, 25 °C
compared-net = net
compared-nitrate = nitrate
compared-oxygen = oxygen
compared-pairs = pairs
compared-pipe = pipe
compared-recovery = recovery
compared-recovery-of-the-first-value = recovery of the first value
compared-relative-standard-deviation = relative standard deviation
compared-second = second
compared-share-allowed = share allowed
compared-share-of-the-counts = share of the counts
compared-standard-deviation = standard deviation
compared-standard-deviation-between-runs = standard deviation between runs
compared-target = target
compared-this-run = this run
compared-travel-time--2-5 = travel time, 2.5 %
compared-travel-time--97-5 = travel time, 97.5 %
compared-u-from-the-years = u from the years
compared-u-of-the-budget = u of the budget
compared-unfiltered = unfiltered
compared-upper-bound--one-sided-95 = upper bound, one-sided 95 %
compared-upper-tolerance-limit = upper tolerance limit
compared-warmest = warmest

# The record's "1 − blank/gross".
compared-share-by-blank = 1 − blank/gross

# $size (amount): of the particles
compared-particles = particles of at least { $size }

# $class (name): of ISO 14644-1
# $size (amount): of the particles
# $seen (name): how well the limit is known
compared-class-limit = limit of class { $class } at { $size } ({ $seen ->
    [recalled] recalled
    [seen] seen
    [computed-by-the-standard-s-formula] computed by the standard's formula
   *[other] { $seen }
})

# $metal (name): its symbol
compared-excess = { $metal } in excess
