### Chapters of a report of a question.

# A chapter.
# $element (name): as it is called
# $well (name): the asked well
chapter-path = The path of { $element } at { $well }

# A chapter.
# $element (name): as it is called
chapter-other-paths = The path of { $element } at the other wells

# A chapter.
chapter-metals = Every metal, well by well

# A chapter.
# $element (name): as it is called
chapter-sources = Where the { $element } comes from

# A chapter.
chapter-day = The day at the wells

# A chapter, of one well.
chapter-well = The well

# A chapter.
chapter-wells = The wells side by side

# A chapter, of one water.
chapter-water = The water

# A chapter.
chapter-waters = The waters side by side

# A chapter.
# $element (name): as it is called
chapter-low = What holds the { $element } down

# A chapter.
chapter-run = The run

# Checks that are met, folded to one line a stage.
# $stages (list): each with how many
chapter-met = Met: { $stages }. Each stands with its numbers in annex A.

# One of them.
# $n (count): checks
# $stage (message): of the path
chapter-met-at = { $n } at { $stage }

# Caption of a table.
chapter-wide-caption = Every metal: one row a well, bottles beside each other

# A note.
chapter-wide-note = No mean stands over bottles that disagree. One isotope or sum of isotopes stands for each element; all of them, with the limits of detection, stand in annex A.

# A heading.
chapter-blank = blank

# Caption of a table.
chapter-wells-caption = The wells that day

# Heading of a column.
chapter-depth = depth

# Heading of a column.
chapter-pipe = pipe

# Caption of a table.
chapter-above = Above a limit

# Caption of a table.
chapter-cannot-tell = Cannot be told

# $substances (list): as they are called
chapter-below = Below the lowest limit of each: { $substances }.

chapter-none-above = Nothing measured lies above a limit.

# Heading of a column.
chapter-ratio = ratio to the limit

# Heading of a column.
chapter-where = where

# Heading of a column.
chapter-when = when

# The solids of a metal in a water.
# $water (name): its name
# $answers (list): each with its word
chapter-solids = { $water }: { $answers }.

# One of them.
# $solid (name): as it is called
# $word (message): may form, dissolves, cannot tell
chapter-solid = { $solid }: { $word }

# What carries the metal in a water.
# $water (name): its name
# $species (name): each with its share
chapter-carriers = { $water }: { $species }.

# A section of an annex.
chapter-limits-in-full = Against limits, analyte by analyte

# What a pipe is made of.
# $material (name): as the record names it, words joined by hyphens
chapter-material = { $material ->
    [galvanised-steel] galvanised steel
    [stainless-steel] stainless steel
    [iron] iron
    [cast-iron] cast iron
    [copper] copper
    [steel] steel
   *[other] { $material }
}

# $n (count): rows of a table
chapter-in-annex = { $n ->
    [one] { $n } more row stands
   *[other] { $n } more rows stand
} in annex A.
