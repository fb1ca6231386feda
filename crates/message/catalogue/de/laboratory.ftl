laboratory-verdict-by = { $verdict } nach Profil „{ $profile }“

laboratory-accepted-by = { $results ->
    [one] { $results } Ergebnis ist
   *[other] { $results } Ergebnisse sind
} angenommen nach Profil „{ $profile }“: Was verlangt wurde, sagen dessen Regeln, die eine Person des Programms gewählt hat, nicht die Prüftabelle des Programms.

laboratory-profile = Beurteilt nach Profil „{ $profile }“, gewählt mit der Begründung: { $why }. Was das Profil nicht nennt, entscheidet die Prüftabelle des Programms; was gemessen wurde und nicht erfüllt ist, behält das Gewicht, das diese Tabelle ihm gibt.

laboratory-lacks = Nicht hinterlegt bei { $lacking } von { $results ->
    [one] { $results } Ergebnis
   *[other] { $results } Ergebnissen
}: { $what } (Flaschen { $bottles }).

laboratory-what-method = Verfahren und Berichtsgrenze
laboratory-what-accreditation = ob das Verfahren akkreditiert ist
laboratory-what-blank = ein Blindwert des Labors, der gezeigt hätte, worauf es ankommt
laboratory-what-recovery = eine Wiederfindung des Labors
laboratory-what-duplicate = eine Doppelbestimmung des Labors
laboratory-what-meter-check = eine Prüfung des Messgeräts in Puffer oder Standard an diesem Tag

laboratory-method-stated = Verfahren und Berichtsgrenze sind { $results ->
    [one] für das Ergebnis
   *[other] für alle { $results } Ergebnisse
} angegeben.

laboratory-accredited = Es ist hinterlegt, ob das Verfahren akkreditiert ist ({ $laboratories }).

laboratory-not-accredited = Das Verfahren ist nicht akkreditiert ({ $laboratories }): { $results ->
    [one] { $results } Ergebnis
   *[other] { $results } Ergebnisse
}.

laboratory-blanks-low = { $blanks ->
    [one] Der { $blanks } Blindwert des Labors bleibt
   *[other] Die { $blanks } Blindwerte des Labors bleiben
} unter seiner Berichtsgrenze oder unter { $share } des Gefundenen.

laboratory-blank-high = Ein Blindwert des Labors enthält { $blank } neben { $found } in Flasche { $bottle }: mehr als die Berichtsgrenze und mehr als { $share } des Gefundenen.

laboratory-recoveries-within = { $recoveries ->
    [one] Die { $recoveries } Wiederfindung des Labors liegt
   *[other] Die { $recoveries } Wiederfindungen des Labors liegen
} zwischen { $lowest } und { $highest }; zulässig sind { $low } bis { $high }.

laboratory-recovery-outside = Eine Wiederfindung des Labors beträgt { $recovery }; zulässig sind { $low } bis { $high }.

laboratory-duplicates-agree = { $duplicates ->
    [one] Die { $duplicates } Doppelbestimmung des Labors weicht
   *[other] Die { $duplicates } Doppelbestimmungen des Labors weichen
} um höchstens { $greatest } des Mittels voneinander ab; zulässig sind { $limit }, nahe der Berichtsgrenze diese selbst.

laboratory-duplicate-differs = Eine Doppelbestimmung des Labors weicht um { $difference } des Mittels ab; zulässig sind { $limit }, nahe der Berichtsgrenze diese selbst.

laboratory-chart-in-control = Die Regelkarte des Labors ist nach seiner Angabe unter Kontrolle.
laboratory-chart-out = Die Regelkarte des Labors ist nach seiner Angabe nicht unter Kontrolle.

laboratory-negative = { $results ->
    [one] { $results } Wert ist negativ und kommt
   *[other] { $results } Werte sind negativ und kommen
} ohne Unsicherheit: weder nachgewiesen noch nicht nachgewiesen.

laboratory-meter-within = { $checks ->
    [one] Bei { $checks } Prüfung liest
   *[other] Bei { $checks } Prüfungen liest
} das Messgerät in Puffer oder Standard, was darin ist, im zulässigen Rahmen.

laboratory-meter-outside = Das Messgerät las { $read }, wo Puffer oder Standard { $expected } enthält; zulässig ist ein Unterschied von { $allowed }.
