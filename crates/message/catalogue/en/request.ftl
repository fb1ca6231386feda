### The request and custody form that goes to a laboratory with bottles under blind labels.

request-title = Request to the laboratory, and custody of the bottles

# $request (name): its name
request-subtitle = Request { $request }

request-asked = Please measure the bottles in the order of the list, in one run. The labels say nothing of what is inside, on purpose: report under these labels, and ask nobody about them before the results are out.

# $laboratory (name): to whom
request-to = To: { $laboratory }

request-bottles = Bottles, in the order of the run
# $bottles (count): on the list
request-bottles-caption = { $bottles ->
    [one] { $bottles } bottle
   *[other] { $bottles } bottles
}, each measured once
request-place = place
request-label = label
request-volume = volume
request-fraction = fraction
request-preserved = preserved with
request-whole = came whole
request-not-said = not noted
request-apart = Volumes are those noted at filling. What belongs together stands apart in this order.

request-analytes = What to measure
request-analytes-caption = Analytes, units and how far down
request-down-to = report down to
request-own-limit = your own limit, please state it
request-zero = Below the limit write < and the limit, never zero and never an empty cell; a value under zero stays as it was read, with its uncertainty.

request-back = What to send back
request-back-rows = A row a label and analyte: label, analyte, value, unit, uncertainty, reporting limit, method, day of measurement. A file with the headings of the table beside this form is best.
request-back-uncertainty = Say whether the uncertainty is standard or expanded, and with which factor.
request-back-accredited = Say for each method whether it is accredited.
request-back-quality = Of the batch: the method blank, the recovery of a spike or control sample, a duplicate; each with its numbers and unit.
request-back-state = Say in which state box, seal and bottles arrived, and what is left of them.

request-custody = Custody
request-custody-caption = From hand to hand
request-step = step
request-when = day and time
request-name = name
request-signature = signature
request-seal = seal
request-temperature = box, °C
request-handed-over = handed over
request-carried = carried
request-received = received
request-opened = opened
request-measured = measured
request-kept = kept, returned or disposed of
