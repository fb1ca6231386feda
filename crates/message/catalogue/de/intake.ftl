intake-replicate-of-two = Flasche { $bottle } steht in Sätzen mit { $samples } verschiedenen Proben; { $parent }, die Probe in { $sets } ihrer { $all } Sätze, gilt als die, die sie wiederholt
intake-fault = gefunden: { $found }; erwartet: { $expected }
intake-fault-of-value = gefunden: { $found }; erwartet: { $expected }
intake-fault-by-science = gefunden: { $found }; erwartet: { $expected }
