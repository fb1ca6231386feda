### What part of the metal in a bottle is the water's.

# $share (amount): part of the metal, 0 to 1
# $confidence (amount): percent
# $low (amount): lower end
# $high (amount): upper end
share-with-interval = { $share } ({ $confidence } % interval { $low } to { $high })

# $low (amount): lower end
# $high (amount): upper end
# $confidence (amount): percent
share-between = between { $low } and { $high } ({ $confidence } %)

# $least (amount): what the programme asks
share-enough = the interval lies above the programme's { $least }

# $least (amount): what the programme asks
share-too-little = the interval lies below the programme's { $least }

# $least (amount): what the programme asks
share-undecided = the interval holds the programme's { $least }: more or cleaner blanks would decide

# $least (amount): what the programme asks
share-no-lower-end = a bound has no lower end to hold against the programme's { $least }

# What the part is that came with the water.
share-water = the water’s own

# What the part is that came with the water.
share-leaves-well = the water’s, as it leaves the well

# What the part is that came with the water.
share-not-from-handling = not from air, bottle or laboratory

# What the part is that came with the water.
share-water-and-open-air = the water and the open air: not told apart

# What the part is that came with the water.
share-water-and-air = the water and the air: not told apart

# What the part is that came with the water.
share-water-pipe-and-open-air = the water, the pipe and the open air: not told apart

# What the part is that came with the water.
share-water-pipe-and-air = the water, the pipe and the air: not told apart

# What the part is that came with the water.
share-water-and-way = the water and its way to the laboratory: not told apart

# A share, its interval, and what it is.
# $share (amount): 0 to 1
# $low (amount): lower end
# $high (amount): upper end
# $left (message): what it is called
share-called = { $share } ({ $low } to { $high }) { $left }

# A value that is an upper bound.
# $bound (amount): rounded up
# $value (amount): as it was found
share-at-most = at most { $bound } ({ $value } found, with the metal of a stage that no blank met)

# The annex: what all bottles of a trip say together.
# $own (message): concentration
# $left (message): what it is called
share-all-bottles-say = what all bottles together say: { $own }, { $left }

# The water's own by all bottles of a trip together.
# $water (amount): its concentration
# $low (amount): lower end of its 95 % interval, number alone
# $high (amount): upper end
share-own = { $water } ({ $low } to { $high })

# The same where these bottles do not tell it.
# $most (amount): that they allow
share-own-at-most = cannot be told by these bottles: at most { $most }

# In the picture of species against pH.
# $ph (amount): of the water
share-this-water = this water, pH { $ph }
