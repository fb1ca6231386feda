### What the report as a whole says: its title, its trips, what could not be told in it.

# $site (name): the one site of the programme
report-title-of = What is in the water of { $site }

# Of several sites.
report-title = What is in the water

# $trip (name): the trip
report-trip = trip { $trip }

# $run (name): the run
# $why (message): what the reduction refuses
report-run-not-reduced = The run { $run } was not reduced: { $why }.
