### Which limit was used for what, and what other published ways give; why a limit cannot be given.

# A heading.
# $element (name): as it is called
detection-page = Detection: which limit was used for what, { $element }

# Before the table.
# $element (name): as it is called
detection-before = Every “detected” in this report rests on the critical value of the field blanks (first row). A promise, “a level of … would have been seen”, rests on the detection limit in the same row. The other rows are what other published ways give from the same vials; they decide nothing here. Concentrations of { $element } in a bottle as large as those of the blanks.

# Caption of the table.
# $element (name): as it is called
detection-limits = Limits of detection of { $element } by several ways, ng/L

# A heading of a column.
detection-way = way

# A heading of a column.
detection-scale = scale

# A heading of a column.
detection-decides-above = decides above

# A heading of a column.
detection-promises-from = promises from

# A heading of a column.
detection-quoted-from = quoted from

# A heading of a column.
detection-used-for = used here for

# A note.
detection-table-explained = Net: blank taken off. Gross: as measured. A dash: the way gives no such limit. Sources stand under Methods.

## Ways, each with what it is used for

# A way.
detection-student = field blanks, Student’s t (Currie 1995, ISO 11843-1)

detection-decides = every decision and promise of this report

detection-too-few-field-blanks = cannot be given: fewer than two field blanks

# A way.
detection-huber = field blanks, Huber’s robust scale

detection-looks-normal = comparison; the blanks look normal

detection-looks-not-normal = comparison; the blanks do not look normal

detection-normality-unknown = comparison; too few blanks to test normality

# A way.
detection-percentile = 95 % limit of the blanks’ 90th percentile, order statistics

detection-free = comparison, free of any distribution

# $needed (count): blanks
# $blanks (count): that there are
detection-percentile-too-few = cannot be given with this few: it takes { $needed ->
    [one] { $needed } blank
   *[other] { $needed } blanks
}, there are { $blanks }

# A way.
detection-mdl-blanks = method detection limit from blanks (US 40 CFR 136 App. B)

detection-no-number = not given: no blank is a number

detection-comparison = comparison

# A way.
detection-mdl-spikes = method detection limit from spikes (US 40 CFR 136 App. B)

detection-spikes-above = comparison; the spikes lie above the water’s own metal

# A way.
detection-line = calibration line (ISO 11843-2; quoted from: DIN 32645)

detection-instrument-alone = comparison; of the instrument alone, no bottle in it

## Why a limit cannot be given

# $why (message): what is wrong
detection-cannot = cannot be given: { $why }

# $what (name): of what there are too few
# $found (count): how many there are
# $needed (count): at least
detection-too-few = { $what ->
    [points-with-x-and-y] points with x and y
   *[other] { $what }
}: found { $found }, at least { $needed ->
    [one] { $needed } is needed
   *[other] { $needed } are needed
}

# $what (name): of what one is no number
# $place (count): from 0
detection-not-finite = { $what }[{ $place }] is no finite number, one is needed

# $n (count): how many
# $what (name): of what
# $value (amount): that all of them have
detection-all-equal = { $what } ({ $n }) are all { $value }: their spread is not known, it is not zero. Give them with more digits and with negative values kept, or as counts with counting times

# $what (name): which number
# $value (amount): that it has
detection-out-of-range = { $what } is { $value }, out of its range

# $n (count): points
# $x (amount): where all of them stand
detection-one-level = { $n ->
    [one] the one point stands
   *[other] all { $n } points stand
} at x = { $x }: no limit can be read from this line

# $slope (amount): of the line
detection-not-rising = the slope is { $slope }, not above zero: no limit can be read from this line

detection-no-scatter = all points lie exactly on the line, so the noise is not known: no limit can be read from this line

# $iterations (count): made
detection-not-settled = quantification limit of DIN 32645 did not settle after { $iterations ->
    [one] { $iterations } iteration
   *[other] { $iterations } iterations
}: uncertainty grows as fast as the level
