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

# $share (message): with its interval
# $why (message): how it stands to what the programme asks
share-of-water = The water's share of the measured metal is { $share }; { $why }.

# No metal was found.
share-no-metal = the metal in the bottle is not above zero, so no share of it can be given

# A blank above the bottle.
share-blank-above = the blank holds more than the bottle

# $least (amount): what the programme asks
share-enough = the interval lies above the programme's { $least }

# $least (amount): what the programme asks
share-too-little = the interval lies below the programme's { $least }

# $least (amount): what the programme asks
share-undecided = the interval holds the programme's { $least }: more or cleaner blanks would decide

# $share (message): with its interval
# $place (name): where the bottle stood open
share-left-with-air = By the blanks { $share } of the measured metal is the water's, open air not measured. No blank was opened in the open air at { $place }, so what it brought is not measured.

# $share (message): with its interval
# $pipe (message): why the pipe may speak, a sentence
share-left-with-pipe = By the blanks { $share } of the measured metal is not from air, bottle or laboratory. { $pipe }

# $share (message): with its interval
# $pipe (message): why the pipe may speak, a sentence
# $place (name): where the bottle stood open
share-left-with-pipe-and-air = By the blanks { $share } of the measured metal is not from air, bottle or laboratory, open air not measured. { $pipe } No blank was opened in the open air at { $place }, so what it brought is not measured.

# $contact (amount): with the pipe
# $longest (amount): that the programme allows
share-pipe-long = The water touched the pipe for { $contact }, longer than the programme's { $longest }, and no blank sees the pipe.

# Seen at different flow.
share-pipe-seen = Bottles at different flow show metal of the pipe, and no blank sees the pipe.

# No flow was taken.
share-pipe-not-known = How long the water touched the pipe is not known, and no blank sees the pipe.

# The water's own by all bottles of a trip together.
# $water (amount): its concentration
# $low (amount): lower end of its 95 % interval, number alone
# $high (amount): upper end
share-own = { $water } ({ $low } to { $high })

# The same where these bottles do not tell it.
# $most (amount): that they allow
share-own-at-most = cannot be told by these bottles: at most { $most }

# $own (message): the water's own
# $share (amount): part of the metal in the bottle, 0 to 1
# $low (amount): lower end of its 95 % interval
# $high (amount): upper end
share-own-and-share = { $own }, share { $share } ({ $low } to { $high })

# $own (message): concentration and share
share-by-all-bottles = the water's own by all bottles together: { $own }

# $own (message): concentration and share
share-by-all-bottles-with-air = the water's own and the open air's by all bottles together: { $own }

# $own (message): concentration and share
share-by-all-bottles-with-pipe = not from air, bottle or laboratory by all bottles together: { $own }

# $own (message): concentration and share
share-by-all-bottles-with-pipe-and-air = not from air, bottle or laboratory by all bottles together, open air not measured: { $own }

# In the picture of species against pH.
# $ph (amount): of the water
share-this-water = this water, pH { $ph }
