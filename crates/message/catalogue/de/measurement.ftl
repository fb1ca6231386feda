### Was die Auswertung eines Messlaufs findet.

measurement-dead-time = der Detektor war höchstens { $share } der Zeit tot ({ $isotope } in „{ $vial }“); dem Totzeitmodell wird bis { $limit } getraut
measurement-internal-standard-outside = der interne Standard { $standard } steht in „{ $vial }“ bei { $level } seines Mittels in der Kalibrierung, außerhalb von { $lowest } bis { $highest }: Matrix oder Aufnahme waren anders, und die Korrektur ist nicht mehr klein
measurement-internal-standard-steady = der interne Standard { $standard } blieb zwischen { $low } und { $high } seines Mittels in der Kalibrierung
measurement-taken-out = eine Person hat { $analyte } in „{ $vial }“ aus dem Messlauf genommen; ein Ergebnis gibt es dafür nicht
measurement-standard-left-out = der Standard „{ $standard }“ hat für { $analyte } keinen Wert oder keine Messung; die Gerade beruht auf den anderen
measurement-line-untested = die Gerade von { $analyte } hat keinen Punkt übrig, daher lässt sich ihre Anpassung nicht prüfen
measurement-line-fits = die Gerade von { $analyte } passt { $points ->
    [one] zu ihrem einen Punkt
   *[other] zu ihren { $points } Punkten
} (χ² { $chi } bei { $dof ->
    [one] { $dof } Freiheitsgrad
   *[other] { $dof } Freiheitsgraden
})
measurement-line-scatters = { $points ->
    [one] der eine Punkt der Geraden von { $analyte } streut
   *[other] die { $points } Punkte der Geraden von { $analyte } streuen
} mehr als ihr u (χ² { $chi } bei { $dof ->
    [one] { $dof } Freiheitsgrad
   *[other] { $dof } Freiheitsgraden
}); ihr u wurde auf das { $widened }-Fache erweitert
measurement-drift-not-seen = die Driftkontrollen enthalten { $analyte } nicht: seine Drift ist weder bekannt noch korrigiert
measurement-drift = die Empfindlichkeit für { $analyte } änderte sich im Messlauf, nach der Korrektur mit dem internen Standard, um { $change }; auch das wurde korrigiert; erwartet werden bis zu { $limit }
measurement-drift-not-corrected = das Rezept korrigiert über den internen Standard hinaus keine Drift von { $analyte }
measurement-between-vials-unknown = zu wenige Driftkontrollen, um zu sagen, wie gut { $analyte } zwischen Gefäßen reproduzierbar ist; u lässt das aus
measurement-blank-count = { $count } { $role ->
    [procedural-blank] { $count ->
        [one] Verfahrensblindprobe
       *[other] Verfahrensblindproben
    }
    [bottle-blank] { $count ->
        [one] Flaschenblindprobe
       *[other] Flaschenblindproben
    }
    [trip-blank] { $count ->
        [one] Transportblindprobe
       *[other] Transportblindproben
    }
    [field-blank] { $count ->
        [one] Feldblindprobe
       *[other] Feldblindproben
    }
    [calibration-blank] { $count ->
        [one] Kalibrierblindprobe
       *[other] Kalibrierblindproben
    }
    [equipment-blank] { $count ->
        [one] Geräteblindprobe
       *[other] Geräteblindproben
    }
   *[other] { $count ->
        [one] Blindprobe
       *[other] Blindproben
    }
} von { $analyte }: Mittel { $mean }, Standardabweichung { $sd }; verlangt sind mindestens { $least }
measurement-blanks-equal = die { $role ->
    [procedural-blank] Verfahrensblindproben
    [bottle-blank] Flaschenblindproben
    [trip-blank] Transportblindproben
    [field-blank] Feldblindproben
    [calibration-blank] Kalibrierblindproben
    [equipment-blank] Geräteblindproben
   *[other] Blindproben
} von { $analyte } ({ $count }) ergaben denselben Wert: ihre Streuung ist nicht bekannt, sie ist nicht null; das u ihrer Zählung steht dafür
measurement-reference-blank-missing = weniger als zwei { $role ->
    [procedural-blank] Verfahrensblindproben
    [bottle-blank] Flaschenblindproben
    [trip-blank] Transportblindproben
    [field-blank] Feldblindproben
    [calibration-blank] Kalibrierblindproben
    [equipment-blank] Geräteblindproben
   *[other] Blindproben
} von { $analyte }: Die Werte der Referenzmaterialien gelten allein über dem Nullpunkt der Kalibrierung
measurement-blank-outlier = { $role ->
    [procedural-blank] die Verfahrensblindprobe
    [bottle-blank] die Flaschenblindprobe
    [trip-blank] die Transportblindprobe
    [field-blank] die Feldblindprobe
    [calibration-blank] die Kalibrierblindprobe
    [equipment-blank] die Geräteblindprobe
   *[other] die Blindprobe
} „{ $vial }“ zeigt { $found } { $analyte }, wo die anderen höchstens { $expected } erwarten lassen: ein Ausreißer durch Verunreinigung in dieser Flasche, oder ein Zeichen dafür, was auch Proben enthalten können
measurement-overlap-fixed = ein Faktor von { $species } auf { $analyte } ist fest, ohne u: die Unsicherheitsbilanz lässt ihn aus
measurement-overlap-large = { $share } der Zählwerte von { $analyte } in „{ $vial }“ sind { $species }, in diesem Messlauf gemessen und abgezogen; was bleibt, beruht auf dieser Korrektur
measurement-overlap-small = { $species } macht in keiner Probe mehr als { $share } der Zählwerte von { $analyte } aus
measurement-reference-material = Referenzmaterial „{ $vial }“: { $analyte } gefunden { $found }, zertifiziert { $certified } ({ $recovery }, Zeta { $zeta }, E_n { $en })
measurement-no-reference-material = es wurde kein Referenzmaterial mit einem Wert für { $analyte } gemessen
measurement-duplicate = „{ $vial }“ und „{ $other }“ unterscheiden sich um { $difference } { $analyte }, wo ihr u bis zu { $allowed } erwarten lässt
measurement-field-spike = Aufstockung im Feld „{ $vial }“: von { $added } zugesetztem { $analyte } wurden { $recovery-expanded } (k = 2) wiedergefunden; verlangt sind { $lowest } bis { $highest }
measurement-laboratory-spike = Aufstockung im Labor „{ $vial }“: von { $added } zugesetztem { $analyte } wurden { $recovery-expanded } (k = 2) wiedergefunden; verlangt sind { $lowest } bis { $highest }
measurement-isotopes-disagree = { $one } und { $other } stimmen in „{ $vial }“ nicht überein: { $found } und { $others }; eines von beiden enthält etwas anderes
measurement-isotopes-agree = { $one } und { $other } stimmen { $vials ->
    [one] in dem einen Gefäß
   *[other] in allen { $vials } Gefäßen
} innerhalb ihrer u überein
measurement-no-control-water = In diesem Messlauf wurde kein Referenzmaterial mit einem Wert für { $element } gemessen.
measurement-in-control = Die Kontrollprobe wurde für { $element } zu { $recovery } seines Werts gefunden ({ $vials ->
    [one] { $vials } Gefäß
   *[other] { $vials } Gefäße
}, E_n { $en }): Das Verfahren ist unter Kontrolle.
measurement-control-warns = Die Kontrollprobe wurde für { $element } zu { $recovery } seines Werts gefunden ({ $vials ->
    [one] { $vials } Gefäß
   *[other] { $vials } Gefäße
}, E_n { $en }): Das Verfahren ist unter Kontrolle, liegt aber weiter daneben, als seine Unsicherheit erklärt.
measurement-out-of-control = Die Kontrollprobe wurde für { $element } zu { $recovery } seines Werts gefunden ({ $vials ->
    [one] { $vials } Gefäß
   *[other] { $vials } Gefäße
}, E_n { $en }): Das Verfahren ist nicht unter Kontrolle.
measurement-stock-named = die Standards von { $analyte } nennen ihre Stammlösung ({ $stocks }): deren Fehler ist für alle derselbe
measurement-stock-unnamed = { $count ->
    [one] { $count } Standard von { $analyte } nennt
   *[other] { $count } Standards von { $analyte } nennen
} keine Stammlösung: angenommen ist eine gemeinsame, damit sich deren Fehler nicht herausmittelt
measurement-assigned-side-unsaid = { $vials ->
    [one] bei { $vials } verdünntem Gefäß
   *[other] bei { $vials } verdünnten Gefäßen
} sagte niemand, ob der zugewiesene Wert von { $analyte } vor oder nach der Verdünnung gilt: in „{ $vial }“, { $dilution }-fach verdünnt, enthält die gemessene Lösung { $bottle }, wenn er in der Flasche gilt, { $measured }, wenn er für die gemessene Lösung gilt; angenommen ist die Flasche
measurement-no-second-source = weder ein Referenzmaterial noch eine Kontrolle aus einer anderen Stammlösung wurde für { $analyte } gemessen: ein Fehler der Stammlösung stünde ungesehen in jedem Ergebnis
measurement-second-source-agrees = eine zweite Quelle von { $analyte } stimmt mit der Geraden überein: das Mittel aus { $vials ->
    [one] { $vials } Gefäß
   *[other] { $vials } Gefäßen
} weicht von ihrem Wert { $of } um { $difference } ab, bis { $most } sind erklärt
measurement-second-source-differs = eine zweite Quelle von { $analyte } stimmt nicht mit der Geraden überein: das Mittel aus { $vials ->
    [one] { $vials } Gefäß
   *[other] { $vials } Gefäßen
} weicht von ihrem Wert { $of } um { $difference } ab, nur bis { $most } sind erklärt; eine der beiden Lösungen ist falsch
measurement-acid-counted = „{ $bottle }“ enthält { $acid } Säure in { $volume } Wasser: Werte gelten je Volumen Wasser, das { $factor }-Fache der Lösung
measurement-acid-without-volume = „{ $bottle }“ enthält { $acid } Säure in einem unbekannten Volumen Wasser: wie weit sie das Wasser verdünnt, ist nicht bekannt und nicht im Wert
measurement-acid-unrecorded = die Säure in „{ $bottle }“ ist nicht eingetragen: 1 % davon höbe { $analyte } um { $one }, 2 % um { $two }

