### Forms of the web interface: what is asked, what is wrong, what was done; words of tables, columns and choices by
### their names, `Message::named("web_forms", "column-…")`.

web_forms-nothing-done = Nothing was done yet.

web_forms-nothing-entered = Nothing was entered yet.

web_forms-nothing-corrected = Nothing was corrected yet.

# $fields (count): of the form
web_forms-cannot-be-taken = { $fields ->
    [one] { $fields } field cannot be taken as typed:
   *[other] { $fields } fields cannot be taken as typed:
}

# $things (count): fields left empty
web_forms-needed = { $things ->
    [one] { $things } thing is needed.
   *[other] { $things } things are needed.
}

# $fields (count): of the form
web_forms-asked = { $fields ->
    [one] { $fields } value is asked about:
   *[other] { $fields } values are asked about:
}

web_forms-lacking = This is needed.

web_forms-needed-mark = needed

# $value (name): as it was typed
web_forms-is-right = { $value } is right

# $table (name): as it was asked for
web_forms-no-such-form = There is no form for "{ $table }".

# $thing (name): what it is
# $name (name): its name, or how many
web_forms-entered = Entered: { $thing } { $name }.

# $thing (name): what it is
web_forms-corrected = Corrected: { $thing }.

# $thing (name): what it is
web_forms-correct-title = Correct: { $thing }

web_forms-open-it = Open it

web_forms-enter-another = Enter another

web_forms-on-record = On record, the newest first

web_forms-correct-it = correct

web_forms-as-a-grid = Readings of one visit as a grid: times down, quantities across

web_forms-rows-left-out = A row in which only the first, repeated fields stand is left out.

web_forms-repeated = Repeated fields:

web_forms-enter = Enter

web_forms-one-act = The act is one event of the record, with your name.

# $n (count): its number
web_forms-row = row { $n }

web_forms-moment-as = 15 July 2026, 09:30

# $text (name): as it was typed
web_forms-no-number = Found "{ $text }", expected a number, with a decimal point or comma.

# $text (name): as it was typed
# $small (name): with the sign as decimal
# $large (name): without the sign
web_forms-thousands = "{ $text }": is it { $small } or { $large }? Write it without a sign for thousands.

web_forms-reason-too-short = A reason needs three words at least: a sentence that someone can weigh years from now.

web_forms-reason = Reason

web_forms-reason-hint = Kept for good, with your name. The value as it stood is kept too.

web_forms-correct = Correct

web_forms-corrected-before = Corrected before

# $name (name): as it was typed
# $near (list): names on record that are alike
web_forms-near-name = On record: { $near }. Is "{ $name }" another one?

# $value (amount): on record
# $at (date): when it was read
web_forms-there-already = There already: { $value } at { $at }. Are both real?

# $value (amount): as it was typed
# $last (amount): of the last visit
# $day (date): of the last visit
web_forms-far-from-last = { $value }? Last time { $last }, on { $day }.

web_forms-caution-pressure = Opening or shutting a flowing well can damage it, and drilling into water under pressure is licensed work: local codes come first.

web_forms-visit-title = Readings of one visit

web_forms-visit-intro = Well, day, person and instrument once; then a row for each time. All of it is kept, or nothing is.

web_forms-no-well-yet = There is no well on record yet.

web_forms-enter-well = Enter a well

web_forms-save-all = Enter all of it

web_forms-look-first = Look at it first

web_forms-all-or-nothing = All or nothing. In the grid: arrows, Tab and Enter move; a block from a spreadsheet can be pasted into a field.

web_forms-no-reading = A reading or a timed fill is needed.

web_forms-not-negative = ± is not under zero.

# $text (name): as it was typed
web_forms-no-hour = Found "{ $text }", expected a time as 10:43.

# $readings (count): kept
# $fills (count): kept
web_forms-entered-visit = { $readings ->
    [one] { $readings } reading
   *[other] { $readings } readings
}, { $fills ->
    [one] { $fills } fill
   *[other] { $fills } fills
} entered.

# $readings (count): in the form
# $fills (count): in the form
web_forms-counted-visit = { $readings ->
    [one] { $readings } reading
   *[other] { $readings } readings
}, { $fills ->
    [one] { $fills } fill
   *[other] { $fills } fills
} in the form

