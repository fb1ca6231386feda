### The page on which the columns of a laboratory’s table are chosen, what a guess asks, and how a result of it would be kept.

web_columns-title = Choose its columns

web_columns-what = What the file says of itself stands here already, each guess with its proof. Correct what is wrong, answer what is asked; then it is read at once, and kept for the next file of this laboratory. The file:

web_columns-asked = The file does not say:

web_columns-not-saved = Not kept yet.

web_columns-name = Keep as

web_columns-name-what = The laboratory’s name: its next file is read by itself. Letters, digits, hyphens, spaces.

web_columns-name-wrong = The name: found other signs, expected letters, digits, hyphens and spaces.

web_columns-needed = needed

web_columns-form = The form of the file

web_columns-as-told = as the file tells

web_columns-delimiter = Sign between cells

web_columns-tab = tab

web_columns-decimal = Decimal sign

web_columns-comma = comma: 1,2

web_columns-point = point: 1.2

web_columns-thousands = Sign between groups of three digits

web_columns-blank = blank

web_columns-encoding = Encoding

web_columns-dates = Dates

web_columns-year-first = year first: 2026/07/15

web_columns-day-first = day first: 15.07.2026, 15/07/2026

web_columns-month-first = month first: 07/15/2026

web_columns-sheet = Sheet

web_columns-header-row = Row of the headings

web_columns-units-row = Row of the units

web_columns-methods-row = Row of the methods

web_columns-transposed = Parameters down, samples across

web_columns-blocks = Several blocks, each with its own headings

web_columns-hidden = Hidden rows and columns

web_columns-hidden-take = belong to the table

web_columns-hidden-leave = are left out

web_columns-yes = yes

web_columns-no = no

# $n (count)
# $example (name)
# $points (count)
web_columns-proof-comma = { $n ->
    [one] { $n } cell
   *[other] { $n } cells
} like { $example }; { $points ->
    [0] none with a point
   *[other] { $points } with a point
}

# $n (count)
# $example (name)
# $commas (count)
web_columns-proof-point = { $n ->
    [one] { $n } cell
   *[other] { $n } cells
} like { $example }; { $commas ->
    [0] none with a comma
   *[other] { $commas } with a comma
}

# $rows (count)
# $cells (count)
web_columns-proof-cells = { $rows } of the first rows have { $cells ->
    [one] { $cells } cell
   *[other] { $cells } cells
} each

# $n (count)
# $of (count)
web_columns-proof-headings = { $n } of its { $of } cells are headings that are known

# $example (name)
web_columns-proof-date = as in { $example }

web_columns-layout = One row of the file is

web_columns-layout-long = one result

web_columns-layout-wide = one bottle, analytes across

web_columns-column = Column

web_columns-first-cells = First cells

web_columns-read-as = Read as

web_columns-ignored = left out

# $analyte (name)
web_columns-analyte-across = values of { $analyte }

web_columns-no-rows = The file shows no rows.

web_columns-bottle = The bottle

web_columns-result = The result, where a row is one result

web_columns-every = Of every result

web_columns-not-there = – not in the file –

web_columns-or-every = or for every row

web_columns-f-bottle-label = label of the bottle or sample

web_columns-f-bottle-kind = kind of bottle

web_columns-f-bottle-filled-at = when it was filled

web_columns-f-well-name = well

web_columns-f-result-analyte = analyte

web_columns-f-result-value = value

web_columns-f-result-unit = unit

web_columns-f-result-remark = sign or remark beside the value

web_columns-f-result-u = uncertainty

web_columns-f-result-detection-limit = detection limit (LOD)

web_columns-f-result-quantification-limit = quantification limit (LOQ)

web_columns-f-result-reporting-limit = reporting limit

web_columns-f-result-critical-value = critical value

web_columns-f-result-isotopes = isotopes

web_columns-f-result-resolution = resolution

web_columns-f-result-fraction = fraction (unfiltered, 0.45 um, filtered)

web_columns-f-result-laboratory = laboratory

web_columns-f-result-method = method

web_columns-u = What is ±?

web_columns-u-what = Asked because one number can mean four things. Behind each answer stands how the first value would be printed: ± on every page is U, 95 %.

web_columns-u-heading = as its heading says; if it does not, it is asked

web_columns-u-standard = standard uncertainty u, in the unit of the value

web_columns-u-expanded = expanded, U with k = 2, in the unit of the value

web_columns-u-level = half an interval of 95 %, in the unit of the value

