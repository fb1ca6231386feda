### Where the amounts of a signature come from, by its name in `reference/signatures.csv`: `Message::named("source", name)`.

source-galvanised-pipe = zinc for hot-dip galvanising, grade with lead (ASTM B6 Prime Western: Zn 98 % at least, Pb 0.5 to 1.4 %, Cd to 0.20 %), from memory; middle of the ranges
source-stainless-steel-304 = ASTM A240 type 304: Cr 17.5 to 19.5 %, Ni 8 to 10.5 %, from memory; middle of the ranges
source-stainless-steel-316 = ASTM A240 type 316: Cr 16 to 18 %, Ni 10 to 14 %, Mo 2 to 3 %, from memory; middle of the ranges
source-brass = free-cutting brass (EN 12164 CW614N: Cu 57 to 59 %, Pb 2.5 to 3.5 %, Zn the rest), from memory
source-rubber-gloves = vulcanised rubber holds zinc oxide, one to a few per cent; other metals by glove: a trade's common knowledge, from memory
