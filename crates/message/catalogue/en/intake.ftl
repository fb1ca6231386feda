# A bottle that repeats several samples.
# $bottle (name): in quotes
# $samples (count): different ones
# $parent (name): the one that is kept
# $sets (count): with that one
# $all (count): sets that the bottle stands in
intake-replicate-of-two = bottle { $bottle } stands in sets with { $samples } different samples; { $parent }, the sample of { $sets } of its { $all } sets, is kept as the one it repeats

# A fault of a file, a row or a cell.
# $found (name): what stands there
# $expected (name): what would be read
intake-fault = found { $found }, expected { $expected }
