### What every document says of itself: its table of key results, what its signs mean, where it comes from.

# Share of the metal with its interval; the water's or not is said beside it.
# $share (amount): 0 to 1
# $low (amount): lower end, 95 %
# $high (amount): upper end, 95 %
document-share-alone = { $share } ({ $low } to { $high })

# Headings and caption of the key results.
document-result = Result
document-value = Value
document-verdict = Verdict
document-because = Because
document-key-results = The key results and their verdicts.

# The last stage of the path; the others have words of their own.
document-meaning = meaning

# What signs in a table mean.
# $k (amount): coverage factor
document-expanded = ± is the expanded uncertainty, k = { $k }.

# Beneath a table.
# $low (amount): least coverage factor
# $high (amount): largest
document-expanded-between = ± is the expanded uncertainty, k = { $low } to { $high }.
document-expanded-each = ± is the expanded uncertainty with the coverage factor k beside it.
document-not-detected = < stands before an upper bound, not a value: nothing was detected, or the metal of a stage that no blank met is in it.
document-not-stated = † the source states no uncertainty.

# What the shares of the key results mean.
document-water-share = The water’s, as it leaves the well: the part of the measured metal that came with the water through a pipe that it touched no longer than the programme allows, with its 95 % interval for this bottle. The water’s own: the same, the pipe’s part taken off.
document-left-with-pipe = Not from air, bottle or laboratory: the part of the measured metal that the blanks leave, with its 95 % interval. No blank sees the pipe, so what of it is the water’s is not told.
document-left-with-air = Air not told apart: the bottle stood open where no two blanks did, so what that air brought is in the part that is left.

# Names before the values that say where a document comes from.
document-programme = programme
document-head = head hash of the record
document-events = events in the record
document-derived-by = derived by
document-last-date = last date in the data

# $file (name): a raw file; its hash stands behind
document-file = file { $file }

# The foot of every page.
# $programme (name): the programme
# $head (name): beginning of the head hash
document-foot = { $programme } · record { $head }…

# Beside a data package that is attached to a document: what it is.
# $head (name): head hash of the record
document-package-inside = The open data package of this record, all of it: results, the record, raw files, programs that work every number out again. Head of the record: { $head }
