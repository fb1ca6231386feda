### Concentrations as laboratories reported them.

# $results (count): reported results
reported-subtitle = { $results ->
    [one] { $results } reported result
   *[other] { $results } reported results
}

reported-asked = What do the reported concentrations hold, how far do blanks and replicates bear them, and what is missing before one may rely on them?

reported-title = Concentrations as laboratories reported them

# $results (count): reported results
# $series (count): analytes and fractions
# $below (count): results below a limit
# $share (share): of all
reported-found = { $results ->
    [one] { $results } result
   *[other] { $results } results
} of { $series ->
    [one] { $series } analyte and fraction
   *[other] { $series } analytes and fractions
} came in; { $below } of them ({ $share }) { $below ->
    [one] is
   *[other] are
} below a limit.

# $accepted (count): results
# $provisional (count): results
# $rejected (count): results
reported-judged = { $accepted ->
    [one] { $accepted } result of well and river water is
   *[other] { $accepted } results of well and river water are
} accepted, { $provisional } provisional, { $rejected } rejected.

# $accepted (count): results
# $provisional (count): results
# $rejected (count): results
# $missing (message): what the checks that decided miss
reported-judged-with = { $accepted ->
    [one] { $accepted } result of well and river water is
   *[other] { $accepted } results of well and river water are
} accepted, { $provisional } provisional, { $rejected } rejected. What holds them back: { $missing }.

reported-provisional = Provisional does not say that a number is wrong. It says what would have to be shown before one may build on it.

# What a check that decided misses, and of how many results.
# $results (count): results that it holds back
reported-missing-recovery = no spike shows that nothing was lost ({ $results })

# $results (count): results that it holds back
reported-missing-uncertainty = the report states no uncertainty of the value ({ $results })

# $results (count): results that it holds back
reported-missing-blanks = too few blanks of the analyte ({ $results })

# $results (count): results that it holds back
reported-missing-estimated = the laboratory itself calls the value an estimate ({ $results })

# $results (count): results that it holds back
reported-missing-limit = not detected, but not said below what ({ $results })

# $check (name): its name in the record
# $results (count): results that it holds back
reported-missing-other = { $check } ({ $results })

# One after the other, the most frequent first.
# $one (message): the first
# $more (message): the rest
reported-missing-more = { $one }; { $more }

# A few waters side by side.
reported-waters = Major ions and other reported concentrations
reported-waters-note = ± is the expanded uncertainty, k = 2, where the laboratory states one; < is its limit, not a value.

# A non-detect whose report does not say below what.
reported-below-not-stated = < not stated

# What a finding says of the water of a well.
# $well (name): the well, or the bottle where none is named
# $finding (message): what the finding says
reported-of-well = { $well }: { $finding }

# $analyte (name): its name in the language
# $fraction (name): of the water
reported-analyte = { $analyte }, { $fraction ->
    [filtered] filtered
    [unfiltered] unfiltered
   *[other] { $fraction }
}

# What came in.
reported-inventory = What came in, by analyte and fraction
reported-analyte-fraction = analyte, fraction
reported-results = results
reported-below-limit = below limit
reported-estimated = estimated
reported-values = values
reported-limits = limits
reported-inventory-note = The verdict shown is the least favourable one of the series. Values and limits from lowest to highest, as reported, to two digits.

# How many values came with their uncertainty.
# $stated (count): values with one
# $values (count): all values
reported-some-state-u = The reports state an uncertainty of { $stated } of { $values ->
    [one] the one value
   *[other] the { $values } values
}.

# $values (count): all values
reported-none-states-u = The reports state no uncertainty of { $values ->
    [one] the one value
   *[other] any of the { $values } values
}.

# $values (count): all values
reported-all-state-u = The reports state an uncertainty of { $values ->
    [one] the one value
   *[other] all { $values } values
}.

# What blanks and replicates say.
reported-evidence = What blanks and replicates of the same programme say
reported-found-in = found in
reported-nine-in-ten = nine samples in ten
reported-pairs = replicate pairs
reported-spread = spread of one value
reported-too-few = too few
reported-nine-in-ten-note = Nine samples in ten: with 95 % confidence no more than a tenth of samples handled alike hold more than this from elsewhere; censored blanks count at their limit; it takes 29 blanks.
reported-spread-note = Spread of one value: standard deviation from replicate pairs, relative where all values are above zero.

# The picture of the replicates.
# $analyte (name): its name in the language
reported-replicates = Replicate samples: { $analyte }

# $analyte (name): its name in the language
reported-replicates-shown = Relative difference of replicate pairs of { $analyte } against their level.

# $pairs (count): of replicates
reported-replicates-under = { $pairs ->
    [one] { $pairs } pair
   *[other] { $pairs } pairs
}; the reports state no uncertainty of these values, so this is what is known of it.

# $pairs (count): of replicates
# $stated (count): their values with an uncertainty
# $values (count): their values
reported-replicates-under-stated = { $pairs ->
    [one] { $pairs } pair
   *[other] { $pairs } pairs
}; the reports state an uncertainty of { $stated } of { $values ->
    [one] their one value
   *[other] their { $values } values
}.

# $analyte (name): its name in the language
reported-replicates-caption = Differences of replicate samples, { $analyte }, the analyte with most pairs.
