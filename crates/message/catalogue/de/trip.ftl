trip-no-fill-at-well = Am Brunnen wurde keine Füllung gestoppt, also sind Schüttung und Kontaktzeit nicht bekannt.
trip-no-casing = Tiefe und Radius des Vollrohrs sind nicht verzeichnet, also ist die Kontaktzeit nicht bekannt.
trip-section-twice = Zeile { $row } von well_section sagt noch einmal, was Zeilen davor sagen; jede Strecke zählt einmal.
trip-sections-twice = Die Zeilen { $rows } von well_section sagen noch einmal, was Zeilen davor sagen; jede Strecke zählt einmal.
trip-shut-unknown = Der Brunnen war geschlossen gewesen; ohne seine Schüttung und sein Volumen weiß niemand, wie viel Standwasser übrig war.
trip-steady = Temperatur, Leitfähigkeit und pH waren seit { $since } konstant, jede Größe nach ihrer Regel.
trip-oxygen = Der letzte Messwert des gelösten Sauerstoffs vor den Flaschen war { $oxygen-expanded } (k = 2).
trip-oxygen-stated = Der letzte Messwert des gelösten Sauerstoffs vor den Flaschen war { $oxygen } (u nicht angegeben).
trip-acid-not-timed = Die Zeit vom Füllen bis zur Säure ist nicht verzeichnet.
trip-acid-within = Die Säure kam { $hours } nach dem Füllen hinein, innerhalb der { $limit } des Programms.
trip-acid-beyond = Die Säure kam { $hours } nach dem Füllen hinein, später als die { $limit } des Programms.
trip-held-within = Gemessen { $days } nach dem Füllen, innerhalb der { $limit } für angesäuerte Metalle (US 40 CFR 136 Table II, aus dem Gedächtnis).
trip-held-beyond = Gemessen { $days } nach dem Füllen, später als die { $limit } für angesäuerte Metalle (US 40 CFR 136 Table II, aus dem Gedächtnis).
trip-no-custody = Keine Übergabe ist verzeichnet.
trip-seal-broken = Das Siegel war gebrochen, als die Box am { $at } { $step ->
    [sealed] versiegelt wurde
    [sent] abgesandt wurde
    [received] empfangen wurde
    [acidified] angesäuert wurde
    [opened] geöffnet wurde
   *[other] bei „{ $step }“ war
}.
trip-seals-whole = { $steps ->
    [one] Das Siegel war bei dem { $steps } verzeichneten Schritt heil.
   *[other] Die Siegel waren bei allen { $steps } verzeichneten Schritten heil.
}
trip-seals-whole-where-noted = Die Siegel waren bei { $noted } von { $steps ->
    [one] { $steps } verzeichneten Schritt
   *[other] { $steps } verzeichneten Schritten
} heil; die anderen vermerken kein Siegel.
trip-seals-not-noted = { $steps ->
    [one] Der { $steps } verzeichnete Schritt vermerkt kein Siegel.
   *[other] Keiner der { $steps } verzeichneten Schritte vermerkt ein Siegel.
}
trip-box-within = Die Box war höchstens { $warmest } warm, innerhalb der { $limit } des Programms.
trip-box-above = Die Box war höchstens { $warmest } warm, über den { $limit } des Programms.
trip-open-air-met = Eine Feldblindprobe wurde in derselben freien Luft geöffnet.
trip-open-air-not-met = Nicht gemessen: Die Flasche stand in der freien Luft an { $place } offen, eine Feldblindprobe nicht. Eine Feldblindprobe, die in der freien Luft an { $place } geöffnet wird, würde es zeigen.
trip-open-air-not-met-here = Nicht gemessen: Die Flasche stand an ihrem Ort in der freien Luft offen, eine Feldblindprobe nicht. Eine Feldblindprobe, die dort in der freien Luft geöffnet wird, würde es zeigen.
trip-section = Die Probenahme { $trip }
trip-weather = Wetter: „{ $noted }“
trip-wind = Wind: „{ $noted }“
trip-dust = Staub: „{ $noted }“
trip-road-salt = Streusalz: „{ $noted }“
trip-engines = Motoren: „{ $noted }“
trip-persons = Personen: { $noted }
trip-flows = Schüttung nach gestoppten Füllungen, und wie lange das Wasser das Rohr berührt
trip-what-it-is = was er ist
trip-contact-in = { $time } in { $material ->
    [galvanised-steel] verzinktem Stahl
    [stainless-steel] Edelstahl
    [iron] Eisen
    [cast-iron] Gusseisen
    [copper] Kupfer
    [steel] Stahl
    [open-hole] offenem Bohrloch
    [material-not-stated] nicht angegebenem Werkstoff
   *[other] { $material }
}
trip-last-readings = Letzte Messwerte an den Brunnen vor den Flaschen