web_forms-time = Time

# $n (count): number of the row
web_forms-time-of-row = Time, row { $n }

# $n (count): number of the fill
web_forms-fill-of = fill { $n }

# $quantity (message): what is read
# $n (count): number of the row
web_forms-reading-of = { $quantity }, row { $n }

web_forms-margin = ± (95 %)

# $quantity (message): what is read
web_forms-margin-of = ± of { $quantity }, 95 %

# $value (amount): of the last visit
# $day (date): of the last visit
web_forms-last-time = last { $value }, { $day }

web_forms-day = Day

web_forms-read-by = Read by

web_forms-instrument = Instrument

web_forms-readings = Readings

web_forms-fills = Timed fills

web_forms-litres = Litres

web_forms-seconds = Seconds

web_forms-may-be-empty = may be empty

web_forms-flow = Flow:

web_forms-paste = Paste a block from a spreadsheet

web_forms-paste-how = A line a time: time, temperature, conductivity, pH, Eh, dissolved oxygen, turbidity, with tabs or semicolons between.

# $at (name): hour and minute
web_forms-steady-since = steady since { $at }

web_forms-not-steady = not steady yet

web_forms-steady-not-known = cannot be told yet

web_forms-thing-person = person

web_forms-thing-site = site

web_forms-thing-well = well

web_forms-thing-well-section = casing and screen

web_forms-thing-layer = layers

web_forms-thing-lot = lot

web_forms-thing-acid = acid lot

web_forms-thing-filter = filter lot

web_forms-thing-trip = trip

web_forms-thing-bottle = bottle

web_forms-thing-spike = spikes

web_forms-thing-aliquot = part of a bottle

web_forms-thing-field-reading = readings at

web_forms-thing-fill = timed fills at

web_forms-thing-local-limit = limit for

web_forms-thing-air-count = particle counts at

web_forms-thing-custody = step of custody

web_forms-thing-compound = compound

web_forms-thing-laboratory-quality = quality of

web_forms-thing-check-rule = rule of the checks

web_forms-enter-person = Enter a person

web_forms-enter-site = Enter a site

web_forms-enter-well-section = Enter casing and screen

web_forms-enter-layer = Enter layers

web_forms-enter-lot = Enter a lot of bottles

web_forms-enter-acid = Enter an acid lot

web_forms-enter-filter = Enter a filter lot

web_forms-enter-trip = Enter a trip

web_forms-enter-bottle = Enter a bottle

web_forms-enter-spike = Enter spikes

web_forms-enter-aliquot = Enter a part of a bottle

web_forms-enter-field-reading = Enter readings at a well

web_forms-enter-fill = Enter timed fills

web_forms-enter-local-limit = Enter a limit of your own

web_forms-enter-air-count = Enter particle counts

web_forms-enter-custody = Enter a step of custody

web_forms-enter-compound = Enter a compound's number

web_forms-enter-laboratory-quality = Enter what a laboratory says of its quality

web_forms-enter-check-rule = Enter a rule of the checks

web_forms-new-site = new site

web_forms-new-well = new well

web_forms-new-lot = new lot

web_forms-new-acid = new acid lot

web_forms-new-filter = new filter lot

web_forms-new-trip = new trip

web_forms-new-bottle = new bottle

web_forms-new-person = new person

web_forms-new-aliquot = new part of a bottle

web_forms-word-casing = casing

web_forms-word-screen = screen

web_forms-word-open = open hole

web_forms-word-groundwater = groundwater

web_forms-word-surface-water = surface water

web_forms-word-cabinet = in the cabinet

web_forms-word-open-air = in the open air

web_forms-word-room = in the room

web_forms-word-whole = whole

web_forms-word-broken = broken

web_forms-word-accreditation = accreditation

web_forms-word-blank = blank

web_forms-word-recovery = recovery

web_forms-word-duplicate = duplicate

web_forms-word-control-chart = control chart

web_forms-word-meter-check = check of a meter

web_forms-word-yes = yes

web_forms-word-no = no

