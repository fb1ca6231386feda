intake-replicate-of-two = Flasche { $bottle } steht in Sätzen mit { $samples } verschiedenen Proben; { $parent }, die Probe in { $sets } ihrer { $all } Sätze, gilt als die, die sie wiederholt
intake-fault = gefunden: { $found }; erwartet: { $expected }
intake-fault-of-value = gefunden: { $found }; erwartet: { $expected }
intake-fault-by-science = gefunden: { $found }; erwartet: { $expected }
intake-unusual = ungewöhnlich: { $what } { $value }; üblich ist { $lower } bis { $upper }. So übernommen; ist es ein Versehen, mit einem Grund berichtigen
intake-acid-before-filling = ungewöhnlich: Säure zugegeben { $acidified }, bevor die Flasche gefüllt wurde: { $filled }. So übernommen; richtig ist das, wenn die Säure schon in der Flasche war, sonst eines von beiden mit einem Grund berichtigen
intake-more-unusual = noch { $more } Werte außerhalb des Üblichen; die ersten stehen Zeile für Zeile da
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
