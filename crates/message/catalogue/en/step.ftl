### How values came to be: methods, nodes, steps and parts of the uncertainty of a derivation. Those of a run and of other
### ways to a concentration stand in step_measurement. Formulas without words in them stand in the code.

## Where given numbers come from

step-input = input

step-field-record = field record

step-analysis = analysis

step-analysis-or-balance = analysis, or the charge balance

## The water's share

step-share = share of the water = 1 − blank/gross; interval by Fieller's set read on 0 to 1 from the best share allowed there

step-metal-in-bottle = metal in the bottle

step-metal-by-blanks = metal not from the water, by the blanks

step-water-share = water's share of the metal

step-water-share-formula = 1 − blank/gross

## Flow and head of a well

step-flow-method = flow from timed fills, mean of volume over time

# $fill (name): its number in order
step-fill-volume = volume of fill { $fill }

# $fill (name): its number in order
step-fill-time = time of fill { $fill }

# $fill (name): its number in order
step-fill-flow = flow of fill { $fill }

step-fill-flow-formula = volume/time

step-fills-mean = mean of the fills

step-part-timing = timing and reading of the mark, scatter of the fills

step-part-container = volume of the container

step-head-method = head from the pressure of a shut well at rest

step-gauge-pressure = gauge pressure

step-gauge-height-above-ground = height of the gauge above ground

step-density = density of the water

# $temperature (amount): of the water
step-at-temperature = at { $temperature }

step-head = head above ground

# 9.80665 m/s²: standard gravity.
step-head-formula = height + pressure/(density · 9.80665 m/s²)

step-part-gauge-height = gauge height

## Saturation index of a solid

step-saturation-method = saturation index from an analysis

# $component (name): component of the model
step-log-activity = log10 activity of { $component }

step-mole-balances = mole balances solved together

# $source (name): literature
# $seen (name): how the constant is known
step-constant-source = { $source } ({ $seen })

# $source (name): literature
# $seen (name): how the temperature term is known
step-temperature-by-fit = published fit: { $source } ({ $seen })

# $enthalpy (amount): of the reaction at 25 °C
# $u (amount): standard uncertainty of it
# $source (name): literature or rule
# $seen (name): how it is known
step-temperature-by-enthalpy = ΔrH { $enthalpy } (u { $u }), ΔrCp not known: { $source } ({ $seen })

# $enthalpy (amount): of the reaction at 25 °C
# $u (amount): standard uncertainty of it
# $heat-capacity (amount): change of the enthalpy with temperature
# $source (name): literature or rule
# $seen (name): how it is known
step-temperature-by-heat-capacity = ΔrH { $enthalpy } (u { $u }), ΔrCp { $heat-capacity }: { $source } ({ $seen })

# No enthalpy is known.
step-temperature-unknown = no temperature term: the value of 25 °C, with u of an enthalpy of 15 kJ/mol either way

# $solid (name): solid
step-saturation-index = saturation index of { $solid }

# $of (name): solid or species
step-log-k = log K of { $of }

## A laboratory's own concentration

step-as-reported-method = concentration as the laboratory reported it; how it was measured is the laboratory's to say

# $place (message): where in which file
step-as-reported-without-limit = concentration as the laboratory reported it; how it was measured is the laboratory's to say; not detected, and the report does not say below what ({ $place })

# $analyte (name): as the record writes it
step-as-reported = { $analyte } as reported

# $file (name): file
# $row (name): row of it
step-file-row = { $file } row { $row }

# $file (name): file
step-file = file { $file }

step-no-file = file not on record

# $place (message): where in which file
# $why (message): what is wrong with the row
step-as-reported-untold = concentration as the laboratory reported it; how it was measured is the laboratory's to say; its value cannot be told ({ $place }): { $why }
