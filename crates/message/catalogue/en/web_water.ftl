### The pages of waters.

web_water-title = Water

web_water-what = The newest water of each well: its ions, what could form or dissolve in it, its smell, what holds its metal down.

web_water-none = No sample has calcium, sodium, chloride and alkalinity on record: without them the chemistry of a water cannot be worked out.

web_water-details = One well in detail

# $well (name): its name
# $day (name): in words
web_water-detail = { $well }, { $day }

web_water-held-down = What holds the metal down

# $n (count): how many
web_water-samples = { $n ->
    [one] { $n } sample with major ions
   *[other] { $n } samples with major ions
}

# $shown (count): on the page
# $all (count): of all
web_water-samples-caption = { $shown } of { $all }, newest first

web_water-sample = Sample

web_water-well = Well

web_water-filled = Filled

web_water-results = Results

web_water-stands-on = What it stands on

web_water-stands-on-caption = The results of this water

web_water-opens-case = A value opens its case.

web_water-all-waters = all waters

# $label (name): as asked
web_water-no-ions = Of “{ $label }” there are no major ions on record, so its chemistry cannot be worked out.

web_water-no-result = No result is on record.

web_water-head-what = What

web_water-head-value = Value ± U

web_water-head-verdict = Verdict

web_water-bottle = Bottle

web_water-fraction = Filtered or not

web_water-laboratory = Laboratory
