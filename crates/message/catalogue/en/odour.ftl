### The smell, the open bottle and the air of a well house.

# Heading.
odour-smell = The smell

odour-no-sulfide = No sulfide was measured in this water; nothing is said of its smell.

# $sulfide (amount): as S
# $share (amount): percent that is H2S
# $hydrogen-sulfide (amount): in the water
# $air (amount): over the water
odour-nose = Of { $sulfide } sulfide (as S) { $share } is H₂S at this pH: { $hydrogen-sulfide }. Air at rest over the water holds { $air }. The published odour thresholds differ a thousandfold; all are shown.

# Sulfide was not detected.
# $sulfide (amount): as S, upper bound
# $share (amount): percent that is H2S
# $hydrogen-sulfide (amount): in the water
# $air (amount): over the water
odour-nose-bound = Of at most { $sulfide } sulfide (as S) { $share } is H₂S at this pH: { $hydrogen-sulfide }. Air at rest over the water holds at most { $air }. The published odour thresholds differ a thousandfold; all are shown.

odour-against-thresholds = H₂S of this water against published odour thresholds

# A column.
odour-threshold = threshold

# A column: where the threshold lies.
odour-at = at

# A column.
odour-this-water = this water

# A column: by how many times the threshold is exceeded.
odour-above-it = above it

# A column.
odour-source-heading = source (how known)

# $times (amount): over a threshold
odour-times = { $times } times

# $source (name): as published
# $known (message): seen, memory
odour-source = { $source } ({ $known })

odour-nose-is-no-meter = A nose is no meter: it tires within minutes and fails where H₂S is dangerous.

## Rows of the table of thresholds, by their key.

odour-dissolved = water, odour threshold of H2S dissolved in water

odour-taste-and-odour = water, lower end of the taste and odour threshold 0.05 to 0.1 mg/L

odour-recognition = air, recognition threshold in air

odour-geometric-mean = air, geometric mean of published odour thresholds in air

## The open bottle.

# Heading.
odour-open-bottle = The open bottle

# $why (message): refusal of the calculation
odour-not-worked-out = Not worked out: { $why }.

# $carbon-dioxide (amount): lost
# $before (amount): pH
# $after (amount): pH
odour-bottle-loses = Left open until its CO₂ is that of outdoor air the water loses { $carbon-dioxide } CO₂ and its pH goes from { $before } to { $after }.

# $carbon-dioxide (amount): taken up
# $before (amount): pH
# $after (amount): pH
odour-bottle-takes-up = Left open until its CO₂ is that of outdoor air the water takes up { $carbon-dioxide } CO₂ and its pH goes from { $before } to { $after }.

# $before (amount): saturation index
# $after (amount): saturation index
# $calcite (amount): that could form
odour-calcite-could-form = The saturation index of calcite goes from { $before } to { $after }; up to { $calcite } could form.

# $before (amount): saturation index
# $after (amount): saturation index
odour-no-calcite = The saturation index of calcite goes from { $before } to { $after }; none can form.

# $oxygen (amount): taken
# $acid (amount): set free
# $likely (amount): half-time
# $short (amount): half-time, number alone
# $long (amount): half-time
odour-sulfide-oxidises = Sulfide goes to sulfate with { $oxygen } of oxygen and { $acid } of acid; that much is sure. How fast is not: half of it in about { $likely }, with a factor three either way for traces of metal ({ $short } to { $long }; Millero et al. 1987, from memory).

## The air of a well house.

# Heading.
odour-well-house = The air of a well house

odour-no-flow = No flow was timed on that trip, so what it could bring into the air is not known.

# $flow (amount): of the well
# $brought (amount): in a minute, with two u
# $ceiling (amount): over the water at rest, with two u
# $acid (amount): with all sulfide as H2S
# $temperature (amount): of a warm water
# $warm (amount): with all sulfide as H2S and the water warm
# $highest (amount): that and two u
# $house (amount): air of the house
odour-house = If all its sulfide left the water as H₂S, { $flow } would bring { $brought } of H₂S a minute into an enclosed house. At rest over this water, at its own temperature and pH, air holds { $ceiling }; with all its sulfide as H₂S { $acid }, and warmed to { $temperature } as well { $warm }, with two standard uncertainties of sulfide and constant at most { $highest }. The times are the earliest, those of { $house } of still air: a yardstick, no measured house; twice the air takes twice the time.

# The same where sulfide was not detected: every figure is that of its limit.
# $flow (amount): of the well
# $brought (amount): in a minute
# $ceiling (amount): over the water at rest
# $highest (amount): with all sulfide as H2S, the water warm, and two u
# $house (amount): air of the house
odour-house-bound = Sulfide was not detected. At its limit, if all of it left the water as H₂S, { $flow } would bring at most { $brought } of H₂S a minute into an enclosed house; air at rest over this water would hold at most { $ceiling }, and at most { $highest } were all of it H₂S and the water warm. The times are the earliest, those of { $house } of still air: a yardstick, no measured house.

odour-against-limits = H₂S in still air against published occupational limits

# A column.
odour-limit = limit

# A column.
odour-reached-after = reached after

# A column.
odour-how-known = how known

# A limit above what this water can bring.
# $highest (amount): at most
odour-not-reached = not by this analysis (at most { $highest })

# Doubt decides, or what becomes of the water.
# $time (amount): at the earliest
odour-perhaps-reached = cannot be told; after { $time } at the earliest

odour-perhaps-reached-at-once = cannot be told; within a minute at the earliest

odour-under-a-minute = under a minute

odour-another-day = What is not reached is said of this analysis alone; the water of another day may carry more.
