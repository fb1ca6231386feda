### Blanks by lot, person, acid and cabinet beside the wells on one time axis.

# Title of the section.
blank_years-title = Blanks by lot, person, acid and cabinet

blank_years-about = A rising blank looks like a rising metal. Every blank on record by what it met, beside the wells on the same axis: where a lot, a person, an acid or a cabinet begins, look at the blanks first.

# $blanks (count): how many
blank_years-not-shown = { $blanks ->
    [one] { $blanks } blank is not shown as a number
   *[other] { $blanks } blanks are not shown as numbers
}: the laboratory gave only a limit, or volume or date is not on record.

# Title of a picture.
# $metal (list): its name, or its symbol where it has none
blank_years-of = { $metal } in blanks and wells over the years

# What the picture shows, for who does not see it.
# $title (message): its title
# $blanks (count): shown
# $wells (count): shown
blank_years-description = { $title }: { $blanks ->
    [one] { $blanks } blank
   *[other] { $blanks } blanks
}, { $wells ->
    [one] { $wells } well
   *[other] { $wells } wells
}.

blank_years-under = Wells above, blanks below, and what each blank met, on one time axis.

blank_years-caption = A tick in a lane is a blank with that lot, person, acid or cabinet. What is at or below zero stands at the foot; non-detects of the wells are not shown here.

# In the legend: a series of a well that is not of unfiltered water.
# $well (name): the well
# $fraction (name): of the water
blank_years-well = { $well }, { $fraction ->
    [filtered] filtered
   *[other] { $fraction }
}

# An axis.
# $unit (name): of the wells
blank_years-wells-axis = wells, { $unit } (log axis)

# An axis.
blank_years-blanks-axis = blanks, pg per bottle (log axis)

# Before the name of a lane.
blank_years-lot = lot

# Before the name of a lane.
blank_years-person = person

## Kinds of blanks, by their words in the record.

blank_years-field-blank = field blank

blank_years-trip-blank = trip blank

blank_years-bottle-blank = bottle blank

blank_years-equipment-blank = equipment blank

# After the caption.
# $what (list): of what there are more than are drawn
blank_years-not-drawn = Not drawn for want of room: { $what }.

# $what (message): lot, person, acid, cabinet, well
# $more (count): not drawn
blank_years-more-of = { $what } ({ $more } more)
