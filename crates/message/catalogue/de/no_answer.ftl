no_answer-few = Nötig sind mindestens { $needed ->
    [one] { $needed } Wert
   *[other] { $needed } Werte
} ({ $what }); da { $found ->
    [one] ist { $found }
   *[other] sind { $found }
}
no_answer-censored = { $n ->
    [one] der eine Wert ist ein Nichtnachweis
   *[other] alle { $n } Werte sind Nichtnachweise
}: höchstens { $share } solcher Werte liegen über { $limit } (95 % einseitig, exakt binomial); mehr lässt sich nicht sagen
no_answer-no-spread = { $n ->
    [one] der eine bekannte Wert ist
   *[other] alle { $n } bekannten Werte sind
} { $value }: keine Streuung, nicht zu berechnen: { $what }
no_answer-one-date = { $n ->
    [one] der eine Wert trägt
   *[other] alle { $n } Werte tragen
} ein Datum ({ $year }): es gibt keine Zeit, in der sich etwas ändern könnte
no_answer-not-positive = Wert { $number } ist { $value }: { $what } gilt für Werte über null; die Produktgrenze und die Rangverfahren nehmen ihn, wie er ist
no_answer-not-finite = Wert { $number } ist { $value }: gebraucht wird eine endliche Zahl
no_answer-out-of-range = { $name } ist { $value }, erlaubt: { $allowed }
no_answer-not-converged = { $what }: nach { $iterations ->
    [one] { $iterations } Schritt
   *[other] { $iterations } Schritten
} nicht zum Ziel gekommen (Rest { $residual })
no_answer-a-trend = ein Trend
no_answer-a-series = eine Reihe
no_answer-a-series-of-the-survey = eine Reihe der Übersicht
no_answer-the-baseline-of-a-control-chart = der Grundstock einer Regelkarte
no_answer-an-order-statistic-limit-at-this-confidence = eine Grenze aus Ordnungsstatistik bei dieser Sicherheit
no_answer-a-tolerance-or-prediction-limit = eine Toleranz- oder Vorhersagegrenze
no_answer-a-comparison--groups = ein Vergleich (Gruppen)
no_answer-a-group = eine Gruppe
no_answer-a-comparison = ein Vergleich
no_answer-a-paired-comparison--dates-in-both = ein Paarvergleich (Daten in beiden)
no_answer-regression-on-order-statistics--known-values = Regression auf Ordnungsstatistik (bekannte Werte)
no_answer-regression-on-order-statistics = Regression auf Ordnungsstatistik
no_answer-a-seasonal-test--years-in-one-season = ein saisonaler Test (Jahre in einer Jahreszeit)
no_answer-a-lognormal-likelihood = eine lognormale Likelihood
no_answer-a-gamma-likelihood = eine Gamma-Likelihood
no_answer-a-control-chart = eine Regelkarte
no_answer-a-lognormal-limit = eine lognormale Grenze
