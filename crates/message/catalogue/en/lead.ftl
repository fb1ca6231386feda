# A ratio of a source of lead that has no u.
# $ratio (name): 206/207 or another
# $source (name): the source of lead
lead-ratio-without-u = The ratio { $ratio } of { $source } is not used: it has no u, so nothing can agree or disagree with it.

# A ratio that cannot be.
# $ratio (name): 206/207 or another
# $source (name): the source of lead
lead-ratio-not-positive = The ratio { $ratio } of { $source } is not used: a ratio is above zero.

# A ratio of other isotopes.
# $ratio (name): 206/204 or another
# $source (name): the source of lead
lead-ratio-of-others = The ratio { $ratio } of { $source } is not used: only 206/207 and 208/206 are compared, either way up.

# A source with one of the two ratios.
# $source (name): the source of lead
lead-one-ratio = The lead of { $source } is not compared: 206/207 and 208/206 are both needed.

# The reference's vial is not among the counts.
# $vial (name): the vial
lead-bias-vial = The mass bias of the lead ratios is not corrected: the vial { $vial } of the recipe has no lead counts in this run.

# The reference has no ratio.
lead-bias-no-ratio = The mass bias of the lead ratios is not corrected: it names no ratio.

# The reference is of an isotope that was not measured.
# $mass (name): mass number
lead-bias-not-measured = The mass bias of the lead ratios is not corrected: { $mass } is not measured.

# The reference gave no ratio.
lead-bias-too-little = The mass bias of the lead ratios is not corrected: the reference's vials hold too little lead, or one replicate only.

# $why (message): what the correction refuses
lead-bias-refused = The mass bias of the lead ratios is not corrected: { $why }.
