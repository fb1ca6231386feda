air-not-counted = In der Luft über der offenen Flasche wurde nicht gezählt.
air-no-particle = Kein Teilchen von mindestens { $size } wurde in { $volume } gezählt; mit 95 % Vertrauen enthielt die Luft weniger als { $upper } je m³.
air-class-shown = Die Zählwerte bleiben unter den Grenzen der Klasse { $wanted }, und { $volume } genügen, um Klasse { $shown } zu zeigen: eine Ablesung an einer Stelle, gleichwertig der Klassengrenze, keine Klassifizierung des Schranks.
air-class-more-volume = Die Zählwerte bleiben unter den Grenzen der Klasse { $wanted }, aber { $volume } können sie nicht zeigen: mindestens { $needed } bei { $size } zählen, eine Minute oder länger.
air-class-without-limit = Keine gezählte Größe hat in Klasse { $wanted } eine Grenze; bei 0,3 oder 0,5 µm zählen.
air-class-exceeded = Die Zählwerte überschreiten die Grenzen der Klasse { $wanted }; sie bleiben unter denen der Klasse { $under }.
air-class-nine-exceeded = Die Zählwerte überschreiten die Grenzen der Klasse 9, und damit die der Klasse { $wanted }.
air-no-size = Keine gezählte Größe liegt dort, wo die Klassen Grenzen haben, 0,1 bis 5 µm; bei 0,3 oder 0,5 µm zählen.
