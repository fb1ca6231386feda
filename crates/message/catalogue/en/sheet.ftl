### The field sheet: what a phone and paper say. Arguments are names, since the phone puts them in itself.

## Places and the frame.

# $trip (name): name of the trip
sheet-title = { $trip }, field sheet

sheet-places = Places of the sheet

sheet-place-trip = Trip

sheet-place-wells = Wells

sheet-place-bottles = Bottles

sheet-place-box = Box

sheet-place-save = Save

sheet-light-light = Daylight

sheet-light-dark = Night

sheet-light-sun = Sun

sheet-invented = Invented data

sheet-caution = Caution.

# $what (name): what it is about, in words
sheet-entered = Entered: { $what }

# $what (name): what it is about, in words
sheet-not-entered = Not entered: { $what }

# $what (name): what it is about, in words
# $last (name): sentence on the last visit
sheet-entered-last = { $what }. { $last }

sheet-take-back = Take back

sheet-take = Take

# $what (name): what it is about, in words
sheet-less = { $what }: less

# $what (name): what it is about, in words
sheet-more = { $what }: more

# $what (name): what it is about, in words
sheet-turn-sign = { $what }: turn the sign

# $what (name): what it is about, in words
# $value (name): value with its unit
sheet-is = { $what }: { $value }

sheet-or = or

sheet-no-well = none

sheet-now = Now

sheet-done = done

sheet-begun = begun

sheet-to-do = to do

sheet-no-storage = This browser does not keep entries.

sheet-save-each = Save a file after each entry, or use the paper sheet.

# $entries (name): how many
sheet-save-now = Save now (not saved: { $entries })

sheet-why-inside-app = This file was opened inside another app; open it with the browser from the phone’s files.

sheet-why-not-given-back = It did not give back what was kept.

# $name (name): name of the fault
sheet-why-refused = It refuses ({ $name }).

# $name (name): name of the fault
sheet-why-full = The phone’s storage is full ({ $name }); what stood there before is still kept.

sheet-clock-look = Look at the clock of this phone.

# $now (name): day of the phone
# $planned (name): day of the trip
sheet-clock-off = It says { $now }; the trip is planned for { $planned }. Set it before you enter anything: the programme refuses times that cannot be.

## Asking about a value.

# $value (name): value with its unit
sheet-ask = { $value }?

# $value (name): value with its unit
sheet-ask-slip = It is { $value }

# $value (name): value with its unit
sheet-ask-right = { $value } is right

sheet-ask-again = Look once more

# $lower (name): lower end
# $upper (name): upper end with unit
sheet-doubt-usual = Usual is { $lower } to { $upper }.

# $range (name): lowest and highest
# $days (name): how many
# $last (name): sentence on the last visit
sheet-doubt-well = This well showed { $range } so far (days: { $days }). { $last }

# $value (name): value with its unit
# $day (name): day
sheet-last-visit = Last visit: { $value }, { $day }.

# $value (name): value with its unit
# $why (name): sentences
sheet-asked-note = Asked and confirmed: { $value }. { $why }

sheet-past-show = Show the last visit

sheet-past-hide = Hide the last visit

## The trip.

sheet-field-who = Who holds the phone

sheet-field-persons = Who is there

sheet-field-weather = Weather

sheet-field-wind = Wind

sheet-hint-wind = Beaufort

sheet-field-dust = Dust

sheet-field-road-salt = Road salt

sheet-field-engines = Engines near by

sheet-field-trip-note = Note

sheet-field-note-short = note

sheet-no-person = No person is in the programme; enter them there first.

sheet-nobody = nobody

sheet-keep-note = Keep the note

sheet-note-empty = the note is empty

sheet-word-dry = dry

sheet-word-cloud = cloud

sheet-word-drizzle = drizzle

sheet-word-rain = rain

sheet-word-snow = snow

sheet-word-fog = fog

sheet-word-calm = calm

