claim-amount-stated = { $x } (ohne Angabe der Unsicherheit)
claim-amount-at-most = höchstens { $x }
claim-amount-over = über { $x }
claim-range = { $low } bis { $high }
claim-range-at-least = mindestens { $low }, keine obere Grenze
claim-range-at-most = höchstens { $high }, keine untere Grenze
claim-range-open = lässt sich nicht angeben
claim-probability-near-one = über 0,999
claim-probability-near-zero = unter 0,001
claim-at-least = mindestens { $n }
claim-about = etwa { $n }
claim-at-most = höchstens { $n }
claim-then = { $one }; { $next }
claim-with-amount = { $name } { $x }
claim-quotient = { $a } / { $b }
claim-this-water = Wasser von dieser Stelle
claim-no-u = { CAPITAL($name) }: Es ist keine Unsicherheit angegeben; ohne sie folgt für einen Vergleich nichts.
claim-not-found-over = { CAPITAL($name) }: Bekannt ist nur eine obere Schranke, das Verhältnis hat darum nur eine obere Schranke.
claim-not-found-under = { CAPITAL($name) } steht im Nenner, und bekannt ist davon nur eine obere Schranke, das Verhältnis hat darum nur eine untere Schranke.
claim-over-range = { CAPITAL($name) } lag über dem Messbereich: Bekannt ist nur eine untere Grenze.
claim-not-from-zero = { CAPITAL($name) } ist von null nicht zu unterscheiden: Das Verhältnis hat keine obere Grenze.
claim-not-from-zero-over = { CAPITAL($name) } ist von null nicht zu unterscheiden: Das Verhältnis hat keine untere Grenze über null.
claim-two-bounds = Jede Grenze gilt mit 95 %, beide zusammen mit mindestens 90 %.
claim-about-within = „Etwa“ heißt hier: auf { $share } genau; eine eigene Festlegung, die Aussage kann eine andere nennen.
claim-ratio-at-least = { CAPITAL($a) } enthält mindestens { $factor }-mal so viel { $what ->
    [none] wie
   *[other] { $what } wie
} { $b }.
claim-ratio-about = { CAPITAL($a) } enthält etwa { $factor }-mal so viel { $what ->
    [none] wie
   *[other] { $what } wie
} { $b }.
claim-ratio-as-much = { CAPITAL($b) } enthält etwa so viel { $what ->
    [none] wie
   *[other] { $what } wie
} { $a }.
claim-ratio-at-most = { CAPITAL($a) } enthält höchstens { $factor }-mal so viel { $what ->
    [none] wie
   *[other] { $what } wie
} { $b }.
claim-ratio-between = { CAPITAL($a) } enthält { $factor }- bis { $high }-mal so viel { $what ->
    [none] wie
   *[other] { $what } wie
} { $b }.
claim-ratio-share = { CAPITAL($b) } enthält höchstens { $share } so viel { $what ->
    [none] wie
   *[other] { $what } wie
} { $a }.
claim-ratio-less = { CAPITAL($b) } enthält weniger { $what ->
    [none] als
   *[other] { $what } als
} { $a }.
claim-ratio-more = { CAPITAL($b) } enthält mehr { $what ->
    [none] als
   *[other] { $what } als
} { $a }.
claim-ratio-more-at-least = { CAPITAL($b) } enthält mindestens { $factor }-mal so viel { $what ->
    [none] wie
   *[other] { $what } wie
} { $a }.
claim-ratio-cannot-tell = Ob { $b } weniger { $what ->
    [none] enthält
   *[other] { $what } enthält
} als { $a }, lässt sich aus diesen Zahlen nicht sagen.
claim-ratio-scientific = { $a } { $xa }; { $b } { $xb }; Verhältnis { $a } / { $b } { $ratio } (95-%-Intervall nach Fieller: { $interval })
claim-ratio-scientific-bounds = { $a } { $xa }; { $b } { $xb }; Verhältnis { $a } / { $b }: { $interval } (einseitige 95-%-Grenzen)
claim-ratio-probability = { $ratio }; Wahrscheinlichkeit, dass es mindestens { $factor } ist: { $p }
claim-ratio-alone = { $ratio }.
claim-ratio-of = { CAPITAL($what) }: { $ratio }.
claim-value = der Wert
claim-n = n
claim-litres-in = { $x } { $what ->
    [none] entsprechen
   *[other] { $what } entsprechen
} der Masse nach { $n } Liter in { $large }.
claim-kilograms-in = { $x } { $what ->
    [none] entsprechen
   *[other] { $what } entsprechen
} { $n } Kilogramm in { $large }.
claim-drops-in = { $x } { $what ->
    [none] entsprechen
   *[other] { $what } entsprechen
} der Masse nach { $n } Tropfen in { $large }.
claim-seconds-in = { $x } { $what ->
    [none] entsprechen
   *[other] { $what } entsprechen
} der Masse nach { $n } Sekunde(n) in { $large }.
claim-years = { $n } Jahren
claim-pools = { $n } Becken von je { $volume }
claim-times = { $n } × { $large }
claim-analogy-scientific = { $x } sind { $share } Teile in 10¹² der Masse nach (ein Liter Wasser als 1 kg gerechnet); n in „{ $picture }“ liegt bei { $interval } (95 %).
claim-analogy-with-mass = { $scientific } In den { $volume } von { $large } sind das { $mass }.
claim-n-in = n in: { $picture }
claim-picture-of-smallness = Ein Bild der Kleinheit sagt nichts über die Wirkung: Auch wenig kann zählen.
claim-volume-differs = Die Aussage gibt { $body } { $stated }; in der Tabelle stehen { $volume }, damit wurde gerechnet.
claim-volume-recalled = Das Volumen von { $body }, { $volume }, ist aus dem Gedächtnis angegeben: vor Gebrauch mit einer gedruckten Quelle vergleichen.
claim-arithmetic = Rechnung
claim-volume-from = Volumen von { $body }: { $volume }, { $source }, { $provenance ->
    [seen] gesehen
    [recalled] aus dem Gedächtnis
    [arithmetic] gerechnet
   *[other] { $provenance }
}
claim-volume-stated = Volumen von { $body }: { $volume }, in der Aussage angegeben
claim-published-figure = der veröffentlichte Wert für { $name }, { $x } ({ $source })
claim-reference-without-u = Die Vergleichsgröße { $name } hat weder Unsicherheit noch Streuung: Für diese Art Wasser lässt es sich darum nicht sagen.
claim-reference-without-source = Die Vergleichsgröße { $name } nennt keine Quelle.
claim-reference-recalled = Der Wert für { $name } ist aus dem Gedächtnis angegeben: vor Gebrauch mit der Quelle vergleichen.
claim-reference-range = { CAPITAL($name) }: Die Quelle nennt den Bereich { $low } bis { $high }; die Aussage muss für ihn ganz gelten.
claim-as-published = Verglichen allein mit dem veröffentlichten Wert für { $name }, wie er dasteht.
claim-reference-note = { $name }: { $note }
claim-free-of = { CAPITAL($name) } ist frei von { $of ->
    [none] dem Stoff
    [Pflanzenschutzmittel] Pflanzenschutzmitteln
   *[other] { $of }
}.
claim-free-of-meaning = { CAPITAL($name) } ist frei von { $of ->
    [none] dem Stoff
    [Pflanzenschutzmittel] Pflanzenschutzmitteln
   *[other] { $of }
}, das heißt: weniger als { $level }.
claim-none-found = In { $name } wurde { $of ->
    [none] nichts von dem Stoff
    [Pflanzenschutzmittel] kein Pflanzenschutzmittel
   *[other] { $of } nicht
} gefunden; falls etwas davon enthalten ist, dann höchstens { $bound }.
claim-none-of-many = Von { $n ->
    [one] { $n } gesuchten Stoff
   *[other] { $n } gesuchten Stoffen
} ({ $of }) wurde in { $name } keiner gefunden; von jedem sind höchstens { $bound } enthalten.
claim-none-without-bound = In { $name } wurde { $of ->
    [none] nichts von dem Stoff
    [Pflanzenschutzmittel] kein Pflanzenschutzmittel
   *[other] { $of } nicht
} gefunden; unterhalb welcher Grenze, sagt der Bericht nicht.
claim-contains = { CAPITAL($name) } enthält { $x }{ $of ->
    [none] {""}
   *[other] {" "}{ $of }
}.
claim-contains-under = { CAPITAL($name) } enthält { $x }{ $of ->
    [none] {""}
   *[other] {" "}{ $of }
}, weniger als { $level }.
claim-found-in-under = Gefunden in { $name }, jeweils weniger als { $level }: { $found }.
claim-found-in-bottle = Gefunden in der Flasche von { $name }, zusammen mit dem Metall eines Abschnitts, den keine Blindprobe erfasste: { $found }.
claim-found-in = Gefunden in { $name }: { $found }.
claim-absence-scientific = { $items }; gefunden (über der Erkennungsgrenze, oder mit 95 % über null): { $found } von { $n }.
claim-and-so-on = { $items }; … ({ $n })
claim-absence-without-level = Keine Messung zeigt, dass nichts da ist; sie zeigt, wie viel höchstens. Wer sagt, was „frei von“ heißt (means_below), bekommt eine Antwort.
claim-only-tested = Über Stoffe, nach denen nicht gesucht wurde, und über Keime ist nichts gesagt.
claim-lowest = { CAPITAL($name) } enthält am wenigsten { $what ->
    [none] von
   *[other] { $what } von
} allen.
claim-highest = { CAPITAL($name) } enthält am meisten { $what ->
    [none] von
   *[other] { $what } von
} allen.
claim-order = In steigender { $what ->
    [none] Folge
   *[other] Folge von { $what }
}: { $names }.
claim-is-lower = { CAPITAL($low) } enthält weniger als { $high }.
claim-is-higher = { CAPITAL($low) } enthält nicht weniger als { $high }, sondern mehr.
claim-not-in-order = { CAPITAL($low) } und { $high } lassen sich nicht ordnen.
claim-sentences = { $one } { $next }
claim-ranking-scientific = { $items }. Paare gemeinsam mit 95 % geprüft{ $what ->
    [none] {""}
   *[other] {" "}({ $what })
}: { $pairs }
claim-before = vorher
claim-after = nachher
claim-fallen = { CAPITAL($what) } in { $name } hat abgenommen.
claim-risen = { CAPITAL($what) } in { $name } hat zugenommen.
claim-unchanged = { CAPITAL($what) } in { $name } hat sich nicht verändert.
claim-fallen-by = { CAPITAL($what) } in { $name } hat um mindestens { $percent } abgenommen.
claim-risen-by = { CAPITAL($what) } in { $name } hat um mindestens { $percent } zugenommen.
claim-unchanged-within = { CAPITAL($what) } in { $name } hat sich um höchstens { $percent } verändert.
claim-no-change-within = Nicht gefunden wurde, dass sich { $what } in { $name } verändert hat; eine Veränderung um bis zu { $percent } ist nicht ausgeschlossen.
claim-no-change = Dass sich { $what } in { $name } verändert hat, lässt sich weder zeigen noch ausschließen.
claim-method-changed = Zwischen beiden hat das Verfahren gewechselt: Ob sich { $what } in { $name } verändert hat, ist vom Sprung des Verfahrens nicht zu trennen.
claim-change-scientific = { CAPITAL($what) }: { $before } { $xb }; { $after } { $xa }; Verhältnis { $before } / { $after } (95-%-Intervall nach Fieller): { $interval }.
claim-change-scientific-bounds = { CAPITAL($what) }: { $before } { $xb }; { $after } { $xa }; Verhältnis { $before } / { $after }: { $interval } (einseitige 95-%-Grenzen).
claim-falling = { CAPITAL($what) } in { $name } nimmt ab{ $span ->
    [none] {""}
   *[other] {" "}{ $span }
}.
claim-rising = { CAPITAL($what) } in { $name } nimmt zu{ $span ->
    [none] {""}
   *[other] {" "}{ $span }
}.
claim-no-slope = Nicht gefunden wurde, dass { $what } in { $name }{ $span ->
    [none] {""}
   *[other] {" "}{ $span }
} zu- oder abnahm; dass es keine Zu- oder Abnahme gab, zeigt das nicht.
claim-span = von { $from } bis { $to }
claim-slope-scientific = { CAPITAL($what) }: Steigung { $slope } (95-%-Intervall { $low } bis { $high }){ $span ->
    [none] {""}
   *[other] {" "}{ $span }
}.
claim-slope-in = Steigung, { $unit }
claim-methods-apart = Das Verfahren hat gewechselt ({ $methods }), und beide liefen nicht nebeneinander.
claim-unchanged-without-level = Dass kein Unterschied gefunden wurde, zeigt nicht, dass es keinen gibt. Zu sagen ist, wie viel als keiner gilt (within_percent).
claim-two-points = Zwei Zeitpunkte sind noch kein Trend.
claim-percent-of-slope = Eine Steigung allein sagt nicht, wie viel Prozent sie ausmacht: Dazu gehören der Gehalt zu Beginn mit seiner Unsicherheit (start) und die Zahl der Jahre (years).
claim-holds = { CAPITAL($name) } enthält { $x }{ $what ->
    [none] {""}
   *[other] {" "}{ $what }
}.
claim-holds-less = { CAPITAL($name) } enthält weniger als { $level }{ $what ->
    [none] {""}
   *[other] {" "}{ $what }
}.
claim-holds-more = { CAPITAL($name) } enthält mehr als { $level }{ $what ->
    [none] {""}
   *[other] {" "}{ $what }
}.
claim-holds-unbounded = Wie viel { $what ->
    [none] {""}
   *[other] { $what }{" "}
}{ $name } enthält, lässt sich aus dieser Zahl nicht sagen.
claim-threshold-scientific = { $name } { $x }; wahrer Wert { $interval } { $unit } (einseitige 95-%-Grenzen)
claim-threshold-probability = { $threshold }; Wahrscheinlichkeit, dass er unter { $level } liegt: { $p }
claim-upper-bound-only = { CAPITAL($name) }: Bekannt ist nur eine obere Schranke.
claim-lower-bound-only = { CAPITAL($name) }: Bekannt ist nur eine untere Schranke.
claim-difference-at-least = { CAPITAL($a) } enthält mindestens { $x } mehr { $what ->
    [none] als
   *[other] { $what } als
} { $b }.
claim-difference-at-most = { CAPITAL($a) } enthält höchstens { $x } mehr { $what ->
    [none] als
   *[other] { $what } als
} { $b }.
claim-difference-cannot-tell = Ob { $a } oder { $b } mehr{ $what ->
    [none] {""}
   *[other] {" "}{ $what }
} enthält, lässt sich aus diesen Zahlen nicht sagen.
claim-difference = { $a } − { $b }, { $unit }
claim-difference-scientific = { $a } { $xa }; { $b } { $xb }; Differenz { $a } − { $b }: { $interval } { $unit } (95-%-Intervall)
claim-difference-scientific-bounds = { $a } { $xa }; { $b } { $xb }; Differenz { $a } − { $b }: { $interval } { $unit } (einseitige 95-%-Grenzen)
claim-reference-from = { CAPITAL($name) }: Die Quelle nennt den Bereich ab { $low }; die Aussage muss für ihn ganz gelten.
claim-reference-up-to = { CAPITAL($name) }: Die Quelle nennt den Bereich bis { $high }; die Aussage muss für ihn ganz gelten.
claim-age-before-bomb = { $name ->
    [none] Dieses Wasser
   *[other] Das Wasser von { $name }
} fiel ganz vor den Bombentests, vor { $year }.
claim-age-before = { $name ->
    [none] Dieses Wasser
   *[other] Das Wasser von { $name }
} fiel ganz vor { $year }.
claim-age-older = { $name ->
    [none] Dieses Wasser
   *[other] Das Wasser von { $name }
} ist ganz älter als { $years } Jahre.
claim-age-since = von { $year } oder später
claim-age-younger = jünger als { $years } Jahre
claim-age-at-most = Höchstens { $share } { $name ->
    [none] dieses Wassers
   *[other] des Wassers von { $name }
} sind { $part }.
claim-age-at-least = Mindestens { $share } { $name ->
    [none] dieses Wassers
   *[other] des Wassers von { $name }
} sind { $part }.
claim-age-between = Zwischen { $low } und { $high } { $name ->
    [none] dieses Wassers
   *[other] des Wassers von { $name }
} sind { $part }.
claim-age-open = Wie viel { $name ->
    [none] dieses Wassers
   *[other] des Wassers von { $name }
} { $part } ist, lässt sich aus dem Gemessenen nicht sagen.
claim-age-before-but = { $name ->
    [none] Dieses Wasser
   *[other] Das Wasser von { $name }
} fiel vor { $year }, bis auf höchstens { $share } davon, nach jedem Fließmodell, das die Tracer übrig lassen.
claim-age-older-but = { $name ->
    [none] Dieses Wasser
   *[other] Das Wasser von { $name }
} ist älter als { $years } Jahre, bis auf höchstens { $share } davon, nach jedem Fließmodell, das die Tracer übrig lassen.
claim-age-share-of = Anteil { $name ->
    [none] dieses Wassers
   *[other] des Wassers von { $name }
}, der { $part } ist
claim-age-scientific = Anteil { $name ->
    [none] dieses Wassers
   *[other] des Wassers von { $name }
}, der { $part } ist: { $low } bis { $high } (einseitige 95-%-Grenzen, die weitesten der Modelle, die nicht verworfen sind: { $models }; nach { $tracers }, beprobt { $day }).
claim-age-no-model = Kein Modell des Alters { $name ->
    [none] dieses Wassers
   *[other] des Wassers von { $name }
} hat Bestand: Der Anteil, der { $part } ist, ist nicht bekannt.
claim-age-no-tracer = { $name ->
    [none] In diesem Wasser
   *[other] Im Wasser von { $name }
} wurde kein Tracer des Alters gemessen.
claim-age-tell-young = Tritium mit u von 0,1 TU oder weniger (Anreicherung oder Helium-Einwuchs) würde es sagen; mit Helium und Neon aus einem Kupferrohr auch das Alter des jungen Teils. FCKW sagen es in Wasser mit Sulfid oder Methan nicht.
claim-age-tell-middle = Zwischen etwa 75 und 1000 Jahren sagt es nur Argon-39 gut; Tritium mit u von 0,1 TU oder weniger sagt, ob jüngerer Regen darin ist, Kohlenstoff-14, ob das meiste weit älter ist.
claim-age-tell-old = Kohlenstoff-14 mit δ¹³C und der ganzen Karbonatchemie würde es sagen, innerhalb einer Spanne über seine Korrekturen.
claim-age-tell-oldest = Jenseits von etwa 30 000 Jahren sagt es Kohlenstoff-14 nicht mehr: Krypton-81 oder Helium-4 vielleicht.
claim-age-models-differ = Diese Modelle unterscheiden die Daten nicht: Nach { $first } beträgt der Anteil { $a }, nach { $second } { $b }.
claim-age-untested = Nicht geprüft, aus Mangel an Tracern: { $models }.
claim-age-one-sided = Nur von einer Seite bekannt (unter einer Grenze oder „nicht älter als“): { $tracers }.
claim-age-carbon-band = Kohlenstoff-14 allein: { $low } bis { $high } Jahre über alle seine Korrekturen; jedes Ende dieser Spanne zählte voll.
claim-age-carbon-open = Kohlenstoff-14 allein: mehr als { $low } Jahre über alle seine Korrekturen, ohne oberes Ende; die ganze Spanne zählte.
claim-age-carbon-not-in-full = Ein Ende der Spanne von Kohlenstoff-14 ließ sich mit den anderen Tracern nicht berechnen: Über Alter vor den Bombentests ist nichts gesagt.
claim-age-all-means = „Ganz“ und „älter als“ meinen das ganze Wasser bis auf weniger als { $share } davon, nie sein mittleres Alter, das höher ist.
