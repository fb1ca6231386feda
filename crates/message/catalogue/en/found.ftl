### What stands in a file, a row or a cell that cannot be taken. Each is said after "found".

found-nothing = nothing

# What stands in a cell.
# $text (name): as it stands there, cut short
found-quoted = "{ $text }"

found-zero-byte = a zero byte

# $byte (name): in hexadecimal
# $text (message): what stands around it
found-byte = byte 0x{ $byte } in { $text }

found-pdf = a PDF document

found-old-office = an old binary Office file (XLS)

found-zip = a ZIP archive

found-gzip = a gzip archive

found-png = a PNG image

found-no-workbook = something that is no workbook

# $what (message): what the first bytes say
found-under-xlsx = { $what } under the name of an XLSX workbook

found-empty-file = an empty file

# A workbook of too many parts.
# $parts (count): files in it
found-parts = { $parts ->
    [one] { $parts } part
   *[other] { $parts } parts
}

# $packed (count): bytes of the file
# $unpacked (count): bytes that were counted
found-unpacks = a workbook of { $packed ->
    [one] { $packed } byte
   *[other] { $packed } bytes
} that unpacks to { $unpacked } and more

# $part (name): file in the workbook
# $why (name): what the system says
found-part-unread = a workbook whose part { $part } cannot be read ({ $why })

found-file = a file

# $ending (name): of its name
found-file-ending = a .{ $ending } file

# $file (message): a file
# $why (name): what the reader says
found-workbook-unread = { $file } that cannot be read as a workbook ({ $why })

# $file (message): a file
found-workbook-broken-off = { $file } that cannot be read as a workbook (reading broke off)

# $file (message): a file
found-workbook-wide = { $file } that cannot be read as a workbook (more columns than a sheet can have)

# $sheets (name): their names
found-sheets = sheets { $sheets }

found-no-headings = no row of headings

found-no-rows = headings and no row of data

found-carriage-returns = line ends made of carriage returns only

# $one (name): a sign
# $other (name): another
found-delimiters = as many { $one } as { $other }

found-quote-open = a quoted cell that is never closed

# $text (message): what stands there
found-after-quote = { $text } after the closing quote

# $size (count): kB
found-line-long = a line longer than { $size } kB

# $cells (count): of a row
found-cells = { $cells ->
    [one] 1 cell
   *[other] { $cells } cells
}

# $columns (name): headings
found-columns = the columns { $columns }

# A heading that stands several times.
# $times (count): how often
found-times = it { $times ->
    [one] { $times } time
   *[other] { $times } times
}

found-no-unit = a heading without a unit

# $unit (name): of the heading
found-unit-in-heading = unit { $unit } in the heading

found-no-analyte = no analyte

# $mapping (name): which
found-column-unnamed = a column that mapping { $mapping } does not name

# A column that the record does not have.
# $column (name): which
found-column = a column "{ $column }"

# A table that the record does not have.
# $table (name): which
found-table = table "{ $table }"

# A unit that is none of its quantity.
# $unit (name): as printed
# $quantity (name): as the record names it
found-unit-for = { $unit } for { $quantity }

# $value (amount): with its unit
# $quantity (name): as the record names it
found-value-for = { $value } for { $quantity }

found-no-fraction = no fraction

# $analyte (name): of the result
# $fraction (name): of the result
# $row (count): of the first
found-result-twice = a second result of { $analyte } ({ $fraction }) for the same bottle; the first stands in row { $row }

# $bottle (message): its label
# $row (count): of the first
found-bottle-differs = bottle { $bottle } described otherwise than in row { $row }

# $run (message): its name
# $row (count): of the first
found-run-differs = run { $run } described otherwise than in row { $row }

# $position (count): of the vial
# $row (count): of the first
found-position-of-other-vial = position { $position } a second time, with another vial than in row { $row }

# $position (count): of the vial
# $row (count): of the first
found-position-twice = position { $position } a second time; it stands in row { $row } too

# $position (count): of the vial
# $analyte (name): of the assigned value
# $row (count): of the first
found-analyte-twice = position { $position } with { $analyte } a second time; it stands in row { $row } too

# $position (count): of the vial
# $row (count): of the first
found-block-twice = position { $position } a second time; its first block stands in row { $row }

# $missing (name): columns
found-assigned-without = an assigned value without its { $missing }

# $reading (name): isotope, resolution, mode
# $position (count): of the vial
# $row (count): of the first
found-integration-differs = { $reading } at position { $position } with another integration time than in row { $row }

# $replicate (count): its number
# $reading (name): isotope, resolution, mode
# $position (count): of the vial
# $row (count): of the first
found-replicate-twice = replicate { $replicate } of { $reading } at position { $position } a second time; the first stands in row { $row }

found-no-block = no block

found-replicates-first = replicates before the line with the isotopes

found-block-empty = a block without replicates

# $vial (message): its name
# $position (count): of the vial
# $other (count): position of the other
# $row (count): of the other
found-vial-name-twice = vial { $vial } at position { $position }; position { $other } in row { $row } has the same name

# $position (count): of the vial
found-standard-without-value = a standard at position { $position } without an assigned value

