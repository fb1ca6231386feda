### The pages of the record, of people and files, and of the report. What the rows of a table are called: `Message::named("web_record", "table-NAME")`.

web_record-title = Record

web_record-what = Rows are only ever added. Each act is one event: who, when, what, why; it is chained to the one before it.

web_record-head = Hash of the last entry

web_record-no-head = none yet

web_record-head-what = Write it down elsewhere, as each report does: a chain alone cannot show that its end was cut off.

# $n (count)
web_record-acts = What was done: { $n ->
    [one] one act by people
   *[other] { $n } acts by people
}

web_record-sorted = Newest first.

# $shown (count)
# $of (count)
web_record-shown = { $shown ->
    [one] { $shown } of { $of } is shown
   *[other] { $shown } of { $of } are shown
}.

web_record-older = Older acts

web_record-newest = The newest acts

web_record-nothing = Nothing was done yet.

# $number (count)
web_record-number = Act { $number }

web_record-hash-begins = hash begins

web_record-wrote = Rows written

web_record-reason = Reason

# $n (count)
web_record-derived = then the program derived anew: { $n ->
    [one] one step
   *[other] { $n } steps
}

# $event (count)
web_record-taken-back = taken back by act { $event }

# $who (name)
web_record-did-new-programme = { $who } began the programme.

# $who (name)
# $n (count)
web_record-did-import = { $who } brought in { $n ->
    [one] one file
   *[other] { $n } files
}.

# $who (name)
web_record-did-entry = { $who } entered rows by hand.

# $who (name)
web_record-did-correction = { $who } corrected a value.

# $who (name)
web_record-did-exclusion = { $who } took something out of the evidence.

# $who (name)
web_record-did-taken-back = { $who } took something back into the evidence.

# $who (name)
web_record-did-sign-off = { $who } stood for a verdict.

# $who (name)
web_record-did-key = { $who } put a key on record.

# $who (name)
web_record-did-key-end = { $who } said that a key is used no longer.

# $who (name)
web_record-did-signature = { $who } signed by key.

# $who (name)
web_record-did-anchor = { $who } noted who keeps a head of the record.

# $who (name)
web_record-did-settlement = { $who } settled what field sheets say differently.

# $who (name)
web_record-did-statement = { $who } kept a statement.

# $who (name)
web_record-did-mapping = { $who } kept how files of a laboratory are read.

# $who (name)
web_record-did-names-made-one = { $who } made two names one.

# $who (name)
web_record-did-request-to-a-laboratory = { $who } wrote a request to a laboratory.

# $who (name)
web_record-did-blind-labels-opened = { $who } opened blind labels.

# $who (name)
web_record-did-checks-taken-in = { $who } took in checks of this version.

# $who (name)
web_record-did-table-of-checks-changed = { $who } changed the table of checks.

# $who (name)
web_record-did-profile-of-checks-made = { $who } made a profile of checks.

# $who (name)
web_record-did-profile-of-checks-changed = { $who } changed a profile of checks.

# $who (name)
web_record-did-profile-of-checks-chosen = { $who } chose the profile of checks that judges.

# $who (name)
web_record-did-undo = { $who } took an act back.

# $who (name)
web_record-did-other = { $who } did something that this version has no sentence for:

web_record-rules = Rules of the checks

web_record-rules-what = Which checks decide, which warn, and the programme’s own limits. A change is the next revision, with a reason.

web_record-rule-unknown = No check of this program has this name; its rule decides nothing:

web_record-untaken-how = A lead takes them in on the command line, or one by one here.

# $n (count)
web_record-n-rules = { $n ->
    [one] One rule
   *[other] { $n } rules
}, decisive first, each in its newest revision

web_record-check = Check

web_record-weight = Weight

web_record-limit = Limit

web_record-revision = Revision

web_record-weight-decisive = decides

web_record-weight-warning = warns

web_record-weight-note = is told only

web_record-profiles = Profiles of checks

web_record-profiles-what = Rules for results that were come by in another way than by counts: of laboratories, of meters. A result that a profile accepts says so wherever its verdict is shown. A lead chooses and edits them on the command line.

web_record-no-profile = There is none.

web_record-profile = Profile

web_record-judges = Judges

web_record-rules-short = Rules

web_record-state = State

web_record-on-record = on record

web_record-not-chosen = of this version, not chosen

web_record-basis-counts = results from counts

web_record-basis-reported = concentrations of laboratories

web_record-basis-meter = readings of meters

web_record-choices = Which profile judges which results

web_record-no-choice = Nobody chose one: the rules above judge everything.

web_record-judged-by = Judged by

web_record-table-of-checks = the table of checks

web_record-laboratory = Laboratory

web_record-analyte = Analyte

web_record-any = any

