overflow-section = Was der Überlauf für den Bach bedeutet
overflow-on-trip = { $stream }, Probenahme { $trip }
overflow-share = { $share } ± { $u } (k = 2) des Wassers von { $stream } unterhalb ist Überlauf von { $wells } ({ $stream } führte oberhalb { $flow }).
overflow-share-without-u = { $share } des Wassers von { $stream } unterhalb ist Überlauf von { $wells } ({ $stream } führte oberhalb { $flow }).
overflow-below = { $stream } unterhalb
overflow-waters = Die Wässer, die in { $stream } zusammenkommen
overflow-between = { $low } bis { $high }
overflow-not-known-of = nicht bekannt von { $waters }
overflow-value = { $analyte ->
    [alkalinity] Alkalität
    [conductivity] Leitfähigkeit
    [hardness] Härte
    [temperature] Temperatur
   *[other] { $analyte }
}
overflow-value-of = { $analyte ->
    [alkalinity] Alkalität
    [conductivity] Leitfähigkeit
    [hardness] Härte
    [temperature] Temperatur
   *[other] { $analyte }
}, { $fraction ->
    [filtered] filtriert
   *[other] { $fraction }
}
overflow-change = Was die Brunnen in { $stream } ändern
overflow-wells-together = Brunnen zusammen
overflow-below-computed = unterhalb, berechnet
overflow-mass-balance = Massenbilanz aus Abflüssen und Gehalten, vollständige Mischung; ± mit k = 2. Ein Wasser unter seiner Grenze ergibt einen Bereich.
overflow-not-conserved = (a) Bleibt nicht, wie es ist, wenn Wasser ohne Sauerstoff auf Luft trifft: Die Zahl gilt, bevor es reagiert oder ausfällt.
overflow-flow-not-read = Der Abfluss von { $stream } oberhalb der Brunnen wurde bei dieser Probenahme nicht abgelesen: Über den Bach unterhalb lässt sich nichts sagen.
overflow-no-result = Kein Ergebnis von { $water } bei dieser Probenahme: Sein Anteil ist bekannt, was er bringt, nicht.
overflow-not-mixed = Die Wässer ließen sich nicht mischen: { $why }.
