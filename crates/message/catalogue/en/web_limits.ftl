### The page that holds the newest values against limits.

web_limits-title = Limits

web_limits-what = The newest sampling of each well and substance beside limits as they held on its day. Bottles of one well count as the highest of them. A comparison, no word on drinking.

web_limits-none = Nothing measured has a limit on record.

# $n (count): how many
web_limits-above = { $n } above a limit, accepted

# $n (count): how many
web_limits-above-though = { $n } above a limit, though provisional or rejected

# $n (count): how many
web_limits-open = { $n } cannot be told

# $n (count): how many
web_limits-below = { $n } below

web_limits-head-ratio = Beside the limit

web_limits-head-what = What, where, when

web_limits-head-value = Value ± U (95 %)

web_limits-head-limit = Limit, whose, what for

web_limits-head-verdict = Verdict

# $times (amount): how many times
web_limits-times = { $times } × the limit

# $p (name): in words
web_limits-probability-above = above with { $p }

web_limits-by-value-alone = by the value alone; its uncertainty is not stated

web_limits-all-parts = All parts

web_limits-under = * is quoted from memory and has still to be compared with its document.

web_limits-advice = What it means for the use of the water the local health authority says.

web_limits-own = Enter a limit of your own

web_limits-by-authority = By authority, day and certainty
