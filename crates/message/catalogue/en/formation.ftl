### Formations of `reference/formation_properties.csv` by their names (`Message::named("formation", name)`), and what the
### table adds to a row behind its source (`note-` before the name).

formation-gravel = gravel
formation-clean-sand = clean sand
formation-silty-sand = silty sand
formation-silt--loess = silt, loess
formation-glacial-till = glacial till
formation-unweathered-marine-clay = unweathered marine clay
formation-sandstone = sandstone
formation-note-unweathered-marine-clay = use it for lake clay too
formation-note-sandstone = friable or fractured rock conducts more
