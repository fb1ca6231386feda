### The beginning of a programme of one's own: questions, templates, the step that is next.

start-ask-site = Name of the site

start-ask-wells = Names of the wells, with a comma between

start-ask-trip = Name of the first trip

start-ask-day = Its day, as 2026-05-11

start-ask-person = Who leads the programme

# Nothing was answered.
# $question (message): the question
# $option (name): the option that answers it
start-missing = { $question }? Say it with { $option }

# $path (name)
# $person (name)
start-made = { $path }: the programme, with { $person } as lead

# $path (name)
start-empty-file = { $path }: empty, with one example row, which is refused until it is deleted; the same as a workbook beside it

# $path (name)
start-words-file = { $path }: what each column means, its unit, the words it takes

# Stands where an example row refers to something, so that it cannot be taken in.
start-example = EXAMPLE delete this row

# $step (message)
start-next = next: { $step }

# $command (name)
start-by-command = then `{ $command }`

start-preview = with --preview nothing is taken yet; what there is none of may be left out

# $step (message)
# $path (name)
start-in-file = { $step }, in { $path }, and delete the example row there

start-step-people = Say who works on the programme; who leads or answers for its analyses may sign

start-step-wells = Describe the wells

start-step-trips = Enter a trip, with the question that it is to decide

start-step-bottles = One row a bottle, blanks too: without a blank nobody can say whose metal it is

start-step-readings = What was read at the wells

start-step-fills = The timed fills of the wells

start-step-custody = Where the bottles were, and whether the seals were whole

start-step-recipe = Where counts come from an instrument: the recipe by which they become concentrations

start-step-sequence = The run: its sequence

start-step-counts = The counts of the run

start-step-results = What the laboratory reported

start-step-sign = Look at the results, and stand for those that you answer for

start-step-report = Make a report

start-or-results = Where a laboratory reports concentrations, neither recipe nor run is needed.

start-title = First steps

start-done = done

start-now = next

start-by-form = by a form

start-by-file = as a file

start-by-questions = by questions

start-templates = Templates

start-templates-what = Empty files with the headings that are read, the unit in the name, and one example row. Fill in your own rows, delete the example row, and bring the file in: until then it is refused. What a heading means stands in the sheet of words.

start-sheet-of-words = Sheet of words

start-bring-in = Bring in files

start-heading-file = file

start-heading-column = column

start-heading-needed = needed

start-heading-unit = unit

start-heading-takes = takes

start-heading-means = means

start-yes = yes

# $column (name)
start-unit-beside = as in the column { $column }

start-takes-number = a number

start-takes-whole = a whole number

start-takes-time = a day, or day and time: 2026-05-11 09:30

start-takes-unit = a unit: ng/L, ug/L, mg/L, Cel, pH, uS/cm, mV

# $table (name): table of the record
start-takes-name = a name that is on record: table { $table }

start-takes-text = text