web_forms-word-decisive = decides

web_forms-word-warning = warns

web_forms-word-note = is noted

web_forms-word-sample = sample

web_forms-word-field-blank = field blank

web_forms-word-trip-blank = trip blank

web_forms-word-bottle-blank = bottle blank

web_forms-word-equipment-blank = equipment blank

web_forms-word-field-spike = field spike

web_forms-word-lab-spike = spike of the laboratory

web_forms-word-reference-material = reference material

web_forms-column-name = Name

web_forms-column-authority = Whose limit

web_forms-column-limit-high = At most

web_forms-column-limit-low = At least

web_forms-column-document = Document

web_forms-column-edition = Edition

web_forms-column-basis = Counted as

web_forms-column-valid-from = Holds from

web_forms-column-valid-until = Holds until

web_forms-column-provenance = How it is known

web_forms-column-date-read = Read on

web_forms-column-role = Role in the programme

web_forms-column-description = In words

web_forms-column-latitude-deg = Latitude

web_forms-column-longitude-deg = Longitude

web_forms-column-invented = Invented

web_forms-column-site = Site

web_forms-column-medium = What it yields

web_forms-column-pipe-material = Material the water meets last

web_forms-column-flow-note = How it flows

web_forms-column-elevation-m = Ground above sea level

web_forms-column-overflows-to = Overflow goes to

web_forms-column-well = Well

web_forms-column-from-m = From depth

web_forms-column-to-m = To depth

web_forms-column-radius-m = Inner radius

web_forms-column-kind = What it is

web_forms-column-material = Material

web_forms-column-volume-mL = Volume

web_forms-column-cleaned-on = Cleaned on

web_forms-column-steps = Washing steps in order

web_forms-column-acid-days = Days in acid

web_forms-column-rinse = Last rinse

web_forms-column-target-pg-Pb = Lead that a blank may hold at most

web_forms-column-opened-on = Opened on

web_forms-column-pore-um = Pore size

web_forms-column-starts = Start

web_forms-column-ends = End

web_forms-column-question = What the trip is to decide

web_forms-column-weather = Weather

web_forms-column-wind = Wind

web_forms-column-dust = Dust

web_forms-column-road-salt = Road salt

web_forms-column-engines = Engines near by

web_forms-column-persons = Who was there

web_forms-column-label = Label

web_forms-column-trip = Trip

web_forms-column-lot = Lot

web_forms-column-fraction = Filtered or not

web_forms-column-filter = Filter lot

web_forms-column-u-volume-mL = Standard uncertainty of the volume

web_forms-column-filled-at = Filled

web_forms-column-sampler = Who filled it

web_forms-column-acid = Acid lot

web_forms-column-acid-mL = Acid added

web_forms-column-acidified-at = Acidified

web_forms-column-acidified-place = Acidified where

web_forms-column-openings = Times opened

web_forms-column-cabinet-min = Open in the cabinet

web_forms-column-open-air-min = Open outdoors

web_forms-column-parent = Part or spike of

web_forms-column-set-name = Replicate set

web_forms-column-note = Remark

web_forms-column-bags = Bags around it

web_forms-column-cabinet = Opened in which cabinet

web_forms-column-flow-L-min = Flow while it was filled

web_forms-column-u-flow-L-min = Standard uncertainty of the flow

web_forms-column-u-acid-mL = Standard uncertainty of the acid

web_forms-column-density-kg-L = Density of the water

web_forms-column-u-density-kg-L = Standard uncertainty of the density

web_forms-column-bottle = Bottle

web_forms-column-analyte = Element or quantity

web_forms-column-added-pg = Mass added

web_forms-column-u-pg = Standard uncertainty of the mass

web_forms-column-purpose = Purpose

web_forms-column-laboratory = Laboratory

web_forms-column-sent-at = Sent

web_forms-column-received-at = Received

web_forms-column-condition = Condition when received

web_forms-column-at = When

web_forms-column-quantity = What was read

web_forms-column-value = Value

web_forms-column-u = Standard uncertainty

web_forms-column-unit = Unit

web_forms-column-volume-L = Volume

web_forms-column-u-volume-L = Standard uncertainty of the mark

