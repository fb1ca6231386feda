### Is what fell into the field blanks dust of the crust?

# Heading.
dust-question = Is what fell into the field blanks dust?

# $why (message): why not
dust-none = No enrichment over the crust can be given: { $why }.

# Why not.
dust-too-few-blanks = it takes two field blanks and two trip (or procedural) blanks in the run

# Why not.
# $elements (name): symbols of the reference elements
# $beyond (name): blanks that were taken off
dust-no-reference = of none of { $elements } was more found in the field blanks than in the { $beyond ->
    [trip-blanks] trip blanks
   *[procedural-blanks] procedural blanks
}

# $reference (list): word or symbol of the reference element
dust-explains = Against { $reference } no element stands out over the earth’s crust: dust can explain what fell in.

# $reference (list): word or symbol of the reference element
# $elements (list): words or symbols of those that stand out
dust-does-not-explain = Against { $reference }, { $elements } came in more than dust of the crust would bring: another source is likely.

# Column.
dust-added = added in the field

# Column: one crust table.
# $crust (name): its authors
dust-over = factor over { $crust }

# Column: what the factors say.
dust-reads-as = reads as

# Cell: what the factors say.
dust-other-source = another source

# Cell: what the factors say.
dust-crust = crust can explain it

# Cell: what the factors say.
dust-not-seen = not seen to be added

# Caption.
# $beyond (name): blanks that were taken off
# $reference (list): word or symbol of the reference element
dust-table = What the field blanks hold beyond the { $beyond ->
    [trip-blanks] trip blanks
   *[procedural-blanks] procedural blanks
}, over the upper crust, against { $reference }

# Note.
# $reference (list): word or symbol of the reference element
# $other (amount): factor above which another source is likely
dust-factor = Factor: the element over { $reference } in the blanks, over the same in the crust; one column a crust table, because they differ. Near 1 crust, above { $other } another source (common practice), with two u. Of filtered water such factors mean nothing and are not given.
