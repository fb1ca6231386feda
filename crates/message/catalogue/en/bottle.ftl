### What blanks say of bottles, people and the forecast.

# $person (name): who practises
# $mean (amount): of the training blanks
# $limit (amount): what the team's scatter allows
# $blanks (count): training blanks
bottle-training-matches = The training blanks of { $person }, mean { $mean }, match those of the team (up to { $limit } for { $blanks ->
    [one] { $blanks } blank
   *[other] { $blanks } blanks
}).

# $person (name): who practises
# $mean (amount): of the training blanks
# $limit (amount): what the team's scatter allows
# $blanks (count): training blanks
bottle-training-above = The training blanks of { $person }, mean { $mean }, lie above what the team's scatter allows, { $limit } for { $blanks ->
    [one] { $blanks } blank
   *[other] { $blanks } blanks
}: more practice before the field.

# $kind (name): kind of blank
# $analyte (name): of what
# $slope (amount): pg a year
# $low (amount): lower end of its interval
# $high (amount): upper end
bottle-blanks-rise = The { $kind ->
    [field-blank] field blanks
    [trip-blank] trip blanks
    [equipment-blank] equipment blanks
    [bottle-blank] bottle blanks
    [procedural-blank] procedural blanks
   *[other] { $kind }s
} of { $analyte } rise by { $slope } a year (95 % interval { $low } to { $high }): look at what changed, bottles, acid, box, before the next trip.

# $kind (name): kind of blank
# $analyte (name): of what
# $slope (amount): pg a year
# $low (amount): lower end of its interval
# $high (amount): upper end
bottle-blanks-level = The { $kind ->
    [field-blank] field blanks
    [trip-blank] trip blanks
    [equipment-blank] equipment blanks
    [bottle-blank] bottle blanks
    [procedural-blank] procedural blanks
   *[other] { $kind }s
} of { $analyte } do not rise beyond their scatter: { $slope } a year (95 % interval { $low } to { $high }).

# $lot (name): its label
# $limit (message): what its blanks say
bottle-lot = Lot { $lot }: { $limit }

# $confidence (share): of the limit
# $content (share): of the bottles
# $upper (amount): they bring less than this
# $blanks (count): of the lot
# $target (amount): what a bottle may bring
bottle-lot-may-go = With { $confidence } confidence { $content } of the bottles of this lot bring less than { $upper }, by { $blanks ->
    [one] { $blanks } blank
   *[other] { $blanks } blanks
}; the target is { $target }: the lot may go out.

# $confidence (share): of the limit
# $content (share): of the bottles
# $upper (amount): they bring less than this
# $blanks (count): of the lot
# $target (amount): what a bottle may bring
# $lower (amount): the same percentile lies above this
bottle-lot-refused = With { $confidence } confidence { $content } of the bottles of this lot bring less than { $upper }, by { $blanks ->
    [one] { $blanks } blank
   *[other] { $blanks } blanks
}; the target is { $target }, and that percentile lies above { $lower }: wash the lot again.

# $confidence (share): of the limit
# $content (share): of the bottles
# $upper (amount): they bring less than this
# $blanks (count): of the lot
# $target (amount): what a bottle may bring
bottle-lot-undecided = With { $confidence } confidence { $content } of the bottles of this lot bring less than { $upper }, by { $blanks ->
    [one] { $blanks } blank
   *[other] { $blanks } blanks
}; the target is { $target }: not decided; more blanks narrow the limit.

# $blank (message): field blank with u
# $low (amount): forecast, 2.5 %
# $high (amount): forecast, 97.5 %
bottle-blank-above-forecast = The field blank, { $blank }, lies above the forecast, { $low } to { $high }: the stages of the forecast are not the cause, look for another source.

# $blank (message): field blank with u
# $low (amount): forecast, 2.5 %
# $high (amount): forecast, 97.5 %
bottle-blank-below-forecast = The field blank, { $blank }, lies below the forecast, { $low } to { $high }: the forecast is too careful.

# $blank (message): field blank with u
# $low (amount): forecast, 2.5 %
# $high (amount): forecast, 97.5 %
bottle-blank-as-forecast = The field blank, { $blank }, agrees with the forecast, { $low } to { $high }.

# $metals (name): symbols with commas between
# $sources (message): signatures that take part
# $p (amount): chance of so bad a fit if they were right
bottle-pattern-fits = The excess of { $metals } fits { $sources } (p { $p }).

# $metals (name): symbols with commas between
# $sources (message): signatures that take part
# $p (amount): chance of so bad a fit if they were right
bottle-pattern-fits-none = The excess of { $metals } fits none of the signatures well; nearest is { $sources } (p { $p }).

# $metals (name): symbols with commas between
bottle-pattern-without-source = No signature takes part in the excess of { $metals }.

# $source (name): the signature's
bottle-source = { $source ->
    [galvanised-pipe] galvanised pipe
    [stainless-steel-304] stainless steel 304
    [stainless-steel-316] stainless steel 316
   *[other] { $source }
}

# $first (message): one source or several
# $other (message): one more
bottle-source-with = { $first } with { $other }
