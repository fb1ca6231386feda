### What the columns of the templates mean: one row a template and heading.

column-wells-name = Name

column-wells-site = Name of the site it belongs to, which is on record

column-wells-description = In words

column-wells-medium = What it yields

column-wells-pipe-material = Material that the water meets last

column-wells-flow-note = Flows always, shut between visits, pumped

column-well-sections-well = Well

column-well-sections-from-m = Depth of its top

column-well-sections-to-m = Depth of its foot

column-well-sections-radius-m = Inner radius

column-well-sections-kind = Casing or screen

column-well-sections-material = Material

column-trips-name = Name

column-trips-starts = Start

column-trips-ends = End

column-trips-question = What the trip is to decide

column-trips-persons = Who was there

column-bottles-label = Label

column-bottles-kind = What it is; blanks are bottles too

column-bottles-trip = Trip

column-bottles-well = Well; of a field blank the well at which it was opened

column-bottles-fraction = unfiltered, or pore size as 0.45 um, or filtered where the pore size is not stated

column-bottles-volume-ml = Volume of water in the bottle

column-bottles-filled-at = When filled

column-bottles-acid-ml = Acid added

column-bottles-acidified-at = When acidified

column-bottles-openings = Times opened

column-bottles-cabinet-min = Minutes open in the cabinet

column-bottles-open-air-min = Minutes open outdoors

column-bottles-parent = The sample that this is a duplicate or a spike of

column-bottles-note = Remark of the field

column-field-readings-trip = Trip

column-field-readings-well = Well

column-field-readings-at = When

column-field-readings-quantity = temperature, pH, Eh, dissolved oxygen, conductivity, pressure, head

column-field-readings-value = Value

column-field-readings-u = Standard uncertainty

column-field-readings-unit = Unit of value and uncertainty

column-fills-trip = Trip

column-fills-well = Well

column-fills-at = When

column-fills-volume-l = Volume to the mark

column-fills-u-volume-l = Standard uncertainty of the mark

column-fills-seconds = Time to fill it

column-custody-trip = Trip

column-custody-at = When

column-custody-step = sealed, sent, received, acidified, opened

column-custody-person = Who, by a name on record

column-custody-place = Where

column-custody-temperature-c = In the box

column-custody-seal = Seal

column-spikes-bottle = Spiked bottle

column-spikes-analyte = Element

column-spikes-added-pg = Mass added

column-spikes-u-pg = Its standard uncertainty

column-sequence-run = Name of the run as in the laboratory

column-sequence-laboratory = Who measured

column-sequence-instrument = Kind of instrument

column-sequence-started-at = Start of the run

column-sequence-recipe = Recipe by which its counts are reduced; it comes first

column-sequence-position = Place in the sequence

column-sequence-name = Name of the vial as in the laboratory

column-sequence-role = What it is for

column-sequence-bottle = What is in it

column-sequence-minutes = Time since the start of the run

column-sequence-dilution = Mass after over mass before dilution; 1 where undiluted

column-sequence-u-dilution = Its standard uncertainty

column-sequence-analyte = Element of an assigned value: a row each

column-sequence-value = Assigned value of a standard, check or reference material

column-sequence-u = Its standard uncertainty

column-sequence-unit = Its unit

column-sequence-source = Certificate, dilution record

column-sequence-stock = Name of the stock that it was made of; values of one stock err together

column-sequence-assigned-side = Where the vial was diluted: whether the value stands before the dilution or after it

column-counts-run = Run; its sequence comes first

column-counts-position = Place in the sequence

column-counts-replicate = Number of the replicate: a row each

column-counts-integration-s = Time on the mass per replicate

column-counts-pb208-low = Counts per second of an isotope; one column each, named isotope@resolution (low, medium, high)

column-counts-in115-low = The internal standard likewise

column-results-bottle = Label of the bottle

column-results-analyte = Element or quantity

column-results-fraction = unfiltered, or pore size as 0.45 um, or filtered

column-results-value = The value; < and the limit where nothing was detected, never a zero

column-results-u = Standard uncertainty

column-results-unit = Unit of value, uncertainty and limits

column-results-detection-limit = Detection limit of the laboratory

column-results-reporting-limit = Limit below which it reports no value

column-results-laboratory = Name of the laboratory

column-results-method = Its method

column-tracers-bottle = Label of the bottle; empty: well and day say which water

column-tracers-well = Well, where no bottle is named

column-tracers-sampled-on = Day of sampling, where no bottle is named

column-tracers-tracer = Isotope or gas

column-tracers-value = As measured

column-tracers-below = 1 where it was not detected: the value is the limit

column-tracers-uncertainty = As the laboratory gives it

column-tracers-k = Coverage factor of the uncertainty; empty: 1

column-tracers-unit = TU; F14C, pMC (100 F14C) or pMC (absolute); ‰ VSMOW; ‰ VPDB; fmol/kg; cm3STP/g; ratio

column-tracers-critical-value = Above it the tracer counts as detected

column-tracers-detection-limit = Detection limit of the laboratory

column-tracers-measured-on = Day of measurement

column-tracers-laboratory = Name of the laboratory

column-tracers-method = Its method

column-tracers-decayed-to = Tritium: the day that the value holds for; empty: sampling

column-tracers-half-life-a = Tritium: half-life with which the laboratory reckoned back

column-tracers-normalised-to = Carbon-14: whether fractionation was taken out

column-input-histories-name = Name of the history

column-input-histories-tracer = Isotope or gas

column-input-histories-region = Where it holds

column-input-histories-source = Where the numbers are from

column-input-histories-site = Only for wells of this site; empty: for all

column-input-histories-in-year = Decimal year; an annual mean stands at its middle

column-input-histories-before = 1: the natural background of all time before this year

column-input-histories-value = Value

column-input-histories-u = Its standard uncertainty

column-input-histories-unit = TU, ppt or F14C

column-recharge-facts-what = What it is, with its unit

column-recharge-facts-tracer = Of a price: which tracer

column-recharge-facts-site = Only for wells of this site

column-recharge-facts-well = Only for this well

column-recharge-facts-low = Lower end of the range

column-recharge-facts-high = Upper end; the same where it is one number

column-recharge-facts-source = Where it comes from
