### Rows of the record that no derivation can use.

# $table (name): of the record
# $row (name): its number
# $column (name): at fault
# $fault (message): what stands there, and what could
unfit-row = { $table }, row { $row }, { $column }: { $fault }

unfit-unusable = a row that cannot be used

unfit-lacks-size = a sample that lacks a size

# $size (amount): of the particles
unfit-count-at = a count at { $size }

# $sizes (name): of the particles, µm
unfit-sizes = { $sizes } µm, the sizes of the other samples of this place

# $one (message): a row
# $more (message): the rest
unfit-rows = { $one }; { $more }

# $rows (message): all of them
unfit-correct = { $rows }. Correct it with a reason, or take the trip from a row that was taken in twice

# A reported result that has no value.
# $row (name): its number
# $found (message): what stands there
# $expected (message): what could
unfit-result = result, row { $row }: found { $found }, expected { $expected }. Have the laboratory's file taken in again, put right

# $unit (name): as it stands there
unfit-unit = unit "{ $unit }"

# $why (message): what is wrong with it
unfit-unit-known = a unit that is known: { $why }

unfit-no-value = no value and no limit

unfit-one-of-them = one of them

# $ends (name): time
# $starts (name): time
unfit-ends-before-start = an end on { $ends } of what starts on { $starts }

unfit-end-after-start = an end that does not lie before the start
