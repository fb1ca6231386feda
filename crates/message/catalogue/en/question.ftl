### What is asked of a laboratory for its recipe: a question each, and what stands under it.

question-name = Name of the recipe

question-name-more = The sequence of a run names it so.

question-unit = Unit of the concentrations in the bottle

question-unit-more = The assigned values of the standards are converted to it.

question-dead-time-ns = Dead time of the counting detector, ns

question-dead-time-ns-more = From your own dilution series; 0 for a detector without one.

question-dead-time-u-ns = Its standard uncertainty, ns

question-dead-time-u-ns-more = Of the same series.

question-dead-time-model = What a count in the dead time does

question-dead-time-model-more = The instrument’s manual says it.

question-analogue-factor-value = Where the detector also measures an analogue signal: counts/s of the counting detector per unit of it

question-analogue-factor-value-more = Empty for a detector that only counts.

question-analogue-factor-u = Standard uncertainty of this factor

question-analogue-factor-u-more = Empty: none is added.

question-dark-rates-1-cps = Dark rate of the detector, counts/s

question-dark-rates-1-cps-more = Where the run measured none; empty where gas backgrounds are measured or it is not known.

question-dark-rates-1-u-cps = Its standard uncertainty, counts/s

question-dark-rates-1-u-cps-more = Of the same measurement.

question-gas-background = Vials that were measured without sample

question-gas-background-more = Names as in the sequence, one a line.

question-internal-standards-isotopes = Internal standards, added alike to every vial

question-internal-standards-isotopes-more = Isotopes as In115, then @ and its resolution (low, medium, high), one a line. Empty: there is none, and the recipe says so.

question-internal-standards-by-mass = Which of them serves an isotope

question-internal-standards-by-mass-more = As the laboratory does it.

question-drift-model = What the internal standard leaves of the drift

question-drift-model-more = Straight lines need drift checks between the samples.

question-blank-samples = The one blank that is taken off samples

question-blank-samples-more = The outermost that holds what a bottle went through.

question-blank-reference = The one that is taken off reference materials

question-blank-reference-more = They were never in the field.

question-blank-scale = The blank is

question-blank-scale-more = How it is reckoned for a bottle of another volume.

question-lead-reference-vials = Vials of a lead of known isotopic make-up

question-lead-reference-vials-more = Names as in the sequence, one a line. Empty: lead ratios are told as measured, with that said.

question-lead-reference-source = Source of its ratios

question-lead-reference-source-more = Certificate with its date.

question-lead-reference-ratios-1-value = Its ratio 206/207

question-lead-reference-ratios-1-value-more = As certified.

question-lead-reference-ratios-1-u = Standard uncertainty of 206/207

question-lead-reference-ratios-1-u-more = As certified, for k = 1.

question-lead-reference-ratios-2-value = Its ratio 208/206

question-lead-reference-ratios-2-value-more = As certified.

question-lead-reference-ratios-2-u = Standard uncertainty of 208/206

question-lead-reference-ratios-2-u-more = As certified, for k = 1.
