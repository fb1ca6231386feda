unfit-row = { $table }, Zeile { $row }, { $column }: gefunden { $found }, erwartet { $expected }
unfit-rows = { $one }; { $more }
unfit-correct = { $rows }. Mit einem Grund berichtigen oder einer doppelt eingelesenen Zeile die Fahrt nehmen
unfit-result = Ergebnis, Zeile { $row }: gefunden { $found }, erwartet { $expected }. Die Datei des Labors berichtigt noch einmal einlesen
unfit-unit = Einheit „{ $unit }“
unfit-unit-known = eine Einheit, die bekannt ist: { $why }
unfit-no-value = weder Wert noch Grenze
unfit-one-of-them = eines von beiden
