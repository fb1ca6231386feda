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
# The reference is a ratio of an isotope to itself.
lead-bias-one-isotope = The mass bias of the lead ratios is not corrected: the reference is a ratio of an isotope to itself.

# The reference cannot be.
# $value (amount): its ratio
lead-bias-out-of-range = The mass bias of the lead ratios is not corrected: the ratio of the reference is { $value }, and a ratio is above zero.

## The tables of a run

# Caption of a table.
lead-ratios = Lead isotope ratios

# A heading of a column.
lead-make-up = make-up

# What a bottle's make-up says.
lead-as-field-blanks = cannot be told apart from the field blanks

# What a bottle's make-up says.
lead-another-make-up = another make-up than the field blanks

# What a bottle's make-up says.
lead-too-few-counts = too few counts to tell

# In place of what it says.
lead-no-field-blanks = no field blanks to hold it against

# A row.
lead-field-blanks-together = field blanks together

# A note.
lead-of-all = Of all lead in the bottle, over the calibration blanks.

# A note.
lead-mass-bias-not-corrected = Mass bias is not corrected: bottles of this run compare, published ratios do not.

# A note.
# $vials (name): of the reference
# $source (name): where its ratios are from
# $first (message): factor of 206/207 with its u
# $second (message): factor of 208/206 with its u
lead-mass-bias-corrected = Mass bias corrected by { $vials } ({ $source }): times { $first } and { $second }; their u is in every figure and common to all.

# A note.
lead-comparison = The comparison is a χ² test over both ratios at 5 %. Like the blanks is not from the blanks: sources that nobody measured may look the same.

# Caption of a table.
lead-known-sources = Known sources of lead, and which of them the water's lead could be of

# A heading of a column.
lead-source-or-bottle = source or bottle

# A heading of a column.
lead-where-from = where from, or what it fits

# A note.
lead-sources-explained = A source alone by χ² over both ratios at 5 %; two sources by the mixing line, with the share of 206 from the first. Ratios lean, they do not prove: the rock has its own lead, and a source that nobody measured is not among the answers.

# A source that a bottle agrees with.
# $source (name): the source of lead
lead-as-source = as { $source }

# Several sources that a bottle agrees with.
# $one (message): the first
# $more (message): the rest
lead-or = { $one }, or { $more }

# Two sources that a bottle lies between.
# $first (name): a source of lead
# $second (name): another
# $share (amount): of 206 from the first, percent with its expanded uncertainty
lead-between = between { $first } and { $second }: { $share } of 206 from the first

# Several pairs that a bottle lies between.
# $one (message): the first
# $more (message): the rest
lead-or-between = { $one }; or { $more }

# A bottle that fits no source.
lead-no-known-source = no known source, and no two of them
