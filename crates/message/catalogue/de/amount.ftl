amount-with-u = { $amount } (u { $u })
amount-with-expanded = { $amount } (k = 2)
amount-without-u = { $amount } (u nicht angegeben)
amount-below = < { $limit }
amount-above = > { $limit }
