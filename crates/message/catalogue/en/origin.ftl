### Where the water fell, and when: noble gases, carbon-14, water isotopes, chloride. What is found or allowed stands within
### another sentence and has no full stop.

## Models of excess air.

origin-unfractionated = air taken along as it is

origin-closed-system = air bubbles that dissolve in part (closed-system equilibration)

origin-reequilibrated = air that leaves again in part (partial re-equilibration)

## Noble gases: what cannot be, what was found, what is allowed.

origin-gas-sample = sample for gases

origin-bubbles = bubbles

origin-without-bubbles = a sample without bubbles, which make every result invalid: fill a new copper tube from the well head under the well's own pressure, never from the basin

# $gas (name): its symbol
origin-gas-of-sample = { $gas } of the sample

origin-amount-with-u = a value with a standard uncertainty above 0: ask the laboratory for it

origin-given-twice = given twice

origin-given-once = once; for replicates their mean, with its u

# $usual (amount): at equilibrium with air, 10 °C
origin-near-solubility = 0.05 to 20 times what water at 10 °C holds of air, { $usual } (helium has no upper end): look at the unit, mol/kg

origin-neon-and-argon = neon and argon

origin-measure-neon-and-argon = have both measured, better krypton and xenon as well: two gases give a temperature, four test it

origin-height-of-recharge = height of recharge

origin-fit-of-gases = the fit of the noble gases

## Noble gases: beside the result.

origin-nothing-tested = With neon and argon alone, temperature and excess air follow by construction: nothing is tested. Krypton and xenon would test it.

# $gas (name): its symbol
# $by (amount): residual in units of u
origin-no-model-fits = No model of excess air fits these gases; { $gas } lies furthest off, by { $by }. No recharge temperature is given: look at the measurement of this gas, at bubbles and at lost gas.

# $delta (amount): neon above equilibrium, percent
origin-gas-lost = Gas was lost: neon lies { $delta } from equilibrium, or less air stayed than equilibrium leaves. The temperature comes out wrong, mostly too high; take a new sample at the well head, under pressure.

# $low (amount): lower end
# $high (amount): upper end
origin-at-the-end-of-solubilities = A model's best temperature lies at the end of what the solubilities were measured at, { $low } to { $high }: it is left out. Look at the units and at lost gas.

# $helium (amount): measured
# $solubility (amount): at equilibrium
origin-helium-below-solubility = Helium, { $helium }, lies below what water holds of air, { $solubility }: gas was lost, in the ground or from the sample. No age by helium follows; take a new sample.

# $beyond (amount): helium beyond air
origin-helium-of-rock = There is { $beyond } more helium than air explains: helium of the rock, so old water is in it. How old cannot be told without a known flux.

# $beyond (amount): nitrogen beyond air
origin-excess-nitrogen = There is { $beyond } more nitrogen than air explains: nitrate was reduced, and nitrogen says nothing of temperature or excess air.

# $below (amount): below the mean
# $height (amount): of recharge
origin-colder-recharge = The water fell { $below } colder than today's mean at { $height }: on higher ground or in a colder climate. Only carbon-14 can tell the second.

## Corrections of carbon-14.

origin-fixed-share = fixed share of soil carbon (Vogel)

origin-stoichiometric = chemical dilution by stoichiometry (Tamers)

origin-by-dic = chemical dilution by the carbon at recharge

origin-isotope-mixing = mixing by carbon-13 (Ingerson & Pearson)

origin-equilibrium-mixing = mixing by carbon-13, recharge in equilibrium with soil air (Gonfiantini)

## Carbon-14: what cannot be, what was found, what is allowed.

origin-carbon-fourteen = carbon-14 of the sample

origin-percent-modern-alone = percent modern without saying which

origin-which-percent-modern = 100 F14C, or the absolute value with its year of measurement: ask the laboratory which, they differ by 1 %

origin-years-without-half-life = years without a half-life

origin-say-half-life = a conventional age by 5568 years, or F14C: ask the laboratory; a conventional age is no age of the water

origin-within-air-of-any-year = 0 (less 3 u) to 2: the air of no year held more; beyond it tracer carbon came in, or the value is in percent

origin-carbon-of-sulfide = carbon made with the sulfide

# $most (amount): bicarbonate
origin-less-than-bicarbonate = less than the bicarbonate, { $most }: look at the units of sulfide and alkalinity

origin-methane-shifts-carbon = methane was found: it leaves heavy carbon behind, and carbon-13 no longer tells soil from rock

origin-inputs-missing = not all that it needs was given

## Carbon-14: beside the result.

# $pmc (amount): percent modern
origin-bomb-carbon = { $pmc } is more than any air held before 1955: carbon of later years is in it, and no age by decay is given. Tritium dates such water.

origin-methane-found = Methane was found: corrections by carbon-13 are not made, and the carbon that came with it is not taken out.

origin-methane-not-looked-for = Methane was not looked for: if there is any, the corrections by carbon-13 fail. Have it measured.

# $delta (amount): of carbon-13
origin-heavy-carbon = The dissolved carbon is heavy, { $delta }: as where methane is made. Corrections by carbon-13 are doubtful.

# $share (share): of the dissolved carbon
# $years (amount): what it makes of the age
origin-sulfide-taken-out = { $share } of the dissolved carbon came with the sulfide and was taken out; if that carbon was dead, the age would read { $years } years too high with it. Sulfide lost as iron sulfide would add to this.

origin-sulfide-without-carbonate = There is sulfide, but no bicarbonate was given: the carbon that came with it cannot be taken out, and the ages may be too high.

