paper-person = ein Mensch
paper-one-row = { $what }: { $substance } in { $place }, { $when }: { $result }; Grenzwert { $limit }; das { $ratio }fache des Grenzwerts; { $verdict }.
paper-limit = { $number }, { $authority }, { $kind }
paper-limit-whose = Grenzwert, wessen, Art
paper-ratio = Verhältnis
paper-detection-limit = Nachweisgrenze
paper-all-of-verdict = Alle: { $verdict }.
paper-who-and-how = Wer beprobt und wer gemessen hat
paper-sampled-by = Beprobt von { $people }.
paper-sampled-by-nobody-named = Wer beprobt hat, ist nicht aufgezeichnet.
paper-own-run = { $results ->
    [one] Ein Ergebnis aus einem Messlauf am eigenen Gerät dieses Programms
   *[other] { $results } Ergebnisse aus Messläufen am eigenen Gerät dieses Programms
}, von den Zählimpulsen an.
paper-laboratory = { $laboratory }: { $results ->
    [one] ein Ergebnis
   *[other] { $results } Ergebnisse
}, Verfahren: { $methods }; { $accredited }.
paper-laboratory-without-method = { $laboratory }: { $results ->
    [one] ein Ergebnis
   *[other] { $results } Ergebnisse
}, Verfahren nicht aufgezeichnet; { $accredited }.
paper-laboratory-not-named = Ein Labor, das nicht genannt ist
paper-is-accredited = nach eigener Angabe akkreditiert
paper-is-not-accredited = nicht akkreditiert
paper-is-accredited-in-part = für einige Verfahren akkreditiert, für andere nicht
paper-accreditation-not-on-record = ob akkreditiert, ist nicht aufgezeichnet
paper-flows = Läuft von selbst: { $flow }.
paper-minutes = { $time } Aufstieg im Rohr.
paper-to-scale = { $wells }, Höhen maßstäblich
paper-to-scale-shows = Brunnen bis { $depth } unter Gelände, neben jedem ein Mensch von 1,7 m. { $told }
paper-heights-to-scale = Höhen maßstäblich, ein Mensch ist 1,7 m groß; Breiten nicht.
paper-head = Druckhöhe über Gelände
paper-own-not-told = { $n ->
    [one] Eine weitere Flasche mit ihrem Metall ist
   *[other] { $n } weitere Zeilen von Flasche und Metall sind
} weggelassen: Keine Zahl davon darf Eigengehalt des Wassers heißen.
paper-reached-after = Wann die Luft eines geschlossenen Brunnenhauses von 10 m³ veröffentlichte Grenzwerte für Schwefelwasserstoff erreicht
paper-what-holds-down = Welche Feststoffe den Gehalt niedrig halten können: { $metal }
paper-carried = Getragen wird es als { $with }; ohne die strittigen Metallbisulfide als { $without }.
paper-none-in-it = kein Metallbisulfid darin
paper-with-bisulfides = nach den Konstanten der Tabelle
paper-what-carries = Was das Metall bei diesem pH trägt ({ $metal }): beide streitigen Antworten
paper-may-form = kann sich bilden
paper-dissolves = löst sich
paper-kinship = Verwandtschaft der Wässer: wie viele von 100 Äquivalenten zwei Wässer gemeinsam haben
paper-pair = { $one } und { $other }
paper-share-with-interval = { $share } ({ $low } bis { $high })
paper-kinship-note = Von jedem von sechs Ionen (Na + K, Ca, Mg, Cl, HCO₃ + CO₃, SO₄) der kleinere der beiden Anteile, zusammengezählt. Nur die Art: Ein verdünntes Wasser ist von derselben Art.
paper-equivalents = Die Ionen der Wässer
