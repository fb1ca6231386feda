### What the derivation of a run's result holds besides, so that another program comes to the same digits.

step_recompute-scatter = scatter of the replicates over that of counting, as variances

# $vials (count): vials that it was learnt from
# $flicker (share): part of the signal in each replicate
step_recompute-scatter-from = from the replicates of { $vials ->
    [one] { $vials } vial
   *[other] { $vials } vials
} of the run together; beside it { $flicker } of the signal in each replicate

# $role (name): kind of blank as the record writes it
step_recompute-contamination = what one bottle catches more or less than the { $role ->
    [procedural-blank] procedural blanks
    [bottle-blank] bottle blanks
    [trip-blank] trip blanks
    [field-blank] field blanks
    [calibration-blank] calibration blanks
    [equipment-blank] equipment blanks
   *[other] blanks
} on average

step_recompute-contamination-letters = s the standard deviation of the blanks, m the u of measuring one of them; where m is the larger, u is zero