sheet-word-1-to-2 = 1 to 2

sheet-word-3-to-4 = 3 to 4

sheet-word-5-and-more = 5 and more

sheet-word-none = none

sheet-word-some = some

sheet-word-much = much

sheet-word-old = old

sheet-word-fresh = fresh

sheet-word-car-parked = car parked

sheet-word-cars-passing = cars passing

sheet-word-lorries = lorries

sheet-word-tractor = tractor

sheet-word-generator = generator

## A well.

sheet-all-wells = ‹ all wells

sheet-row-flow = Flow

sheet-row-readings = Readings

sheet-row-air = Air

sheet-row-bottles = Bottles

# $flow (name): with U
# $fills (name): how many
sheet-row-flow-is = { $flow } L/min, fills: { $fills }

# $steady (name): quantities
# $read (name): quantities
sheet-row-steady = { $steady } of { $read } steady

# $counts (name): how many
sheet-row-counts = counts: { $counts }

# $done (name): bottles
# $all (name): bottles
sheet-row-bottles-done = { $done } of { $all } done

sheet-none-planned = none planned

sheet-field-state = Open or shut

sheet-hint-state = since when

sheet-opened-now = Opened now

sheet-shut-now = Shut now

sheet-opened-earlier = Opened earlier

sheet-minutes-ago = min ago

sheet-need-past = minutes that have been: 0 or more

# $time (name): hour and minute, or seconds
sheet-open-since = open since { $time }

# $time (name): hour and minute, or seconds
sheet-shut-since = shut since { $time }

# $note (name): what the record says
sheet-programme-says = On record: “{ $note }”

sheet-state-unknown = Nothing is entered: was it shut before?

# $time (name): hour and minute, or seconds
# $length (name): how long
sheet-shut-for = Shut since { $time } ({ $length }).

# $time (name): hour and minute, or seconds
# $length (name): how long
sheet-open-needs-flow = Open since { $time } ({ $length }). Volumes renewed need the flow.

# $time (name): hour and minute, or seconds
# $length (name): how long
sheet-open-needs-casing = Open since { $time } ({ $length }). Volumes renewed need the flow and the casing.

# $time (name): hour and minute, or seconds
# $length (name): how long
# $volumes (name): how many
# $left (name): mm
# $wanted (name): how many
sheet-open-renewed = Open since { $time } ({ $length }): { $volumes } volumes renewed, { $left } % standing water left at most; { $wanted } volumes are common practice.

sheet-field-fills = Timed fills

sheet-hint-fills = three or more

sheet-watch-start = Start the watch

# $time (name): hour and minute, or seconds
sheet-watch-stop = Stop at the mark · { $time } s

sheet-seconds-by-hand = Seconds by hand

sheet-seconds = Seconds

sheet-need-seconds = seconds

# $percent (name): per cent
sheet-mark = The mark of the container: ± { $percent } % (U, k = 2).

# $volume (name): with unit
# $time (name): hour and minute, or seconds
sheet-fill-in = { $volume } in { $time }

# $flow (name): with U
# $fills (name): how many
sheet-flow-from = { $flow } L/min, fills: { $fills }

# $flow (name): with U
# $fills (name): how many
sheet-flow-is = { $flow } (± is U, 95 %), fills: { $fills }.

sheet-no-fill = no fill timed yet

sheet-one-fill = One fill alone shows no uncertainty.

sheet-three-fills = Three fills or more.

sheet-field-contact = Contact with the pipe

# $minutes (name): how many
# $litres (name): volume
sheet-contact-is = { $minutes } for { $litres } L in the pipe.

# $limit (name): with the unit of its sentence
sheet-contact-long = Longer than the programme’s { $limit } min.

sheet-time-fill-first = Time a fill first.

sheet-no-casing = Depth and radius of the casing are not in the programme.

sheet-word-stainless-steel = stainless steel

