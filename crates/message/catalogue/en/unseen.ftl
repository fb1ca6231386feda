### A source that nobody asked about: bottles of one kind beside the joint fit of a trip.

# What came out of the comparison, then what counts as the water's.
# $compared (message): whether a group stands out
# $rule (message): what no blank met
unseen-finding = { $compared } { $rule }

# $group (message): bottles of one kind, as a sentence begins with them
# $bottles (count): in the group
# $metal (amount): beyond the fit
# $u (amount): its u, number alone
# $groups (count): compared
# $p (amount): over all groups
unseen-holds-more = { $group } ({ $bottles }) hold { $metal-expanded } (k = 2) a bottle more than the water and the sources asked about explain; over { $groups ->
    [one] { $groups } group
   *[other] { $groups } groups
} p = { $p }. A source that nobody asked about is in them, or an exposure is noted wrong.

# $group (message): bottles of one kind, as a sentence begins with them
# $bottles (count): in the group
# $metal (amount): under the fit
# $u (amount): its u, number alone
# $groups (count): compared
# $p (amount): over all groups
unseen-holds-less = { $group } ({ $bottles }) hold { $metal-expanded } (k = 2) a bottle less than the water and the sources asked about explain; over { $groups ->
    [one] { $groups } group
   *[other] { $groups } groups
} p = { $p }. The other bottles met a source that nobody asked about, or an exposure is noted wrong.

# $groups (count): compared
# $p (amount): the smallest, over all groups
unseen-none-stands-out = No kind of bottle stands out of the joint fit: { $groups ->
    [one] { $groups } group
   *[other] { $groups } groups
} compared, smallest p over all { $p }.

unseen-not-compared = Kinds of bottles could not be compared: too few bottles of a kind, or none that differ in more than their water.

# $why (message): what was refused
unseen-not-fitted = Kinds of bottles could not be compared, for the bottles were not fitted together: { $why }.

# $rule (message): what no blank met
# $shows (message): what these bottles could show of it
unseen-rule = { $rule } { $shows }

# $stages (list): what they are
unseen-not-met = Metal that no blank met counts as the water’s; no blank met: { $stages }.

unseen-all-met = Metal that no blank met counts as the water’s; of the exposures on record a blank met each, of others nothing is known.

unseen-volumes-differ = What every sample met alike would show in the fills of different volume.

unseen-alike = What every sample met alike cannot be told from the water by these bottles: bottles filled to different marks, at another flow, or opened in other air would tell.

## What no blank met.

unseen-pipe = the pipe

# $place (name): the well
unseen-open-air = the open air at { $place }

## Bottles of one kind, as a sentence begins with them.

# A group as it was given.
# $by (name): by what it was told apart
# $group (name): its name
unseen-group-named = Bottles of { $by } { $group }

unseen-samples = Samples

unseen-field-blanks = Field blanks

unseen-trip-blanks = Trip blanks

unseen-bottle-blanks = Bottle blanks

# $kind (name): its word
unseen-other-kind = Bottles of kind { $kind }

unseen-in-open-air = Bottles opened in the open air

unseen-in-cabinet = Bottles opened in the cabinet alone

unseen-never-opened = Bottles that were never opened

# $lot (name): of the bottles
unseen-lot = Bottles of lot { $lot }

# $acid (name): its lot
unseen-acid = Bottles with acid { $acid }

# $day (name): as the record writes it
unseen-day = Bottles filled on { $day }

# $person (name): who filled them
unseen-person = Bottles filled by { $person }
