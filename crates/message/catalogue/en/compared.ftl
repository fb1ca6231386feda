### The numbers that a finding compares.

compared-as-it-stands = as it stands
compared-waters-part = the water's part of the metal in the bottle
compared-assigned = assigned
compared-between-runs = between runs
compared-bias-of-control-water = bias of the control water
compared-blanks = blanks
compared-calculated = calculated
compared-calculated-at-twenty-five = calculated, 25 °C
compared-centre = centre
compared-certified = certified
compared-charge-balance = charge balance
compared-contact-time = contact time
compared-contact-with-pipe = contact with the pipe
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
compared-forecast = forecast, 97.5 %
compared-found = found
compared-found-in = found in
compared-from-alkalinity = from alkalinity
compared-highest-charge-balance = highest charge balance
compared-highest-bottle-blank = highest bottle blank
compared-hours-to-acid = hours to acid
compared-in-open-air = in the open air
compared-last-value = last value
compared-least-share = least share asked for
compared-limit-for-mean = limit for their mean, 95 %
compared-limit-of-blanks = limit of the blanks
compared-longest-asked-for = longest asked for
compared-longest-contact = longest contact
compared-lowest-charge-balance = lowest charge balance
compared-mean-of-training-blanks = mean of the training blanks
compared-measured = measured
compared-measured-at-twenty-five = measured, 25 °C
compared-net = net
compared-nitrate = nitrate
compared-oxygen = oxygen
compared-pairs = pairs
compared-pipe = pipe
compared-recovery = recovery
compared-recovery-of-first-value = recovery of the first value
compared-second = second
compared-share-allowed = share allowed
compared-share-of-counts = share of the counts
compared-standard-deviation-between-runs = standard deviation between runs
compared-target = target
compared-this-run = this run
compared-travel-time-low = travel time, 2.5 %
compared-travel-time-high = travel time, 97.5 %
compared-u-from-years = u from the years
compared-u-of-budget = u of the budget
compared-unfiltered = unfiltered
compared-upper-bound = upper bound, one-sided 95 %
compared-upper-tolerance-limit = upper tolerance limit
compared-warmest = warmest
compared-chi-squared = χ²

# $metal (name): symbol
compared-in-excess = { $metal } in excess

# $size (amount): µm
compared-particles = particles of at least { $size }

# $class (name): ISO 14644-1
# $size (amount): µm
# $known (name): seen, recalled or computed
compared-limit-of-class = limit of class { $class } at { $size } ({ $known ->
    [seen] seen
    [recalled] recalled
   *[computed] computed by the standard's formula
})

compared-relative-standard-deviation = relative standard deviation
compared-standard-deviation = standard deviation
compared-beyond-the-fit = beyond the fit, a bottle
compared-with-all-put-back = with everything put back

compared-net-needed = net value needed

compared-coverage-factor = coverage factor
compared-laboratory-blank = laboratory blank
compared-laboratory-recovery = laboratory recovery
compared-laboratory-duplicate = laboratory duplicate
