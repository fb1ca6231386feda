### Occupational limits of hydrogen sulfide whose names are words, by authority and level: `Message::named("air_limit", "NIOSH REL ceiling 10 min")`.

air_limit-NIOSH-REL-ceiling-10-min = NIOSH, REL ceiling 10 min
air_limit-OSHA-general-industry-ceiling = OSHA general industry, ceiling
air_limit-OSHA-general-industry-10-min-peak = OSHA general industry, 10-min peak
air_limit-OSHA-construction-8-h-TWA = OSHA construction, 8-h TWA
