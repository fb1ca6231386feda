### Of 100 parts of the metal in a bottle, and the time line beside them: words in the drawings.

# Beside the small parts.
# $factor (amount): a whole number
strip-times-as-wide = the small parts, { $factor } times as wide

strip-none-on-record = none on record

# Title.
# $element (name): as it is called
strip-of-hundred = Of 100 parts of the { $element } in this bottle

# Title where the bottles disagree.
# $element (name): as it is called
strip-by-model = Of 100 parts of the { $element } in this bottle, by the model alone

# $bottle (name): its label
# $found (amount): metal in it
# $volume (amount): of the bottle
strip-bottle = { $bottle }, { $found } in { $volume }

# The same without a volume.
# $bottle (name): its label
# $found (amount): metal in it
strip-bottle-without-volume = { $bottle }, { $found }

# An interval.
# $low (amount): its lower end
# $high (amount): its upper end
strip-between = { $low } to { $high }

# An upper bound.
# $most (amount): rounded up
strip-at-most = at most { $most }