web_record-results = Results

web_record-chosen-by = Chosen by

web_record-because = Because

web_record-people = People

web_record-correct = correct

web_record-no-people = Nobody is on record.

# $n (count)
web_record-files = Files as they came: { $n }

web_record-no-files = No file has come in yet.

web_record-size = Size

web_record-file-rows = Data rows

web_record-enter-person = Enter a person

web_record-enter-quality = Enter what a laboratory says of its quality

web_record-change-rule = Change a rule of the checks

web_record-copy = Copy of the programme

web_record-undo = Take an import back

web_record-undo-act = Act

web_record-undo-act-what = Its number, or the beginning of its hash, as in the list: an import, or rows typed in.

web_record-kept = It is kept for good.

web_record-undo-it = Take it back

web_record-undo-what = Its rows stay on record and count no longer, and what was derived of them follows. Its files may be taken in again. What later acts stand on is not taken back: they are named.

web_record-one-name = Two names that are one

web_record-one-name-kind = What they are names of

web_record-one-name-old = The old name

web_record-one-name-old-what = What bears it is read by the other name from then on; it stays as it was written.

web_record-one-name-new = The name that stays

web_record-one-name-do = Make them one

web_record-verify = Is everything still what it was?

web_record-verify-do = Verify

web_record-verify-what = Every stored value is compared with its digest, and every result derived anew from its raw data.

web_record-noted = Hash of the last entry, noted elsewhere

web_record-noted-what = As a report’s foot has it; may stay empty. With it, a record whose end was cut off is found out.

web_record-verifying = Verifying the record

web_record-comparing = Comparing every stored value with its digest, and deriving every result anew

# $n (count)
web_record-altered = { $n ->
    [one] { $n } difference
   *[other] { $n } differences
}: the record is not what it was.

# $n (count)
web_record-not-derived = Every stored value is what it was; { $n ->
    [one] { $n } derived one comes out otherwise
   *[other] { $n } derived ones come out otherwise
}.

# $n (count)
web_record-intact = { $n ->
    [one] { $n } event
   *[other] { $n } events
}: every stored value and every derivation is what it was.

# $act (name)
web_record-taking-back = Taking act { $act } back

web_record-keeping = Keeping the decision, and deriving everything anew

# $n (count)
web_record-rows-stay = { $n ->
    [one] 1 row stays on record and counts
   *[other] { $n } rows stay on record and count
} no longer.

web_record-making-one = Making two names one

web_record-deriving = Deriving results and verdicts

# $n (count)
web_record-rows-renamed = { $n ->
    [one] { $n } row bears
   *[other] { $n } rows bear
} the new name from now on.

web_record-kind-analyte = analyte

web_record-kind-fraction = fraction

web_record-kind-quantity = quantity

web_record-kind-well = well

web_record-kind-person = person

web_record-kind-site = place

web_record-kind-lot = lot

web_record-kind-acid = acid

web_record-kind-filter = filter

web_record-report = Report

web_record-report-what = Made from the record as it stands, for one reader and one question. Its foot names the hash of the last entry, so that anyone can tell later which record it came from.

web_record-reader = Who reads it?

web_record-reader-full = A scientist: the report, page one first, annexes behind

web_record-reader-leaflet = A neighbour: one page in plain words

web_record-reader-authority = The authority: one page, above first

web_record-reader-package = Other programs: the open data package with raw files and sums

web_record-reader-supplement = Reviewers of a paper: tables as PDF and web page, and the data package

web_record-reader-backup = Yourself: a copy of the whole programme, to keep elsewhere

web_record-question = Of what? (the report alone)

web_record-scope-newest = The newest trip that has results

# $trip (name)
web_record-scope-trip = Trip { $trip }

web_record-scope-all = The whole record

web_record-scope-from = All trips since a day

web_record-since = Since

web_record-since-what = A day as 14.07.2026; only where “since a day” is chosen.

# $found (name)
web_record-since-wrong = Found “{ $found }”, expected a day as 14.07.2026.

web_record-wells = Wells

web_record-wells-what = All where none is ticked.

web_record-language = Language of the paper

web_record-contact = Whom to ask

web_record-contact-what = For neighbours: name, place, telephone. Without it the page is marked as a draft.

web_record-more = Sections and licence

web_record-sections = Sections

web_record-sections-what = Of the report, with commas: how a title begins. All where left empty.

web_record-licence = Licence

web_record-licence-what = Of a data package or supplement, as others shall find it.

web_record-make = Make it

web_record-look = Show page 1

web_record-page-one = Page 1, as it would print

web_record-no-page-one = There is no page 1 to show: a data package or a copy has none.

web_record-no-front = The report has no page one: no result of this scope answers a question.

web_record-missing = What would be missing

