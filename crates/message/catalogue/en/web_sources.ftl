### The page of sources.

web_sources-title = Sources

web_sources-what = Where the metal of a bottle comes from, by one accounting: what blanks and bottles of this well measured stands as a part of its own, all else stays with the water.

web_sources-none = No run on record measured blanks and waters of a trip, so nothing can be attributed yet. It takes the counts of a run, and of each bottle what it was exposed to: acid, openings, minutes in the open.

web_sources-metals = Metals

web_sources-bottle = Bottle

# $why (name): in words
web_sources-left-out = Left out: { $why }

# $metal (name): as asked
web_sources-no-such-metal = No run on record measured “{ $metal }” in bottles of a trip.

# $n (count): how many
web_sources-would-tell = { $n ->
    [one] { $n } thing is not told yet, and what would tell it
   *[other] { $n } things are not told yet, and what would tell them
}

web_sources-add-to-trip = Add to the next trip

web_sources-by-all = By all bottles of the trip together
