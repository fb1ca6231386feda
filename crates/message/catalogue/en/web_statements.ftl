### Statements: the list, one statement, the workshop of new ones, results beside limits.

web_statements-title = Statements

web_statements-intro = A sentence is built from lists and checked by one-sided 95 % bounds against the results that it stands on. It is marked when one of them changes.

web_statements-cannot-be-read = Cannot be read:

web_statements-compounds = Organic compounds: found or not

web_statements-none-yet = No sentence was checked yet. Seven kinds can be said:

web_statements-evidence = used as evidence

web_statements-stands = stands

# $what (name): in words
web_statements-changed-since = changed since: { $what }

# $n (count): on record
web_statements-list-of = { $n ->
    [one] { $n } sentence, and what the data say to it
   *[other] { $n } sentences, and what the data say to them
}

web_statements-name = Name

web_statements-asked = Asked

web_statements-may-be-said = What may be said

web_statements-state = State

web_statements-against-limits = Against published limits

web_statements-no-limit-of-any = No limit on record is of anything measured there.

web_statements-none-above = Nothing lies above a limit, and nothing is undecided.

web_statements-limits-caption = The newest results beside each limit: what lies above first, then what cannot be told

web_statements-bottle = Bottle

web_statements-substance = Substance

web_statements-result = Result

web_statements-limit = Limit

web_statements-as-of = As of

web_statements-whose = Whose, kind

web_statements-set-for = Set for

web_statements-marks = Mark

web_statements-result-is = The result is

web_statements-chance-under = Probability that it is below

web_statements-verdict = Verdict

web_statements-limits-foot = * recalled: still to be compared with its document. The probability is that the true value lies below the limit.

# $n (count): results beside limits
web_statements-below-folded = { $n ->
    [one] { $n } below
   *[other] { $n } below
}

web_statements-not-tested = Not tested:

web_statements-over-thousandth = > 99.9 %

web_statements-under-thousandth = < 0.1 %

web_statements-strictest = strictest

web_statements-nearest-health = nearest for health

web_statements-your-own = your own

# $text (name): as it was typed
web_statements-no-guard = Found "{ $text }", expected rule, none, a probability from 50 to below 100 %, or a band such as 1 U.

# $text (name): as it was typed
web_statements-no-day = Found "{ $text }", expected a day as 13 July 2027.

web_statements-choose = choose

web_statements-all-of-them = all

web_statements-well = Well

web_statements-limits-of = Limits of

web_statements-limits-of-hint = Your own stand beside them.

web_statements-how-sure = How sure

web_statements-how-sure-hint = none, 95 %, or a band such as 1 U; the rule of each limit where left out.

web_statements-limits-as-of = Limits as of

web_statements-limits-as-of-hint = A day as 13 July 2027; else that of each bottle, or today where it has none.

web_statements-compare = Compare

web_statements-own-limits = Limits of your own, a permit's or a neighbour's, come in as a table:

web_statements-bring-in = Bring in files

web_statements-stands-on = It stands on

web_statements-verdict-then = Verdict then

# $revision (count): of the statement
# $person (name): who
web_statements-checked-by = revision { $revision }, checked by { $person }

web_statements-despite-taken = Provisional or rejected results were taken all the same:

web_statements-changed-word = changed since:

web_statements-today = on the record of today:

web_statements-to-bear-in-mind = To bear in mind

web_statements-check-anew = Check it anew on the record of today

web_statements-head = Record when it was checked (hash of the last entry):

web_statements-no-uses = It stands on no result of this record.

web_statements-new-sentence = A new sentence

web_statements-from-lists = built from lists, answered while you choose

web_statements-no-results = There is no result to speak of yet.

web_statements-needs-two-trips = needs two trips to one well

web_statements-kind-limit = Below a limit

web_statements-kind-times = So many times

web_statements-kind-picture = Like so much in so much

web_statements-kind-level = Not more than

web_statements-kind-none = None found

