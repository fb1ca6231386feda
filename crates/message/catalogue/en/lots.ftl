### Bottles and their lots: what the bottles of a lot met, and its blanks against the targets.

# Title of the section.
lots-title = Bottles and their lots

# $lot (name): its label
lots-lot = Lot { $lot }

## What is on record of a lot, a line each.

# $material (name): as it was written
lots-material = material: { $material }

# $day (name): as it was written
lots-cleaned-on = cleaned on: { $day }

# $steps (name): of cleaning, as they were written
lots-steps = steps: { $steps }

# $days (amount): number alone
lots-days-in-acid = days in acid: { $days }

# $rinse (name): as it was written
lots-last-rinse = last rinse: { $rinse }

# $kinds (message): how many of each kind
lots-bottles = bottles on record: { $kinds }

# Bottles of one kind.
# $n (count): how many
# $kind (name): kind of bottle
lots-kind = { $n } { $kind ->
    [sample] { $n ->
        [one] sample
       *[other] samples
    }
    [duplicate] { $n ->
        [one] duplicate
       *[other] duplicates
    }
    [field-blank] { $n ->
        [one] field blank
       *[other] field blanks
    }
    [trip-blank] { $n ->
        [one] trip blank
       *[other] trip blanks
    }
    [bottle-blank] { $n ->
        [one] bottle blank
       *[other] bottle blanks
    }
    [equipment-blank] { $n ->
        [one] equipment blank
       *[other] equipment blanks
    }
    [field-spike] { $n ->
        [one] field spike
       *[other] field spikes
    }
    [lab-spike] { $n ->
        [one] lab spike
       *[other] lab spikes
    }
    [reference-material] { $n ->
        [one] reference material
       *[other] reference materials
    }
   *[other] { $kind }
}

# $bags (count): around each bottle
lots-bags = bags: { $bags }

# $from (count): fewest
# $to (count): most
lots-bags-from-to = bags: { $from } to { $to }

# $openings (count): of each bottle
lots-openings = openings: { $openings }

# $from (count): fewest
# $to (count): most
lots-openings-from-to = openings: { $from } to { $to }

## The table of its metals.

# Caption.
# $lot (name): its label
lots-against-target = Lot { $lot }: bottle blanks against the target, pg per bottle

# Heading of a column: what a bottle may bring.
lots-target = target

# $blanks (count): that count
# $left-out (count): that cannot enter
lots-some-left-out = { $blanks } ({ $left-out } left out)

# In place of a target.
lots-none-set = none set

lots-may-go-out = may go out

lots-wash-again = wash again

lots-more-blanks = more blanks would decide

# Note under the table.
# $confidence (share): of the limit
# $content (share): of the bottles
lots-limit = Limit: with { $confidence } confidence { $content } of the lot’s bottles bring less (tolerance limit, Owen 1958, from memory).
