### Quantities of the table of physical bounds, with their article.

bound-air-volume = an air volume
bound-bottle-volume = a bottle volume
bound-box-temperature = a box temperature
bound-density = a density
bound-fill-time = a fill time
bound-fill-volume = a fill volume
bound-latitude = a latitude
bound-longitude = a longitude
bound-pH = a pH
bound-temperature = a temperature