web_forms-column-seconds = Time

web_forms-column-place = Where

web_forms-column-size-um = Particles of at least this size

web_forms-column-count = Counted

web_forms-column-step = Step

web_forms-column-person = Person

web_forms-column-temperature-C = Temperature in the box

web_forms-column-seal = Seal

web_forms-column-cas = CAS number

web_forms-column-method = Method

web_forms-column-from-day = First day of sampling

web_forms-column-until-day = Last day of sampling

web_forms-column-answer = Answer

web_forms-column-below = Not found, at most

web_forms-column-second = Second of two values

web_forms-column-expected = What should have been found

web_forms-column-check-name = Check

web_forms-column-revision = Revision

web_forms-column-weight = What it decides

web_forms-column-limit-value = Limit

web_forms-column-limit-unit = Unit of the limit

web_forms-column-why = Reason

web_forms-hint-site-invented = 1 where the site does not exist

web_forms-hint-well-flow-note = Flows always, shut between visits, pumped

web_forms-hint-well-overflows-to = A stream on record

web_forms-hint-well-section-material = Stainless steel, galvanised steel, plastic …

web_forms-hint-layer-material = Rock or soil

web_forms-hint-lot-volume-mL = Nominal volume

web_forms-hint-acid-kind = Acid and grade

web_forms-hint-bottle-kind = Blanks are bottles too

web_forms-hint-bottle-fraction = unfiltered, or the pore size as 0.45 µm

web_forms-hint-bottle-parent = The sample that this is a duplicate or a spike of

web_forms-hint-bottle-acid-days = Where it differs from its lot

web_forms-hint-bottle-u-acid-mL = A twentieth of it where left out

web_forms-hint-field-reading-quantity = temperature, pH, Eh, dissolved oxygen, conductivity

web_forms-hint-custody-bottle = Empty for the whole box

web_forms-hint-custody-step = sealed, sent, received, acidified, opened

web_forms-hint-laboratory-quality-laboratory = As its results name it; or the meter

web_forms-hint-laboratory-quality-method = Empty: all of its methods

web_forms-hint-laboratory-quality-analyte = Empty: all of the method

web_forms-hint-laboratory-quality-until-day = Empty: that day alone; for accreditation and charts until now

web_forms-hint-laboratory-quality-note = Report, batch, certificate

web_forms-hint-check-rule-check-name = As the table of checks names it

web_forms-thing-tracer = tracers of

web_forms-thing-recharge-fact = fact of the recharge

web_forms-enter-tracer = Enter tracers of age

web_forms-enter-recharge-fact = Enter what is known of the recharge

web_forms-word-sampling = the day of sampling

web_forms-word-measurement = the day of measurement

web_forms-word-d13C-minus-25 = δ¹³C of −25 ‰

web_forms-word-not-normalised = nothing

web_forms-word-recharge-temperature-C = recharge temperature, °C

web_forms-word-recharge-height-m = height of the recharge area, m

web_forms-word-excess-air-cm3STP-kg = excess air, cm³ STP/kg

web_forms-word-dry-zone-m = thickness of the dry zone, m

web_forms-word-winter-rain-d18O = δ¹⁸O of winter rain, ‰

web_forms-word-summer-rain-d18O = δ¹⁸O of summer rain, ‰

web_forms-word-year-rain-d18O = δ¹⁸O of the year’s rain, ‰

web_forms-word-rain-station-height-m = height of the rain station, m

web_forms-word-price = price of one more measurement

web_forms-column-sampled-on = Sampled on

web_forms-column-tracer = Tracer

web_forms-column-uncertainty = Uncertainty as the laboratory gives it

web_forms-column-k = Its coverage factor k

web_forms-column-critical-value = Critical value

web_forms-column-detection-limit = Detection limit

web_forms-column-measured-on = Measured on

web_forms-column-decayed-to = Tritium holds for

web_forms-column-half-life-a = Half-life of the laboratory for tritium

web_forms-column-normalised-to = Carbon-14 normalised to

web_forms-column-what = What it is

web_forms-column-low = From

web_forms-column-high = To

web_forms-column-source = Where it comes from
