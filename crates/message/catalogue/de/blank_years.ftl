blank_years-title = Blindproben nach Charge, Person, Säure und Schrank
blank_years-about = Eine steigende Blindprobe sieht aus wie ein steigendes Metall. Jede verzeichnete Blindprobe nach dem, was sie traf, neben den Brunnen auf derselben Achse: Wo eine Charge, eine Person, eine Säure oder ein Schrank beginnt, zuerst die Blindproben ansehen.
blank_years-not-shown = { $blanks ->
    [one] { $blanks } Blindprobe ist nicht als Zahl gezeigt
   *[other] { $blanks } Blindproben sind nicht als Zahlen gezeigt
}: Das Labor gab nur eine Grenze an, oder Volumen oder Datum ist nicht verzeichnet.
blank_years-of = { $metal } in Blindproben und Brunnen über die Jahre
blank_years-description = { $title }: { $blanks ->
    [one] { $blanks } Blindprobe
   *[other] { $blanks } Blindproben
}, { $wells ->
    [one] { $wells } Brunnen
   *[other] { $wells } Brunnen
}.
blank_years-under = Oben die Brunnen, darunter die Blindproben und was jede traf, auf einer Zeitachse.
blank_years-caption = Ein Strich in einer Spur ist eine Blindprobe mit dieser Charge, dieser Person, dieser Säure oder diesem Schrank. Was bei null oder darunter liegt, steht am Fuß; nicht Nachgewiesenes der Brunnen ist hier nicht gezeigt.
blank_years-well = { $well }, { $fraction ->
    [filtered] filtriert
   *[other] { $fraction }
}
blank_years-wells-axis = Brunnen, { $unit } (Log-Achse)
blank_years-blanks-axis = Blindproben, pg je Flasche (Log-Achse)
blank_years-lot = Charge
blank_years-person = Person

blank_years-field-blank = Feldblindprobe
blank_years-trip-blank = Transportblindprobe
blank_years-bottle-blank = Flaschenblindprobe
blank_years-equipment-blank = Geräteblindprobe
blank_years-not-drawn = Aus Platzmangel nicht gezeichnet: { $what }.
blank_years-more-of = { $what } ({ $more } weitere)
