series-p = p { $p }
series-p-under = p < { $bound }
series-tau = Tau { $size }
series-tau-negative = Tau −{ $size }
series-fit = geeignet
series-with-care = mit Vorsicht
series-not-fit = nicht geeignet
series-fitness-none = { $share } nicht Nachgewiesenes: mehr, als irgendeine simulierte Reihe hatte
series-fitness = ein 95-%-Intervall { $figure ->
    [mean] des Mittels
    [median] des Medians
    [slope] der Steigung
   *[other] von { $figure }
} enthielt den wahren Wert in { $held } der simulierten { $shape ->
    [gamma] gammaverteilten
   *[lognormal] lognormalen
} Reihen (sd von ln { $scatter }) von { $values ->
    [one] { $values } Wert
   *[other] { $values } Werten
}, { $share } davon nicht nachgewiesen
series-fitness-scatter = die Streuung dieser Werte (sd von ln bis { $found }) ist größer als die jeder simulierten Reihe ({ $most })
series-fitness-unanswered = { $fitness }; { $share } der Reihen gaben keine begrenzte Antwort
series-fitness-few = { $fitness }; { $values ->
    [one] { $values } Wert ist
   *[other] { $values } Werte sind
} weniger, als irgendeine simulierte Reihe hatte
series-slope-coverage = Intervall der Steigung: { $word } ({ $why })
series-above-action = { $values ->
    [one] { $values } Wert
   *[other] { $values } Werte
} über der Eingriffsgrenze, zuerst am { $first }
series-shows-nothing = { $values ->
    [one] { $values } nicht nachgewiesener Wert mit einer Grenze über der Eingriffsgrenze: Er zeigt
   *[other] { $values } nicht nachgewiesene Werte mit einer Grenze über der Eingriffsgrenze: Sie zeigen
} nichts
series-run = { $values } hintereinander über dem Median der Grundreihe, bis { $last }
series-blanks-rise = die Werte steigen mit den Jahren ({ $tau }, { $p }): Ein mit ihnen korrigiertes Metall schiene sich zu ändern
series-blanks-fall = die Werte fallen mit den Jahren ({ $tau }, { $p }): Ein mit ihnen korrigiertes Metall schiene sich zu ändern
series-neighbours = Nachbarn in der Zeit gleichen einander (Koeffizient { $rho } über { $spacing } Jahre): { $plain } wäre zu günstig; { $serial } berücksichtigt das und entscheidet, mit seinem Intervall
series-correlation-too-few = { $rows ->
    [one] { $rows } Wert ist zu wenig
   *[other] { $rows } Werte sind zu wenige
}, um eine Korrelation zu erkennen: p ist { $none } ohne eine solche zwischen Nachbarn, { $some } bei einem Koeffizienten von { $rho_some }, { $much } bei { $rho_much }; das größte entscheidet
series-correlation-untold = { $rows ->
    [one] { $rows } Wert ist zu wenig
   *[other] { $rows } Werte sind zu wenige
}, um eine Korrelation überhaupt zu erkennen: p und das Intervall gelten nur, wenn Nachbarn in der Zeit einander nicht gleichen
series-few-years = { $years ->
    [one] { $years } Jahr
   *[other] { $years } Jahre
} mit Werten in denselben Jahresabschnitten: Keine Reihenfolge so weniger Jahre ist selten genug, um eine Änderung zu zeigen; dazu braucht es { $least }
series-limits-fell = die Grenzen fielen mit den Jahren ({ $tau }): Das allein kann den Test verschieben
series-limits-fell-tested = die Grenzen fielen mit den Jahren ({ $tau }): Das allein kann den Test verschieben; mit allem unter der höchsten Grenze gleichgesetzt: { $p }
series-limits-rose = die Grenzen stiegen mit den Jahren ({ $tau }): Das allein kann den Test verschieben
series-limits-rose-tested = die Grenzen stiegen mit den Jahren ({ $tau }): Das allein kann den Test verschieben; mit allem unter der höchsten Grenze gleichgesetzt: { $p }
series-slope-open = das nicht Nachgewiesene lässt die Steigung offen: Es lässt sich keine Gerade angeben
series-slope-unbounded = das Intervall der Steigung hat auf einer oder beiden Seiten keine Grenze: zu wenige Werte, zu viel nicht Nachgewiesenes oder zu ähnliche Nachbarn
series-step = eine Stufe am { $date } ({ $what }): { $p }; siehe den Trend ohne die Stufe
series-step-given = angegebenes Datum
series-step-method = Verfahren von „{ $from }“ zu „{ $to }“
series-step-first-stated = Verfahren vorher nicht angegeben, dann „{ $to }“
series-mass-below = { $share } der Product-Limit-Schätzung liegen unter dem niedrigsten bekannten Wert ({ $lowest }): Ihr Mittel ist als die zwei Zahlen gegeben, zwischen denen es liegt
series-shape-doubtful = die Wahrscheinlichkeitsdarstellung korreliert nur mit { $correlation } (unter 0,95): Eine lognormale Gestalt ist zweifelhaft
series-no-method = kein Verfahren gibt ein Mittel, das die Simulation für so viele Werte und so viel nicht Nachgewiesenes geeignet fand
series-limits-above-values = { $values ->
    [one] { $values } nicht nachgewiesener Wert mit einer Grenze über jedem Wert ({ $highest }): Er sagt
   *[other] { $values } nicht nachgewiesene Werte mit einer Grenze über jedem Wert ({ $highest }): Sie sagen
} nichts über diese Werte
series-all-limits-above-values = { $values ->
    [one] { $values } nicht nachgewiesener Wert
   *[other] { $values } nicht nachgewiesene Werte
} mit einer Grenze über jedem Wert ({ $highest }): Kein nicht nachgewiesener sagt etwas über diese Werte
series-not-positive = { $values ->
    [one] { $values } Wert oder Grenze bei oder unter null: beibehalten
   *[other] { $values } Werte oder Grenzen bei oder unter null: beibehalten
}; kein Logarithmus, also keine lognormale oder Gamma-Antwort
series-order = die Zeilen stehen nicht in der Folge der Tage: Sie wurden geordnet
series-date-repeated = { $rows ->
    [one] { $rows } Zeile teilt
   *[other] { $rows } Zeilen teilen
} einen Tag mit einer anderen (die erste: { $first }): Werte eines Tages werden nicht miteinander verglichen
series-figure = { $sign ->
    [minus] −{ $size }
   *[plus] { $size }
}
series-unbounded = ∞
series-unbounded-below = −∞
series-below = <{"\u00A0"}{ $limit }
series-limits-normal = normale Vorhersagegrenzen der Grundreihe (bei einer langen 2 und 3 sd)
series-limits-highest = höchster bekannter Wert einer Grundreihe mit nicht Nachgewiesenem: Ein weiterer Wert liegt mit { $confidence } Vertrauen darunter
series-p-exact = exakt: alle Anordnungen gezählt
series-p-normal = Normalnäherung mit der Varianz für Bindungen und nicht Nachgewiesenes, mit Stetigkeitskorrektur
series-p-arrangements = { $draws ->
    [one] { $draws } zufällige Anordnung
   *[other] { $draws } zufällige Anordnungen
}
series-p-chi-squared = Chi-Quadrat mit { $freedom ->
    [one] { $freedom } Freiheitsgrad
   *[other] { $freedom } Freiheitsgraden
}
series-p-permutation-variance = Normalnäherung mit der Permutationsvarianz, mit Stetigkeitskorrektur
series-p-seasons = Normalnäherung über die Reihenfolgen der Jahre, jedes mit allen seinen Abschnitten
series-p-years-counted = exakt: alle Reihenfolgen der Jahre gezählt, jedes mit allen seinen Abschnitten
series-mann-kendall = Mann-Kendall-Test
series-seasonal-month = saisonaler Kendall-Test nach Monaten
series-seasonal-quarter = saisonaler Kendall-Test nach Vierteljahren
series-slope-non-detects = Akritas–Theil–Sen, weil es nicht Nachgewiesenes gibt (zwei nicht nachgewiesene Werte, oder ein Wert unter einer Grenze, haben keine sichere Ordnung)
series-slope-all-known = Theil–Sen, weil jeder Wert bekannt ist
series-trend-method = { $test }; p: { $p }; Steigung: { $slope }; ihr Intervall enthält die Steigungen, die der Test nicht verwirft; p und Intervall, die die Korrelation der Nachbarn berücksichtigen, stehen daneben und entscheiden
series-power-method = Simulation lognormaler Werte, die sich vom ersten Tag an ändern, Mann-Kendall-Test
series-by-product-limit = nach der Product-Limit-Schätzung
series-by-order-statistics = nach der Regression auf Ordnungsstatistiken
series-by-lognormal = nach der lognormalen Likelihood
series-by-gamma = nach der Gamma-Likelihood
series-summary-method = vier Verfahren nebeneinander, nichts an die Stelle von nicht Nachgewiesenem gesetzt; 95-%-Intervalle: Product-Limit-Schätzung nach der Varianz von Greenwood (Perzentile: exakte Ränge über den Grenzen), Ordnungsstatistiken nach Bootstrap, Likelihood nach Profil
series-compare-scores = Score-Test mit dem Gewicht { $weight }; Verschiebung: zweite Gruppe minus erste, die Verschiebung, bei der Gehans Statistik null ist (Hodges–Lehmann)
series-compare-signed-ranks = Vorzeichen-Rang-Test der Paare (alle bekannt); Verschiebung: Median der Paarmittel der Differenzen, zweite minus erste
series-compare-signs = Vorzeichentest der Paare mit sicherer Ordnung, weil es nicht Nachgewiesenes gibt (oder keinen Unterschied); eine Verschiebung wird nicht angegeben
