web_desk-title = Schreibtisch
web_desk-newest-day = Neuester Tag: { $day }
web_desk-newest = Neuester Tag jedes Brunnens
web_desk-choose = Element
web_desk-another = { $n ->
    [one] anderes von { $n }
   *[other] anderes von { $n }
}
web_desk-show = Zeigen
web_desk-order = Brunnen in der Reihenfolge der Aufzeichnung, Gewässer zuletzt.
web_desk-log-scale = { $what }, jede Linie das Zehnfache der vorigen
web_desk-u-95 = ± ist U, 95 %. < heißt: nicht nachgewiesen, höchstens. Eine Zahl öffnet ihren Nachweis.
web_desk-u-none = † Die Quelle gibt keine Messunsicherheit an.
web_desk-bottle = Probenflasche
web_desk-dot = { $what }: { $found }
web_desk-dots = Die Probenflaschen von { $well } auf einer Achse
web_desk-agree = Die Flaschen stimmen überein.
web_desk-one-bottle = Eine Probenflasche: Nichts sagt, ob sich der Wert wiederholt.
web_desk-together = zusammen { $found } ({ $low } bis { $high })
web_desk-together-most = zusammen { $found }
web_desk-no-common = kein gemeinsamer Wert
web_desk-year-no-trip = { $day }: keine Probenahme
web_desk-year-not-measured = { $day }: { $element } nicht gemessen
web_desk-year-found = { $day }:
web_desk-not-stated = nicht nachgewiesen, Grenze nicht angegeben
web_desk-more-wells = { $n ->
    [one] { $n } weiterer Brunnen
   *[other] { $n } weitere Brunnen
}
web_desk-no-results = Noch hat kein Brunnen ein Ergebnis.
web_desk-waits = Was wartet
web_desk-nothing-waits = Nichts wartet.
web_desk-above = { $well }: über einem Grenzwert
web_desk-above-no-well = Über einem Grenzwert
web_desk-above-one = { $element } { $found }; Grenzwert { $limit } ({ $who })
web_desk-above-more = { $n ->
    [one] { $n } weiterer Wert über einem Grenzwert
   *[other] { $n } weitere Werte über einem Grenzwert
}
web_desk-above-recalled = Grenzwerte mit * sind aus dem Gedächtnis zitiert und noch mit ihrem Dokument zu vergleichen.
web_desk-above-health = Was das für die Nutzung des Wassers heißt, sagt die örtliche Gesundheitsbehörde.
web_desk-look-case = Ansehen
web_desk-at-work = In Arbeit: { $title }
web_desk-look-work = Stand ansehen
web_desk-stale = Ergebnisse können anders lauten
web_desk-stale-why = Was darauf beruht, kann anders lauten.
web_desk-stale-acts = { $n ->
    [one] { $n } Schritt behalten und noch nicht abgeleitet.
   *[other] { $n } Schritte behalten und noch nicht abgeleitet.
}
web_desk-stale-never = { $n ->
    [one] { $n } Schritt behalten und nie zu Ende abgeleitet.
   *[other] { $n } Schritte behalten und nie zu Ende abgeleitet.
}
web_desk-stale-engine = Von einer anderen Version des Programms abgeleitet.
web_desk-derive = Neu ableiten
web_desk-planned = Probenahmetag { $trip } ist geplant
web_desk-planned-day = { $n ->
    [one] { $day }. { $n } Probenflasche ist vorgesehen.
   *[other] { $day }. { $n } Probenflaschen sind vorgesehen.
}
web_desk-open-trip = Probenahmetag öffnen
web_desk-on-the-way = { $n ->
    [one] { $trip }: { $n } Probenflasche ohne Ergebnis
   *[other] { $trip }: { $n } Probenflaschen ohne Ergebnis
}
web_desk-on-the-way-none = { $n ->
    [one] { $n } Probenflasche ohne Probenahmetag und ohne Ergebnis
   *[other] { $n } Probenflaschen ohne Probenahmetag und ohne Ergebnis
}
web_desk-clock = Erste Haltezeit: { $what }, { $found }.
web_desk-clock-source = Längste Zeit { $limit } (US 40 CFR 136 Table II).
web_desk-clock-none = Keine Zeit der Probenahme in der Aufzeichnung.
web_desk-and-more = { $n ->
    [one] und { $n } weitere
   *[other] und { $n } weitere
}
web_desk-bring-in = Tabelle des Labors einlesen
web_desk-disagree = { $well }: Flaschen weichen ab
web_desk-disagree-what = { $what }. Schließt man eine aus, fehlt der anderen die zweite Probenflasche; die Abweichung bleibt in der Aufzeichnung.
web_desk-look-results = { $n ->
    [one] { $n } Ergebnis ansehen
   *[other] { $n } Ergebnisse ansehen
}
web_desk-lot-open = Charge { $lot }: nicht entschieden
web_desk-lot-held = Charge { $lot }: gesperrt
web_desk-open-lot = Charge { $lot } öffnen
web_desk-sign = Noch steht niemand für ein Ergebnis ein
web_desk-sign-why = Ein gezeichnetes Urteil trägt einen Namen und einen Grund.
web_desk-sign-act = Ergebnisse ansehen
web_desk-no-trip = Kein Probenahmetag ist geplant
web_desk-no-trip-why = Ohne einen nächsten Probenahmetag ist keine Änderung zu sehen.
web_desk-held = Was Ergebnisse zurückhält
web_desk-held-of = { $n } von { $found ->
    [one] { $found } Ergebnis
   *[other] { $found } Ergebnissen
}; eines kann mehrfach zurückgehalten sein
web_desk-held-order = Verworfenes zuerst, dann das Häufigste.
web_desk-held-nothing = Nichts hält ein Ergebnis zurück.
web_desk-reason = Grund
web_desk-count = Ergebnisse
web_desk-where = Wo
web_desk-helps = Was hilft
web_desk-wells-many = { $n ->
    [one] { $n } Brunnen
   *[other] { $n } Brunnen
}
web_desk-substances-many = { $n ->
    [one] { $n } Stoff
   *[other] { $n } Stoffe
}
web_desk-not-met = { $what }: nicht erfüllt
web_desk-not-known = { $what }: nicht bekannt
web_desk-of-another = „{ $what }“, eine Prüfung einer anderen Version
web_desk-more-reasons = { $n ->
    [one] { $n } weiterer Grund
   *[other] { $n } weitere Gründe
}
web_desk-done = Erledigt
web_desk-done-bottles = Jede Probenflasche hat ein Ergebnis oder steht in einem Messlauf.
web_desk-done-limits = Kein Ergebnis der neuesten Tage liegt über einem Grenzwert der Aufzeichnung.
web_desk-done-clocks = Keine Haltezeit ist abgelaufen.
web_desk-start = Hier beginnen
web_desk-start-places = 1. Ein Ort und seine Brunnen
web_desk-start-people = 2. Personen
web_desk-start-trip = 3. Ein erster Probenahmetag
web_desk-start-wells = Brunnen beschreiben
web_desk-templates = Vorlagen zum Ausfüllen
