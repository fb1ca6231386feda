water-charge-not-checked = Der pH wurde aus der Ladungsbilanz bestimmt, also prüft die Bilanz nichts.
water-charges-inside = Kationen { $cations } und Anionen { $anions } meq/L, wie analysiert, unterscheiden sich um { $difference }: innerhalb der Schranke von { $gate } ({ $rule }).
water-charges-beyond = Kationen { $cations } und Anionen { $anions } meq/L, wie analysiert, unterscheiden sich um { $difference }: jenseits der Schranke von { $gate } ({ $rule }).
water-charges-cannot-tell = Kationen { $cations } und Anionen { $anions } meq/L, wie analysiert, unterscheiden sich um { $difference }: Ob das innerhalb der Schranke von { $gate } ({ $rule }) liegt, ist nicht zu entscheiden.
water-charges-incomplete = Analysiert sind Kationen { $cations } und Anionen { $anions } meq/L; ohne { $missing } ist über ihre Bilanz nicht zu entscheiden.
water-differ-by = { $difference-expanded } (k = 2)
water-differ-by-assumed = { $difference-expanded } (k = 2; u von { $assumed } angenommen, wo keine Unsicherheit angegeben ist)
water-differ-between = { $low } bis { $high }, je nach dem, was nicht nachgewiesen wurde, jeweils ± { $u-expanded } (k = 2)
water-differ-between-assumed = { $low } bis { $high }, je nach dem, was nicht nachgewiesen wurde, jeweils ± { $u-expanded } (k = 2; u von { $assumed } angenommen, wo keine Unsicherheit angegeben ist)
water-conductivity = Die berechnete Leitfähigkeit ist das { $ratio }-Fache der gemessenen (0,9 bis 1,1 ist üblich).
water-solids = Das gemessene Gelöste ist das { $ratio }-Fache der Summe dessen, was analysiert wurde (1,0 bis 1,2 ist üblich).
water-ph-agrees = Feld-pH { $field } und Labor-pH { $laboratory } stimmen innerhalb 0,3 überein.
water-ph-rose = Der Labor-pH { $laboratory } liegt über dem Feld-pH { $field }: CO2 entwich unterwegs; der Feld-pH gilt.
water-ph-fell = Der Labor-pH { $laboratory } liegt unter dem Feld-pH { $field }: Unterwegs wurde etwas oxidiert oder fiel aus; der Feld-pH gilt.
water-alkalinity-of-carbonate = { $carbonate } der Alkalität sind Carbonat; der Rest ist Borat, Silikat, Sulfid, Phosphat, Ammoniak oder Hydroxid.
water-carbonate-beyond-alkalinity = Carbonat macht { $carbonate } der Alkalität aus: mehr als die ganze. Freie Säure oder ein Metall, das Hydroxid bindet, nimmt den Unterschied auf, oder eines von pH, Alkalität und Kohlenstoff ist falsch.
water-alkalinity-and-its-parts = Die Alkalität steht neben HCO3 und CO3, aus denen sie besteht; die Alkalität gilt.
water-carbon-dioxide-beside-ph = Freies CO2 ist berichtet und folgt auch aus pH und Alkalität; pH und Alkalität gelten.
water-acidity-beside-ph = Eine Acidität von { $acidity } ist berichtet; der pH allein steht für { $acid } freie Säure, den Rest nehmen gelöste Metalle auf.
water-carbon-twice = Anorganischer Kohlenstoff wurde gemessen und folgt auch aus Alkalität und pH; die Alkalität gilt.
water-oxygen-beside-sulfide = Die Sonde zeigt { $oxygen } Sauerstoff neben Sulfid; ihre untere Grenze liegt bei { $floor }. Beide bestehen nicht lange nebeneinander: Luft kam hinein, oder die Sonde zeigt zu viel.
water-oxygen-at-floor = Die Sonde zeigt { $oxygen } Sauerstoff neben Sulfid, nicht mehr, als eine Sonde in Wasser ohne Sauerstoff zeigt ({ $floor }).
water-nitrate-beside-sulfide = Nitrat wurde neben Sulfid gefunden: Zwei Wässer wurden gemischt, oder eines der beiden ist nicht da.
water-dissolved-above-total = { $analyte }: filtriert gegen unfiltriert aus demselben Wasser; über beide Unsicherheiten hinaus darf die filtrierte Flasche nicht mehr enthalten.
water-stated-twice = { $component } ist zweimal angegeben ({ $first } und { $second }); die erste Angabe gilt.
water-alkalinity-twice = Die Alkalität ist zweimal angegeben; die erste (Feld vor Labor) gilt.
water-ions-all = Alle Hauptionen sind da.
water-ions-missing = Nicht gemessen: { $ions }; sie fehlen in Ladungsbilanz, Leitfähigkeit und Ionenstärke.
water-ions-and-alkalinity-missing = Nicht gemessen: { $ions }, Alkalität (oder DIC); sie fehlen in Ladungsbilanz, Leitfähigkeit und Ionenstärke.
water-alkalinity-missing = Nicht gemessen: Alkalität (oder DIC); sie fehlt in Ladungsbilanz, Leitfähigkeit und Ionenstärke.
water-redox-missing = Weder Eh noch gelöster Sauerstoff wurde gemessen.
water-not-worked-out = Die Analyse ließ sich nicht ausrechnen: { $why }.
