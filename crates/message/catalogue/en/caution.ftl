### Cautions of reports and packing lists, beside those that always stand.

# Work at a flowing well.
caution-well = Caution: opening or shutting a flowing well can damage the well, its pipe and the ground around it; it is done slowly and with the owner’s leave. Drilling into water under pressure is licensed work under the local code. Gas can gather in a closed well house.

# Hydrogen sulfide.
caution-gas = Hydrogen sulfide can kill in an enclosed well house, pit or tank, and at dangerous levels it can no longer be smelled. Do not enter, use no flame; let trained people with a calibrated gas meter open it, never alone. If somebody lies inside, do not follow: call the emergency number. Local codes and licensed practice decide.

# A run that the report has no section of.
# $run (name): the run
caution-run-left-out = The run { $run } cannot be reduced as the record stands now. Its results in this report are those derived last; its own section is missing.

# A list of compounds that the report has no section of.
caution-compounds-left-out = The organic compounds are not summed up: the list does not bear it.

# Of a packing list.
caution-packing = Acid burns: goggles, gloves, water at hand, a box that holds a spill; in the open air, never in a closed car. Water with sulfide gives off hydrogen sulfide when acidified. Do not enter a closed well house, use no flame, and do not follow somebody who lies inside; local rules and licensed people come first.

# Of every field sheet.
caution-sheet = Nothing on this sheet is leave to drink: microbes were never tested here, and water that was not tested is not for drinking. Local rules, local codes and licensed practice come before this sheet.

# Of a field sheet, at the well.
caution-sheet-well = Do not enter a closed well house or pit. Hydrogen sulfide gathers there, dulls the nose and kills within breaths. No flame, no spark. Air it and test the air from outside, with a gas meter. If somebody lies inside, do not follow: call for rescue. Opening or shutting a well under pressure is for those licensed to do it.

# Of a field sheet, where acid is added.

# Of a request to a laboratory.
caution-request = Bottles that are preserved hold strong acid: gloves and goggles, upright in a box that holds a spill. Water of a deep well can give off hydrogen sulfide when a bottle is opened: open it under a hood. Local rules of transport and of the laboratory come first.
caution-sheet-acid = Concentrated acid: goggles, gloves, in the open air; acid into the water, never water into acid. Water with sulfide gives off hydrogen sulfide when acid goes in: stand upwind, never in a closed room.
