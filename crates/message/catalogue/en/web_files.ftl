### The pages on which files come in: choosing them, the preview, what came of it.

web_files-title = Bring in files

web_files-what = A laboratory’s table, a run’s sequence and counts, field sheets, register sheets, recipes: CSV, XLSX, ODS, XLS, JSON, TOML. Choose all that belong together; you see what would be taken and every fault before anything is written.

web_files-files = Drop files here, or choose them

# $files (count)
# $mib (count)
web_files-files-what = At most { $files ->
    [one] { $files } file
   *[other] { $files } files
} and { $mib } MiB together. Files taken in before change nothing.

web_files-why = Reason

web_files-why-what = Kept with the act. Only a recipe that changes needs one.

web_files-look = Look at them

web_files-how-known = A table that no known laboratory reads that way leads to the choice of its columns.

web_files-preview = Before anything is taken in

# $n (count)
web_files-lacking = How { $n ->
    [one] one file is
   *[other] { $n } files are
} to be read is not known yet: choose below.

# $n (count)
web_files-n-faults = { $n ->
    [one] 1 fault
   *[other] { $n } faults
}

web_files-faults-stop = Until they are mended, nothing can be taken in: files are taken in all together or not at all.

web_files-no-faults = no faults

web_files-all-can = Everything can be taken in.

web_files-new = New

web_files-there = There already

web_files-changes = Changes

web_files-new-none = nothing

# $what (message)
# $n (count)
web_files-n-of = { $what }: { $n }

# $n (count)
web_files-same-rows = { $n ->
    [one] one row
   *[other] { $n } rows
} with the same content

# $n (count)
web_files-same-results = { $n ->
    [one] one result, the same as before, is
   *[other] { $n } results, the same as before, are
} kept once

# $n (count)
web_files-same-file = { $n ->
    [one] one file was
   *[other] { $n } files were
} taken in before

# $n (count)
web_files-revised = { $n ->
    [one] one result is
   *[other] { $n } results are
} reported otherwise than before and will be judged anew

# $request (name)
# $n (count)
web_files-opened = { $n ->
    [one] one blind label
   *[other] { $n } blind labels
} of request { $request } will be opened

# $n (count)
web_files-without = { $n ->
    [one] one cell holds no result and stays
   *[other] { $n } cells hold no result and stay
} out

web_files-changes-none = no value that is on record

web_files-no-verdicts-yet = No verdict is on record yet: none can change.

web_files-foresee = Work out which verdicts would change

web_files-foresee-what = It is tried on a copy; the programme stays as it is.

web_files-foreseeing = Working out on a copy what would change

# $n (count)
web_files-foreseen = { $n ->
    [one] One verdict
   *[other] { $n } verdicts
} would change

# $n (count)
web_files-turned = { $n ->
    [one] One verdict changed:
   *[other] { $n } verdicts changed:
}

web_files-foreseen-none = Tried on a copy: no verdict on record would change.

# $of (name)
# $old (message)
# $new (message)
web_files-verdict-turns = { $of }: { $old } → { $new }

# $n (count)
web_files-and-more = and { $n } more

web_files-take = Take all of it in

web_files-take-what = One act of the record with your name; then everything is derived anew.

web_files-how-read = How each file is read

web_files-not-chosen = – not chosen –

web_files-columns = Choose its columns

web_files-again = Look again

# $n (count)
web_files-size = { $n } kB

web_files-clock = The phone’s clock was wrong

web_files-clock-days = Days to add to its times

# $found (name)
web_files-clock-wrong = Found “{ $found }”, expected days from −40 000 to 40 000.

web_files-clock-what = The entries keep the phone’s own times; what is added stands on record with the file. 0 takes the times as they are.

web_files-names = Names that may be others

web_files-names-what = These names are not on record, and near to names that are. Say of each which is meant. It is kept with the act and for the next file that is read the same way.

web_files-undecided = – not decided –

# $name (name)
web_files-is = is { $name }

web_files-is-new = is new

web_files-names-again = Look again with these names

web_files-said = What you said of names

# $written (name)
# $meant (name)
web_files-said-read = “{ $written }” is read as { $meant }

# $written (name)
web_files-said-new = “{ $written }” is new

web_files-forget = Take it all back

web_files-faults = Faults

web_files-faults-equal = Equal faults stand together.

# $n (count)
web_files-times = { $n } ×

web_files-found = found

web_files-expected = expected

# $row (count)
web_files-in-row = row { $row }

# $first (count)
# $last (count)
web_files-in-rows = rows { $first } to { $last }

web_files-in-column = column

# $shown (count)
# $of (count)
web_files-first-faults = { $shown ->
    [one] The first of { $of } is shown
   *[other] The first { $shown } of { $of } are shown
} here.

web_files-would = What would be taken, file by file

web_files-read-as = read as

# $n (count)
web_files-rows = { $n ->
    [one] one row
   *[other] { $n } rows
}

web_files-before = Taken in before: nothing changes.

web_files-told = Told by the file

web_files-no-result = no result

# $what (message)
web_files-first-of = The first of: { $what }

web_files-notes = Worth a second look

web_files-taking = Taking in files

web_files-step-taking = Taking in the files, all or nothing

web_files-step-deriving = Deriving results and verdicts

# $n (count)
web_files-refused = { $n ->
    [one] One fault
   *[other] { $n } faults
}; look at the preview again.

# $file (name)
# $what (list)
web_files-took = { $file }: { $what }

# $file (name)
web_files-took-before = { $file }: taken in before; nothing changed

# $n (count)
web_files-first-verdicts = { $n ->
    [one] One verdict was written.
   *[other] { $n } verdicts were written.
}

# $n (count)
web_files-values-anew = { $n ->
    [one] One value that was on record came out anew.
   *[other] { $n } values that were on record came out anew.
}

# $why (name)
web_files-without-results = Without results: { $why }

# $mib (count)
web_files-too-large = The upload is larger than { $mib } MiB. A file of that size comes in on the command line, on the machine of the programme.

# $why (name)
web_files-broke-off = The upload broke off: { $why }. Nothing of it was kept.

# $n (count)
web_files-too-many = More than { $n ->
    [one] { $n } file at once: bring them in in parts
   *[other] { $n } files at once: bring them in in parts
}.

web_files-no-file = No file came with the form: choose at least one.

web_files-gone = These files do not wait here any more: two hours have passed, or the program was started again. Nothing of them was taken; bring them in again.

web_files-no-such-file = There is no such file in this upload.

web_files-heading-other = what is kept