sheet-word-galvanised-steel = galvanised steel

sheet-word-plastic = plastic

sheet-field-readings = Readings

sheet-hint-readings = 3 to 5 min apart, until steady

# $what (name): what it is about, in words
sheet-need-number = { $what }: a number

# $have (name): readings
# $need (name): readings
# $spacing (name): min
sheet-steady-few = { $have } of { $need } readings at least { $spacing } min apart

# $time (name): hour and minute, or seconds
# $band (name): half-width of the rule
sheet-steady-since = steady since { $time } (within { $band })

# $spread (name): half-width found
# $need (name): readings
# $band (name): half-width of the rule
sheet-steady-not = not steady: ± { $spread } over the last { $need }, the rule is ± { $band }

# $value (name): value with its unit
# $what (name): what it is about, in words
sheet-with-this = With { $value }: { $what }

sheet-field-meter = ± of the meter

sheet-hint-meter = as its manual says

sheet-meter-open = Say what ± is

sheet-meter-given = ± in the manual

sheet-meter-expanded = U, with a factor k

sheet-meter-standard = u, one standard uncertainty

sheet-meter-limits = limits, never passed

sheet-meter-keep = Keep for every reading

# $what (name): what it is about, in words
# $given (name): as in the manual
# $k (name): factor
# $standard (name): u with unit
sheet-meter-is-expanded = { $what }: { $given } is U with k = { $k }; u = { $standard } goes with each reading

# $what (name): what it is about, in words
# $given (name): as in the manual
# $standard (name): u with unit
sheet-meter-is-standard = { $what }: { $given } is u itself; u = { $standard } goes with each reading

# $what (name): what it is about, in words
# $given (name): as in the manual
# $standard (name): u with unit
sheet-meter-is-limits = { $what }: { $given } are limits (u = a/√3); u = { $standard } goes with each reading

sheet-need-meter = the ± of the manual, more than 0

sheet-need-meter-kind = what the ± is: U, u or limits

sheet-need-k = a factor k, 1 or more; 2 is common

sheet-field-air = Particle count

sheet-hint-air = all particles of at least the size

sheet-word-cabinet = cabinet

sheet-word-open-air = open air

sheet-word-room = room

sheet-not-counted = not counted

# $size (name): µm
sheet-particles-of = Particles of at least { $size } µm

# $size (name): µm
sheet-none-of = 0: none of at least { $size } µm

sheet-air-take = Take the count

sheet-need-count = a count at one size at least

sheet-need-whole = counts are whole numbers

# $count (name): how many
# $size (name): µm
sheet-count-at = { $count } ≥ { $size } µm

# $larger (name): count and size
# $smaller (name): count and size
sheet-counts-rise = { $larger } are more than { $smaller }: counts are cumulative, all particles of at least the size

# $sizes (name): µm
sheet-other-sizes = counts at { $sizes } µm, the sizes of the count before at this place: repeated counts are added up size by size

sheet-air-over = Over the limits of class 9.

# $class (name): number
sheet-air-under = Stays under the limits of class { $class }.

# $class (name): number
sheet-air-shows = The volume can show class { $class }.

# $class (name): number
# $litres (name): volume
sheet-air-needs = To show class { $class } count { $litres } L.

# $bound (name): per m³
sheet-air-zero = Zero counted: fewer than { $bound } per m³ (95 %).

sheet-air-one = One reading at one place, no classification.

sheet-photograph = Photograph

# $most (name): how many
sheet-photographs-most = photographs are kept up to { $most }

sheet-picture-unread = this picture cannot be read

## Bottles.

sheet-all-bottles = ‹ all bottles

# $lot (name): its name
sheet-lot = lot { $lot }

sheet-lot-name = Lot

sheet-well = Well

sheet-kind = Kind

sheet-label = Label

sheet-add = Add

sheet-add-bottle = Add a bottle

sheet-without-well = Without a well

