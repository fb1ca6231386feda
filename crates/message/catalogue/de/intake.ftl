intake-replicate-of-two = Flasche { $bottle } steht in Sätzen mit { $samples } verschiedenen Proben; { $parent }, die Probe in { $sets } ihrer { $all } Sätze, gilt als die, die sie wiederholt
intake-fault = gefunden: { $found }; erwartet: { $expected }
intake-fault-of-value = gefunden: { $found }; erwartet: { $expected }
intake-fault-by-science = gefunden: { $found }; erwartet: { $expected }
intake-unusual = ungewöhnlich: { $what } { $value }; üblich ist { $lower } bis { $upper }. So übernommen; ist es ein Versehen, mit einem Grund berichtigen
intake-acid-before-filling = ungewöhnlich: Säure zugegeben { $acidified }, bevor die Flasche gefüllt wurde: { $filled }. So übernommen; richtig ist das, wenn die Säure schon in der Flasche war, sonst eines von beiden mit einem Grund berichtigen
intake-more-unusual = noch { $more } Werte außerhalb des Üblichen; die ersten stehen Zeile für Zeile da
