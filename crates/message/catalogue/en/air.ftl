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