measurement-blanks-may-be-normal = Die { $blanks ->
    [one] { $blanks } Blindprobe kann
   *[other] { $blanks } Blindproben können
} normalverteilt sein: Die Grenzen nach Student-t halten dann ihre 5 %.
measurement-blanks-not-normal = Die { $blanks ->
    [one] { $blanks } Blindprobe sieht
   *[other] { $blanks } Blindproben sehen
} nicht normalverteilt aus: { $risk }; { $instead }.
measurement-blanks-of-no-shape = { $blanks ->
    [one] { $blanks } Blindprobe ist zu wenig, um ihre Gestalt
   *[other] { $blanks } Blindproben sind zu wenige, um ihre Gestalt
} zu erkennen: { $risk }; { $instead }.
measurement-false-detections = Bei so schiefen Blindproben, wie sie oft sind, würde in { $share } der sauberen Wässer ein Nachweis gemeldet, wo 5 % gemeint sind (simuliert, { $blanks ->
    [one] { $blanks } Blindprobe
   *[other] { $blanks } Blindproben
})
measurement-largest-holds = die größte Blindprobe als Grenze hält 5 %, welche Gestalt sie auch haben
measurement-more-blanks = unter 20 Blindproben hält keine Grenze 5 % bei schiefen Blindproben; mehr Blindproben sind die Antwort
measurement-role-gas-background = Gasuntergrund
measurement-role-calibration-blank = Kalibrierblindprobe
measurement-role-standard = Standard
measurement-role-procedural-blank = Verfahrensblindprobe
measurement-role-bottle-blank = Flaschenblindprobe
measurement-role-trip-blank = Transportblindprobe
measurement-role-field-blank = Feldblindprobe
measurement-role-equipment-blank = Geräteblindprobe
measurement-role-reference-material = Referenzmaterial
measurement-role-drift-check = Driftkontrolle
measurement-role-interference-check = Interferenzkontrolle
measurement-role-sample = Probe
measurement-role-duplicate = Parallelprobe
measurement-role-field-spike = Aufstockung im Feld
measurement-role-laboratory-spike = Aufstockung im Labor

