### The case for one number.

# $substance (name): as it is called
# $bottle (name): its label
web_case-title = { $substance } in { $bottle }

# $when (name): in words
web_case-filled = filled { $when }

web_case-trip = trip

# $note (name): as written
web_case-field-note = field note: { $note }

web_case-older = This is an older revision.

web_case-newest = The newest

# $state (name): in words
# $k (amount): coverage factor
web_case-sentence-measured = Measured, { $state }; ± is the expanded uncertainty U (95 %, k = { $k }).

# $state (name): in words
web_case-sentence-state = As reported: { $state }.

web_case-sentence-no-limit = Not detected; the report does not say below what.

# $share (name): with its interval
web_case-share = Of the metal in the bottle: { $share }

web_case-signed-by = Signed by

web_case-findings = What was checked

web_case-jump-derivation = Derivation

web_case-jump-history = History

web_case-sources = Sources

web_case-over-time = Over time

web_case-for-paper = For paper, all open

web_case-set = Bottles of this water

# $n (count): how many
web_case-set-of = { $n ->
    [one] { $n } bottle of this water
   *[other] { $n } bottles of this water
}

web_case-bottle-before = previous bottle [

web_case-bottle-after = next bottle ]

# $n (count): how many
web_case-failed = { $n } not met

# $n (count): how many
web_case-not-known = { $n } not known

# $n (count): how many
web_case-met = { $n } met

web_case-path = The path of the bottle

web_case-derivation = From the number down to the counts

web_case-tree-how = Each line is one step with its value; open it to see what it was computed from, down to the replicates of the counts.

web_case-tree-u = The u behind a value is its standard uncertainty.

web_case-told-above = told above

web_case-not-shown = What the data cannot show

web_case-budget = Uncertainty budget

web_case-budget-caption = What the variance of the value is made of

web_case-budget-input = Input

web_case-budget-share = Share of the variance, %

web_case-budget-u = standard uncertainty in the value’s unit

web_case-history = History of the verdict

web_case-history-caption = Every verdict so far, oldest first

web_case-when = When

web_case-who = By whom

web_case-verdict = Verdict

web_case-because = Because of

web_case-not-judged = It was not judged: it is evidence for others, or nothing was derived yet.

web_case-origin = Where it comes from

web_case-run = run

web_case-file = file as it came

web_case-laboratory = laboratory

web_case-its-method = its method

web_case-method = method

web_case-engine = derived by version

web_case-not-tested = What was not tested, microbes first, is not spoken of; advice on drinking is the local health authority’s.

web_case-others = Other results of this bottle

# $bottle (name): its label
web_case-others-caption = Newest results of bottle { $bottle }

web_case-no-other = There is no other.

web_case-what = What

web_case-fraction = Filtered or not

web_case-value = Value ± U

web_case-your-word = Your word on it

web_case-stand = Stand for this verdict

web_case-sign-nothing = Nothing holds this result back: your word would stand beside the verdict and change nothing.

# $checks (name): in words
web_case-sign-lifts-all = Your word would lift: { $checks }. The result would then be accepted.

# $checks (name): in words
# $verdict (name): in words
web_case-sign-lifts-none = Your word lifts none of what decides here: { $checks }. That is decisive evidence, not a warning; the result stays { $verdict }.

# $checks (name): in words
# $left (name): in words
# $verdict (name): in words
web_case-sign-lifts-some = Your word would lift: { $checks }. It cannot lift: { $left }, which is decisive. The result stays { $verdict }.

web_case-nobody-signs = A verdict is signed by somebody, and nobody is named: say at the top of the page who acts, by a name that is on record as a person with the role lead or analyst.

web_case-enter-person = Enter a person

web_case-why-stand = Why you stand for it

web_case-why-stand-hint = Kept for good, with your name.

web_case-sign = Sign

web_case-signing-is-the-leads = Signing is the lead’s.

web_case-take-bottle-out = Take the bottle out of the evidence

web_case-take-bottle-back = Take the bottle back into the evidence

web_case-why-out = Why it does not count

web_case-why-out-hint = Nothing is deleted; everything that stands on it is derived anew. Kept for good, with your name.

web_case-take-out = Take it out

web_case-why-back = Why it counts again

web_case-why-back-hint = Everything that stands on it is derived anew.

web_case-take-back = Take it back

web_case-weighing-is-for-analysts = Weighing evidence is for analyst or lead.

web_case-out-evidence = It is evidence for others: what stands on it is derived without it.

# $n (count): how many
web_case-out-this = { $n ->
    [one] { $n } result of this bottle would be rejected as taken out; nothing is deleted.
   *[other] { $n } results of this bottle would be rejected as taken out; nothing is deleted.
}

web_case-out-no-other = No other bottle of this water stands on record: no value would be left.

# $bottle (name): its label
web_case-out-alone = { $bottle } would stand alone: whether bottles agree would not be known, so it would be provisional at best.

# $bottle (name): its label
web_case-out-alone-noted = { $bottle } would stand alone: whether bottles agree would not be known, which this result’s rules only note.

# $n (count): how many
web_case-out-fewer = The common value would be that of the { $n ->
    [one] { $n } other bottle
   *[other] { $n } other bottles
}, judged anew.

web_case-out-disagreement-stays = The disagreement stays as a finding.

# $values (count): how many
# $verdicts (count): how many
web_case-anew = { $values ->
    [one] { $values } value
   *[other] { $values } values
} came out anew, { $verdicts ->
    [one] { $verdicts } verdict was written.
   *[other] { $verdicts } verdicts were written.
}

# $n (count): how many
web_case-more-turned = … and { $n ->
    [one] { $n } more verdict
   *[other] { $n } more verdicts
} turned.

# $why (name): in words
web_case-without-results = Without results: { $why }

# $check (name): in words
web_case-unknown-check = The table of checks speaks of “{ $check }”, which this program does not make: that rule decides nothing.

# $bottle (name): its label
web_case-signing = Signing { $bottle }

web_case-signing-step = Signing, and judging anew

# $checks (name): in words
web_case-still-provisional = Your word is kept. The result stays provisional: a word answers for warnings, and this is decisive evidence that is missing: { $checks }. The case says what was not known.

# $person (name): as named
web_case-not-on-record = { $person } is not on record as a person: enter the person first, with the role lead or analyst, or act under the name of somebody who is.

# $person (name): as named
web_case-no-such-role = The role of { $person } on record is none that stands for a verdict: lead or analyst is wanted. Correct it under Record, People.

# $found (name): as typed
# $expected (name): in words
web_case-found-expected = Found { $found }, expected { $expected }.

# $why (name): in words
web_case-stopped = { $why }. What was derived until then stands, each run whole; deriving anew brings up the rest.

# $why (name): in words
web_case-kept-not-derived = Kept, not yet derived. { $why }

# $what (name): bottle or vial
web_case-taking-out = Taking { $what } out of the evidence

# $what (name): bottle or vial
web_case-taking-back = Taking { $what } back into the evidence

web_case-taking-step = Keeping the decision, and deriving everything anew

web_case-deriving = Deriving anew

web_case-deriving-step = Deriving results and verdicts from raw data and recipe