# $label (name): label of a bottle
sheet-there-already = { $label } is there already

sheet-need-label = a label

sheet-type-label = or type the label

sheet-find = Find

sheet-scan-bottle = Scan a bottle

sheet-scan-code = Read the code

sheet-scan-live = Scan it live

sheet-code-photo = Photograph the code

sheet-camera-view = View of the camera

sheet-camera-stop = Stop the camera

sheet-camera-none = no camera can be used here; photograph the code or type the label

sheet-code-none = no code is seen in the picture; type the label

sheet-code-cannot = this browser cannot read codes; type the label

# $code (name): what was read
# $label (name): label of a bottle
sheet-code-other = the code says { $code }, this page is of { $label }

# $label (name): label of a bottle
sheet-bottle-says = The bottle says { $label }

sheet-outdoors = outdoors

sheet-in-cabinet = in the cabinet

# $place (name): outdoors or in the cabinet
sheet-state-open = open { $place }!

# $place (name): outdoors or in the cabinet
# $length (name): how long
sheet-open-for = Open { $place } for { $length }

# $label (name): label of a bottle
# $step (name): what was done
sheet-step-of = { $label }: { $step }

sheet-step-added = added

sheet-step-code-read = label is right

sheet-step-clean-hands = clean hands

sheet-step-bags-open = bags open

sheet-step-opened-in-the-cabinet = opened in the cabinet

sheet-step-opened-outdoors = opened outdoors

sheet-step-rinsed = rinsed

sheet-step-filled = filled

sheet-step-closed = closed

sheet-step-bags-closed = bags closed

sheet-step-travelled-closed = travelled closed

sheet-step-filter = filter

sheet-step-volume = volume

sheet-step-acid-in = acid in

sheet-step-corrected = corrected

sheet-step-note = note

sheet-field-code = 1 Code

sheet-field-sampler = 2 Clean hands

sheet-field-sampler-short = Clean hands

sheet-field-bags-open = 3 Bags open

sheet-field-opened = 4 Opened

sheet-field-rinsed = 5 Rinsed

sheet-field-filled = 6 Filled

sheet-field-closed = 7 Closed

sheet-field-bags-closed = 8 Bags closed

sheet-field-filter = 9 Filter

sheet-field-volume = 10 Volume

sheet-field-volume-short = Volume

sheet-hint-volume = where not the bottle’s own

sheet-field-acid = 11 Acid

sheet-field-acid-short = Acid

sheet-field-note = 12 Note

sheet-hint-note = what went otherwise

sheet-field-travelled = Travelled closed

sheet-do-bags-open = Bags open: outer by dirty hands, inner by clean hands

sheet-do-open-cabinet = Open in the cabinet

sheet-do-open-outdoors = Open outdoors

sheet-do-rinse = Rinsed with the water

sheet-do-fill = Filled

sheet-do-close = Closed

sheet-do-bags-close = Bags closed: inner, then outer

sheet-do-acid = Acid in, now

sheet-do-travelled = Travelled closed, never opened

sheet-openings = Openings

# $openings (name): how many
sheet-openings-are = openings: { $openings }

sheet-minutes-in-cabinet = Minutes in the cabinet

sheet-minutes-in-open = Minutes in the open

# $minutes (name): how many
sheet-minutes-cabinet = { $minutes } min in the cabinet

# $minutes (name): how many
sheet-minutes-open = { $minutes } min in the open

# $openings (name): how many
# $cabinet (name): minutes
# $open (name): minutes
sheet-exposure = Openings: { $openings }; { $cabinet } min in the cabinet, { $open } min in the open

sheet-correct-by-hand = Correct by hand

sheet-take-these = Take these

sheet-word-unfiltered = not filtered

sheet-word-filtered = filtered

# $pore (name): µm
# $lot (name): its name
sheet-pore-lot = { $pore } µm, lot { $lot }

# $lot (name): its name
sheet-filter-lot = filter { $lot }

