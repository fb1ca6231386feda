### How long a bottle may still wait.

# $time (amount): whole days or hours to go
holding-left = { $time } left

# The time is over.
# $time (amount): whole days or hours since
holding-over = over since { $time }
