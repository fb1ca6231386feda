amount-with-u = { $amount-expanded } (k = 2)
amount-with-expanded = { $amount } (k = 2)
amount-without-u = { $amount } (u nicht angegeben)
amount-below = < { $limit }
amount-above = > { $limit }
