### An amount with its uncertainty, for sentences that speak of one.

# $amount (amount): value
# $u (amount): its standard uncertainty, in the same unit
amount-with-u = { $amount-expanded } (k = 2)

# $amount (amount): value with its expanded uncertainty
amount-with-expanded = { $amount } (k = 2)

# $amount (amount): value
amount-without-u = { $amount } (u not stated)

# $limit (amount): upper bound
amount-below = < { $limit }

# $limit (amount): lower bound
amount-above = > { $limit }
