### The pages of series.

web_time-title = Over time

# $substance (name): as it is called
# $well (name): its name
web_time-title-one = { $substance } in { $well } over time

web_time-what = On how many days each well was sampled for each substance. A number opens the series.

web_time-one-day = One day is no trend; the second point comes with the next trip.

web_time-no-day = No result of a well is on record yet.

web_time-plan-trip = Plan a trip

web_time-caption = Days of sampling by substance and well

web_time-substance = Substance

web_time-foot = Bottles of one day count once.

web_time-no-result = No result of it is on record.

web_time-none-in-years = No dated result of it is on record in these years.

web_time-newest = The newest of its results

web_time-newest-first = Newest first

web_time-day = Day

web_time-value = Value ± U

web_time-verdict = Verdict

web_time-of = Of

web_time-bottle = Bottle

web_time-opens-case = A value opens its case.

# $n (count): how many
web_time-all-results = { $n ->
    [one] The one result
   *[other] All { $n } results
}

web_time-years = Years shown

web_time-from-year = From year

web_time-to-year = To year

web_time-show-years = Show these years

web_time-all-years = All years
