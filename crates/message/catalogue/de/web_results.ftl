web_results-title = Ergebnisse
web_results-title-wide = Brunnen nach Tag und Element
web_results-count = { $results ->
    [one] { $results } Ergebnis
   *[other] { $results } Ergebnisse
} in { $rows ->
    [one] { $rows } Zeile
   *[other] { $rows } Zeilen
}
web_results-count-held = { $results ->
    [one] { $results } Ergebnis
   *[other] { $results } Ergebnisse
} in { $rows ->
    [one] { $rows } Zeile
   *[other] { $rows } Zeilen
}, zurückgehalten durch: { $check }
web_results-count-days = { $n ->
    [one] { $n } Brunnen und Tag
   *[other] { $n } Brunnen und Tage
}
web_results-caption = Zeilen { $from } bis { $to } von { $all }
web_results-caption-wide = Der Wert des Brunnens fett, seine Flaschen darunter
web_results-asked = Gefragt ist
web_results-choose = Auswählen
web_results-which = Welche Ergebnisse
web_results-take-away = dies weglassen
web_results-show-all = alle zeigen
web_results-show = Zeigen
web_results-all = alle
web_results-well = Brunnen
web_results-substance = Element oder Stoff
web_results-substance-like = Pb, Blei
web_results-trip = Probenahmetag
web_results-from = Von
web_results-to = Bis
web_results-verdict = Urteil
web_results-fraction = Filtriert oder nicht
web_results-of = Von
web_results-of-evidence = Blindproben und andere Belege
web_results-chip-well = Brunnen { $well }
web_results-chip-trip = Probenahmetag { $trip }
web_results-chip-bottle = Flasche { $bottle }
web_results-chip-from = ab { $day }
web_results-chip-to = bis { $day }
web_results-chip-held-by = zurückgehalten durch: { $check }
web_results-chip-evidence = Blindproben und andere Belege
web_results-sorted = sortiert: { $order }
web_results-change = ändern
web_results-order = Reihenfolge der Zeilen
web_results-sort-needs = was Sie zuerst braucht
web_results-sort-newest = jüngste Probenahme zuerst
web_results-sort-well = nach Brunnen
web_results-sort-substance = nach Element
web_results-head-what = Was, wo, wann
web_results-head-bottles = Flaschen, ± U (95 %)
web_results-head-common = Gemeinsamer Wert
web_results-head-verdict = Urteil und Grund
web_results-head-limit = Neben der Grenze
web_results-head-before = Letzter Besuch
web_results-head-well = Brunnen und Flasche
web_results-last-visit = letzter Besuch
web_results-common-of = gemeinsamer Wert von { $n ->
    [one] { $n } Flasche
   *[other] { $n } Flaschen
}
web_results-no-common-value = die Flaschen weichen ab: kein gemeinsamer Wert
web_results-each-for-itself = jede Flasche steht für sich: Was sie gemeinsam haben, ist nicht aufgezeichnet
web_results-more-bottles = { $n ->
    [one] { $n } weitere Flasche
   *[other] { $n } weitere Flaschen
}
web_results-and-more = und { $n } weitere
web_results-check-not-met = { $check }: nicht erfüllt
web_results-check-not-known = { $check }: nicht bekannt
web_results-above = über { $limits }
web_results-below = unter { $limit }
web_results-cannot-tell = nicht entscheidbar gegen { $limit }
web_results-no-limit = keine Grenze bekannt
web_results-range = { $low } bis { $high }
web_results-isotope = Isotop { $isotope }
web_results-isotopes-together = { $n ->
    [one] { $n } Isotop
   *[other] { $n } Isotope zusammen
} ({ $isotopes })
web_results-by-profile = nach Prüfprofil { $profile }
web_results-evidence = als Beleg verwendet
web_results-limit-not-stated = nicht nachgewiesen; worunter, ist nicht angegeben
web_results-without-u = ± nicht angegeben
web_results-page-of = Seite { $number } von { $last }
web_results-pages = Seiten
web_results-back = Zurück
web_results-more-rows = { $n ->
    [one] { $n } weitere Zeile
   *[other] { $n } weitere Zeilen
}
web_results-under = ± ist die erweiterte Messunsicherheit U, 95 %; < ist eine Grenze, kein Wert; * ist aus dem Gedächtnis zitiert. Von den Isotopen eines Messlaufs steht hier die Summe, sonst die mit den meisten Flaschen.
web_results-all-that-fits = Alles, was passt:
web_results-workbook = XLSX
web_results-as-wide = Als breite Tabelle
web_results-as-rows = Als Zeilen
web_results-nothing-fits = Kein Ergebnis passt zu dem, was gefragt ist.
web_results-nothing-wide = Kein Ergebnis eines Brunnens passt zu dem, was gefragt ist.
web_results-near = Ähnliche Namen:
web_results-no-results = Noch ist kein Ergebnis aufgezeichnet. Ergebnisse kommen mit einem Messlauf oder der Tabelle eines Labors.
web_results-bring-in = Die Tabelle eines Labors hereinholen
web_results-too-many = { $results ->
    [one] { $results } Ergebnis ist mehr
   *[other] { $results } Ergebnisse sind mehr
}, als eine solche Datei fasst ({ $most }): durch Brunnen, Probenahmetag oder Tag eingrenzen, oder als CSV eine Zeile je Ergebnis nehmen; die fasst alle.
web_results-no-day = „{ $found }“ ist kein Tag; erwartet wird ein Tag wie 2026-07-14.
web_results-no-verdict = „{ $found }“ ist kein Urteil; erwartet wird accepted, provisional oder rejected.
web_results-no-check = Keine Prüfung heißt „{ $found }“.
web_results-no-file = Die Datei „{ $found }“ gibt es nicht; erwartet wird csv oder xlsx.
web_results-families = Was die Spalten zeigen
web_results-family-metals = Metalle
web_results-family-ions = Hauptionen
web_results-family-readings = Messwerte
web_results-family-others = Organische und andere Stoffe
web_results-rule = Ein Isotop oder eine Summe je Element: die Summe, wo der Messlauf eine angibt, sonst das mit den meisten Flaschen.
web_results-with-u = ± U zeigen
web_results-no-u = ± U weglassen
web_results-bottle = Flasche { $letter }
web_results-foot-blank = Abgezogener Blindwert
web_results-foot-detection = Nachweisgrenze
web_results-signs-wide = Fett: der gemeinsame Wert aus der Anpassung der Flaschen, mit eigenem ± U (95 %). Ein Strich: Die Flaschen weichen ab, oder was sie gemeinsam haben, ist nicht aufgezeichnet. Jede Zahl öffnet ihren Fall. Gedruckt nimmt die Tabelle A3 quer.
