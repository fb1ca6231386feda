### The methods that a report stands on: a name, what was done, and what a source is quoted for.

method-counts = From counts to a concentration
method-counts-text = Dead time, background, overlaps measured in the run, internal standard, drift between bracketing checks, weighted line with the covariance of slope and intercept, dilution, one blank. Each step is a node of the derivation that the record keeps.
method-counts-source = JCGM 100:2008 (propagation with correlations, Welch–Satterthwaite)

method-detected = Detected or not
method-detected-text = Critical value and detection limit from the field blanks on the net scale, with Student’s t and the non-central t; upper bound max(net, 0) + t·u, never under the critical value. Exactly one blank is subtracted: the field blank, which holds the inner ones.

method-share = Water’s share
method-share-text = 1 − blank/gross, its interval by Fieller’s set with the covariance that the shared calibration brings, held to 0…1.

method-stages = Stages of the path
method-stages-text = Differences of nested blanks of the same run: bottle less procedural, trip less bottle, field less trip; intervals after Welch.

method-attribution = Whose metal it is
method-attribution-text = All bottles of a trip fitted together: volume times water plus exposures times sources, none negative, weighted, spikes by a two-part error law; intervals by Student’s t of the fit without the bound, read on zero and up. Stands beside the plain result, never in its place. Forecasts: products of what is known of each source by Monte Carlo, else blanks of earlier runs.

method-lots = Lots of bottles
method-lots-text = A one-sided tolerance limit of the bottle blanks, on logarithms where these are nearer to normal, against the target of each metal.
method-lots-source = Owen 1958, Sandia SCR-13 (recalled)

method-air = Air
method-air-text = Particle counts with their exact Poisson bound against the class limits: one reading at one place, no classification of the cabinet.
method-air-source = ISO 14644-1:2015, Table 1

method-reported = Reported concentrations
method-reported-text = Values, limits and remarks stand as the laboratory wrote them; a censored value is never a zero and never a half. Blanks of the same analyte bound what comes from elsewhere by order statistics; replicate sets give the spread of a single value.
method-reported-source = Hahn & Meeker 1991, Statistical Intervals (order-statistic limits)

method-verdict = Verdict
method-verdict-text = Rejected: a decisive check is not met. Provisional: decisive evidence is missing, or a warning is open. Accepted: all decisive checks are met. Which checks decide stands in the programme’s own table.

# Checks that the programme's table does not name.
# $checks (count): how many
method-untaken = { $checks ->
    [one] { $checks } check of this version is not in this programme’s table: what it finds is a note.
   *[other] { $checks } checks of this version are not in this programme’s table: what they find are notes.
}

method-other-limits = Other limits of detection
method-other-limits-text = Shown beside the one that decides: Huber’s robust scale, order statistics of the blanks, the US method detection limits of blanks and spikes, the calibration line. How often skewed blanks make clean water look detected was simulated; the table is in the project’s validation pages.

method-lead = Lead isotope ratios
method-lead-text = Ratios of sums over the replicates, dead time and calibration blanks taken off; mass bias by a reference of the run with the exponential law, where the recipe names one. Mixing is a straight line over one common isotope.

method-dust = Dust in the blanks
method-dust-text = What field blanks hold beyond trip blanks, by element, over the same in the upper crust, against a reference element; two or more crust tables side by side.
method-dust-source = Rudnick & Gao 2003; Taylor & McLennan 1985; McLennan 2001; Hu & Gao 2008 (crust tables)

method-quality = Quality over the runs
method-quality-text = Zeta scores and E_n numbers of reference materials, recoveries in their windows, duplicates against their predicted u; individual, CUSUM and EWMA charts once eight runs are on record.

method-well = The well
method-well-text = Flow from timed fills; contact time is volume over flow, section by section; head from the shut well’s pressure. A flow test at constant head is fitted with the full well function, not its late-time line. Travel time and capture by Monte Carlo over what was measured and what a textbook gives, kept apart.
method-well-source = Puls & Barcelona 1996 (steady readings)

method-overflow = Overflow and stream
method-overflow-text = Mass balance of flows and amounts with full mixing; u by the partial derivatives. What falls out or reacts when the waters meet is marked, not computed.