# $lot (name): its name
sheet-acid-of = acid { $lot }

sheet-need-volume = a volume

sheet-no-acid = No acid lot is in the programme.

sheet-need-acid = mL of acid

sheet-word-laboratory = laboratory

sheet-word-at-the-well = at the well

# $label (name): label of a bottle
sheet-note-for = Note for { $label }

# $label (name): label of a bottle
sheet-open-as = Open now, as { $label }

# $label (name): label of a bottle
sheet-close-as = Filled and closed now, as { $label }

# $what (name): what it is about, in words
sheet-enters = This tap enters: { $what }.

# $label (name): label of a bottle
sheet-next-bottle = Next: { $label }

## Box and custody.

sheet-box-title = Box and custody

sheet-field-box-step = Step

sheet-field-box-person = In whose hands

sheet-field-box-place = Place

sheet-field-box-temperature = Temperature in the box, °C

sheet-field-box-seal = Seal

sheet-word-sealed = sealed

sheet-word-handed-over = handed over

sheet-word-received = received

sheet-word-opened = opened

sheet-word-acidified = acidified

sheet-word-at-the-car = at the car

sheet-word-on-the-way = on the way

sheet-word-whole = whole

sheet-word-broken = broken

# $seal (name): whole or broken
sheet-seal-is = seal { $seal }

sheet-need-hands = say in whose hands the box is

## Saving.

# $entries (name): how many
# $unsaved (name): how many are in no file
sheet-kept = Entries kept on this phone: { $entries }; in no file yet: { $unsaved }.

# $unsaved (name): how many are in no file
sheet-not-kept = Entries in no file yet: { $unsaved }; this browser does not keep them.

# $wells (name): how many
sheet-wells-undone = Wells not done: { $wells }

# $well (name): name of the well
# $what (name): what it is about, in words
sheet-lacks = { $well }: { $what }

sheet-save-file = Save the file to bring home

sheet-share-file = Send the file

sheet-not-sent = the file was not sent; save it instead

# $device (name): random name of the phone
sheet-one-file = One file holds everything entered on this phone ({ $device }). Saving again later does no harm: the programme takes each entry once, and joins the files of several phones.

sheet-resume = Go on from a file saved before

sheet-resume-no-sheet = This file is no field sheet: it ends too early or is of another kind.

sheet-resume-other-sheet = This file is of another sheet.

sheet-resume-own-entries = This phone has entries of its own; bring both files home.

# $entries (name): how many
sheet-resume-done = Entries taken back from the file: { $entries }.

sheet-today = Everything entered

# $entry (name): its number
sheet-struck = entry { $entry } taken back

## Paper.

# $trip (name): name of the trip
sheet-paper-title = { $trip }, field sheet

# $trip (name): name of the trip
sheet-paper-labels = { $trip }, labels

sheet-paper-no-script = This sheet needs script; use the paper sheet.

# $trip (name): name of the trip
# $sheet (name): name of the sheet
# $programme (name): name
# $head (name): begin of a digest
sheet-paper-foot = { $trip } · sheet { $sheet } · programme { $programme } { $head }…

# $page (name): number
# $pages (name): number
sheet-paper-page = page { $page } of { $pages }

# $from (name): day
sheet-paper-planned = Planned: { $from }. Times are local; write hours and minutes.

# $from (name): day
# $to (name): day
sheet-paper-planned-to = Planned: { $from } to { $to }. Times are local; write hours and minutes.

# $well (name): name of the well
sheet-paper-well = Well { $well }

# $well (name): name of the well
# $about (name): in words
sheet-paper-well-about = Well { $well }: { $about }

sheet-paper-open-since = open since

sheet-paper-shut-since = shut since

# $note (name): what the record says
sheet-paper-programme-says = on record: “{ $note }”

sheet-paper-fill = fill

sheet-paper-litres-to-mark = litres to the mark

