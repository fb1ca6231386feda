balance_rule-freeze-cherry = der Summe beider; Freeze & Cherry 1979, aus dem Gedächtnis
balance_rule-standard-methods-1030-e = der Summe beider, je nach Anionen; Standard Methods 1030 E, aus dem Gedächtnis
balance_rule-din-38402-62 = der halben Summe beider; DIN 38402-62, aus dem Gedächtnis
balance_rule-programme = der Summe beider; eigene Schranke des Programms