web_statements-kind-changed = Has changed

web_statements-example-limit = a published one, or your own

web_statements-example-times = more or less than another

web_statements-example-picture = kilograms in a lake

web_statements-example-level = a level of your own

web_statements-example-none = a substance, or all of a list

web_statements-example-changed = from one trip to another

web_statements-number = How many times

web_statements-level = Level

web_statements-unit = Unit

web_statements-despite = Why results that are not accepted are taken

web_statements-despite-hint = Three words at least; kept for good.

web_statements-the-sentence = The sentence

web_statements-how = How

web_statements-water = Water

web_statements-holds = holds

web_statements-holds-is = lies

web_statements-times = times

web_statements-way = Less or more

web_statements-less = less

web_statements-more = more

web_statements-than = than

web_statements-compare-with = Compare with

web_statements-holds-as-little-as = holds as little as

web_statements-kilograms = Kilograms

web_statements-kilograms-in = kg in

web_statements-body = Body of water

web_statements-is-free-of = is free of

web_statements-is-free-of-compounds = is free of all compounds that were looked for in it

web_statements-means-below = where free means less than

web_statements-has = has

web_statements-by-percent = by at least, % (of unchanged: within)

web_statements-from-day = from

web_statements-to-day = to

web_statements-speaks-of = What the sentence speaks of

web_statements-of-waters = the waters

web_statements-of-bottles = what was found in the bottles

web_statements-value-hint = A well stands by the common value of its bottles, U at 95 %. * quoted from memory.

web_statements-answer = Answer

web_statements-not-more-than = not more than

web_statements-more-than = more than

web_statements-below = below

web_statements-above = above

web_statements-at-least = at least

web_statements-about = about

web_statements-at-most = at most

web_statements-fallen = fallen

web_statements-risen = risen

web_statements-unchanged = not changed

# $value (name): as it is printed
web_statements-at-most-of = { $value } (the water: at most)

# $place (name): the well
# $bottle (name): its label
web_statements-bottle-of = { $place }, bottle { $bottle }

web_statements-each-bottle = bottles disagree: each of them

web_statements-no-limit = no limit of this substance

web_statements-one-substance = one substance

web_statements-the-answer = The answer

web_statements-still-to-choose = Something is still to be chosen.

web_statements-cannot-be-asked = cannot be asked so

web_statements-of-each-bottle = The bottles disagree: the sentence is asked of each, and holds where all of them bear it.

# $place (name): well or bottle
# $verdict (message): its verdict
web_statements-held = { $place } is { $verdict }

# $places (list): each with its verdict
web_statements-provisional = provisional, because { $places }.

web_statements-how-far = How far it would hold

# $days (list): of sampling
# $sentence (message): that the data bear
web_statements-sampled = Sampled on { $days }: { $sentence }

web_statements-exact = exact

web_statements-plain = plain

web_statements-to-copy = To copy into a report or a letter

web_statements-copy = Copy

web_statements-copied = Copied

web_statements-keep = Keep this sentence

# $person (name): who acts
web_statements-kept-as = Kept as { $person }.

web_statements-kept-and-watched = It is marked when a result under it changes, and its case opens from the list.

web_statements-above-zero = Expected a number above zero.

# $text (name): as it was typed
web_statements-no-unit = "{ $text }" is no unit that is known: ng/L, µg/L, mg/L.

web_statements-name-taken = A sentence of this name is kept already.

web_statements-kind-age = How old

web_statements-example-age = before a year, older than, a share younger

web_statements-age-name = age

web_statements-fell-before = fell, all of it, before

web_statements-older-than = is, all of it, older than

web_statements-year = Year

web_statements-years = Years

web_statements-years-old = years

web_statements-share-percent = Share, %

web_statements-of-it-younger = of it is younger than

web_statements-age-hint = By every model that the tracers of the well do not reject; 1953 is before the bomb tests. All of it means all but less than 5 %.
