chapter-path = Der Weg: { $element } in { $well }
chapter-other-paths = Der Weg in den anderen Brunnen: { $element }
chapter-metals = Jedes Metall, Brunnen für Brunnen
chapter-sources = Woher das Metall stammt: { $element }
chapter-day = Der Tag an den Brunnen
chapter-well = Der Brunnen
chapter-wells = Die Brunnen nebeneinander
chapter-water = Das Wasser
chapter-waters = Die Wässer nebeneinander
chapter-low = Was das Metall niedrig hält: { $element }
chapter-run = Der Messlauf
chapter-met = Erfüllt: { $stages }. Jede Prüfung steht mit ihren Zahlen in Anhang A.
chapter-met-at = { $n } bei { $stage }
chapter-wide-caption = Jedes Metall: eine Zeile je Brunnen, die Flaschen nebeneinander
chapter-wide-note = Über Flaschen, die voneinander abweichen, steht kein Mittel. Ein Isotop oder eine Summe von Isotopen steht für jedes Element; alle stehen mit ihren Nachweisgrenzen in Anhang A.
chapter-blank = Blindwert
chapter-wells-caption = Die Brunnen an diesem Tag
chapter-depth = Tiefe
chapter-pipe = Rohr
chapter-above = Über einem Grenzwert
chapter-cannot-tell = Nicht entscheidbar
chapter-below = Unter dem niedrigsten Grenzwert: { $substances }.
chapter-none-above = Nichts Gemessenes liegt über einem Grenzwert.
chapter-ratio = Verhältnis zum Grenzwert
chapter-where = wo
chapter-when = wann
chapter-solids = { $water }: { $answers }.
chapter-solid = { $solid }: { $word }
chapter-carriers = { $water }: { $species }.
chapter-limits-in-full = Vergleich mit Grenzwerten, Analyt für Analyt
chapter-material = { $material ->
    [galvanised-steel] verzinkter Stahl
    [stainless-steel] Edelstahl
    [iron] Eisen
    [cast-iron] Gusseisen
    [copper] Kupfer
    [steel] Stahl
   *[other] { $material }
}
chapter-in-annex = { $n ->
    [one] { $n } weitere Zeile steht
   *[other] { $n } weitere Zeilen stehen
} in Anhang A.
