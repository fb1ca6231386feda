trust-programme = Programm { $identity }, { $n ->
    [one] ein Vorgang
   *[other] { $n } Vorgänge
}, Kopf { $head }
trust-no-identity = keine Kennung (vor Version 11 angelegt): { $n ->
    [one] ein Vorgang
   *[other] { $n } Vorgänge
}, Kopf { $head }
trust-copied = { $file } enthält alles, wie es beim Kopieren stand; was danach geschieht, ist nicht darin
trust-no-anchor = kein Anker: niemand außerhalb bewahrt einen Kopf dieses Programms auf; wer hineinschreiben kann, könnte alles unbemerkt neu geschrieben haben. `limpid anchor` schreibt einen, der anderswo aufbewahrt wird
trust-anchor-shown = letzter Anker: die Vorgänge 1 bis { $events } sind, was sie waren, als { $file } geschrieben wurde
trust-stamp-shown = letzter Anker: Vorgänge 1 bis { $events }, gestempelt { $at } ({ $file }); ob der Stempel von der Stelle ist, sagt `openssl ts -verify`
trust-anchor-kept = letzter vermerkter Anker: Vorgänge 1 bis { $events }, aufbewahrt laut Vermerk von { $who }; er beweist etwas, wenn er gezeigt wird: `limpid verify STORE --anchor FILE`
trust-stamp-kept = letzter vermerkter Anker: Vorgänge 1 bis { $events }, gestempelt { $at } ({ $who }); `limpid anchor STORE --write DIR` schreibt den Stempel heraus, für `openssl ts -verify`
trust-anchor-beside = { $file } liegt neben dem Programm: wer das eine neu schreibt, kann auch das andere; es gilt nicht als Anker
trust-since = { $n ->
    [one] ein Vorgang seither
   *[other] { $n } Vorgänge seither
}: { $acts }
trust-none-since = kein Vorgang seither
trust-event = { $event } { $act } ({ $who })
trust-events = { $first } bis { $last } { $act } ({ $who })
trust-last-signature = letzte Unterschrift mit Schlüssel: { $person } ({ $key }), Vorgänge 1 bis { $events }
trust-no-signature = keine Unterschrift mit Schlüssel
trust-sign-offs = Zeichnungen: { $keys } mit Schlüssel unterschrieben, { $logins } nach Anmeldung, { $typed } auf der Befehlszeile getippt
trust-by-key = mit Schlüssel unterschrieben
trust-by-login = nach Anmeldung
trust-typed = getippt, ohne Schlüssel
trust-key-ended = Schlüssel { $key }: { $how }
trust-retired = abgelegt
trust-lost = verloren
trust-anchor-later = { $file } kennt Vorgang { $events }, dieses Programm endet mit Vorgang { $here }: es ist eine ältere Kopie, oder sein Ende wurde abgeschnitten
trust-anchor-other = { $file }: Vorgang { $event } hatte einen anderen Hash, als er vermerkt wurde; was dort oder davor steht, wurde neu geschrieben
trust-anchor-of-another = { $file } spricht von Programm { $theirs }, dieses ist { $ours }: ein anderes Programm, oder eines, das an seiner Stelle neu begonnen wurde
trust-stamp-of-none = { $file } ist ein Stempel von { $at } auf keinen Kopf dieses Programms: es wurde neu geschrieben, ist eine ältere Kopie oder ein anderes Programm
trust-nothing-in-it = { $file }: weder die Zeile eines Kopfes (`limpid-head 1 …`) noch ein Zeitstempel steht darin
trust-signature-is-none = die Unterschrift mit Schlüssel von { $person } (Vorgang { $n }) ist keine: { $why }
trust-key-unproved = Schlüssel { $key }: seine eigene Unterschrift sagt nicht, dass er { $person } gehört
trust-why-form = sie hat nicht die Form einer solchen
trust-why-namespace = sie wurde für einen anderen Gebrauch gemacht
trust-why-other-key = ein anderer Schlüssel hat sie gemacht
trust-why-other-text = sie gehört nicht zu diesem Text
trust-why-line = was unterschrieben wurde, ist nicht, was vermerkt ist
trust-why-person = der Schlüssel gehört nicht der Person, die dort steht
trust-why-ended = der Schlüssel war vorher abgelegt oder verloren
trust-anchor-on-record = der Anker, den Vorgang { $n } aufnahm, passt zu keinem Kopf: was er deckt, wurde neu geschrieben
trust-clock-back = Vorgang { $event } trägt { $at }, früher als Vorgang { $before } von { $earlier }: eine Uhr ging falsch
trust-clock-ahead = Vorgang { $event } trägt { $at }, später als die Uhr dieses Rechners: eine von beiden geht falsch
trust-more-moments = { $n ->
    [one] ein weiterer Vorgang
   *[other] { $n } weitere Vorgänge
} außer der Reihe der Zeit
trust-in-the-log = { $n ->
    [one] der neueste Vorgang steht
   *[other] die neuesten { $n } Vorgänge stehen
} noch im Protokoll neben der Datei: einer einfachen Kopie von { $file } allein { $n ->
    [one] fehlt er
   *[other] fehlen sie
}; `limpid backup` kopiert alles
trust-left-over = { $file } blieb von einer abgebrochenen Kopie oder Anlage liegen: darin stand nichts, was nicht anderswo steht; entfernt
trust-being-made = { $file } wird gerade geschrieben oder blieb eben von einer abgebrochenen Kopie oder Anlage liegen
trust-key-added = { $key } ist von jetzt an der Schlüssel von { $person }
trust-key-listed = { $key } { $person }: { $how }
trust-in-use = in Gebrauch
trust-no-keys = keine Schlüssel vermerkt: `limpid keys STORE --add FILE --as PERSON`
trust-lost-what-now = was { $key } vorher unterschrieben hat, bleibt und wird genannt; was ohne ihn gelten soll, ist mit einem anderen Schlüssel neu zu unterschreiben
trust-signed = { $n ->
    [one] eine Zeile
   *[other] { $n } Zeilen
} für { $person } mit Schlüssel { $key } unterschrieben
trust-waiting = { $n ->
    [one] eine Zeichnung
   *[other] { $n } Zeichnungen
} von { $person } ohne Unterschrift mit Schlüssel: `limpid sign STORE RESULT --key FILE`, oder alle mit --all
trust-nothing-to-sign = dort wartet keine Zeichnung von { $person } auf eine Unterschrift; mit --why entsteht eine neue
trust-mail-subject = Kopf eines Programms bei Vorgang { $n }: { $head }
trust-mail-body = Bitte bewahren Sie diese Zeile unverändert auf, wo ich sie nicht ändern kann; eine Antwort ist nicht nötig. Sie steht für alles, was mein Programm in diesem Augenblick enthielt, und verrät nichts davon. Wenn jemand sie eines Tages erbittet, schicken Sie sie bitte so zurück.
trust-anchor-next = dort aufbewahren, wo das Programm nicht ist: `limpid anchor STORE --receipt FILE --kept-by WHO --as PERSON` vermerkt, wer sie hat
trust-request-next = { $file } geht an eine Zeitstempelstelle (RFC 3161), auf welchem Weg auch immer; ihre Antwort kommt mit `limpid anchor STORE --receipt ANSWER.tsr --kept-by WHO --as PERSON` herein
trust-anchor-taken = vermerkt: { $who } bewahrt den Kopf nach { $events ->
    [one] einem Vorgang
   *[other] { $events } Vorgängen
} auf
