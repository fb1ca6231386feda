### The leaflet for neighbours; the sheet for the authority shares some of its words.

# $site (name): the place
leaflet-title = The water of { $site }: what was measured

# Of several places, or of none.
leaflet-title-of-several = The water: what was measured

leaflet-subtitle = for neighbours, on one page

leaflet-numbers = The numbers

# $what (list): the substance
# $level (amount): the least that was measured
leaflet-down-to = { CAPITAL($what) } was measured down to { $level }.

# The same, where there are blanks and little was measured.
# $what (list): the substance
# $level (amount): the least that was measured
leaflet-why-blanks = { CAPITAL($what) } was measured down to { $level }; 1 ng/L is a millionth of a milligram in a litre. So little comes from air, bottles and hands as well; that is why blanks, bottles of pure water, went the same way and were measured beside the samples.

leaflet-caption = What comes nearest to a limit, the nearest first

# Heading of a column.
leaflet-substance = substance

# Heading of a column.
leaflet-well = well

# Heading of a column.
leaflet-measured = measured

# Heading of a column.
leaflet-limit = lowest limit

# Heading of a column, above below and above.
leaflet-value-is = the value is

leaflet-below = below

leaflet-above = above

leaflet-cannot-tell = cannot tell

# Behind a number or a sentence.
leaflet-provisional-mark = (provisional)

# Heading of a column: the day the bottle was filled.
leaflet-day = day

# Behind a number: no other of any year is as near to its limit, or as far over it.
leaflet-extreme-mark = (extreme of all years)

leaflet-extreme = “Extreme of all years” is the value that came nearest to its limit, or farthest over it, on the day named; it is not the water of today: the newest value stands above it.

# A rejected result that lies higher than what is shown.
# $substance (list): its name
# $x (list): the value
# $place (name): well or bottle
# $day (date): when the bottle was filled
leaflet-rejected-one = { $substance } { $x } ({ $place }, { $day })

# $substance (list): its name
# $x (list): the value
# $place (name): well or bottle
leaflet-rejected-one-undated = { $substance } { $x } ({ $place }, no day on record)

# $names (list): rejected results
leaflet-rejected-higher = Rejected, and higher than all of the same substance that stands: { $names }.

# $rejected (count): rejected results
leaflet-note = ± is the range in which the true value lies with 95 % certainty; “at most” stands before an upper bound: nothing was found, or metal that came with the bottle and not with the water is still in it. Provisional: something is still to be shown before one may build on the number. Of several bottles of the newest day of each well the highest is shown. Limits in several countries differ; the lowest is shown, with whose it is. Rejected results are not in the table: { $rejected }.

leaflet-recalled = Limits marked * are quoted from memory and must be compared with their document.

leaflet-not-for-health = Limits marked † are set for taste, colour or operation, not for health.

leaflet-said = What can be said

# $names (name): of statements
leaflet-changed = A statement whose results have changed since it was checked is left out: { $names }.

leaflet-not-tested = What was not tested

# $names (list): substances with a limit that nobody measured
leaflet-microbes-and-others = Microbes (the first thing to test before anyone drinks); of substances with a limit also: { $names }.

# Nothing else.
leaflet-microbes = Microbes (the first thing to test before anyone drinks).

# Microbes were tested.
# $names (list): substances with a limit that nobody measured
leaflet-others = Of substances with a limit: { $names }.

# The end of a list.
# $n (count): how many
leaflet-more = { $n } more

leaflet-decides = Who decides

leaflet-decides-text = What the water may be used for is for the local health authority to say, not for this page. Questions to: ______________________________

# Hydrogen sulfide.
leaflet-caution-gas = Water that smells of rotten eggs gives off hydrogen sulfide. In a closed well house, pit or tank it can gather and kill without warning: do not go in alone or without measuring; follow local rules.

leaflet-caution-pressure = The wells stand under pressure. Do not drill, dig or shut them; that is work for licensed people.

# Behind the name of a substance, where a table holds several fractions.
# $substance (name): as it is called
# $fraction (message): filtered or not
leaflet-substance-of = { $substance }, { $fraction }

# Beneath a table of one fraction.
# $fraction (message): filtered or not
leaflet-all-of = All values: { $fraction }.
