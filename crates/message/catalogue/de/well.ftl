well-no-fill = Keine Füllung wurde gestoppt, also sind Schüttung und Kontaktzeit nicht bekannt.
well-log-gap = Das Schichtenverzeichnis sagt nichts von { $from } bis { $to }.
well-no-screen = Die Aufzeichnung hat weder Filter noch offenes Bohrloch: Welche Schicht den Brunnen speist, ist nicht bekannt.
well-flow = Der Brunnen schüttet { $flow } nach { $fills ->
    [one] { $fills } gestoppten Füllung
   *[other] { $fills } gestoppten Füllungen
}.
well-flow-loose = Die Schüttung, { $flow }, ist nur auf { $known } bekannt; das Programm verlangt { $asked }: mehr Füllungen stoppen.
well-flow-one-fill = Die Schüttung ist { $flow } nach einer gestoppten Füllung, ihre Unsicherheit ist also nicht bekannt: drei Füllungen oder mehr stoppen.
well-flow-steady = Die Schüttung änderte sich über die Füllungen nicht über ihre Streuung hinaus (p { $p }).
well-flow-fell = Die Schüttung fiel über die Füllungen um { $change } (p { $p }): Sie war noch nicht stetig.
well-flow-rose = Die Schüttung stieg über die Füllungen um { $change } (p { $p }): Sie war noch nicht stetig.
well-contact-in = { $time } in { $material ->
    [galvanised-steel] verzinktem Stahl
    [stainless-steel] Edelstahl
    [iron] Eisen
    [cast-iron] Gusseisen
    [copper] Kupfer
    [steel] Stahl
   *[other] { $material }
}
well-contact-next = { $before }, { $next }
well-contact-short = Das Wasser berührt das Rohr { $contact }: innerhalb der { $longest } des Programms.
well-contact-long = Das Wasser berührt das Rohr { $contact }: länger als die { $longest } des Programms, das Rohr kann also in den Metallen mitsprechen.
well-rule = { $readings } Ablesungen hintereinander, mindestens { $spacing } auseinander, innerhalb ± { $width } { $unit ->
    [degC] °C
   *[other] { $unit }
} von ihrem Mittel ({ $source }, { $seen ->
    [recalled] aus dem Gedächtnis
    [seen-in-part] zum Teil gesehen
    [seen-in-a-secondary-source] in einer zweiten Quelle gesehen
   *[other] { $seen }
})
well-rule-larger = { $readings } Ablesungen hintereinander, mindestens { $spacing } auseinander, innerhalb ± { $width } { $unit ->
    [degC] °C
   *[other] { $unit }
} oder { $relative } von ihrem Mittel, das größere von beiden ({ $source }, { $seen ->
    [recalled] aus dem Gedächtnis
    [seen-in-part] zum Teil gesehen
    [seen-in-a-secondary-source] in einer zweiten Quelle gesehen
   *[other] { $seen }
})
well-rule-none = kein Band gilt bei diesem Mittel
well-reading-steady = { $parameter ->
    [temperature] Die Temperatur
    [conductivity] Die Leitfähigkeit
    [pH] Der pH
    [redox] Das Redoxpotential
    [dissolved-oxygen] Der gelöste Sauerstoff
    [turbidity] Die Trübung
   *[other] { $parameter }
} ist seit { $since } stetig: { $rule }.
well-reading-not-steady = { $parameter ->
    [temperature] Die Temperatur
    [conductivity] Die Leitfähigkeit
    [pH] Der pH
    [redox] Das Redoxpotential
    [dissolved-oxygen] Der gelöste Sauerstoff
    [turbidity] Die Trübung
   *[other] { $parameter }
} ist nicht stetig; die Regel lautet: { $rule }.
well-readings-too-few = Ob stetig oder nicht, lässt sich nicht sagen: Ablesungen { $parameter ->
    [temperature] der Temperatur
    [conductivity] der Leitfähigkeit
    [pH] des pH
    [redox] des Redoxpotentials
    [dissolved-oxygen] des gelösten Sauerstoffs
    [turbidity] der Trübung
   *[other] von { $parameter }
} mindestens { $spacing } auseinander: { $have } gegeben, mindestens { $need } nötig; weiter ablesen.
well-readings-backwards = Ob stetig oder nicht, lässt sich nicht sagen: Zeit der Ablesung { $reading }: gefunden { $time }, erwartet später als die { $before } der Ablesung davor.
well-readings-no-rule = Ob stetig oder nicht, lässt sich nicht sagen: Größe und Regel: gefunden { $parameter ->
    [temperature] Temperatur
    [conductivity] Leitfähigkeit
    [redox] Redoxpotential
    [dissolved-oxygen] gelöster Sauerstoff
    [turbidity] Trübung
   *[other] { $parameter }
} ({ $rule }), erwartet eines von { $known }.
well-rule-of = { $parameter ->
    [temperature] Temperatur
    [conductivity] Leitfähigkeit
    [redox] Redoxpotential
    [dissolved-oxygen] gelöster Sauerstoff
    [turbidity] Trübung
   *[other] { $parameter }
} ({ $rule })
well-renewed = Der Brunnen wurde seit dem Öffnen { $times }-mal erneuert; höchstens { $left } des stehenden Wassers sind noch da.
well-renewed-too-little = Der Brunnen wurde seit dem Öffnen { $times }-mal erneuert, das Programm verlangt { $least }-mal: Bis zu { $left } des stehenden Wassers sind noch da.
well-age-with-u = { $age } ± { $u } Jahre
well-age-over = über { $age } Jahre
well-age-under = unter { $age } Jahre
well-age-within = Das Alter nach { $tracer ->
    [tracer] einem Tracer
    [tritium] Tritium
    [radiocarbon] Radiokohlenstoff
   *[other] { $tracer }
}, { $age }, liegt innerhalb der Fließzeit nach Darcy, { $low } bis { $high } Jahre.
well-age-contradicts = Das Alter nach { $tracer ->
    [tracer] einem Tracer
    [tritium] Tritium
    [radiocarbon] Radiokohlenstoff
   *[other] { $tracer }
}, { $age }, widerspricht der Fließzeit nach Darcy, { $low } bis { $high } Jahre: Der Weg, die Porosität oder die Mischung der Wässer ist nicht wie angenommen.
