### Why a metal is low: its solids, what carries it, what the table of constants does not know.

# Heading.
# $metal (message): its name
metal-why-low = Why the { $metal } is low, or not

# $index (amount): of saturation
# $low (amount): of the interval
# $high (amount): of the interval
# $word (message): over, under, at saturation, cannot tell
metal-galena = Galena, PbS: saturation index { $index } (95 % { $low } to { $high }): { $word }.

# $index (amount): of saturation
# $most (amount): upper end
metal-galena-bound = Galena, PbS: saturation index { $index }, an upper bound since one of its parts was not detected: at most { $most }.

# $answers (list): one a constant
metal-alternatives = The alternative constants answer { $answers }.

# $index (amount): of saturation
# $solid (message): whose constant it is
# $source (list): of the constant: its title, or the word for what has none
metal-answer-of-solid = { $index } with { $solid } of { $source }

# $index (amount): of saturation
# $species (name): whose constant it is
# $source (list): of the constant: its title, or the word for what has none
metal-answer-of-species = { $index } with { $species } of { $source }

# $index (amount): of saturation
metal-answer-without-bisulfides = { $index } with metal bisulfide complexes left out

metal-nobody-can-say = Published constants differ by more than what is asked, so nobody can say from this table whether galena holds the lead down.

## Solids.

# $metal (message): its name
metal-solids = Solids of { $metal } against this water

# A column.
metal-solid = solid

# A column.
metal-saturation-index = saturation index

# A column.
metal-interval = 95 % interval

# A column: over, under, at saturation, cannot tell.
metal-word = word

# A column.
metal-what-makes-the-doubt = what makes the doubt

# A column.
metal-constant = constant

# $low (amount): of an interval
# $high (amount): of an interval
metal-from-to = { $low } to { $high }

# $most (amount): of an interval without lower end
metal-at-most = at most { $most }

# A part of an uncertainty.
# $solid (message): whose constant it is
# $share (amount): percent
metal-part-of-solid = log K of { $solid } { $share }

# A part of an uncertainty.
# $species (name): whose constant it is
# $share (amount): percent
metal-part-of-species = log K of { $species } { $share }

# A part of an uncertainty.
# $share (amount): percent
metal-part-of-alkalinity = alkalinity { $share }

# A part of an uncertainty.
# $measured (name): pH or an element
# $share (amount): percent
metal-part-of-measured = { $measured } { $share }

metal-how-constants-are-known = The last column says how the solid’s own constant is known: seen in its source, recalled (memory), or computed.

## What carries it.

metal-carriers = What carries each metal in this water

# A column.
metal-species = species, share and 95 % interval

# A column.
metal-without-bisulfides = with metal bisulfides left out

# $species (name): as a chemist writes it
# $share (amount): percent
metal-form = { $species } { $share }

# $species (name): as a chemist writes it
# $share (amount): percent
# $low (amount): of its interval
# $high (amount): of its interval
metal-form-with-interval = { $species } { $share } ({ $low } to { $high })

metal-unfiltered = Unfiltered bottles hold particles too; shares are those of dissolved matter.

metal-bisulfides-in-dispute = The constants of metal bisulfides are in dispute: they are in half of the draws, so the intervals span both answers.

## Against pH.

# Title; its first letter is made large.
# $metal (message): its name
# $water (name): well, or bottle
metal-over-species = { $metal } of { $water } over its species

# Title; its first letter is made large.
# $metal (message): its name
# $water (name): well, or bottle
metal-over-species-without-bisulfides = { $metal } of { $water } over its species, metal bisulfides left out

# $metal (message): its name
# $ph (amount): of this water
# $forms (list): species with their shares
metal-shares = Share of each species of { $metal } against pH 4 to 12; at this water’s pH { $ph }: { $forms }.

metal-only-ph-changes = All totals held as they are in this water; only pH changes.

# $metal (message): its name
metal-against-ph = Species of { $metal } against pH, with the default constants; their doubt stands in the table.

# $metal (message): its name
metal-against-ph-without-bisulfides = Species of { $metal } against pH, with the default constants, metal bisulfides left out; their doubt stands in the table.

## What the table does not know.

# Heading.
metal-not-known = What the table of constants does not know

metal-all-in-table = Every element measured here has species in the table.

# $elements (list): names
metal-not-in-table = Measured, but the table holds no species of: { $elements }. Nothing is said of what form they take or which solid holds them.
