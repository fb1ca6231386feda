age-of-tracer = { $tracer } der Probe
age-no-unit = eine Zahl ohne Einheit
age-unit = die Einheit „{ $unit }“
age-one-of-units = eine von { $known }; „pMC“ allein kann 100 F14C heißen oder einen Wert, der auf das Jahr der Messung zerfallen ist: das Labor fragen
age-no-date = kein Tag der Probenahme
age-date-of-sampling = der Tag der Probenahme vom Feldblatt: ein Alter zählt von ihm zurück
age-year-of-sampling = Jahr der Probenahme
age-value-with-u-above = ein Wert mit einer Standardunsicherheit über 0; bei „nicht nachgewiesen“ eine Schranke über 0: das Labor nach beiden fragen
age-f14c-allowed = höchstens etwa 2, die höchste Luft nach den Bombentests: prüfen, ob die Zahl in Prozent steht oder das Wasser mit Kohlenstoff-14 verunreinigt ist
age-history-of = Verlauf von { $tracer }
age-give-history = ein Verlauf der Region mit Jahren, Werten, u, Region und Quelle
age-no-source = keine Region oder keine Quelle
age-source-and-region = die Region, für die er gilt, und woher die Zahlen sind
age-year-after = { $year } nach { $before }
age-rising-years = steigende Jahre, jedes einmal
age-value-of-year = { $value } im Jahr { $year }
age-history-value = Zahlen von 0 oder mehr (Tritium über 0, weil zwischen den Jahren sein Logarithmus gelesen wird), u von 0 oder mehr
age-not-given = nichts
age-background-before = Hintergrund von { $tracer } vor { $year }
age-natural-background = der natürliche Hintergrund mit seiner u, über 0 bei Tritium, 0 bei einem Gas, das noch niemand herstellte
age-history-ends = Der Verlauf von { $tracer } endet { $last }, die Probe ist von { $sampled }: Der letzte Wert gilt weiter, mit doppelter u. Den Verlauf bis zur Probe ergänzen.
age-history-gap = Der Verlauf von { $tracer } hat zwischen { $from } und { $to } keinen Wert: Er wird gerade hindurch gezogen.
age-weighting-function = das Integral der Gewichtsfunktion
age-parameter = { $parameter ->
    [mean-age] mittleres Alter
    [eta] η (Exponential-Kolben)
    [dispersion] Dispersion D
    [scale] Maßstab Ta
    [screen] Filter
    [share] Anteil des ersten Wassers
   *[other] { $parameter }
}
age-one-or-more = 1 oder mehr; 1 ist das Exponentialmodell
age-youngest-before-oldest = ein jüngstes Alter von 0 oder mehr und ein höheres ältestes
age-never-above = kein Jahr seit 1953, dessen Regen auf mehr als { $before } zerfällt, das Höchste, was älteres Wasser haben kann
age-rain-above-old = ein Verlauf, der von vor 1953 über die Bombentests bis zur Probe reicht
age-value-u = { $value-expanded } (k = 2)
age-below-limit = unter { $limit }
age-tritium-before = Tritium { $value } liegt unter { $before }, dem Höchsten, was Wasser von vor 1953 hier heute haben kann: Das Wasser kann ganz von vor 1953 sein; höchstens { $younger } davon sind jünger.
age-tritium-after = Tritium { $value } liegt über { $after }, dem Geringsten, was Wasser ganz von { $from } oder später haben kann: Regen der Zeit seither ist darin.
age-tritium-between = Tritium { $value } liegt weder klar unter { $before } noch klar über { $after }: Mischwasser, oder es lässt sich nicht sagen.
age-tritium-too-coarse = Tritium { $value }: Die Messung sieht { $seen } und mehr, und hier entscheiden { $before }. Anreicherung oder Helium-Einwuchs mit u von 0,1 TU oder weniger kann es sagen; diese nicht.
age-months-of-rain = Monate mit Regen
age-summer-and-winter = Sommer- und Wintermonate angeben, deren Regen sich vom Grundwasser unterscheidet
age-summer-over-winter = Versickerung im Sommer geteilt durch die im Winter
age-no-gas = ein Tracer, der kein Gas der Luft ist
age-gas-of-the-air = SF6, CFC-11, CFC-12 oder CFC-113
age-recharge-temperature = Temperatur bei der Neubildung
age-recharge-height = Höhe der Neubildung
age-temperature-and-height = Temperatur und Höhe der Neubildung mit u, aus Edelgasen oder als Spanne: Ohne sie lässt sich kein Gas lesen
age-excess-air = Luftüberschuss
age-neon-or-argon = Luftüberschuss aus Neon oder Argon: Jeder cm³ STP/kg bringt ein Zehntel mehr SF6, also gibt es ohne ihn kein SF6-Alter
age-cfc-methane = { $tracer ->
    [CFC-12] CFC-12 gibt kein Alter: Methan wurde gefunden, und wo es entsteht, bauen Bakterien FCKW ab; das Wasser ist nicht älter als das scheinbare CFC-12-Alter, mehr lässt sich nicht sagen
   *[other] { $tracer } gibt kein Alter: Methan wurde gefunden, und wo es entsteht, bauen Bakterien FCKW ab
}
age-cfc-sulfide = { $tracer ->
    [CFC-12] CFC-12 steht nur als „nicht älter als“: Schwefelwasserstoff wurde gefunden
   *[other] { $tracer } gibt kein Alter: Schwefelwasserstoff wurde gefunden, und Bakterien solchen Wassers bauen es ab
}
age-cfc-oxygen = { $tracer ->
    [CFC-12] CFC-12 steht nur als „nicht älter als“: Sauerstoff liegt unter { $least }
   *[other] { $tracer } gibt kein Alter: Sauerstoff liegt unter { $least }, und es kann abgebaut sein
}
age-cfc-not-looked-at = { $tracer ->
    [CFC-12] CFC-12 steht nur als „nicht älter als“: Sauerstoff, Schwefelwasserstoff und Methan wurden nicht alle angesehen
   *[other] { $tracer } gibt kein Alter: Sauerstoff, Schwefelwasserstoff und Methan wurden nicht alle angesehen; sie messen
}
age-at-most-air = höchstens { $most }, das Höchste der Luft: Mehr ist Verunreinigung und gibt kein Alter
age-copper-tube = Helium des Kupferrohrs
age-bubbles = Blasen beim Füllen
age-tube-at-well-head = ein Rohr ohne Blasen: am Brunnenkopf unter dem eigenen Druck des Brunnens nehmen, nie aus dem Becken
age-half-life = Halbwertszeit von Tritium
age-half-life-of-laboratory = die Halbwertszeit, mit der das Labor den Wert auf den Tag der Probenahme zerfallen ließ (12,32 Jahre; ältere Berichte 12,43): danach fragen
age-gas-of-tube = { $gas ->
    [helium] Helium insgesamt
    [neon] Neon insgesamt
   *[other] { $gas }
}
age-at-least-solubility = etwa { $least } oder mehr, was Luft allein löst: Weniger heißt, dass unterwegs oder im Rohr Gas verloren ging; noch einmal beproben
age-terrigenic-helium = Helium aus dem Gestein
age-terrigenic-ratio = höchstens { $most }, wo 3He/4He des Gesteins nicht bekannt ist: Mantelhelium sähe aus wie das von Tritium; das Verhältnis bestimmen oder einen anderen Tracer nehmen
age-tritiogenic-helium = Helium-3 aus Tritium
age-tritiogenic-allowed = 0 oder mehr innerhalb von drei u: Weniger heißt verlorenes Gas oder eine Temperatur oder einen Luftüberschuss, die nicht zu diesem Wasser gehören
age-models-to-try = Modelle zum Probieren
age-name-a-model = mindestens eines nennen; partial-exponential braucht einen Filter, der über der Sohle endet
age-tracers-to-fit = Tracer für die Anpassung
age-measure-one = mindestens einen Tracer angeben
age-within-a-year = innerhalb eines Jahres um { $year }, als die anderen Tracer beprobt wurden
age-one-twice = ein Tracer zweimal
age-one-of-each = jeder Tracer einmal: von Flaschen, die übereinstimmen, den Mittelwert nehmen
age-initial-carbon = A0, Kohlenstoff-14 bei der Neubildung
age-band-of-initial-carbon = eine Spanne von F14C über 0 bis 1,5 über die Modelle, die gelten: kein Kohlenstoff-14-Alter ohne sie
age-draws-of-model = die gewichteten Ziehungen des Modells { $model }, die zu wenig wert sind; mehr ziehen,
age-ask-before-bomb = weniger als ein Zwanzigstel des Wassers fiel seit 1953
age-ask-part-young = mehr als ein Zwanzigstel des Wassers fiel seit 1953
age-ask-wholly-young = mehr als 19 von 20 Teilen des Wassers fielen seit 1953
age-decided-yes = { $count ->
    [one] Entschieden: { $asked }, nach dem einen Modell, das nicht verworfen ist.
   *[other] Entschieden: { $asked }, nach allen { $count } Modellen, die nicht verworfen sind.
}
age-decided-no = { $count ->
    [one] Entschieden, dass es nicht so ist: { $asked }, nach dem einen Modell, das nicht verworfen ist.
   *[other] Entschieden, dass es nicht so ist: { $asked }, nach allen { $count } Modellen, die nicht verworfen sind.
}
age-likely-yes = Wahrscheinlich, nach Modellen mit 95 % des Gewichts: { $asked }.
age-likely-no = Wahrscheinlich nicht so, nach Modellen mit 95 % des Gewichts: { $asked }.
age-cannot-tell = Ob es so ist, lässt sich nicht sagen: { $asked }. Die Modelle, die passen, stimmen nicht überein.
age-model-name = { $model ->
    [piston] Kolben
    [exponential] Exponential
    [exponential-piston] Exponential-Kolben
    [dispersion] Dispersion
    [partial-exponential] Teil-Exponential
    [piston-dead] Kolben mit totem Wasser
    [exponential-dead] Exponential mit totem Wasser
    [two] Exponential mit altem Kolbenwasser
   *[other] { $model }
}
age-not-determined = Durch so wenige Tracer nicht bestimmt: { $models }. Was sie zeigen, ist vor allem die Annahme davor.
age-by-construction = Passt von selbst, nichts ist geprüft: { $models }.
age-rejected = Verworfen bei 5 %: { $models }.
age-fits = Geprüft und nicht verworfen: { $models }.
age-disturbed = Kein Modell passt zu allen Tracern; ohne { $tracer } passt eines (p { $p }): { $reason }. Weggelassen wurde er nicht.
age-none-fits = Kein Modell passt zu den Tracern, und es hilft nicht, einen davon wegzulassen: Es wird kein Alter gegeben.
age-young-share = Vom Wasser fielen { $low } bis { $high } seit 1953, über alle Modelle, die passen (95 %).
age-mean-age = Mittleres Alter { $ranges } Jahre, über alle Modelle, die passen (95 %; bei Mischungen mit totem Wasser das des jungen Teils). Getrennte Spannen sind getrennte mögliche Alter; ihre Mitte ist keines.
age-dead-part-fits = Eine Mischung mit altem Wasser unbekannten Alters passt auch: Das mittlere Alter des ganzen Wassers hat kein oberes Ende.
age-most-unlike = Die zwei unähnlichsten Modelle, die passen, sind { $first } ({ $low } seit 1953) und { $second } ({ $high }); am meisten unterscheiden sie sich in { $tracer }.
age-reason-cfc = FCKW werden abgebaut, wo Sulfid oder Methan ist, und kommen durch Verunreinigung hinzu
age-reason-sf6 = manches Gestein gibt SF6 ab, und Luftüberschuss bringt es
age-reason-helium = Helium geht als Gas verloren, und Gestein bringt es
age-reason-carbon = aus Karbonatgestein und alter organischer Substanz kommt Kohlenstoff ohne Kohlenstoff-14 hinzu
age-reason-tritium = Verunreinigung bringt Tritium, und der Verlauf gilt vielleicht nicht für das Neubildungsgebiet
age-older-than-darcy = Das Alter nach Tracern übertrifft die Fließzeit nach Darcy (Wahrscheinlichkeit { $p }): die Porosität ansehen, unbewegtes Wasser, das mit dem bewegten Tracer tauscht, ein anderes Neubildungsgebiet.
age-younger-than-darcy = Die Fließzeit nach Darcy übertrifft das Alter nach Tracern (Wahrscheinlichkeit { $p }): eine Undichtigkeit an der Verrohrung ansehen, Porosität und Durchlässigkeit, ein näheres Neubildungsgebiet.
age-agrees-with-darcy = Das Alter nach Tracern widerspricht der Fließzeit nach Darcy nicht (Wahrscheinlichkeit, dass es länger ist: { $p }).
age-tracer-age-low = Alter nach Tracern, 2,5 %
age-tracer-age-high = Alter nach Tracern, 97,5 %
age-candidate-tracers = Tracer, die gemessen werden könnten
age-price-of = Preis von { $tracer }
age-all-rejected = jedes verworfen
age-find-disturbed = eines, das passt: zuerst den gestörten Tracer finden
age-dry-zone = Die trockene Zone ist { $thickness } mächtig: Tritium beginnt mit dem Regen, Gase am Wasserspiegel, Kohlenstoff-14, wo Karbonat von der Bodenluft getrennt wird. Ein Alter für alle mischt Uhren.
age-no-proof = ein Alter ist kein Beweis für Reinheit und keiner, dass Wasser zum Trinken taugt; das entscheiden die Analyse und die örtliche Behörde
age-prior = vor den Tracern zählt jedes Alter von { $low } bis { $high } auf seinem Logarithmus gleich, jedes Modell gleich; der Fluss gilt als stetig
age-history-used = { $tracer }: Verlauf von { $region } ({ $source })
age-half-lives = Halbwertszeiten: Tritium { $tritium }, Kohlenstoff-14 { $carbon }
age-no-preference = die ersten zwei Tracer bringen im Fehler der Simulation gleich viel für ihren Preis: keine Vorliebe
