blank_years-title = Leerproben nach Los, Person, Säure und Schrank
blank_years-about = Eine steigende Leerprobe sieht aus wie ein steigendes Metall. Jede verzeichnete Leerprobe nach dem, was sie traf, neben den Brunnen auf derselben Achse: Wo ein Los, eine Person, eine Säure oder ein Schrank beginnt, zuerst die Leerproben ansehen.
blank_years-not-shown = { $blanks ->
    [one] { $blanks } Leerprobe ist nicht als Zahl gezeigt
   *[other] { $blanks } Leerproben sind nicht als Zahlen gezeigt
}: Das Labor gab nur eine Grenze an, oder Volumen oder Datum ist nicht verzeichnet.
blank_years-of = { $metal } in Leerproben und Brunnen über die Jahre
blank_years-description = { $title }: { $blanks ->
    [one] { $blanks } Leerprobe
   *[other] { $blanks } Leerproben
}, { $wells ->
    [one] { $wells } Brunnen
   *[other] { $wells } Brunnen
}.
blank_years-under = Oben die Brunnen, darunter die Leerproben und was jede traf, auf einer Zeitachse.
blank_years-caption = Ein Strich in einer Spur ist eine Leerprobe mit diesem Los, dieser Person, dieser Säure oder diesem Schrank. Was bei null oder darunter liegt, steht am Fuß; nicht Nachgewiesenes der Brunnen ist hier nicht gezeigt.
blank_years-well = { $well }, { $fraction ->
    [filtered] filtriert
   *[other] { $fraction }
}
blank_years-wells-axis = Brunnen, { $unit } (Log-Achse)
blank_years-blanks-axis = Leerproben, pg je Flasche (Log-Achse)
blank_years-lot = Los
blank_years-person = Person

blank_years-field-blank = Feldleerprobe
blank_years-trip-blank = Reiseleerprobe
blank_years-bottle-blank = Flaschenleerprobe
blank_years-equipment-blank = Geräteleerprobe
blank_years-not-drawn = Aus Platzmangel nicht gezeichnet: { $what }.
blank_years-more-of = { $what } ({ $more } weitere)
