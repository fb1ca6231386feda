### The sheet for the authority.

# $site (name): the place
authority-title = { $site }: results against limits

# Of several places, or of none.
authority-title-of-several = Results against limits

authority-subtitle = sheet for the authority

# $wells (count): wells
# $streams (count): streams
# $bottles (count): bottles of water
# $results (count): results of water
# $accepted (count): of them
# $provisional (count): of them
# $rejected (count): of them
# $limits (count): limits of the tables
authority-what = { $wells ->
    [one] { $wells } well
   *[other] { $wells } wells
}, { $streams ->
    [0] no stream
    [one] { $streams } stream
   *[other] { $streams } streams
}, { $bottles ->
    [one] { $bottles } bottle
   *[other] { $bottles } bottles
} of water, { $results ->
    [one] { $results } result
   *[other] { $results } results
}: { $accepted } accepted, { $provisional } provisional, { $rejected } rejected. Compared with { $limits ->
    [one] { $limits } limit by its decision rule
   *[other] { $limits } limits by the decision rule of each
}.

authority-statements = Statements

# Caption of a table.
# $element (name): as it is called
authority-asked = { $element }, the question of the trip
