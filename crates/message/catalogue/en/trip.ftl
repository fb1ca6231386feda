

# Nothing was timed at the well of a bottle.
trip-no-fill-at-well = No fill was timed at the well, so flow and contact time are not known.

# Fills were timed, and the casing is not on record.
trip-no-casing = Depth and radius of the casing are not on record, so the contact time is not known.

# A row of casing or screen that says a stretch a second time.
# $row (name): number of the row
trip-section-twice = Row { $row } of well_section says again what rows before it say; each stretch counts once.

# Several such rows.
# $rows (name): numbers of the rows
trip-sections-twice = Rows { $rows } of well_section say again what rows before them say; each stretch counts once.

# The well had been shut before the bottle.
trip-shut-unknown = The well had been shut; without its flow and its volume nobody knows how much standing water was left.

# Temperature, conductivity and pH, the three that decide.
# $since (date): of the last of them
trip-steady = Temperature, conductivity, pH were steady since { $since }, each by its rule.

# The last reading of oxygen.
# $oxygen (amount): as it was read
# $u (amount): its standard uncertainty
trip-oxygen = Dissolved oxygen read { $oxygen-expanded } (k = 2) at the last reading before the bottles.

# The same without an uncertainty.
# $oxygen (amount): as it was read
trip-oxygen-stated = Dissolved oxygen read { $oxygen } (u not stated) at the last reading before the bottles.

# From filling to acid.
trip-acid-not-timed = The time from filling to acid is not on record.

# From filling to acid, within the limit.
# $hours (amount): from filling to acid
# $limit (amount): of the programme
trip-acid-within = Acid went in { $hours } after filling, within the programme's { $limit }.

# From filling to acid, beyond the limit.
# $hours (amount): from filling to acid
# $limit (amount): of the programme
trip-acid-beyond = Acid went in { $hours } after filling, beyond the programme's { $limit }.

# From filling to the instrument, within the limit.
# $days (amount): from filling to the instrument
# $limit (amount): of the regulation
trip-held-within = Measured { $days } after filling, within the { $limit } for acidified metals (US 40 CFR 136 Table II, from memory).

# From filling to the instrument, beyond the limit.
# $days (amount): from filling to the instrument
# $limit (amount): of the regulation
trip-held-beyond = Measured { $days } after filling, beyond the { $limit } for acidified metals (US 40 CFR 136 Table II, from memory).

# Nobody noted who had the box.
trip-no-custody = No step of custody is on record.

# A seal that was broken.
# $step (name): sealed, sent, received, acidified, opened
# $at (date): when
trip-seal-broken = The seal was broken when the box was { $step } on { $at }.

# No seal was broken.
# $steps (count): on record
trip-seals-whole = { $steps ->
    [one] The seal was whole at the { $steps } step on record.
   *[other] Seals were whole at all { $steps } steps on record.
}

# No seal was broken, and some steps say nothing of it.
# $noted (count): steps that note a whole seal
# $steps (count): on record
trip-seals-whole-where-noted = Seals were whole at { $noted } of { $steps ->
    [one] { $steps } step
   *[other] { $steps } steps
} on record; the others note no seal.

# No step says anything of a seal.
# $steps (count): on record
trip-seals-not-noted = { $steps ->
    [one] The { $steps } step of custody on record notes no seal.
   *[other] None of the { $steps } steps of custody on record notes a seal.
}

# The box stayed cool.
# $warmest (amount): warmest on record
# $limit (amount): of the programme
trip-box-within = The box was at most { $warmest }, within the programme's { $limit }.

# The box became too warm.
# $warmest (amount): warmest on record
# $limit (amount): of the programme
trip-box-above = The box was at most { $warmest }, above the programme's { $limit }.

# A blank stood open where the bottle did.
trip-open-air-met = A field blank was opened in the same open air.

# No blank stood open where the bottle did.
# $place (name): the well
trip-open-air-not-met = Not measured: the bottle stood in the open air at { $place }, and no field blank did. A field blank opened in the open air at { $place } would tell.

# The same of a bottle of no well.
trip-open-air-not-met-here = Not measured: the bottle stood in the open air at the place of the bottle, and no field blank did. A field blank opened in the open air at the place of the bottle would tell.

# Title of the section on a trip.
# $trip (name): the trip
trip-section = The trip { $trip }

# $noted (name): what a person wrote
trip-weather = weather: { $noted }

# $noted (name): what a person wrote
trip-wind = wind: { $noted }

# $noted (name): what a person wrote
trip-dust = dust: { $noted }

# $noted (name): what a person wrote
trip-road-salt = road salt: { $noted }

# $noted (name): what a person wrote
trip-engines = engines: { $noted }

# $noted (name): what a person wrote
trip-persons = persons: { $noted }

# Caption of the table of flows.
trip-flows = Flow by timed fills, and how long the water touches the pipe

# Column: description of the well.
trip-what-it-is = what it is

# Cell: how long the water touches the pipe.
# $time (amount): minutes
# $material (name): what the pipe is made of
trip-contact-in = { $time } in { $material ->
    [galvanised-steel] galvanised steel
    [stainless-steel] stainless steel
    [cast-iron] cast iron
    [open-hole] open hole
    [material-not-stated] material not stated
   *[other] { $material }
}

# Caption of the table of readings.
trip-last-readings = Last readings at the wells before the bottles
