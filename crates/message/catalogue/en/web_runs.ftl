### The pages of runs.

web_runs-title = Runs

# $run (name): its name
web_runs-title-one = The run { $run }

# $n (count): how many
web_runs-caption = { $n ->
    [one] { $n } run, the newest first
   *[other] { $n } runs, the newest first
}

web_runs-run = Run

web_runs-laboratory = Laboratory

web_runs-start = Start

web_runs-recipe = Recipe

web_runs-vials = Vials

web_runs-state = State

web_runs-waits = counts have not come yet

web_runs-reduced = reduced

web_runs-no-run = No run is on record. Laboratories that report concentrations need none.

web_runs-files = Files brought in

# $shown (count): on the page
# $all (count): of all
web_runs-files-caption = { $shown } of { $all ->
    [one] { $all } file, kept whole as it came
   *[other] { $all } files, kept whole as they came
}, the newest first

web_runs-file = File

web_runs-mapping = Read by mapping

# $mapping (name): its name
# $version (count): of it
web_runs-mapping-version = { $mapping } (version { $version })

web_runs-rows = Rows

web_runs-size = Size

# $kb (amount): size
web_runs-kilobytes = { $kb } kB

web_runs-no-file = No file was brought in yet.

web_runs-bring-in = Bring in files

web_runs-derive-all = Derive everything anew

web_runs-derive-it = Derive it anew

web_runs-no-results = It gives no results.

web_runs-sequence = The sequence

web_runs-elements = Elements

# $n (count): how many
web_runs-vials-caption = Vials in time order: { $n }

web_runs-no-vial = The run has no vials.

web_runs-place-in-run = Place

web_runs-vial = Vial

web_runs-role = Role

web_runs-bottle = Bottle

web_runs-minutes = Minutes

web_runs-taken-out = Taken out

# $why (name): in words
web_runs-out = out: { $why }

web_runs-out-or-back = Take out or back

web_runs-take-out-or-back = Take a point out, or back

web_runs-nothing-deleted = Nothing is deleted: the decision is a row of the record with your name and reason, and everything that stands on it is derived anew.

web_runs-take-out = Take out of the evidence

web_runs-take-back = Take back into the evidence

web_runs-which = Which: run/place, run/place/isotope, or a bottle

web_runs-reason = Reason

web_runs-reason-hint = Kept for good, with your name.