## Gefäße, auf denen andere beruhen, einzelne Wiederholungen, Verschleppung, Zählwerte ohne Probe

measurement-standard-dead = { $role ->
    [standard] im Standard
    [calibration-blank] in der Kalibrierblindprobe
    [drift-check] in der Driftkontrolle
    [interference-check] in der Interferenzkontrolle
    [procedural-blank] in der Verfahrensblindprobe
    [bottle-blank] in der Flaschenblindprobe
    [trip-blank] in der Transportblindprobe
    [field-blank] in der Feldblindprobe
    [equipment-blank] in der Geräteblindprobe
   *[other] im Gefäß
} „{ $vial }“, worauf alle Ergebnisse von { $analyte } beruhen, gingen dem Detektor { $share } der Impulse von { $isotope } verloren; dem Totzeitmodell wird bis { $limit } getraut
measurement-standard-suppressed = { $role ->
    [standard] im Standard
    [calibration-blank] in der Kalibrierblindprobe
    [drift-check] in der Driftkontrolle
    [interference-check] in der Interferenzkontrolle
    [procedural-blank] in der Verfahrensblindprobe
    [bottle-blank] in der Flaschenblindprobe
    [trip-blank] in der Transportblindprobe
    [field-blank] in der Feldblindprobe
    [equipment-blank] in der Geräteblindprobe
   *[other] im Gefäß
} „{ $vial }“, worauf alle Ergebnisse von { $analyte } beruhen, steht der interne Standard bei { $level } seines Mittels in der Kalibrierung, außerhalb von { $lowest } bis { $highest }: was dort falsch ist, ist in jedem Ergebnis falsch
measurement-standard-signals-good = Totzeit und interner Standard liegen in allen Gefäßen, auf denen die Ergebnisse von { $analyte } beruhen, innerhalb ihrer Grenzen
measurement-replicate-high = die Wiederholung { $replicate } von { $analyte } in „{ $vial }“ zeigt { $rate } neben { $others } in den anderen, mehr als Zählstatistik und Streuung des Messlaufs erklären: möglicherweise ein Partikel; nur eine Person nimmt sie heraus
measurement-replicate-low = die Wiederholung { $replicate } von { $analyte } in „{ $vial }“ zeigt { $rate } neben { $others } in den anderen, weniger als Zählstatistik und Streuung des Messlaufs erklären: möglicherweise eine Luftblase; nur eine Person nimmt sie heraus
measurement-replicates-alike = { $replicates ->
    [one] die eine Wiederholung von
   *[other] keine der { $replicates } Wiederholungen von
} { $analyte } liegt weiter von den anderen ihres Gefäßes, als Zählstatistik und Streuung des Messlaufs erklären
measurement-wash-out = „{ $vial }“ wurde nach „{ $before }“ gemessen: { $from ->
    [found] Blindproben nach hohen Gefäßen zeigen in diesem Messlauf, dass bis zu { $rate } von { $analyte } verschleppt werden
    [given] mit den { $rate } von { $analyte }, die das Rezept als höchste Verschleppung angibt
    [bounded] Blindproben nach hohen Gefäßen lassen in diesem Messlauf offen, dass { $rate } von { $analyte } verschleppt werden
   *[assumed] keine Blindproben dieses Messlaufs zeigen, was verschleppt wird; mit üblichen { $rate } von { $analyte }
}; hier wären das { $carried }, mehr als die Hälfte seines u von { $u }
measurement-wash-out-small = kein Gefäß vor einem Ergebnis von { $analyte } ist so hoch, dass eine Verschleppung von { $rate } ({ $from ->
    [found] in diesem Messlauf gefunden
    [given] im Rezept angegeben
    [bounded] die höchste, die Blindproben dieses Messlaufs offen lassen
   *[assumed] eine übliche, von diesem Messlauf nicht bekannt
}) mehr als die Hälfte seines u ausmachte
measurement-detector-background = was der Detektor ohne Probe zählt, wurde von jeder Zählrate von { $analyte } abgezogen, { $from ->
    [gas] nach dem Gasuntergrund dieses Messlaufs
   *[recipe] nach der Dunkelzählrate, die das Rezept angibt
}
measurement-detector-background-open = weder ein Gasuntergrund noch eine Dunkelzählrate ist aufgezeichnet: eine Dunkelzählrate von { $rate } würde { $analyte } in „{ $vial }“ um { $shift } verschieben, mehr als die Hälfte seines u von { $u }
measurement-detector-background-small = weder ein Gasuntergrund noch eine Dunkelzählrate ist aufgezeichnet; eine Dunkelzählrate von { $rate } würde kein Ergebnis von { $analyte } um mehr als die Hälfte seines u verschieben
measurement-drift-open = „{ $vial }“ wurde { $minutes } { $side ->
    [before] vor der ersten Driftkontrolle
   *[after] nach der letzten Driftkontrolle
} gemessen: Die Drift von { $analyte } ist dort nicht bekannt; so weit sich die Kontrollen dieses Messlaufs bewegten, macht sie { $share } der Varianz des Ergebnisses aus
measurement-drift-open-standards = Standards oder Blindproben von { $analyte } wurden vor der ersten oder nach der letzten Driftkontrolle gemessen; die dort nicht bekannte Drift macht { $share } der Varianz des Ergebnisses von „{ $vial }“ aus
measurement-drift-closed = jedes Ergebnis von { $analyte } steht zwischen Driftkontrollen, und keines beruht überwiegend auf Standards, die es nicht tun
measurement-fast-drift = die Lösung von „{ $vial }“ wurde { $times }-mal gemessen, und ihr { $analyte } streut um { $scatter }, wo u { $expected } erwarten lässt: Die Empfindlichkeit änderte sich schneller, als die Driftkontrollen zeigen, oder eines der Gefäße ist nicht, was es sein soll
measurement-no-fast-drift = { $solutions ->
    [one] { $solutions } mehrmals gemessene Lösung stimmt
   *[other] { $solutions } mehrmals gemessene Lösungen stimmen
} in { $analyte } innerhalb von u überein: Zwischen den Kontrollen ist keine Drift zu sehen
measurement-repeated-readings = „{ $vial }“ und „{ $other }“ haben bis zur letzten Stelle dieselben Messwerte ({ $isotopes }), was beim Zählen nicht durch Zufall vorkommt: Eines wurde wahrscheinlich doppelt geschrieben
measurement-no-repeated-readings = { $vials ->
    [one] das eine Gefäß hat eigene Messwerte
   *[other] keine zwei der { $vials } Gefäße haben dieselben Messwerte
}
