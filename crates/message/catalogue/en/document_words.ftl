### Words of every document: headings of its parts, its origin, the cautions that always stand.

document_words-asked = What was asked

document_words-found = What was found

# $mark (name): the mark
document_words-untranslated = { $mark } marks a text that an older version of the program kept in English alone.

document_words-cautions = Cautions

document_words-methods = Methods and their sources

document_words-origin = Where this comes from

# Of a record whose results come from counts.
document_words-origin-counts = Every number of this report can be opened down to the counts on the detector in the record named here. The head hash stands for the whole record: when it differs, the record has changed since.

# Of a record whose results a laboratory reported.
document_words-origin-reported = Every number of this report can be opened in the record named here down to what the laboratory reported; counts of its detector are not on record. The head hash stands for the whole record: when it differs, the record has changed since.

# Of a record that has both.
document_words-origin-both = Every number of this report can be opened in the record named here, down to the counts on the detector or to what a laboratory reported. The head hash stands for the whole record: when it differs, the record has changed since.

# The same on one page.
# $programme (name): the programme
# $date (date): last day on which a bottle was filled
# $hash (name): begin of the head hash
document_words-origin-short-counts = Programme { $programme }, data to { $date }. Each number can be opened in the record down to the counts; its head hash begins { $hash }.

# The same on one page.
# $programme (name): the programme
# $date (date): last day on which a bottle was filled
# $hash (name): begin of the head hash
document_words-origin-short-reported = Programme { $programme }, data to { $date }. Each number can be opened in the record down to what the laboratory reported; its head hash begins { $hash }.

# The same on one page.
# $programme (name): the programme
# $date (date): last day on which a bottle was filled
# $hash (name): begin of the head hash
document_words-origin-short-both = Programme { $programme }, data to { $date }. Each number can be opened in the record down to the counts or to what a laboratory reported; its head hash begins { $hash }.

document_words-invented = Invented data: no real well, no real water.

document_words-table = Table

document_words-figure = Figure

# In "page 2 of 5".
document_words-page = page

# In "page 2 of 5".
document_words-of = of

document_words-contents = Contents

# Link over what stands before the report.
document_words-skip = To the report

# $date (date): last day on which a bottle was filled
document_words-data-to = data to { $date }

document_words-caution-compares = This report compares numbers. It gives no advice on drinking; for that, the local health authority and its rules come first.

document_words-caution-microbes = The water was never tested for microbes in what this report covers. Clear water that is poor in metals can carry them.

document_words-caution-only = Only the substances in the tables were measured. Nothing is said of any other.

document_words-caution-bottle = A result speaks of the water in that bottle at that hour, not of the well at every other time.

## A report of a question

# An annex and its letter.
# $letter (name): A, B, …
# $holds (message): what it holds
document_words-annex = Annex { $letter }: { $holds }

document_words-annex-results = every result
document_words-annex-runs = the runs in full
document_words-annex-waters = water by water
document_words-annex-wells = well by well
document_words-annex-compounds = compounds by name

document_words-question = The question

document_words-answer = The answer

document_words-done-to-be-sure = What was done to be sure

document_words-cannot-be-told = What cannot be told

document_words-earlier-trips = Earlier trips

document_words-would-decide = What would decide it

# How a number in a page was come by, opened at its foot.
document_words-opened = How each number came to be
