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

# Heading of a column.
leaflet-substance = substance

# Heading of a column.
leaflet-limit = lowest limit

# Behind a number or a sentence.
leaflet-provisional-mark = (provisional)

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

leaflet-decides-text = What the water may be used for is for the local health authority to say, not for this page. This page is no permission to drink.

# Hydrogen sulfide.
leaflet-caution-gas = Water that smells of rotten eggs gives off hydrogen sulfide, which can gather and kill without warning. Do not enter a closed well house, pit or tank and use no flame; other gases were not measured. Let trained people with a gas meter open it, never alone. If somebody lies inside, do not follow: call the emergency number.

leaflet-caution-pressure = The wells stand under pressure. Do not drill, dig or shut them; that is work for licensed people.

# Behind the name of a substance, where a table holds several fractions.
# $substance (name): as it is called
# $fraction (message): filtered or not
leaflet-substance-of = { $substance }, { $fraction }

# Beneath a table of one fraction.
# $fraction (message): filtered or not
leaflet-all-of = All values: { $fraction }.

# A section: what was found, in plain sentences.
leaflet-answer = What was found

# Caption of the table.
leaflet-caption-by-well = What was measured in the newest bottles of each well: above a limit first, then what cannot be told

# A row.
leaflet-microbes-row = Microbes

# A cell.
leaflet-not-tested-cell = not tested

# What the signs of the table mean.
leaflet-signs = ▲ above the limit; ? cannot be told; ✗ rejected: something decisive speaks against the number; no sign: below. ± is the 95 % interval; “at most” stands before an upper bound.

# $names (list): substances with their wells
leaflet-accepted-named = Accepted: { $names }.

# $names (list): substances with their wells
leaflet-rejected-named = Rejected: { $names }.

leaflet-others-provisional = All others are provisional: something is still to be shown before one may build on them.

# $names (list): values of earlier years, each with its day
leaflet-earlier-extremes = In earlier years nearer to its limit, or farther over it: { $names }.

# $n (count): substances
leaflet-more-substances = { $n ->
    [one] One more substance with a limit was measured; the full report has it.
   *[other] { $n } more substances with a limit were measured; the full report has them.
}

# $n (count): wells
leaflet-more-wells = { $n ->
    [one] One more well stands in the full report.
   *[other] { $n } more wells stand in the full report.
}

# $contact (name): whom to ask
leaflet-contact = Questions to: { $contact }.

leaflet-own-well = It says nothing of your own well unless it is one of these, and nothing of any other day.

# Behind the title of a leaflet that names nobody.
leaflet-draft = draft: no contact
