### The packing list of a planned trip.

packing-title = What to take on the next trip

# Under the title.
# $chosen (count): number of the design
# $designs (count): how many there are
packing-design-of = design { $chosen } of { $designs }

# Title of a section.
packing-to-pack = To pack

# Title of a section.
packing-designs = The designs

# Title of a section.
packing-rests-on = What this rests on

# Caption.
packing-bottles = Bottles to label

# Column.
packing-label = label

# Column.
packing-kind = kind

# Column with boxes to tick.
packing-packed = packed

# Caption.
packing-best-designs = Designs that nothing beats in price and chance, cheapest first

# Note.
packing-what-chance-is = Chance: to decide the question with clean work; a spike of contamination is not in it.

# Column: number of the design.
packing-design = design

# Column.
packing-price = price

# Column.
packing-samples-a-well = samples a well

# Column.
packing-trip-blanks = trip blanks

# Column.
packing-bottle-blanks = bottle blanks

# Column.
packing-spikes = spikes

# Column: volume of a bottle.
packing-millilitres = mL

# Column: minutes that a bottle stands open.
packing-minutes-open = min open

# Column: detection limit.
packing-detects = detects, ng/L

# Column: chance to decide the question.
packing-chance = chance

# Heading of a column: reference materials, drift checks, second sources.
packing-vials = vials of the run
