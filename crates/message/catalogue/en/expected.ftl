### What would be read in the place of what was found. Each is said after "expected".

expected-ordinary-workbook = a laboratory's workbook; this one would unpack to more than any of them

expected-sound-parts = a whole workbook, every part of which can be unpacked; it may be damaged: save it again

expected-whole-workbook = a whole XLSX workbook; the file may be cut off or damaged

expected-table = a row of headings and rows of data

expected-xlsx = an XLSX workbook, or a text table named .csv

expected-text-table = delimited text (CSV) or a workbook (XLSX, ODS, XLS)

# $row (count): as the mapping says
expected-headings-in-row = headings in row { $row }

expected-line-feeds = line ends with a line feed

# $cells (count): of the headings
expected-cells = { $cells }, as many as there are headings

# $cells (count): of the line with the isotopes
# $isotopes (count): of the same line
expected-block-cells = { $cells }: the replicate's number and { $isotopes ->
    [one] { $isotopes } isotope
   *[other] { $isotopes } isotopes
}

expected-a-row = at least one row of data

# A workbook of several sheets.
expected-one-sheet = one sheet, or a mapping that names one: sheet = "…"

# $sheet (name): as the mapping says
expected-sheet = a sheet "{ $sheet }"

expected-no-zero-byte = text; is this a binary file with another's name?

expected-sound-text = text whose characters survived; the file was damaged when it was converted

expected-utf = UTF-8; if the file is Latin-1, the mapping must say encoding = "latin-1"

expected-latin = Latin-1, but these bytes are UTF-8; the mapping must say encoding = "utf-8"

expected-one-delimiter = one delimiter; the mapping must name it: delimiter = ";"

expected-closing-quote = a closing quote; the file may be cut off

expected-quote-or-line-end = a closing quote or a line end before that

expected-line-end = a line end before that; is this a text table?

expected-delimiter = a delimiter after the closing quote

# $heading (name): as the mapping has it
# $mapping (name): which
# $field (name): that it fills
expected-column-of-mapping = a column "{ $heading }", which mapping { $mapping } names for { $field }

# $headings (name): as the mapping has them, in quotes
# $mapping (name): which
# $field (name): that one of them fills
expected-one-of-columns = one of the columns { $headings }, which mapping { $mapping } names for { $field }

# $prefix (name): begin of their headings
expected-replicate-columns = columns "{ $prefix }1…" with the replicates

expected-heading-once = each heading once

expected-entry-or-ignore = an entry in the mapping, or its name under ignore = […]

# $unit (name): of the record
expected-unit-to = a unit that can be turned into { $unit }

expected-unit = a unit that is known

# $why (message): what is wrong with it
expected-unit-known = a unit that is known; { $why }

# $why (message): what is wrong with it
expected-unit-or-entry = a unit that is known, or an entry under [units]; { $why }

expected-unit-in-heading = a unit in it, for instance "Pb (ng/L)"

# $unit (name): as the mapping says
# $mapping (name): which
expected-unit-of-mapping = { $unit }, as mapping { $mapping } says; change the one that is wrong

expected-analyte-and-unit = an analyte and a unit that is known

# $quantity (name): as the record names it
# $unit (name): one that fits
expected-unit-of = a unit of { $quantity }, for instance { $unit }

expected-unit-of-concentration = a unit of concentration, for instance ng/L

expected-number = a number

expected-number-decimal-comma = a number with a decimal comma

# A number with commas, in a file of decimal points.
expected-number-decimal-point = a number with a decimal point and no thousands sign

# A number with points, in a file of decimal commas.
expected-number-no-thousands = a number with a decimal comma and no thousands sign

expected-number-ordinary = a number of ordinary size

expected-number-ordinary-in-unit = a number of ordinary size in the record's unit

expected-whole-number = a whole number

expected-above-zero = a number above zero

expected-zero-or-more = zero or more

expected-dilution = a dilution above zero: mass after over mass before; 1 where undiluted

# What physics leaves to a quantity.
# $quantity (message): with its article
# $lower (amount): the least
# $upper (amount): the most, with the unit
expected-bound = { $quantity } from { $lower } to { $upper }

# $remarks (name): those that it explains, in quotes
# $remark (name): the one in the file
expected-remark = a remark that the mapping explains ({ $remarks }); found remark "{ $remark }"

# $remark (name): the one in the file
expected-remark-of-none = a remark that the mapping explains (it explains none); found remark "{ $remark }"

expected-same-meaning = a remark and a cell that say the same

expected-limit-above-zero = a limit above zero

expected-not-negative = a value of zero or more; the mapping does not say negative = "value"

expected-number-of-estimate = a number beside the word for an estimate

expected-limit-beside-word = the limit beside the word for below or above

expected-zero-explained = a number other than a literal zero, or a mapping that says what a zero means (words: "0" = …)