web_columns-u-limits = limits only, never exceeded (half width), in the unit of the value

web_columns-u-standard-percent = standard uncertainty u, in per cent

web_columns-u-expanded-percent = expanded, U with k = 2, in per cent

web_columns-u-k = k of U, where it is not 2

# $from (name)
# $to (amount)
web_columns-would-print = { $from } → ({ $to })

web_columns-pm = What stands behind ± in a cell is

web_columns-pm-none = does not occur; if it does, it is asked

web_columns-short-standard = standard uncertainty u

web_columns-short-expanded = U with k = 2

web_columns-short-level = half an interval of 95 %

web_columns-names = Their name → ours

web_columns-theirs = Their name

web_columns-ours = Ours

web_columns-mark = Mark

web_columns-sure = sure

web_columns-likely = likely: please look

web_columns-new = new: needs your consent

web_columns-names-what = A new name stays as it is written and is asked about once more before anything is taken in.

# $names (name)
# $ours (name)
web_columns-two-names = { $names } are all read as { $ours }: is that one substance?

web_columns-words = What stands in a value’s cell beside numbers

web_columns-empty = an empty cell

web_columns-refused = is refused

web_columns-another = another word

web_columns-means = means

web_columns-m-below = the number beside it is a limit that the value lies under

web_columns-m-above = the number beside it is a limit that the value lies over

web_columns-m-estimated = the laboratory calls the value an estimate

web_columns-m-not-detected = not detected; the number beside it, if any, is the limit

web_columns-m-below-quantification-limit = below the quantification limit of its own column

web_columns-m-below-detection-limit = below the detection limit of its own column

web_columns-m-missing = nothing was reported

web_columns-last-look = Last look: the first rows, as they would be kept

web_columns-last-look-what = “Read again” shows them anew and writes nothing.

web_columns-no-look = Nothing can be shown before every question is answered.

web_columns-read-again = Read again

web_columns-keep = Keep, and look at what would be taken

web_columns-ask-bottle = which column names the bottle?

web_columns-ask-fraction = which fraction? Nothing in the file says it

web_columns-ask-analyte = which column holds the analyte?

web_columns-ask-value = which column holds the value?

web_columns-ask-unit = which unit? Nothing in the file says it

web_columns-ask-across = which columns hold analytes?

# $headings (name)
web_columns-ask-unit-of = which unit have { $headings }?

web_columns-ask-unit-of-isotopes = which unit have the isotopes?

# $heading (name)
web_columns-ask-coverage = are the uncertainties under { $heading } standard or expanded?

# $heading (name)
web_columns-ask-u-unit = are the uncertainties under { $heading } in per cent of the value or in its unit?

web_columns-ask-plus-minus = what stands behind ±?

web_columns-ask-decimal = which is the decimal sign?

web_columns-ask-dates = day or month first?

# $sheets (name)
web_columns-ask-sheet = which sheet? There are { $sheets }

web_columns-ask-headings = no row of headings is known

# $word (name)
# $row (count)
web_columns-ask-word = what does { $word } in row { $row } mean?

# $bottle (name)
# $what (list)
# $value (amount)
# $more (message)
web_columns-kept = { $bottle }: { $what } { $value }, { $more }

# $bottle (name)
# $day (date)
# $what (list)
# $value (amount)
# $more (message)
web_columns-kept-dated = { $bottle }, { $day }: { $what } { $value }, { $more }

# $bottle (name)
# $what (list)
# $said (message)
# $more (message)
web_columns-kept-no-number = { $bottle }: { $what } { $said }, { $more }

# $of (message)
web_columns-kept-estimated = { $of }; estimated by the laboratory

# $of (message)
# $limits (list)
web_columns-kept-limits = { $of }; { $limits }

# $x (amount)
web_columns-lim-critical = critical value { $x }

# $x (amount)
web_columns-lim-detection = detection limit { $x }

# $x (amount)
web_columns-lim-quantification = quantification limit { $x }

# $x (amount)
web_columns-lim-reporting = reporting limit { $x }

web_columns-said-nothing = no result

# $x (amount)
web_columns-said-not-found = not found, at most { $x }

web_columns-said-not-found-unknown = not found, limit not stated

web_columns-fraction-unfiltered = not filtered

web_columns-fraction-filtered = filtered

# $pore (name)
web_columns-fraction-pore = filtered, { $pore } µm

# $fraction (name)
web_columns-fraction-other = fraction “{ $fraction }”

web_columns-fraction-none = fraction not stated
