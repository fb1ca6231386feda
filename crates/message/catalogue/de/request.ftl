request-title = Auftrag an das Labor und Nachweis der Übergaben

request-subtitle = Auftrag { $request }

request-asked = Bitte die Flaschen in der Reihenfolge der Liste messen, in einem Messlauf. Die Etiketten verraten mit Absicht nicht, was darin ist: Bitte unter diesen Etiketten berichten und niemanden danach fragen, bevor die Ergebnisse vorliegen.

request-to = An: { $laboratory }

request-bottles = Flaschen in der Reihenfolge des Messlaufs
request-bottles-caption = { $bottles ->
    [one] { $bottles } Flasche
   *[other] { $bottles } Flaschen
}, jede einmal zu messen
request-place = Platz
request-label = Etikett
request-volume = Volumen
request-fraction = Fraktion
request-preserved = konserviert mit
request-whole = heil angekommen
request-not-said = nicht notiert
request-apart = Die Volumen sind die beim Füllen notierten. Was zusammengehört, steht in dieser Reihenfolge nicht beieinander.

request-analytes = Was zu messen ist
request-analytes-caption = Analyte, Einheiten und wie weit hinab
request-down-to = berichten bis hinab zu
request-own-limit = Ihre eigene Grenze, bitte angeben
request-zero = Unter der Grenze bitte < und die Grenze schreiben, nie null und nie eine leere Zelle; ein Wert unter null bleibt, wie er gelesen wurde, mit seiner Unsicherheit.

request-back = Was zurückkommen soll
request-back-rows = Je Etikett und Analyt eine Zeile: Etikett, Analyt, Wert, Einheit, Unsicherheit, Berichtsgrenze, Verfahren, Tag der Messung. Am besten als Datei mit den Überschriften der Tabelle, die diesem Formular beiliegt.
request-back-uncertainty = Bitte sagen, ob die Unsicherheit Standardunsicherheit oder erweiterte Unsicherheit ist, und mit welchem Faktor.
request-back-accredited = Bitte für jedes Verfahren sagen, ob es akkreditiert ist.
request-back-quality = Zur Messreihe: Verfahrensblindwert, Wiederfindung einer Aufstockung oder Kontrollprobe, eine Doppelbestimmung; je mit Zahlen und Einheit.
request-back-state = Bitte sagen, in welchem Zustand Kiste, Siegel und Flaschen ankamen und was davon übrig ist.

request-custody = Übergaben
request-custody-caption = Von Hand zu Hand
request-step = Schritt
request-when = Tag und Uhrzeit
request-name = Name
request-signature = Unterschrift
request-seal = Siegel
request-temperature = Kiste, °C
request-handed-over = übergeben
request-carried = befördert
request-received = empfangen
request-opened = geöffnet
request-measured = gemessen
request-kept = aufbewahrt, zurückgegeben oder entsorgt
