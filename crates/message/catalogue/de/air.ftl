air-not-counted = In der Luft über der offenen Flasche wurde nicht gezählt.
air-no-particle = Kein Teilchen von mindestens { $size } wurde in { $volume } gezählt; mit 95 % Vertrauen enthielt die Luft weniger als { $upper } je m³.
air-class-shown = Die Zählwerte bleiben unter den Grenzen der Klasse { $wanted }, und { $volume } genügen, um Klasse { $shown } zu zeigen: ein Messwert an einer Stelle, gleichwertig der Klassengrenze, keine Klassifizierung des Schranks.
air-class-more-volume = Die Zählwerte bleiben unter den Grenzen der Klasse { $wanted }, aber { $volume } können sie nicht zeigen: mindestens { $needed } bei { $size } zählen, eine Minute oder länger.
air-class-without-limit = Keine gezählte Größe hat in Klasse { $wanted } eine Grenze; bei 0,3 oder 0,5 µm zählen.
air-class-exceeded = Die Zählwerte überschreiten die Grenzen der Klasse { $wanted }; sie bleiben unter denen der Klasse { $under }.
air-class-nine-exceeded = Die Zählwerte überschreiten die Grenzen der Klasse 9, und damit die der Klasse { $wanted }.
air-no-size = Keine gezählte Größe liegt dort, wo die Klassen Grenzen haben, 0,1 bis 5 µm; bei 0,3 oder 0,5 µm zählen.
air-over-bottles = Die Luft über den offenen Flaschen
air-counts = Luft über den offenen Flaschen: was die Zählwerte sagen, und was sie zeigen können
air-cabinet-at = { $well }, Schrank
air-open-air-at = { $well }, freie Luft
air-open-for = { $minutes }, { $bottles ->
    [one] { $bottles } Flasche
   *[other] { $bottles } Flaschen
}
air-open-between = { $low } bis { $high }, { $bottles ->
    [one] { $bottles } Flasche
   *[other] { $bottles } Flaschen
}
air-bottles-open = Flaschen offen
air-litres = Liter
air-shown = gezeigt
air-bounded = begrenzt
air-needed = nötig
air-enough = genug
air-no-such-size = keine Größe
air-too-many = zu viele gezählt
air-columns = Unter: die strengste Klasse nach ISO 14644-1, unter deren Grenzen die Zählwerte bleiben. Gezeigt: die Klasse, die zu zeigen dieses Volumen groß genug ist. Begrenzt: die Klasse, unter deren Grenzen die oberen 95-%-Schranken bleiben. Nötig: Liter, die Klasse { $class } zeigen würden, die das Programm verlangt. Eine Zählung an einer Stelle ist ein Messwert, gleichwertig einer Klassengrenze, keine Klassifizierung.
air-reduction = { $well }: Bei { $size } enthielt der Schrank { $factor }-mal weniger Teilchen als die freie Luft (95-%-Intervall { $low } bis { $high }).
air-reduction-without-end = { $well }: Bei { $size } enthielt der Schrank { $factor }-mal weniger Teilchen als die freie Luft (95-%-Intervall: { $low } oder mehr, ohne obere Grenze).
air-reduction-at-least = { $well }: Bei { $size } enthielt der Schrank mindestens { $low }-mal weniger Teilchen als die freie Luft (95-%-Intervall: { $low } oder mehr, ohne obere Grenze).
air-cabinet-uncounted = { $well }: Flaschen standen im Schrank offen, und niemand zählte dort.
air-open-air-uncounted = { $well }: Flaschen standen in der freien Luft offen, und niemand zählte dort.
air-particles = Teilchen in der Luft über den Flaschen, Probenahme { $trip }
air-particles-counted = { $place }, { $size }: { $number } je m³
air-particles-not-counted = { $place }, { $size }: keines gezählt, weniger als { $upper } je m³
air-one-axis = Schrank und freie Luft auf einer Achse.
air-bounds-exact = Die Grenzen sind exakt, je einseitig 95 %. Die Zeit ist die der dort offenen Flaschen.
air-counted = gezählt, mit 95-%-Grenzen
air-none-counted = keines gezählt, obere Grenze
air-class-limit = Grenze einer Klasse nach ISO 14644-1
air-and-larger = { $size } und größer
air-class = Klasse
air-axis = Teilchen je m³ (Log-Achse)
air-counts-in-cabinet = { $well }, Schrank: Die Zählungen sind nicht zu gebrauchen: { $why }.
air-counts-in-open-air = { $well }, freie Luft: Die Zählungen sind nicht zu gebrauchen: { $why }.
