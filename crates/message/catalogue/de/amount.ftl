amount-with-u = { $amount } (u { $u })
amount-without-u = { $amount } (u nicht angegeben)
amount-below = < { $limit }
amount-above = > { $limit }
