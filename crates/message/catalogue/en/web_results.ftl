### The page of results: cards, the wide table, what is asked for.

web_results-title = Results

web_results-title-wide = Wells by date and element

# $results (count): how many
# $rows (count): of the table
web_results-count = { $results ->
    [one] { $results } result
   *[other] { $results } results
} in { $rows ->
    [one] { $rows } row
   *[other] { $rows } rows
}

# $results (count): how many
# $rows (count): of the table
# $check (name): in words
web_results-count-held = { $results ->
    [one] { $results } result
   *[other] { $results } results
} in { $rows ->
    [one] { $rows } row
   *[other] { $rows } rows
}, held back by: { $check }

# $n (count): how many
web_results-count-days = { $n ->
    [one] { $n } well and day
   *[other] { $n } wells and days
}

# $from (count): first
# $to (count): last
# $all (count): of all
web_results-caption = Rows { $from } to { $to } of { $all }

web_results-caption-wide = The value of the well in bold, its bottles beneath

web_results-asked = Asked for

web_results-choose = Choose which

web_results-which = Which results

web_results-take-away = take this away

web_results-show-all = show all

web_results-show = Show

web_results-all = all

web_results-well = Well

web_results-substance = Element or substance

web_results-substance-like = Pb, lead

web_results-trip = Trip

web_results-from = From

web_results-to = To

web_results-verdict = Verdict

web_results-fraction = Filtered or not

web_results-of = Of

web_results-of-evidence = blanks and other evidence

# $well (name): its name
web_results-chip-well = well { $well }

# $trip (name): its name
web_results-chip-trip = trip { $trip }

# $bottle (name): its label
web_results-chip-bottle = bottle { $bottle }

# $day (name): in words
web_results-chip-from = from { $day }

# $day (name): in words
web_results-chip-to = until { $day }

# $check (name): in words
web_results-chip-held-by = held back by: { $check }

web_results-chip-evidence = blanks and other evidence

# $order (name): in words
web_results-sorted = sorted: { $order }

web_results-change = change

web_results-order = Order of the rows

web_results-sort-needs = what needs you first

web_results-sort-newest = newest sampling first

web_results-sort-well = by well

web_results-sort-substance = by element

web_results-head-what = What, where, when

web_results-head-bottles = Bottles, ± U (95 %)

web_results-head-common = Common value

web_results-head-verdict = Verdict and reason

web_results-head-limit = Beside the limit

web_results-head-before = Last visit

web_results-head-well = Well and bottle

web_results-last-visit = last visit

# $n (count): how many
web_results-common-of = common value of { $n ->
    [one] { $n } bottle
   *[other] { $n } bottles
}

web_results-no-common-value = the bottles disagree: no common value

web_results-each-for-itself = each bottle stands for itself: what they share is not on record

# $n (count): how many
web_results-more-bottles = { $n ->
    [one] { $n } more bottle
   *[other] { $n } more bottles
}

# $n (count): how many
web_results-and-more = and { $n } more

# $check (name): in words
web_results-check-not-met = { $check }: not met

# $check (name): in words
web_results-check-not-known = { $check }: not known

# $limits (name): with whose they are
web_results-above = above { $limits }

# $limit (name): with whose it is
web_results-below = below { $limit }

# $limit (name): with whose it is
web_results-cannot-tell = cannot tell from { $limit }

web_results-no-limit = no limit on record

# $low (name): lower end
# $high (name): upper end
web_results-range = { $low } to { $high }

# $isotope (name): mass number
web_results-isotope = isotope { $isotope }

# $n (count): how many
# $isotopes (name): mass numbers
web_results-isotopes-together = { $n ->
    [one] { $n } isotope
   *[other] { $n } isotopes together
} ({ $isotopes })

# $profile (name): its name
web_results-by-profile = by profile { $profile }

web_results-evidence = used as evidence

web_results-limit-not-stated = not detected; below what is not stated

web_results-without-u = ± not stated

# $number (count): of the page
# $last (count): of the pages
web_results-page-of = page { $number } of { $last }

web_results-pages = Pages

web_results-back = Back

# $n (count): how many
web_results-more-rows = { $n ->
    [one] { $n } more row
   *[other] { $n } more rows
}

web_results-under = ± is the expanded uncertainty U, 95 %; < is a bound, not a value; * is quoted from memory. Of the isotopes that a run reports the sum stands here, else those with the most bottles.

web_results-all-that-fits = All that fits:

web_results-workbook = XLSX

web_results-as-wide = As a wide table

web_results-as-rows = As rows

web_results-nothing-fits = No result fits what is asked for.

web_results-nothing-wide = No result of a well fits what is asked for.

web_results-near = Names near to it:

web_results-no-results = No result is on record yet. Results come with a run or a laboratory’s table.

web_results-bring-in = Bring in a laboratory’s table

# $results (count): how many
# $most (count): that it holds
web_results-too-many = { $results ->
    [one] { $results } result is more
   *[other] { $results } results are more
} than one such file holds ({ $most }): narrow them by well, trip or day, or take one row a result as CSV, which holds all.

# $found (name): as typed
web_results-no-day = Found “{ $found }”, expected a day such as 2026-07-14.

# $found (name): as typed
web_results-no-verdict = Found “{ $found }”, expected a verdict: accepted, provisional or rejected.

# $found (name): as typed
web_results-no-check = No check is called “{ $found }”.

# $found (name): as typed
web_results-no-file = Found the file “{ $found }”, expected csv or xlsx.

web_results-families = What the columns show

web_results-family-metals = Metals

web_results-family-ions = Major ions

web_results-family-readings = Readings

web_results-family-others = Organic and other substances

web_results-rule = One isotope or sum of isotopes for each element: the sum where the run reports one, else the one with the most bottles.

web_results-with-u = show ± U

web_results-no-u = leave out ± U

# $letter (name): of the bottle
web_results-bottle = bottle { $letter }

web_results-foot-blank = Blank taken off

web_results-foot-detection = Detection limit

web_results-signs-wide = Bold: the common value by the fit of the bottles, with its own ± U (95 %). A dash: the bottles disagree, or what they share is not on record. Every number opens its case. Printed, the table takes A3 across.
