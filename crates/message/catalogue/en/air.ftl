### What the counts of particles say of the air over the open bottle.

# Nobody counted.
air-not-counted = The air over the open bottle was not counted.

# $size (amount): smallest size counted
# $volume (amount): air drawn
# $upper (amount): one-sided bound, particles per m³
air-no-particle = No particle of at least { $size } was counted in { $volume }; with 95 % confidence the air held fewer than { $upper } per m³.

# $wanted (name): class that the programme asks for
# $volume (amount): air drawn
# $shown (name): class that it shows
air-class-shown = The counts stay under the limits of class { $wanted } and { $volume } is enough to show class { $shown }: one reading at one place, equivalent to the class limit, no classification of the cabinet.

# $wanted (name): class that the programme asks for
# $volume (amount): air drawn
# $needed (amount): air that would show it
# $size (amount): at this size
air-class-more-volume = The counts stay under the limits of class { $wanted }, but { $volume } cannot show it: count at least { $needed } at { $size }, for a minute or more.

# $wanted (name): class that the programme asks for
air-class-without-limit = No counted size has a limit in class { $wanted }; count at 0.3 or 0.5 µm.

# $wanted (name): class that the programme asks for
# $under (name): class whose limits hold
air-class-exceeded = The counts exceed the limits of class { $wanted }; they stay under those of class { $under }.

# $wanted (name): class that the programme asks for
air-class-nine-exceeded = The counts exceed the limits of class 9, and so of class { $wanted }.

# Sizes that no class speaks of.
air-no-size = No counted size lies where the classes have limits, 0.1 to 5 µm; count at 0.3 or 0.5 µm.

# Heading over table and picture of a trip.
air-over-bottles = The air over the open bottles

# Caption of the table.
air-counts = Air over the open bottles: what the counts say, and what they can show

# A place where particles were counted.
# $well (name): the well
air-cabinet-at = { $well }, cabinet

# A place where particles were counted.
# $well (name): the well
air-open-air-at = { $well }, open air

# For how long bottles stood open there.
# $minutes (amount): all of them as long
# $bottles (count): how many
air-open-for = { $minutes }, { $bottles ->
    [one] { $bottles } bottle
   *[other] { $bottles } bottles
}

# For how long bottles stood open there.
# $low (amount): the shortest, number alone
# $high (amount): the longest
# $bottles (count): how many
air-open-between = { $low } to { $high }, { $bottles ->
    [one] { $bottles } bottle
   *[other] { $bottles } bottles
}

# Column.
air-bottles-open = bottles open

# Column.
air-litres = litres

# Column: class that the volume can show.
air-shown = shown

# Column: class whose limits the upper bounds stay under.
air-bounded = bounded

# Column: litres that would show the programme's class.
air-needed = needed

# Cell under "needed".
air-enough = enough

# Cell under "needed": no counted size has a limit.
air-no-such-size = no size

# Cell under "needed".
air-too-many = too many counted

# Note of the table.
# $class (name): class that the programme asks for
air-columns = Under: the strictest class of ISO 14644-1 whose limits the counts stay under. Shown: that this volume is large enough to show. Bounded: whose limits the upper 95 % bounds stay under. Needed: litres that would show class { $class }, which the programme asks for. One count at one place is a reading equivalent to a class limit, no classification.

# $well (name): the well
# $size (amount): smallest size
# $factor (amount): open air over cabinet
# $low (amount): 95 %, lower end
# $high (amount): 95 %, upper end
air-reduction = { $well }: at { $size } the cabinet held { $factor } times fewer particles than the open air (95 % interval { $low } to { $high }).

# The same where the interval has no upper end.
# $well (name): the well
# $size (amount): smallest size
# $factor (amount): open air over cabinet
# $low (amount): 95 %, lower end
air-reduction-without-end = { $well }: at { $size } the cabinet held { $factor } times fewer particles than the open air (95 % interval { $low } to any number).

# The same where the cabinet held none.
# $well (name): the well
# $size (amount): smallest size
# $low (amount): 95 %, lower end
air-reduction-at-least = { $well }: at { $size } the cabinet held at least { $low } times fewer particles than the open air (95 % interval { $low } to any number).

# $well (name): the well
air-cabinet-uncounted = { $well }: bottles stood open in the cabinet, and nobody counted it.

# $well (name): the well
air-open-air-uncounted = { $well }: bottles stood open in the open air, and nobody counted it.

# Title of the picture.
# $trip (name): the trip
air-particles = Particles in the air over the bottles, trip { $trip }

# What the picture shows, for who cannot see it.
# $place (message): well and place
# $size (amount): smallest size
# $number (amount): particles per m³
air-particles-counted = { $place }, { $size }: { $number } per m³

# The same where none was counted.
# $place (message): well and place
# $size (amount): smallest size
# $upper (amount): one-sided bound, particles per m³
air-particles-not-counted = { $place }, { $size }: none counted, fewer than { $upper } per m³

# Under the title.
air-one-axis = Cabinet and open air on one axis.

# Closes the picture.
air-bounds-exact = Bounds are exact, one-sided 95 % each. The time is that of the bottles open there.

# Legend.
air-counted = counted, with its 95 % bounds

# Legend.
air-none-counted = none counted, upper bound

# Legend.
air-class-limit = limit of a class of ISO 14644-1

# Over a panel of the picture.
# $size (amount): smallest size
air-and-larger = { $size } and larger

# Before the numbers of the classes.
air-class = class

# Name of an axis.
air-axis = particles per m³ (log axis)

# A count that cannot be used.
# $well (name): where
# $why (message): the rows
air-counts-in-cabinet = { $well }, cabinet: the counts cannot be used: { $why }.

# $well (name): where
# $why (message): the rows
air-counts-in-open-air = { $well }, open air: the counts cannot be used: { $why }.