# $position (count): of the vial
# $run (message): its name
found-vial-of-run = position { $position } of run { $run }

# $vial (message): its name
# $position (count): of the vial
found-vial-at = vial { $vial } at position { $position }

# $reading (name): isotope, resolution, mode
found-other-counts = other counts of { $reading } than the programme has for this vial

# $reading (name): isotope, resolution, mode
found-other-integration = another integration time of { $reading } than the programme has for this vial

# A row that another refers to.
# $table (name): of the record
# $row (message): its name
found-row = { $table } { $row }

# $table (name): of the record
# $row (message): its name
# $first (count): row of the first
found-row-twice = { $table } { $row } a second time; it stands in row { $first } too

# A row that is on record with another value.
# $value (name): of the file
# $one (message): row of a table, with its article
# $stands (name): value on record
found-differs = { $value } for { $one } that is in the programme with { $stands }

# A section that ends above its begin.
# $to (amount): its foot
# $from (amount): its top
found-upside-down = { $to } under a top at { $from }

# $bottle (message): its label
found-bottle = bottle { $bottle }

# $bottle (message): its label
# $kind (name): of the file
found-bottle-of-kind = bottle { $bottle } as { $kind }

# $bottle (message): its label
found-bottle-of-other-well = bottle { $bottle } as a bottle of another well

# $bottle (message): its label
found-bottle-of-no-trip = bottle { $bottle } of no trip

# $bottle (message): its label
# $trip (name): its name
found-bottle-of-trip = bottle { $bottle } of trip { $trip }

# A correction of a value that the person did not see.
# $text (name): the correction
found-changed-meanwhile = "{ $text }" over a value that somebody changed meanwhile

# $bytes (count): of a file
found-bytes = { $bytes ->
    [one] { $bytes } byte
   *[other] { $bytes } bytes
}

# $line (count): the last
found-cut-off = a file that ends too early (line { $line })

# $why (name): what the reader says
found-no-json = no JSON ({ $why })

found-other-kind = a file of another kind

found-number-twice = two entries of this number

found-no-counter = no counter

found-key-unknown = a key that this kind of entry does not have

found-column-not-set = a column that a sheet cannot set

# $name (message): of the programme
# $id (name): begin of its digest
found-other-programme = a sheet of the programme { $name } ({ $id }…)

# $trip (message): its name
found-trip = trip { $trip }

# Several entries with the same fault.
# $found (message): what stands in the first
# $more (count): others
found-and-more = { $found } (and { $more ->
    [one] 1 more entry
   *[other] { $more } more entries
})

# $entry (count): its number
# $phone (name): which
found-other-entry = another entry { $entry } of phone { $phone } than the programme has

# $at (date): time of the phone
# $days (count): between the two
# $start (date): first day of the trip
found-days-before = { $at }, { $days ->
    [one] { $days } day before
   *[other] { $days } days before
} the start of the trip, { $start }

# $at (date): time of the phone
# $days (count): between the two
# $start (date): first day of the trip
found-days-after = { $at }, { $days ->
    [one] { $days } day after
   *[other] { $days } days after
} the start of the trip, { $start }

# $at (date): time of the phone
# $day (date): on which the sheet is taken in
found-later = { $at }, later than the day of taking in, { $day }

# A recipe's file.
# $key (name): as it stands there
found-recipe-key = a key { $key }

# $key (name): that the file lacks
found-recipe-lacks = no entry { $key }

# $key (name): which
# $text (name): what stands there
found-recipe-value = { $key } = { $text }

# $name (name): of the recipe
# $version (count): the newest on record
found-recipe-version = another text than version { $version } of recipe "{ $name }"

# $why (name): what the reader says, with the line
found-no-toml = what is no TOML of a recipe: { $why }
# A row of a table without names that says otherwise of the same thing than one on record.
# $value (name): of the file
# $one (message): row of a table, with its article
# $row (count): number of the row on record
# $stands (name): value on record
found-otherwise-than-row = { $value } for { $one } that stands in the programme as row { $row } with { $stands }

# A name that is not on record.
# $name (name): as written
found-new-name = "{ $name }"

# A row that another refers to, by a name that is not on record.
# $table (name): of the record
# $name (name): as written
found-unknown-row = { $table } "{ $name }"

# Two names of a file that are read as one.
# $bottle (message): its label
# $analyte (name): as on record
found-result-by-two-names = { $analyte } of bottle { $bottle } a second time, by two names that are read as one
# Of a sheet.
# $rows (count): hidden ones with something in them
# $columns (count): hidden ones with something in them
found-hidden = { $rows ->
    [one] { $rows } hidden row
   *[other] { $rows } hidden rows
} and { $columns ->
    [one] { $columns } hidden column
   *[other] { $columns } hidden columns
}

found-formula-without-result = a formula without a stored result

# $heading (name): as the file has it
found-coverage-unsaid = uncertainties under "{ $heading }", of which nothing says whether they are standard or expanded

# A heading in one unit over results in another.
# $unit (name): of the column
# $other (name): of the result
found-unit-beside = a column in { $unit } beside a result in { $other }
