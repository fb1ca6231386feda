### Statements: sentences that are kept with the results they stand on, and what changed since.

# In the place of an amount.
statement-no-value = no value

# In the place of a verdict.
statement-no-verdict = no verdict

# In the place of an answer.
statement-cannot-be-checked = can no longer be checked

# $result (name): as the statement names it
# $revision (count): the newest
# $before (message): its amount then
# $now (message): its amount now
statement-result-revised = { $result } is now revision { $revision }: { $before } → { $now }

# $result (name): as the statement names it
# $why (name): what a person wrote
statement-taken-out = { $result } was taken out of the evidence: { $why }

# $result (name): its newest revision
# $before (message): verdict then
# $now (message): verdict now
statement-verdict-changed = { $result }: { $before } → { $now }

# $result (name): its newest revision
# $before (message): verdict then
# $now (message): verdict now
# $checks (name): checks that decide
statement-verdict-changed-by = { $result }: { $before } → { $now } ({ $checks })

# $came (count): results that came to the series
# $left (count): results that left it
statement-series-changed = the series: { $came ->
    [one] { $came } result came
   *[other] { $came } results came
}, { $left } left since

# $before (message): answer then
# $now (message): answer now
statement-answer-changed = answer: { $before } → { $now }

# $change (message): what changed
statement-changed-since = Changed since: { $change }.

# $plain (message): the nearest sentence that the record supports today
statement-today = On the record of today: { $plain }

statement-section = Statements

statement-method-text = A sentence is given as fields and checked by one-sided 95 % bounds of the ratio that it implies; a non-detect stands as a bound, never as a number. It is kept with the results it stands on, and marked when one of them changes.

statement-introduction = Each sentence was checked against the results that it names. The last column is the nearest sentence that the data do support.

statement-caption = Sentences and what the data say to them

# Heading of a column.
statement-sentence-asked = sentence asked

# Heading of a column.
statement-may-be-said = what may be said

# An answer whose results have changed.
# $answer (message): the answer kept
statement-answer-marked = { $answer }, † see below

statement-note-changed = † a result has changed since the sentence was checked.

# $name (name): of the statement
# $revision (count): which
statement-revision = { $name }, revision { $revision }

# $why (name): what a person wrote
# $person (name): who
statement-despite = Provisional or rejected results were taken all the same: { $why } ({ $person }).

# $head (name): begin of the head of the record
# $person (name): who checked
statement-on-no-result = Stands on no result of this record; checked at head { $head }… by { $person }.

# $results (message): results with their verdicts
# $head (name): begin of the head of the record
# $person (name): who checked
statement-stands-on = Stands on { $results }; checked at head { $head }… by { $person }.

# $results (message): results with their verdicts
# $more (count): results that are not named
# $head (name): begin of the head of the record
# $person (name): who checked
statement-stands-on-more = Stands on { $results } and { $more } more; checked at head { $head }… by { $person }.

# $result (name): which
# $verdict (message): then
statement-result-with-verdict = { $result } ({ $verdict })

# $result (name): which
statement-result-without-verdict = { $result } (no verdict)

# $why (message): what is wrong with the list
statement-compounds-unread = Of the organic compounds: { $why }.

# $came (count): bottles that came to the value of a well
# $left (count): bottles that left it
statement-well-changed = the value of the well: { $came ->
    [one] { $came } bottle came
   *[other] { $came } bottles came
}, { $left } left since

# Of which fractions the amounts of a statement are.
# $fractions (list): filtered or not
statement-of-fractions = Fraction: { $fractions }.

# $came (count): compounds that came to the bottle
# $left (count): compounds that left it
statement-bottle-changed = the bottle: { $came ->
    [one] { $came } compound came
   *[other] { $came } compounds came
}, { $left } left since

# A sentence of what the bottles held, the metal of a stage that no blank met included.
# $sentence (message): the sentence
statement-of-bottles = Of what was found in the bottles: { $sentence }

# The number of a bottle is only an upper bound on its water, and the two answers differ.
# $waters (message): what may be said of the waters
# $bottles (message): what may be said of what was found in the bottles
statement-of-waters-and-bottles = Of the waters: { $waters } Of what was found in the bottles: { $bottles }

# $results (list): which
statement-upper-bounds = An upper bound on the water, with the metal of a stage that no blank met: { $results }.

# A sentence of age was checked on other rows than those of today.
# $what (list): what came, left or is another now
statement-leans-changed = what the age leans on: { $what } came, left or changed since

# A row that an age leans on.
# $tracer (name): its sign
# $day (date): of sampling
statement-leans-on-tracer = { $tracer } of { $day }

# A row that an age leans on.
# $name (name): of the history, with the tracer
statement-leans-on-history = the history { $name }

# A row that an age leans on.
# $name (name): the fact
statement-leans-on-recharge = the recharge: { $name }

# What an age leans on.
statement-leans-on-chemistry = the chemistry that tracers are read by

# $rows (list): rows of tracers, histories and facts
# $head (name): begin of the head of the record
# $person (name): who checked
statement-stands-on-tracers = Stands on { $rows }; checked at head { $head }… by { $person }.
