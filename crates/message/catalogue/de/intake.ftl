intake-replicate-of-two = Flasche { $bottle } steht in Sätzen mit { $samples ->
    [one] { $samples } Probe
   *[other] { $samples } verschiedenen Proben
}; { $parent }, die Probe in { $sets } ihrer { $all } Sätze, gilt als die, die sie wiederholt
intake-fault = gefunden: { $found }; erwartet: { $expected }
intake-fault-of-value = gefunden: { $found }; erwartet: { $expected }
intake-fault-by-science = gefunden: { $found }; erwartet: { $expected }
intake-unusual = ungewöhnlich: { $what } { $value }; üblich ist { $lower } bis { $upper }. So übernommen; ist es ein Versehen, mit einem Grund berichtigen
intake-acid-before-filling = ungewöhnlich: Säure zugegeben { $acidified }, bevor die Flasche gefüllt wurde: { $filled }. So übernommen; richtig ist das, wenn die Säure schon in der Flasche war, sonst eines von beiden mit einem Grund berichtigen
intake-more-unusual = noch { $more ->
    [one] { $more } Wert außerhalb
   *[other] { $more } Werte außerhalb
} des Üblichen; die ersten stehen Zeile für Zeile da
intake-taken-as = „{ $written }“ wurde als { $taken } gelesen ({ $one } aus dem Programm), wie mit dieser Handlung vereinbart
intake-taken-as-before = „{ $written }“ wurde als { $taken } gelesen ({ $one } aus dem Programm), wie früher für Dateien vereinbart, die { $mapping } liest
intake-one-name = „{ $written }“ wurde als { $taken } gelesen ({ $one } aus dem Programm): die beiden Namen wurden zu einem gemacht
intake-new-names = { $count } { $count ->
    [one] Name ist
   *[other] Namen sind
} neu im Programm ({ $one }): { $names }
intake-known-here = „{ $written }“ ist neu im Programm; Grenzwerte und Prüfungen dieses Programms führen es als { $known } und finden es unter diesem Namen nicht
intake-agreed-for-nothing = was zu „{ $name }“ vereinbart wurde, traf auf nichts: keine Datei hat diesen Namen dort, wo er neu wäre
intake-near-to = „{ $written }“ ist neu im Programm ({ $one }) und liegt nahe bei { $near }. War das gemeint, den Namen berichtigen oder beide Namen zu einem machen
intake-unit-of-mapping = in der Überschrift steht { $carried }, die Zuordnung { $mapping } sagt { $unit }: gelesen als { $unit }
intake-footer-left = eine Zeile nach der Tabelle, weggelassen: { $text }
intake-headings-again = noch einmal die Überschriften, weggelassen
intake-block-begins = hier beginnt ein weiterer Block der Tabelle; er wird mit den Überschriften dieser Zeile gelesen
intake-lies-on-its-side = die Tabelle liegt auf der Seite: jede Zeile, die hier genannt wird, ist eine Spalte des Blatts, von 1 an gezählt
intake-hidden-unseen = ausgeblendete Zeilen und Spalten einer alten XLS-Datei sind hier nicht zu sehen: ins Blatt schauen oder es als XLSX speichern
intake-hidden-taken = { $rows ->
    [one] { $rows } ausgeblendete Zeile
   *[other] { $rows } ausgeblendete Zeilen
} und { $columns ->
    [one] { $columns } ausgeblendete Spalte
   *[other] { $columns } ausgeblendete Spalten
} übernommen, wie die Zuordnung sagt
intake-hidden-left = { $rows ->
    [one] { $rows } ausgeblendete Zeile
   *[other] { $rows } ausgeblendete Zeilen
} und { $columns ->
    [one] { $columns } ausgeblendete Spalte
   *[other] { $columns } ausgeblendete Spalten
} weggelassen, wie die Zuordnung sagt
intake-coverage-of-heading = „{ $heading }“ sagt k = { $k }: jede Unsicherheit wird dadurch geteilt
