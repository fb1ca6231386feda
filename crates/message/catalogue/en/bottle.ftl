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
    [brass] brass
    [rubber-gloves] rubber gloves
   *[other] { $source }
}

# $first (message): one source or several
# $other (message): one more
bottle-source-with = { $first } with { $other }

# A blank that stands out, and what its metals look like.
# $bottle (name): the blank
# $pattern (message): what fits, a sentence
bottle-pattern-of-blank = Blank { $bottle } above the others of its kind: { $pattern }

# A pipe by its flow series, and what its metals look like.
# $well (name): the well
# $trip (name): the trip
# $pattern (message): what fits, a sentence
bottle-pattern-of-pipe = The pipe of { $well } by its flow series, { $trip }: { $pattern }

# The same where it could not be held against the signatures.
# $bottle (name): the blank
# $why (message): what was refused
bottle-no-pattern-of-blank = Blank { $bottle } above the others of its kind: { $why }.

# The same where it could not be held against the signatures.
# $well (name): the well
# $trip (name): the trip
# $why (message): what was refused
bottle-no-pattern-of-pipe = The pipe of { $well } by its flow series, { $trip }: { $why }.

# Training blanks that cannot be held against the team's.
# $analyte (name): symbol
# $blanks (message): kind of blank
# $person (name): who practises
# $why (message): what was refused
bottle-training-not-judged = { $analyte }, { $blanks } of { $person }: { $why }.

# $lot (name): its label
# $analyte (name): symbol
# $why (message): what was refused
bottle-lot-not-judged = Lot { $lot } is not judged for { $analyte }: { $why }.

## What is refused. No full stop: it stands within a longer sentence.

# $have (count): blanks of the lot
bottle-lot-few-blanks = blanks of the lot: { $have } given, at least 3 needed; fill three bottles or more of each lot with the cleanest water and acid

# $analyte (name): symbol
bottle-lot-no-target = targets of { $analyte }: 0 given, at least 1 needed; say in lot_target what a bottle may bring

# $target (amount): found
bottle-lot-target = target of the lot: found { $target }, expected more than 0 pg

# $have (count): blanks of the fewer
bottle-training-few = blanks of the team and of the beginner: { $have } given, at least 2 needed; two of the team and one of the beginner at least

# $metal (name): symbol
# $excess (amount): found
# $u (amount): its u
bottle-excess = excess of { $metal }: found { $excess } with u { $u }, expected a number with u above 0
