### What the printed papers say beside their chapters: drawings to scale, who measured, waters side by side.

# Beside a person in a drawing.
paper-person = a person

# The only row of what would be a table.
# $what (name): above a limit, cannot be told
# $substance (name): as it is called
# $place (name): well or bottle
# $when (date): day and hour
# $result (name): value with U
# $limit (name): limit and whose
# $ratio (name): to the limit
# $verdict (message): accepted, provisional, rejected
paper-one-row = { $what }: { $substance } in { $place }, { $when }: { $result }; limit { $limit }; { $ratio } of the limit; { $verdict }.

# A limit in a table.
# $number (name): with its unit where the row has another
# $authority (name): whose, with its marks
# $kind (list): what its authority calls it
paper-limit = { $number }, { $authority }, { $kind }

# Heading of a column.
paper-limit-whose = limit, whose, kind

# Heading of a column.
paper-ratio = ratio

# Heading of a column.
paper-detection-limit = detection limit

# $verdict (message): accepted, provisional, rejected
paper-all-of-verdict = All of them: { $verdict }.

# A section.
paper-who-and-how = Who sampled, who measured

# $people (list): their names
paper-sampled-by = Sampled by { $people }.

paper-sampled-by-nobody-named = Who sampled is not on record.

# $results (count): of a run of the programme
paper-own-run = { $results ->
    [one] One result of a run of this programme’s own instrument
   *[other] { $results } results of runs of this programme’s own instrument
}, from the counts up.

# $laboratory (name): as it is called
# $results (count): of it
# $methods (list): as it names them
# $accredited (message): what is on record
paper-laboratory = { $laboratory }: { $results ->
    [one] one result
   *[other] { $results } results
}, by { $methods }; { $accredited }.

# $laboratory (name): as it is called
# $results (count): of it
# $accredited (message): what is on record
paper-laboratory-without-method = { $laboratory }: { $results ->
    [one] one result
   *[other] { $results } results
}, method not on record; { $accredited }.

paper-laboratory-not-named = A laboratory that is not named

paper-is-accredited = accredited, as it states

paper-is-not-accredited = not accredited

paper-is-accredited-in-part = accredited for some methods, not for others

paper-accreditation-not-on-record = whether accredited is not on record

# Beneath the drawing of a well.
# $flow (amount): of the well
paper-flows = Flows by itself: { $flow }.

# Beneath the drawing of a well.
# $time (amount): minutes
paper-minutes = { $time } to rise through the pipe.

# Title of a drawing.
# $wells (list): their names
paper-to-scale = { $wells }, heights to scale

# What a drawing shows.
# $depth (amount): of the deepest
# $told (name): each well with its flow and minutes
paper-to-scale-shows = Wells down to { $depth } below ground, a person of 1.7 m beside each. { $told }

# Under the title of a drawing.
paper-heights-to-scale = Heights to scale, a person is 1.7 m; widths are not.

# Heading of a column.
paper-head = head above ground

# Under a table.
# $n (count): rows
paper-own-not-told = { $n ->
    [one] One more bottle and metal is
   *[other] { $n } more bottles and metals are
} left out: no number of them may be called the water’s.

# Caption of a table.
paper-reached-after = When the air of a closed well house of 10 m³ reaches published limits for hydrogen sulfide

# Caption of a table.
# $metal (message): as it is called
paper-what-holds-down = Which solids may hold the { $metal } down

# Where there is one water.
# $with (name): species with shares
# $without (name): the same without metal bisulfides
paper-carried = It is carried as { $with }; with the disputed metal bisulfides left out, as { $without }.

paper-none-in-it = no metal bisulfide in it

# Heading of a half of a picture.
paper-with-bisulfides = by the constants of the table

# Heading of a picture.
# $metal (message): as it is called
paper-what-carries = What carries the { $metal } at this pH: both rival answers

# What a solid does.
paper-may-form = may form

# What a solid does.
paper-dissolves = dissolves

# Heading of a picture.
paper-kinship = Kinship of the waters: of 100 equivalents, how many two waters have in common

# Two waters, as the name of a bar.
# $one (name): a water
# $other (name): another
paper-pair = { $one } and { $other }

# A share behind its bar.
# $share (amount): the share
# $low (amount): lower end of its interval
# $high (amount): upper end
paper-share-with-interval = { $share } ({ $low } to { $high })

# Under the picture.
paper-kinship-note = Of each of six ions (Na + K, Ca, Mg, Cl, HCO₃ + CO₃, SO₄) the smaller of the two shares, summed. Kind alone: a diluted water is of the same kind.

# Caption of a table.
paper-equivalents = The ions of the waters