origin-sulfide-not-looked-for = Sulfide was not given: what carbon sulfate reduction added is not taken out, and the ages may be too high.

# $share (share): of modern water
origin-tritium-with-old-carbon = Tritium was found with less than half of modern carbon-14: a mixture of young and old water. At most { $share } of it can be modern, and no one age describes it.

# $model (message): the correction
# $q (amount): share
origin-share-outside = The { $model } gives a share of soil carbon of { $q }, which cannot be: it is left out of the band. Look at δ13C of soil and rock, and at exchange with gas or rock.

# $model (message): the correction
# $q (amount): share
origin-share-above-one = The { $model } gives a share of soil carbon above 1, { $q }: no rock carbon at all, or heavier soil gas than assumed. Its age is an upper end.

origin-no-correction-stands = No correction gives a share of soil carbon that can be: no age is given.

# $years (amount): lower end
origin-older-than = Carbon-14 lies at its limit: the water is older than { $years } years (by the corrections that apply), and no upper end can be told.

# $years (amount): end of the range
origin-beyond-the-range = The band reaches beyond { $years } years, where a trace of modern carbon from the bottle or the air decides: read its upper end as a lower bound.

# $years (amount): end of the range
origin-below-the-range = The band reaches below { $years } years, where the level at the start matters more than decay: do not read it as an age of this precision.

origin-modern-or-too-low = An age of nought or less: the carbon is modern, or the level at the start was taken too low.

origin-formulas-recalled = Part of the band comes from corrections whose formula is recalled, not read in print; the band of the others stands beside it.

origin-without-carbon-thirteen = δ13C was not given: the corrections that use it are missing from the band, which may be too narrow.

## Water isotopes: what cannot be, what was found, what is allowed.

origin-scale = scale of the δ values

origin-no-scale = none said

origin-say-scale = VSMOW, normalised with SLAP: ask the laboratory

# $isotope (name): δ18O or δ2H
origin-delta-of-sample = { $isotope } of the sample

# $isotope (name): δ18O or δ2H
# $sample (count): its number
origin-delta-of-rain = { $isotope } of rain sample { $sample }

# $low (amount): lower end
# $high (amount): upper end
origin-delta-of-water = { $low } to { $high }: per mil on the VSMOW scale, not a ratio, and the two isotopes not interchanged

origin-samples-of-rain = samples of rain for the local line

origin-sample-more-rain = sample more months, or use the global line and say so

origin-all-of-one-delta = one δ18O for all

origin-rain-of-several-seasons = rain of several seasons, so that there is a line

origin-amounts-of-rain = amounts of rain

# $found (count): with an amount
# $of (count): samples
origin-given-for-some = given for { $found } of { $of }

origin-amounts-for-all-or-none = for all samples or for none

origin-line-of-rain = the local line of rain

origin-slope-of-evaporation = slope of evaporation

origin-gradient-of-height = change of δ18O with height

origin-below-nought = below 0: rain grows lighter with height

origin-samples-of-wave = samples for the year's wave

origin-sample-the-whole-year = sample every month or two, for a year

origin-span-of-wave = time from the first to the last sample

# $least (amount): of a year
origin-at-least-years = at least { $least } of a year

origin-dates-alike = dates at the same times of the year

origin-dates-over-the-year = dates spread over the year

origin-wave-of-rain = the year's wave of the rain

origin-wave-that-shows = an amplitude that stands out of its u: without it the well's says nothing

## Water isotopes: beside the result.

# $residual (amount): to the line
origin-evaporated = The water lies { $residual } below the line of rain in δ2H: it was evaporated before it went into the ground, or in the bottle.

# $residual (amount): to the line
origin-above-the-line = The water lies { $residual } above the line of rain in δ2H: exchange with rock or gas, moisture of another origin, or an error of measurement.

origin-global-line = Compared with the global line: the local one may lie several per mil away. Sample rain on the recharge area for a year.

origin-one-delta-three-readings = One δ cannot give season, height and climate: each reading alone would explain it. Noble gases, carbon-14 and the deuterium excess tell them apart.

# $difference (amount): winter less summer
origin-seasons-too-near = Winter and summer rain differ by { $difference } only, not more than four times its u: no share of the seasons is given.

# $share (amount): winter share
origin-no-mixture-of-seasons = A winter share of { $share } is outside 0 to 1: no mixture of today's winter and summer rain explains the water. Height or another climate might.

# $alpha (amount): ratio
origin-summer-ratio-outside = The ratio of summer's to winter's infiltration comes out as { $alpha }, which cannot be: 0 to 1 is used, and the rain of these years is not that of the well.

# $share (share): of young water
origin-young-share = About { $share } of the water is younger than some two to three months; mean ages from such a wave are biased where waters mix.

# $years (amount): lower bound
origin-flat-well = The year's wave does not show in the well: the mean age is more than { $years } years, and no more than that can be said.

## The balance of chloride.

origin-rain = rain

origin-chloride-of-rain = chloride of rain

origin-chloride-of-well = chloride of the well

origin-runoff-depth = runoff

origin-chloride-of-runoff = chloride of runoff

origin-chloride-run-off = chloride that runs off

origin-thickness = thickness of the aquifer

origin-recharge-depth = recharge

origin-chloride-steady = The balance takes the rain's chloride of today for that of the time when the water fell, and one without other sources.

origin-other-chloride-not-ruled-out = Other sources of chloride are not ruled out (road salt, sewage, rock salt, old sea water): with one of them recharge is more than this. Compare Cl/Br and boron with rain.

# $recharge (amount): recharge
origin-more-than-the-rain = The balance gives { $recharge }, more than the rain: the rain's chloride is too high, or the well's too low.