expected-empty-explained = a number, or a mapping that says what an empty cell means (words: "" = …)

# $number (message): what kind of number
# $word (name): of the cell
expected-beside-word = { $number } beside "{ $word }"

# $words (name): those that the mapping explains, in quotes
expected-number-or-word = a number or a word that the mapping explains ({ $words })

expected-number-or-word-of-none = a number or a word that the mapping explains (it explains none)

# $number (message): what kind of number
expected-rate = { $number }, in counts per second

expected-seconds = seconds above zero

expected-date-year-first = a date as 2026-07-15, with or without a time as 09:30

expected-date-day-first = a date as 15.07.2026, with or without a time as 09:30

expected-date-month-first = a date as 07/15/2026, with or without a time as 09:30

# $year (name): of the date
# $month (count): of the date
# $day (count): of the date
expected-day-that-exists = a day that exists; { $year } has no month { $month } with a day { $day }

expected-clock = a time as 09:30 or 09:30:15, with an offset as +02:00 or none

# $at (date): time of the act
expected-time-that-has-been = a time that has been: this is taken in on { $at }

# $words (name): all that the column takes
expected-one-of = one of { $words }

# $field (name): table and column
expected-value = a value: { $field } is needed

# $field (name): table and column
# $values (name): those that it translates, in quotes
expected-translated = a value that the mapping translates for { $field } ({ $values })

expected-no-text = no text: the program fills this column

expected-name-without-control-signs = a name without control signs (tab, line end)

# $most (count): letters
# $letters (count): of the one found
expected-name-short = a name of at most { $most ->
    [one] { $most } letter
   *[other] { $most } letters
}, not { $letters }

expected-run = the name of a run

expected-position = the position of a vial

expected-same-run = the same laboratory, start and recipe in every row of a run

expected-one-vial = one vial a position

expected-one-row-a-vial = one row a vial, or one for each assigned value

expected-assigned-whole = analyte, value, u and unit together

expected-assigned-once = one assigned value a vial and analyte

expected-assigned-value = analyte, value, u and unit of each element in it

expected-integration-time = one integration time for all replicates

expected-replicate-once = each replicate once

expected-isotope = an isotope, for instance Pb208

expected-isotope-of-mapping = an isotope as the mapping writes it (counts.heading)

expected-replicate-number = the replicate's number

expected-replicate-line = a replicate's number, or a line that the mapping names or ignores

# $begin (name): first cell of a block
expected-blocks = lines that begin with "{ $begin }"

expected-preamble = a line before the first block that the mapping explains (counts.blocks.preamble)

expected-one-block = one block a vial

expected-isotopes-first = the isotopes first

expected-rows-of-counts = rows of counts; the file may be cut off

expected-vial-name = a name of its own for every vial of a run

expected-vial-of-sequence = a vial of the sequence; take in the sequence first, it says what each vial is for

# $vial (message): its name
expected-vial-as-in-sequence = { $vial }, as the sequence has it

expected-same-counts = the same counts; a run measured again has a name of its own

expected-fraction = unfiltered, filtered or a pore size: the mapping must name it

expected-one-result = one result a bottle, analyte, isotope and fraction in a file

expected-label = the label of a bottle

expected-same-bottle = the same kind, place and time in every row of a bottle

expected-set = the number of a replicate set

expected-bottle = a bottle that is in the programme; take in the bottles first, or name bottle.kind in the mapping

# $kind (name): on record
expected-kind-on-record = { $kind }, as in the programme

# $one (message): row of a table, with its article
expected-row-known = { $one } that is in the programme

# $one (message): row of a table, with its article
expected-row-known-or-taken = { $one } that is in the programme or stands in a file taken in before

expected-same-as-on-record = the same as in the programme; a correction is entered as an amendment, with a reason

expected-once-in-file = each once in a file

expected-foot-deeper = a foot deeper than the top

# $checks (name): some that are near
expected-check = a check that the program makes and a programme weighs, as { $checks }

expected-table-people-fill = a table of the record that people fill

expected-column-of-record = a column of the record

# $text (name): what stands there now
expected-look = a look at what stands there now: "{ $text }"

# $bytes (count): the most
expected-sheet-of-bytes = a field sheet of at most { $bytes ->
    [one] { $bytes } byte
   *[other] { $bytes } bytes
}

expected-field-sheet = a field sheet as the phone saved it; save it again on the phone

# $format (name): its first word
expected-format = a field sheet, whose format is { $format }

# $version (count): of the form
expected-version = version { $version } of the form

expected-text-of-sheet = a text: the sheet names it

expected-time-with-offset = a time with its offset from UTC, as 2026-07-14T09:12:33+02:00

expected-entries = the entries, as a list

expected-entry-number = a number of its own for every entry

expected-counter = a whole number from 1 on in every entry

