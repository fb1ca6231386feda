source-galvanised-pipe = Zink zum Feuerverzinken, bleihaltige Sorte (ASTM B6 Prime Western: Zn mindestens 98 %, Pb 0,5 bis 1,4 %, Cd bis 0,20 %), aus dem Gedächtnis; Mitte der Bereiche
source-stainless-steel-304 = ASTM A240 Sorte 304: Cr 17,5 bis 19,5 %, Ni 8 bis 10,5 %, aus dem Gedächtnis; Mitte der Bereiche
source-stainless-steel-316 = ASTM A240 Sorte 316: Cr 16 bis 18 %, Ni 10 bis 14 %, Mo 2 bis 3 %, aus dem Gedächtnis; Mitte der Bereiche
source-brass = Automatenmessing (EN 12164 CW614N: Cu 57 bis 59 %, Pb 2,5 bis 3,5 %, Zn der Rest), aus dem Gedächtnis
source-rubber-gloves = vulkanisierter Gummi enthält Zinkoxid, ein bis einige Prozent; andere Metalle je nach Handschuh: allgemeines Wissen des Fachs, aus dem Gedächtnis
