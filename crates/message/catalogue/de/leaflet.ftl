leaflet-title = Das Wasser von { $site }: was gemessen wurde
leaflet-title-of-several = Das Wasser: was gemessen wurde
leaflet-subtitle = für die Nachbarschaft, auf einer Seite
leaflet-numbers = Die Zahlen
leaflet-down-to = { CAPITAL($what) } wurde bis hinab zu { $level } gemessen.
leaflet-why-blanks = { CAPITAL($what) } wurde bis hinab zu { $level } gemessen; 1 ng/L ist ein Millionstel Milligramm im Liter. So wenig kommt auch aus Luft, Flaschen und Händen; darum gingen Blindproben, Flaschen mit reinem Wasser, denselben Weg und wurden mitgemessen.
leaflet-substance = Stoff
leaflet-limit = niedrigster Grenzwert
leaflet-provisional-mark = (vorläufig)
leaflet-rejected-one = { $substance } { $x } ({ $place }, { $day })
leaflet-rejected-one-undated = { $substance } { $x } ({ $place }, kein Tag angegeben)
leaflet-rejected-higher = Verworfen und höher als alles Geltende desselben Stoffs: { $names }.
leaflet-recalled = Mit * bezeichnete Grenzwerte sind aus dem Gedächtnis angegeben und mit ihrem Dokument zu vergleichen.
leaflet-not-for-health = Mit † bezeichnete Grenzwerte gelten Geschmack, Farbe oder Betrieb, nicht der Gesundheit.
leaflet-said = Was sich sagen lässt
leaflet-changed = Weggelassen sind Aussagen, deren Ergebnisse sich seit der Prüfung geändert haben: { $names }.
leaflet-not-tested = Was nicht geprüft wurde
leaflet-microbes-and-others = Keime (das Erste, was zu prüfen ist, ehe jemand trinkt); von Stoffen mit Grenzwert auch: { $names }.
leaflet-microbes = Keime (das Erste, was zu prüfen ist, ehe jemand trinkt).
leaflet-others = Von Stoffen mit Grenzwert: { $names }.
leaflet-more = { $n } weitere
leaflet-decides = Wer entscheidet
leaflet-decides-text = Wofür das Wasser verwendet werden darf, sagt das örtliche Gesundheitsamt, nicht dieses Blatt. Dieses Blatt ist keine Erlaubnis zum Trinken.
leaflet-caution-gas = Wasser, das nach faulen Eiern riecht, gibt Schwefelwasserstoff ab, der sich sammeln und ohne Warnung töten kann. Kein geschlossenes Brunnenhaus, keinen Schacht und keinen Behälter betreten, kein offenes Feuer; andere Gase wurden nicht gemessen. Nur geschulte Leute mit Gasmessgerät öffnen lassen, nie allein. Liegt jemand darin: nicht folgen, den Notruf wählen.
leaflet-caution-pressure = Die Brunnen stehen unter Druck. Nicht bohren, graben oder absperren; das ist Arbeit für zugelassene Fachleute.
leaflet-substance-of = { $substance }, { $fraction }
leaflet-all-of = Alle Werte: { $fraction }.
leaflet-answer = Was gefunden wurde
leaflet-caption-by-well = Was in den neuesten Flaschen jedes Brunnens gemessen wurde: zuerst, was über einem Grenzwert liegt, dann, was nicht entscheidbar ist
leaflet-microbes-row = Keime
leaflet-not-tested-cell = nicht untersucht
leaflet-signs = ▲ über dem Grenzwert; ? nicht entscheidbar; ✗ verworfen: Etwas Entscheidendes spricht gegen die Zahl; ohne Zeichen: darunter. ± ist der 95-%-Vertrauensbereich; „höchstens“ steht vor einer oberen Schranke.
leaflet-accepted-named = Anerkannt: { $names }.
leaflet-rejected-named = Verworfen: { $names }.
leaflet-others-provisional = Alle anderen sind vorläufig: Es ist noch etwas zu zeigen, bevor man darauf bauen kann.
leaflet-earlier-extremes = In früheren Jahren näher an der Grenze oder weiter darüber: { $names }.
leaflet-more-substances = { $n ->
    [one] Ein weiterer Stoff mit Grenzwert wurde gemessen; er steht im ganzen Bericht.
   *[other] { $n } weitere Stoffe mit Grenzwert wurden gemessen; sie stehen im ganzen Bericht.
}
leaflet-more-wells = { $n ->
    [one] Ein weiterer Brunnen steht im ganzen Bericht.
   *[other] { $n } weitere Brunnen stehen im ganzen Bericht.
}
leaflet-contact = Fragen an: { $contact }.
leaflet-own-well = Es sagt nichts über Ihren eigenen Brunnen, wenn er keiner von diesen ist, und nichts über einen anderen Tag.
leaflet-draft = Entwurf: kein Ansprechpartner
