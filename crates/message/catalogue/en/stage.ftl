### Stages of the path of a bottle, where no single word says them.

# What the number means beside the rest of the analysis.
stage-meaning = meaning