sheet-paper-formula = 60 × litres / seconds = L/min

sheet-paper-time = time

sheet-paper-where = where

sheet-paper-litres = litres

# $quantity (name): in words
# $readings (name): how many
# $width (name): mm
sheet-paper-rule = { $quantity }: { $readings } in a row within { $width } of their mean

# $quantity (name): in words
# $edge (name): number
# $readings (name): how many
# $width (name): mm
sheet-paper-rule-below = { $quantity } up to { $edge }: { $readings } in a row within { $width } of their mean

# $quantity (name): in words
# $edge (name): number
# $readings (name): how many
# $width (name): mm
sheet-paper-rule-above = { $quantity } over { $edge }: { $readings } in a row within { $width } of their mean

# $absolute (name): with unit
# $percent (name): per cent
sheet-paper-width-or = { $absolute } or { $percent } %

# $rules (name): joined
sheet-paper-steady = Steady: { $rules }.

sheet-paper-meter-what = It is:

# $class (name): number
# $limits (name): joined
sheet-paper-class = Limit of class { $class } (ISO 14644-1), per m³: { $limits }. Zero counted is not zero: fewer than 3000 / litres per m³ (95 %).

# $limit (name): with the unit of its sentence
# $size (name): µm
sheet-paper-limit-at = { $limit } at { $size } µm

sheet-paper-steps = 4 and 7: write the minute; out for outdoors, cab for the cabinet. Openings and minutes in cabinet and open follow from them. Bottles that travel closed: only code and note.

sheet-paper-out = out

sheet-paper-cab = cab

sheet-paper-lot = lot

sheet-paper-at = at

sheet-paper-bottle = Bottle

sheet-paper-when = When

# $steps (name): joined
sheet-paper-box-steps = Steps: { $steps }. Seal: whole or broken.

# $total (name): L
sheet-paper-pipe-holds = The pipe holds { $total } L: divided by the flow in L/min it is the contact time in minutes = ______ min. Volumes renewed = flow × minutes open / { $total } = ______

# $total (name): L
# $each (name): joined
sheet-paper-pipe-holds-each = The pipe holds { $total } L ({ $each }): divided by the flow in L/min it is the contact time in minutes = ______ min. Volumes renewed = flow × minutes open / { $total } = ______

sheet-paper-past = After writing: the last visit

sheet-paper-past-why = Look here only after the own reading is written: beside an empty field an old value gets written again. A value far outside what the well ever showed: read once more, and note that it is right.

sheet-paper-quantity = quantity

sheet-paper-last = last visit

sheet-paper-lowest = lowest so far

sheet-paper-highest = highest so far

sheet-paper-days = days

sheet-paper-usual = usual elsewhere

sheet-paper-flow = flow

# $well (name): name of the well
sheet-paper-label-well = well { $well }

# $trip (name): name of the trip
# $page (name): number
# $pages (name): number
# $page-width (name): mm
# $page-height (name): mm
# $columns (name): how many
# $rows (name): how many
# $width (name): mm
# $height (name): mm
# $left (name): mm
# $top (name): mm
# $gap-x (name): mm
# $gap-y (name): mm
# $code (name): what was read
sheet-paper-grid = { $trip } · page { $page } of { $pages } · print at 100 %: this bar is 50 mm. Page { $page-width } × { $page-height } mm; { $columns } × { $rows } labels of { $width } × { $height } mm; margins left { $left }, top { $top } mm; gaps { $gap-x } and { $gap-y } mm; code { $code } mm.

# $trip (name): name of the trip
sheet-paper-no-bottles = Trip { $trip } has no bottles yet.

# $page (name): number
sheet-paper-labels-page = Labels, page { $page }

# $label (name): label of a bottle
sheet-paper-code-of = Data Matrix code of { $label }

# $entries (name): how many
sheet-older = earlier ones: { $entries }

sheet-correct = Correct
