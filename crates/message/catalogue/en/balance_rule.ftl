### Rules of the charge balance by their keys: `Message::named("balance_rule", "freeze-cherry")`. Each stands in brackets after its gate.

balance_rule-freeze-cherry = of the sum of both; Freeze & Cherry 1979, from memory

balance_rule-standard-methods-1030-e = of the sum of both, by the anions; Standard Methods 1030 E, from memory

balance_rule-din-38402-62 = of half the sum of both; DIN 38402-62, from memory

balance_rule-programme = of the sum of both; the programme’s own
