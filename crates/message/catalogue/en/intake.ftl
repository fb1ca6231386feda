### What coming in says: faults of files, rows and cells, and what a person should know.

# A bottle that repeats several samples.
# $bottle (message): its label
# $samples (count): different ones
# $parent (name): the one that is kept
# $sets (count): with that one
# $all (count): sets that the bottle stands in
intake-replicate-of-two = bottle { $bottle } stands in sets with { $samples ->
    [one] { $samples } sample
   *[other] { $samples } different samples
}; { $parent }, the sample of { $sets } of its { $all ->
    [one] { $all } set
   *[other] { $all } sets
}, is kept as the one it repeats

# A fault of a file, a row or a cell.
# $found (message): what stands there
# $expected (message): what would be read
intake-fault = found { $found }, expected { $expected }

# A fault of a value that is shown as it stands.
# $found (name): the value
# $expected (message): what would be read
intake-fault-of-value = found { $found }, expected { $expected }

# A row that a science refuses, in the words of its refusal.
# $found (name): what stands there
# $expected (name): what could
intake-fault-by-science = found { $found }, expected { $expected }

# A value that may be right, and that somebody should look at once more.
# $what (name): quantity, analyte or heading
# $value (amount): with its unit
# $lower (amount): usual range, from
# $upper (amount): usual range, to, with the unit
intake-unusual = unusual: { $what } { $value }; usual is { $lower } to { $upper }. Taken as it stands; if it is a slip, correct it with a reason

# Acid before water: so only where the bottle was sent out with its acid in it.
# $acidified (name): time
# $filled (name): time
intake-acid-before-filling = unusual: acid added { $acidified }, before the bottle was filled { $filled }. Taken as it stands; so it is where the acid was in the bottle before, else correct one of the two with a reason

# $more (count): values outside what is usual beyond those told one by one
intake-more-unusual = { $more ->
    [one] { $more } more value
   *[other] { $more } more values
} outside what is usual; the first ones are told row by row

# A person agreed to it with this act.
# $one (message): what the name is of, with its article
# $written (name): as the file writes it
# $taken (name): as on record
intake-taken-as = "{ $written }" was read as { $taken } ({ $one } on record), as agreed with this act

# A person agreed to it earlier, for files of this mapping.
# $one (message): what the name is of, with its article
# $written (name): as the file writes it
# $taken (name): as on record
# $mapping (name): that reads the file
intake-taken-as-before = "{ $written }" was read as { $taken } ({ $one } on record), as agreed before for files that { $mapping } reads

# Two names on record that a person made one.
# $one (message): what the name is of, with its article
# $written (name): the old name
# $taken (name): the name from then on
intake-one-name = "{ $written }" was read as { $taken } ({ $one } on record): the two names were made one

# Names that nothing on record is near to.
# $one (message): what they are of, with its article
# $names (name): the first of them
# $count (count): how many
intake-new-names = { $count } { $count ->
    [one] name is
   *[other] names are
} new on record ({ $one }): { $names }

# A new analyte that this program speaks of by another name.
# $written (name): as the file writes it
# $known (name): as the program writes it
intake-known-here = "{ $written }" is new on record; limits and checks of this program speak of it as { $known }, and do not meet it under this name

# $name (name): that was agreed on
intake-agreed-for-nothing = what was agreed of "{ $name }" met nothing: no file has this name where it would be new

# A new name that a person typed and that is near to others.
# $one (message): what the name is of, with its article
# $written (name): as typed
# $near (list): on record
intake-near-to = "{ $written }" is new on record ({ $one }) and near to { $near }. If that was meant, correct it, or make the two names one
# The mapping's unit holds; a person should know that the heading carries another.
# $carried (name): in the heading
# $unit (name): of the mapping
# $mapping (name): which
intake-unit-of-mapping = the heading carries { $carried }, mapping { $mapping } says { $unit }: read as { $unit }

# A row below the table.
# $text (message): what stands there
intake-footer-left = a row after the table, left out: { $text }

intake-headings-again = the headings once more, left out

intake-block-begins = another block of the table begins here; it is read with the headings of this row

intake-lies-on-its-side = the table lies on its side: each row told here is a column of the sheet, counted from 1

intake-hidden-unseen = hidden rows and columns of an old XLS cannot be seen here: look into the sheet, or save it as XLSX

# $rows (count): hidden
# $columns (count): hidden
intake-hidden-taken = { $rows ->
    [one] { $rows } hidden row
   *[other] { $rows } hidden rows
} and { $columns ->
    [one] { $columns } hidden column
   *[other] { $columns } hidden columns
} taken, as the mapping says

# $rows (count): hidden
# $columns (count): hidden
intake-hidden-left = { $rows ->
    [one] { $rows } hidden row
   *[other] { $rows } hidden rows
} and { $columns ->
    [one] { $columns } hidden column
   *[other] { $columns } hidden columns
} left out, as the mapping says

# $heading (name): of the column
# $k (name): as the heading says
intake-coverage-of-heading = "{ $heading }" says k = { $k }: each uncertainty is divided by it
