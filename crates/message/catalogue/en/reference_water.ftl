### Reference waters, by their names, and what their table notes to a figure, by its key:
### `Message::named("reference_water", name)`.

reference_water-certified = certified reference material: compare with the certificate before use

reference_water-certified-second-hand = seen second-hand in mmol/L in a public repository, converted; certified reference material: compare with the certificate before use

reference_water-before-unleaded-petrol = before unleaded petrol: rain of today holds less lead

reference_water-before-1982 = rain of the years before 1982

reference_water-before-mining = before mining; spread not recorded here

reference_water-holocene = range of the samples; glacial ice of the same core holds many times more

reference_water-leaded-petrol = "over 200": after two decades of leaded petrol; spread not recorded here

reference_water-no-spread = spread not recorded

reference_water-Antarctic-ice--Dome-C---Holocene = Antarctic ice (Dome C), Holocene
reference_water-Greenland-ice--7760-years-old = Greenland ice, 7760 years old
reference_water-Greenland-snow--1965 = Greenland snow, 1965
reference_water-NIST-SRM-1640a-natural-water = NIST SRM 1640a natural water
reference_water-NIST-SRM-1643f-water = NIST SRM 1643f water
reference_water-SLRS-5-river-water = SLRS-5 river water
reference_water-SLRS-6-river-water = SLRS-6 river water
reference_water-ocean--North-Pacific = ocean, North Pacific
reference_water-rain--remote = rain, remote
reference_water-rain--rural = rain, rural
reference_water-rain--urban = rain, urban
reference_water-rivers--world-mean = rivers, world mean
