### What a laboratory says of its own quality, and the profile of checks that its results are judged by.

# $verdict (message): the verdict
# $profile (name): the profile
laboratory-verdict-by = { $verdict } by profile “{ $profile }”

# Under a table of results, on a page, in a package.
# $results (count): accepted
# $profile (name): the profile
laboratory-accepted-by = { $results ->
    [one] { $results } result is
   *[other] { $results } results are
} accepted by profile “{ $profile }”: its rules, chosen by a person of the programme, say what was asked of them, not the programme’s table of checks.

# The finding of every result that a profile judged.
# $profile (name): the profile
# $why (name): the reason of the choice
laboratory-profile = Judged by profile “{ $profile }”, chosen because: { $why }. What it does not name the programme’s table decides, and what was measured and is not met keeps the weight that the table gives it.

# Something is not on record for some of the results.
# $what (message): what
# $lacking (count): results without
# $results (count): all of the series
# $bottles (list): bottles of the first of them
laboratory-lacks = Not on record for { $lacking } of { $results ->
    [one] { $results } result
   *[other] { $results } results
}: { $what } (bottles { $bottles }).

laboratory-what-method = the method and the reporting limit
laboratory-what-accreditation = whether the method is accredited
laboratory-what-blank = a blank of the laboratory that would have shown what matters
laboratory-what-recovery = a recovery of the laboratory
laboratory-what-duplicate = a duplicate of the laboratory
laboratory-what-meter-check = a check of the meter in a buffer or standard on that day

# $results (count): of the series
laboratory-method-stated = Method and reporting limit are stated for { $results ->
    [one] the result
   *[other] all { $results } results
}.

# $laboratories (list): laboratories
laboratory-accredited = It is on record whether the method is accredited ({ $laboratories }).

# $laboratories (list): laboratories
# $results (count): results of such a method
laboratory-not-accredited = The method is not accredited ({ $laboratories }): { $results ->
    [one] { $results } result
   *[other] { $results } results
}.

# $blanks (count): of the laboratory
# $share (share): of what was found that a blank may hold
laboratory-blanks-low = { $blanks ->
    [one] The { $blanks } blank of the laboratory stays
   *[other] The { $blanks } blanks of the laboratory stay
} under its reporting limit or under { $share } of what was found.

# $blank (amount): what the blank holds
# $found (amount): what was reported
# $bottle (name): of which bottle
# $share (share): that a blank may hold
laboratory-blank-high = A blank of the laboratory holds { $blank } beside { $found } in bottle { $bottle }: above its reporting limit and above { $share } of what was found.

# $recoveries (count): of the laboratory
# $lowest (share): the lowest
# $highest (share): the highest
# $low (share): lower end of the window
# $high (share): upper end
laboratory-recoveries-within = { $recoveries ->
    [one] The { $recoveries } recovery of the laboratory lies
   *[other] The { $recoveries } recoveries of the laboratory lie
} between { $lowest } and { $highest }; allowed are { $low } to { $high }.

# $recovery (share): one of the laboratory
# $low (share): lower end of the window
# $high (share): upper end
laboratory-recovery-outside = A recovery of the laboratory is { $recovery }; allowed are { $low } to { $high }.

# $duplicates (count): of the laboratory
# $greatest (share): greatest difference over the mean
# $limit (share): allowed
laboratory-duplicates-agree = { $duplicates ->
    [one] The { $duplicates } duplicate of the laboratory differs
   *[other] The { $duplicates } duplicates of the laboratory differ
} by { $greatest } of the mean at most; allowed are { $limit }, near the reporting limit the reporting limit itself.

# $difference (share): over the mean
# $limit (share): allowed
laboratory-duplicate-differs = A duplicate of the laboratory differs by { $difference } of the mean; allowed are { $limit }, near the reporting limit the reporting limit itself.

laboratory-chart-in-control = The control chart of the laboratory is in control, as it says.
laboratory-chart-out = The control chart of the laboratory is not in control, as it says.

# $results (count): such values
laboratory-negative = { $results ->
    [one] { $results } value is negative and comes
   *[other] { $results } values are negative and come
} without uncertainty: neither detected nor not detected.

# $checks (count): of the meter
laboratory-meter-within = { $checks ->
    [one] The { $checks } check of the meter reads
   *[other] The { $checks } checks of the meter read
} what the buffer or standard holds, within what is allowed.

# $read (amount): what the meter read
# $expected (amount): what the standard holds
# $allowed (amount): difference allowed
laboratory-meter-outside = The meter read { $read } where the buffer or standard holds { $expected }; a difference of { $allowed } is allowed.
