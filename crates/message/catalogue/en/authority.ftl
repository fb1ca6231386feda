### The sheet for the authority.

# $site (name): the place
authority-title = { $site }: results against limits

# Of several places, or of none.
authority-title-of-several = Results against limits

authority-subtitle = sheet for the authority

# $wells (count): wells
# $bottles (count): bottles of water
# $results (count): results of water
# $accepted (count): of them
# $provisional (count): of them
# $rejected (count): of them
# $limits (count): limits of the tables
authority-what = { $wells ->
    [one] { $wells } well
   *[other] { $wells } wells
}, { $bottles ->
    [one] { $bottles } bottle
   *[other] { $bottles } bottles
} of water, { $results ->
    [one] { $results } result
   *[other] { $results } results
}: { $accepted } accepted, { $provisional } provisional, { $rejected } rejected. Compared with { $limits } limits by the decision rule of each; beside the answer, the probability that the true value lies under the limit.

authority-caption = Highest result of each substance against the strictest limit

authority-local-caption = Against local limits

# Heading of a column.
authority-limit = limit

# Heading of a column: probability that the true value lies under the limit.
authority-probability-under = P(under)

# Heading of a column.
authority-verdict = verdict

# Heading of a column.
authority-result = result

authority-accepted = accepted

authority-provisional = provisional

authority-rejected = rejected

# $n (count): substances
authority-more = { $n ->
    [one] { $n } more substance lies below its strictest limit.
   *[other] { $n } more substances lie below the strictest limit of each.
}

authority-statements = Statements

authority-notes = * recalled, still to be compared with the document. Rejected results are left out. ± is the expanded uncertainty, 95 %.
