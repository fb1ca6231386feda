chemistry-method = Was das Wasser ist
chemistry-method-text = Stoffmengenbilanzen nach Newton auf den Logarithmen der Aktivität gelöst; erweitertes Debye–Hückel für die Hauptionen, Davies für den Rest. Paare werden getrennt gehalten. Unsicherheit durch { $draws ->
    [one] { $draws } Ziehung
   *[other] { $draws } Ziehungen
} über die Analyse und über jede Konstante, andere veröffentlichte Werte eingeschlossen; ein Intervall enthält auch die Antwort jeder anderen Konstante. Ein Feststoff ist übersättigt, untersättigt, gesättigt (das Intervall enthält null und ist nicht breiter als 0,6), oder es ist nicht entscheidbar.
chemistry-table-of-constants = die Tabelle der Konstanten des Projekts: Jede Zeile nennt ihre Quelle und ob sie gesehen wurde oder aus dem Gedächtnis stammt
chemistry-propagation = JCGM 101:2008 (Fortpflanzung von Verteilungen)
chemistry-title = Was das Wasser von { $water } ist
chemistry-dissolve-or-form = Was es lösen oder bilden könnte
chemistry-redox = Redox
chemistry-of-itself = Was die Analyse über sich selbst sagt
chemistry-ion = { $symbol ->
    [Ca] Calcium
    [Mg] Magnesium
    [Na] Natrium
    [K] Kalium
    [HCO3] Hydrogencarbonat
    [Cl] Chlorid
    [SO4] Sulfat
    [NO3] Nitrat
   *[other] { $symbol }
}
chemistry-ions = { $one }-{ $next }
chemistry-kind = Ein Wasser der Art { $cations }-{ $anions } von pH { $ph } bei { $temperature } mit { $solids } gelösten Stoffen und einer Härte von { $hardness } als CaCO₃.
chemistry-carries-sulfide = Es führt Sulfid: Das Wasser hatte seinen Sauerstoff und einen Teil seines Sulfats verloren, ehe es heraufkam.
chemistry-holds-oxygen = Es enthält Sauerstoff und Nitrat.
chemistry-one-analysis = Der Bericht des Labors, die Messwerte am Brunnen und { $results ->
    [one] { $results } Ergebnis
   *[other] { $results } Ergebnisse
} des Messlaufs der Spurenmetalle stehen hier zusammen als eine Analyse.
chemistry-temperature-assumed = Keine Temperatur verzeichnet: { $temperature } angenommen.
chemistry-in-numbers = Das Wasser von { $water } in Zahlen
chemistry-measured-at-the-well = am Brunnen gemessen
chemistry-from-charge-balance = aus der Ladungsbilanz
chemistry-assumed = angenommen
chemistry-ionic-strength = Ionenstärke
chemistry-calculated = berechnet
chemistry-sides = Kationen { $cations } und Anionen { $anions }, wie analysiert
chemistry-between = { $low } bis { $high }
chemistry-charge-of-species = Ladungen der Spezies
chemistry-sides-of-species = positiv { $cations } und negativ { $anions }, Komplexe mit ihrer eigenen Ladung
chemistry-conductivity = Leitfähigkeit bei 25 °C
chemistry-calculated-from-ions = aus den Ionen berechnet
chemistry-calculated-over-measured = gemessen; das Berechnete ist das { $ratio }-Fache
chemistry-as-caco3 = mg/L als CaCO₃
chemistry-carbonate-hardness = berechnet; { $carbonate } davon durch Alkalität ausgeglichen
chemistry-carbonate-share = { $share } davon Carbonat
chemistry-dissolved-solids = gelöste Stoffe
chemistry-as-dried = berechnet, wie nach dem Trocknen gewogen
chemistry-pressure = log₁₀ des CO₂-Drucks
chemistry-upper-bound = obere Grenze
chemistry-outdoor-air = berechnet; Außenluft { $air }
chemistry-two-u = ± sind zwei Standardunsicherheiten.
chemistry-equivalents = Äquivalente von { $water }
chemistry-equivalents-said = meq/L. Kationen: { $cations }. Anionen: { $anions }.
chemistry-layer = { $ion } { $equivalents }
chemistry-columns-differ = Worin sich die Säulen unterscheiden, ist die Ladung, die die Analyse offen lässt.
chemistry-one-scale = Kationen und Anionen auf einer Skala, Komplexe bei ihrem Ion gezählt.
chemistry-shape = Form von { $water }
chemistry-shapes = Formen der Wässer
chemistry-shape-said = { $water }: Na + K { $sodium }, Ca { $calcium }, Mg { $magnesium } gegen Cl { $chloride }, HCO₃ + CO₃ { $carbonate }, SO₄ { $sulfate }
chemistry-shape-reads = Kationen links, Anionen rechts; die Größe ist die Konzentration, die Form die Art.
chemistry-solids-over = Übersättigt: { $solids }.
chemistry-solids-at-saturation = Gesättigt: { $solids }.
chemistry-solids-under = Untersättigt: { $solids }.
chemistry-solids-cannot-tell = Nicht entscheidbar: { $solids }.
chemistry-solids-far-under = Weit untersättigt, um mehr als drei Zehnerpotenzen: { $solids }.
chemistry-under = untersättigt
chemistry-solids-against = Feststoffe gegen das Wasser von { $water }
chemistry-need-not-form = Ein übersättigter Feststoff kann sich bilden, er muss nicht: Quarz tut es in der Kälte selten.
chemistry-indices = Sättigungsindizes mit ihren 95-%-Intervallen über Analyse und Konstanten.
chemistry-no-couple = Kein Paar wurde an beiden Enden gemessen.
chemistry-couples = Jedes Paar ergibt ein eigenes Eh: { $couples }.
chemistry-couple = { $couple } { $eh }
chemistry-couple-bound = { $couple } { $eh } (eine Grenze)
chemistry-couples-disagree = Sie weichen um { $spread } voneinander ab: Ein kaltes Grundwasser hat keinen einheitlichen Redoxzustand, und hier wird keiner berechnet.
chemistry-oxygen-at-floor = Sauerstoff zeigt nicht mehr, als eine Sonde in Wasser ohne Sauerstoff zeigen kann ({ $floor }): Sein Paar ist das höchste Eh, das er zulässt.
chemistry-electrode-read = Die Elektrode zeigte { $eh }; sie antwortet auf das Paar, das an Platin schnell ist.
chemistry-redox-couples = Redoxpaare von { $water }
chemistry-couples-down = Paare vom am stärksten oxidierten abwärts, mit dem Messwert der Elektrode.
chemistry-side-by-side = Die Wässer nebeneinander
chemistry-of-the-record = Die Wässer der Aufzeichnung
chemistry-all-solved = { $analyses ->
    [one] { $analyses } Analyse enthält
   *[other] { $analyses } Analysen enthalten
} die Hauptionen; { $solved } ließen sich ausrechnen, also alle.
chemistry-some-solved = { $analyses ->
    [one] { $analyses } Analyse enthält
   *[other] { $analyses } Analysen enthalten
} die Hauptionen; { $solved } ließen sich ausrechnen, { $failed } nicht:
chemistry-failed = { $water }: { $why }
chemistry-balances = Ladungsbilanz: Median { $median }, die mittleren neun Zehntel von { $low } bis { $high }. Um mehr als ihr u liegen { $inside } von { $waters } innerhalb der Schranke; bei { $open } ist es nicht zu entscheiden.
chemistry-conductivities = Die berechnete Leitfähigkeit ist im Median das { $ratio }-Fache der gemessenen; { $inside } von { $waters } liegen zwischen 0,9 und 1,1.
chemistry-balance-of = Ladungsbilanz von { $waters ->
    [one] { $waters } Wasser
   *[other] { $waters } Wässern
}
chemistry-within-gate = { $inside } von { $waters } liegen innerhalb von { $gate }.
chemistry-beyond-ten = { $beyond ->
    [one] { $beyond } jenseits von ±10 % steht in den äußersten Balken.
   *[other] { $beyond } jenseits von ±10 % stehen in den äußersten Balken.
}
chemistry-balance-axis = (Kationen − Anionen) / (Kationen + Anionen), %
chemistry-gate-either-way = { $gate } nach beiden Seiten
chemistry-unbalanced = Was die Analysen an Ladung offen lassen; ein Wasser, bei dem Nichtnachgewiesenes einen Bereich lässt, ist nicht gezeichnet.
chemistry-waters-in-numbers = Die Wässer in Zahlen
chemistry-conductivity-ratio = Verhältnis der Leitfähigkeiten
chemistry-conductivity-ratio-is = Verhältnis der Leitfähigkeiten: berechnet durch gemessen, beide bei 25 °C.
chemistry-by-shares = Die Wässer nach den Anteilen ihrer Ionen
chemistry-shares-of-equivalents = Anteile der Äquivalente.
chemistry-shares-said = { $water }: Ca { $calcium }, Mg { $magnesium }, Na + K { $sodium }; HCO₃ + CO₃ { $carbonate }, Cl { $chloride }, SO₄ { $sulfate }
chemistry-shares-of-many = Anteile der Äquivalente von { $waters ->
    [one] { $waters } Wasser als
   *[other] { $waters } Wässern als
} Wolke; die Zahlen stehen in der Tabelle der Ergebnisse.
chemistry-shares-read = Anteile der Äquivalente: links die Kationen, rechts die Anionen, darüber beide zusammen; eine Linie je 20 %.
chemistry-without-a-place = Ohne Platz darin: { $waters }.
chemistry-dissolves = ← löst sich
chemistry-may-form = kann sich bilden →
chemistry-index-axis = Sättigungsindex, log₁₀(IAP/K)
chemistry-index-with-interval = Index mit seinem 95-%-Intervall
chemistry-bound-from-non-detect = obere Grenze, da nicht nachgewiesen
chemistry-alternative-answer = Antwort mit einer anderen veröffentlichten Konstante
chemistry-waters = { $waters ->
    [one] { $waters } Wasser
   *[other] { $waters } Wässer
}
chemistry-sides-axis = ← Kationen, meq/L    Anionen, meq/L →
chemistry-cations = Kationen
chemistry-anions = Anionen
chemistry-others = andere
chemistry-eh-axis = Eh gegen die Standardwasserstoffelektrode, mV
chemistry-eh-measured = gemessen { $eh }
chemistry-couple-with-interval = Paar mit seinem Intervall
chemistry-couple-at-limit = eine Grenze: Ein Ende liegt bei dem, was sich nachweisen lässt
chemistry-electrode = Elektrode
chemistry-recalled = aus dem Gedächtnis
chemistry-computed = berechnet
chemistry-estimated = geschätzt