web_record-missing-nothing = Nothing that this page knows of.

web_record-missing-contact = Whom to ask: without it the page for neighbours is a draft.

# $n (count)
web_record-missing-recalled = { $n ->
    [one] One limit is
   *[other] { $n } limits are
} cited from memory and to be compared with print before it goes out.

web_record-missing-question = The question: no trip of this scope asks one, so page 1 has no answer.

web_record-missing-results = Results: there is none on record.

web_record-made = Made since the program was started

web_record-made-nothing = Nothing was made since the program was started.

web_record-made-what = What

web_record-made-files = Files

web_record-made-when = Made

web_record-made-by = By

web_record-as-it-stands = as the record stands

web_record-changed-since = the record has changed since

web_record-file-pdf = PDF

web_record-file-html = Web page

web_record-file-sqlite = Programme

web_record-file-zip = ZIP

web_record-title-full = report

web_record-title-leaflet = page for neighbours

web_record-title-authority = page for the authority

web_record-title-package = data package

web_record-title-supplement = supplement

web_record-title-backup = copy of the programme

# $what (message)
web_record-making = Making: { $what }

web_record-step-laying = Laying it out

web_record-step-setting = Setting it as PDF

web_record-step-copying = Copying the programme while it is in use

web_record-step-tables = Writing the tables, the raw files and their sums

web_record-step-packing = Packing it

web_record-stopped = Stopped; nothing was kept of it.

# $found (name)
web_record-not-listed = Found “{ $found }”, expected one of those listed.

web_record-no-sections = Sections are of the report alone; leave them empty here.

web_record-gone = It is not kept any more: make it again.

web_record-no-file = There is no such file.

web_record-word-non-extending = a pulse in the dead time is lost (non-extending)

web_record-word-extending = a pulse in the dead time begins it anew (extending)

web_record-word-nearest = the nearest in mass

web_record-word-interpolate = between the two neighbours

web_record-word-none = nothing is done

web_record-word-bracket = lines between drift checks

web_record-word-smooth = a polynomial

web_record-word-concentration = the same in every volume

web_record-word-mass-per-bottle = a mass, divided by the volume of each bottle

# $n (count)
web_record-recipe-all = Recipes on record: { $n ->
    [one] one version
   *[other] { $n } versions
}

web_record-table-accounting = parts of accountings

web_record-table-acid = acids

web_record-table-air-count = particle counts of air

web_record-table-aliquot = aliquots

web_record-table-amendment = corrections

web_record-table-assigned = assigned values

web_record-table-attributed = shares by source

web_record-table-bottle = bottles

web_record-table-check-rule = rules of checks

web_record-table-compound = compounds

web_record-table-custody = steps of custody

web_record-table-derivation = derivations

web_record-table-exclusion = exclusions

web_record-table-field-entry = entries of field sheets

web_record-table-field-reading = readings

web_record-table-field-sheet = field sheets

web_record-table-fill = timed fills

web_record-table-filter = filters

web_record-table-finding = findings

web_record-table-layer = layers

web_record-table-lead-source = sources of lead

web_record-table-local-limit = limits of one’s own

web_record-table-lot-target = targets of lots

web_record-table-lot = lots

web_record-table-mapping = ways of reading a file

web_record-table-measurand = measurands

web_record-table-person = people

web_record-table-raw-file = files

web_record-table-raw-part = parts of files

web_record-table-reading = readings of counts

web_record-table-recipe = recipes

web_record-table-result = results

web_record-table-run = runs

web_record-table-same-name = names made one

web_record-table-share = shares of uncertainty

web_record-table-sign-off = signatures

web_record-table-signature = patterns of sources

web_record-table-site = places

web_record-table-source-fact = facts of sources

web_record-table-spike = spikes

web_record-table-statement-use = uses of statements

web_record-table-statement = statements

web_record-table-subject = subjects

web_record-table-trip = trips

web_record-table-verdict = verdicts

web_record-table-vial = vials

web_record-table-well-section = sections of wells

web_record-table-well = wells

web_record-table-blind-label = blind labels

web_record-table-check-profile = profiles of checks

web_record-table-lab-request = requests to laboratories

web_record-table-laboratory-quality = facts of a laboratory’s quality

web_record-table-profile-choice = choices of a profile

web_record-table-profile-rule = rules of profiles

web_record-table-unblinding = openings of blind labels

web_record-table-undone = acts taken back

web_record-table-undone-rows = rows that no longer count

web_record-table-person-key = keys of persons

web_record-table-key-end = keys used no longer

web_record-table-signed = signatures by key

web_record-table-anchor = heads that others keep

web_record-table-tracer = tracers of age

web_record-table-input-history = histories of rain and air

web_record-table-recharge-fact = facts of the recharge