expected-value-of-entry = a value: the entry needs it

expected-open-or-shut = open or shut

expected-counts = a list of {"{"}"size_um": size, "count": whole number{"}"}

expected-short-text = a text of at most 4000 letters

expected-bottle-columns = columns of a bottle with their values

expected-text-or-number = a text or a number

# $id (name): begin of its digest
expected-this-programme = a sheet of this programme ({ $id }…)

expected-same-entry = the same entry: a phone never changes one; was this file edited?

# $trip (name): of the sheet
expected-bottle-of-trip = a bottle of trip { $trip }

expected-bottle-or-kind = a bottle that is in the programme, or one that the sheet added with its kind

# $before (count): days
# $after (count): days
# $days (count): those that would bring the phone's time to the trip
expected-time-of-trip = a time from { $before ->
    [one] { $before } day before
   *[other] { $before } days before
} the trip to { $after ->
    [one] { $after } day after
   *[other] { $after } days after
} it; where the phone's clock was wrong, take the file in with a mapping that says [clock] add_days = { $days } (0: as it is)

expected-time-before-taking-in = a time that has been; where the phone's clock was wrong, take the file in with a mapping that says [clock] add_days = …

# A recipe's file.
# $nearest (name): key that is most like the one found
expected-recipe-key = a key of a recipe, of which { $nearest } is the nearest (`limpid recipes --template` explains all)

# A value that no recipe may leave to the program.
expected-recipe-entry = a value of the laboratory's own: nothing stands in for it (`limpid recipes --template` explains it)

expected-toml = a recipe as `limpid recipes --template` writes it

expected-some-text = a text that is not empty, in quotes

expected-list-of-texts = a list of texts in quotes

expected-whole-numbers = a list of whole numbers from 1 on

expected-isotope-resolution = an isotope as Pb208@low or Fe56@medium/analogue

expected-list-of-isotopes = a list of isotopes as Pb208@low

# $words (name): all that mean something
expected-word-of = one of the words { $words }

expected-keys = a table of keys

expected-list-of-tables = a list of tables

expected-percent = a percentage above zero

# The text of a recipe changed.
expected-why-version = a reason beside it, which is kept with the version: --why "…"

# The sequence of a run names a recipe that is not there.
expected-recipe-known = a recipe on record or taken in before the run: write one (`limpid recipes --template` makes its beginning), take it in with the mapping "recipe"
# Of something that is on record otherwise.
# $table (name): of the record
# $row (count): number of the row on record
expected-as-row-or-corrected = what stands on record. If the record is wrong, correct row { $row } of { $table } with a reason; if this is another measurement, tell it apart by its time

# A new name that may be a slip of one on record.
# $one (message): what the name is of, with its article
# $near (list): the nearest on record
expected-name-meant = { $one } on record; the nearest: { $near }. A person says which of them is meant, or that the name is new

# A name that is not on record and may be a slip of one.
# $one (message): row of a table, with its article
# $near (list): the nearest on record
expected-row-nearest = { $one } that is in the programme or stands in a file taken in before; the nearest: { $near }

# A name that a person agreed to read as another.
# $name (name): the other
expected-target-known = a name on record after the sign =, for which the first one stands; "{ $name }" is none
expected-hidden-said = a mapping that says under [file] hidden = "take" (they belong to the table) or hidden = "leave"

expected-hidden-in-xlsx = the sheet without them, or saved as XLSX or CSV

expected-stored-result = its result; open the file in a spreadsheet program, let it calculate, and save it again

expected-coverage = a mapping that says which: k = 1 beside the heading where they are standard uncertainties, k = 2 where they are expanded by two, level = "95 %" where they are half an interval of 95 %

expected-coverage-of-cell = a number, or a mapping that says what stands behind ±: plus_minus = {"{"} k = 2 {"}"}, k = 1 where it is the standard uncertainty

expected-date-order-asked = a date whose day and month can be told apart; nothing in the file tells them, so the mapping must say under [file] dates = "day-month-year" or dates = "month-day-year"

expected-decimal-asked = a number whose decimal sign can be told; nothing in the file tells it from a thousands sign, so the mapping must say under [file] decimal = "," or decimal = "."

expected-saved-again = a sheet that can be read; open it in a spreadsheet program and save it as XLSX or CSV

# $most (count): characters
expected-text-of-at-most = { $most ->
    [one] a text of at most { $most } character
   *[other] a text of at most { $most } characters
}

expected-bottle-or-well = a bottle, or a well with the day of sampling

expected-day-of-measurement = the day of measurement: the value holds for it

expected-tracer-with-history = a tracer that rain or air brought: 3H, SF6, CFC-11, CFC-12, CFC-113, 14C

expected-upper-end = the lower end or more

expected-tracer-of-price = the tracer that the price is for
