### What the chemistry of a water finds.

# No pH was given.
water-charge-not-checked = pH was found from the charge balance, so the balance checks nothing.

# $cations (amount): sum, number alone
# $anions (amount): sum, number alone
# $difference (message): of the two, with u
# $gate (amount): allowed, meq/L or percent
# $rule (message): formula and source of the gate
water-charges-inside = Cations { $cations } and anions { $anions } meq/L, as analysed, differ by { $difference }: inside the gate of { $gate } ({ $rule }).

# $cations (amount): sum, number alone
# $anions (amount): sum, number alone
# $difference (message): of the two, with u
# $gate (amount): allowed, meq/L or percent
# $rule (message): formula and source of the gate
water-charges-beyond = Cations { $cations } and anions { $anions } meq/L, as analysed, differ by { $difference }: beyond the gate of { $gate } ({ $rule }).

# $cations (amount): sum, number alone
# $anions (amount): sum, number alone
# $difference (message): of the two, with u
# $gate (amount): allowed, meq/L or percent
# $rule (message): formula and source of the gate
water-charges-cannot-tell = Cations { $cations } and anions { $anions } meq/L, as analysed, differ by { $difference }: whether that is inside the gate of { $gate } ({ $rule }) cannot be told.

# A major ion was not looked for.
# $cations (amount): sum, number alone
# $anions (amount): sum, number alone
# $missing (list): symbols, alkalinity
water-charges-incomplete = Cations { $cations } and anions { $anions } meq/L are what was analysed; without { $missing } their balance cannot be told.

# The difference of two sums of charges.
# $difference (amount): percent or meq/L
# $u (amount): standard uncertainty
water-differ-by = { $difference-expanded } (k = 2)

# The same where a laboratory stated no u.
# $difference (amount): percent or meq/L
# $u (amount): standard uncertainty
# $assumed (share): of each amount
water-differ-by-assumed = { $difference-expanded } (k = 2; u of { $assumed } was assumed where none was stated)

# The same where something was not detected.
# $low (amount): percent or meq/L
# $high (amount): percent or meq/L
# $u (amount): standard uncertainty
water-differ-between = { $low } to { $high }, by what was not detected, each ± { $u-expanded } (k = 2)

# $low (amount): percent or meq/L
# $high (amount): percent or meq/L
# $u (amount): standard uncertainty
# $assumed (share): of each amount
water-differ-between-assumed = { $low } to { $high }, by what was not detected, each ± { $u-expanded } (k = 2; u of { $assumed } was assumed where none was stated)

# $ratio (amount): calculated over measured
water-conductivity = Calculated conductivity is { $ratio } times the measured one (0.9 to 1.1 is usual).

# $ratio (amount): measured over the sum
water-solids = Measured dissolved solids are { $ratio } times the sum of what was analysed (1.0 to 1.2 is usual).

# $field (amount): pH at the well
# $laboratory (amount): pH in the laboratory
water-ph-agrees = Field pH { $field } and laboratory pH { $laboratory } agree within 0.3.

# $field (amount): pH at the well
# $laboratory (amount): pH in the laboratory
water-ph-rose = Laboratory pH { $laboratory } is above field pH { $field }: CO2 left on the way; field pH is used.

# $field (amount): pH at the well
# $laboratory (amount): pH in the laboratory
water-ph-fell = Laboratory pH { $laboratory } is below field pH { $field }: something was oxidised or precipitated on the way; field pH is used.

# $carbonate (amount): percent of the alkalinity
water-alkalinity-of-carbonate = { $carbonate } of the alkalinity is carbonate; the rest is borate, silicate, sulfide, phosphate, ammonia or hydroxide.

# $carbonate (amount): percent of the alkalinity
water-carbonate-beyond-alkalinity = Carbonate makes { $carbonate } of the alkalinity: more than all of it. Free acid or a metal that binds hydroxide takes the difference, or one of pH, alkalinity and carbon is wrong.

# Alkalinity beside HCO3 and CO3 of the same report.
water-alkalinity-and-its-parts = Alkalinity is stated beside HCO3 and CO3, of which it is made; alkalinity is used.

# Free CO2 of the report beside pH and alkalinity.
water-carbon-dioxide-beside-ph = Free CO2 was reported and also follows from pH and alkalinity; pH and alkalinity are used.

# $acidity (amount): as reported
# $acid (amount): from pH
water-acidity-beside-ph = An acidity of { $acidity } was reported; the pH alone stands for { $acid } of free acid, dissolved metals take the rest.

# Inorganic carbon beside alkalinity.
water-carbon-twice = Inorganic carbon was measured and also follows from alkalinity and pH; alkalinity is used.

# $oxygen (amount): as the probe reads
# $floor (amount): what it reads in water without oxygen
water-oxygen-beside-sulfide = Oxygen reads { $oxygen } beside sulfide; the probe's floor is { $floor }. The two do not last together: air got in, or the probe reads too much.

# $oxygen (amount): as the probe reads
# $floor (amount): what it reads in water without oxygen
water-oxygen-at-floor = Oxygen reads { $oxygen } beside sulfide, no more than a probe reads in water without oxygen ({ $floor }).

# Nitrate and sulfide in one water.
water-nitrate-beside-sulfide = Nitrate was found beside sulfide: two waters were mixed, or one of the two is not there.

# $analyte (name): what was measured in both bottles
water-dissolved-above-total = { $analyte }: filtered against unfiltered of the same water; beyond both uncertainties the filtered bottle must not hold more.

# $component (name): symbol of what is stated twice
# $first (name): as the first was written
# $second (name): as the second was written
water-stated-twice = { $component } is stated twice ({ $first } and { $second }); the first is used.

# Two alkalinities.
water-alkalinity-twice = Alkalinity is stated twice; the first (field before laboratory) is used.

# Nothing is missing.
water-ions-all = All major ions are there.

# $ions (name): symbols with commas between
water-ions-missing = Not measured: { $ions }; charge balance, conductivity and ionic strength lack them.

# $ions (name): symbols with commas between
water-ions-and-alkalinity-missing = Not measured: { $ions }, alkalinity (or DIC); charge balance, conductivity and ionic strength lack them.

# Every ion but those of carbon.
water-alkalinity-missing = Not measured: alkalinity (or DIC); charge balance, conductivity and ionic strength lack them.

# Neither was given.
water-redox-missing = Neither Eh nor dissolved oxygen was measured.

# $why (message): refusal of the calculation
water-not-worked-out = The analysis could not be worked out: { $why }.
