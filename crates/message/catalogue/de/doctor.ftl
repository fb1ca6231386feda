### Was auf diesem Rechner und rund um ein Programm fehlt oder unsicher ist, jeweils mit dem, was zu tun ist.

doctor-unsafe = unsicher

doctor-missing = fehlt

doctor-told = zu wissen

doctor-others-change = { $path }: andere auf diesem Rechner können es ändern. Dieses Recht entziehen (chmod go-w)

doctor-others-read = { $path }: andere auf diesem Rechner können es lesen. Wo sie das nicht sollen: chmod go-r

doctor-newest-beside = { $path }: die neuesten Handlungen stehen vielleicht noch in { $beside } daneben. Einer Kopie der einen Datei fehlten sie: mit dem Befehl „backup“ kopieren

doctor-left-over = { $path }: Rest einer abgebrochenen Arbeit. Wenn niemand am Programm arbeitet, kann die Datei gelöscht werden

doctor-network-folder = { $path }: liegt auf der Platte eines anderen Rechners. Auf die Sperren, die zwei Schreibende auseinanderhalten, ist dort kein Verlass: das Programm auf einer Platte dieses Rechners oder auf einem Server halten

doctor-little-space = { $path }: { $free } MB sind frei; eine Kopie des Programms und ein Bericht brauchen { $needed } MB

doctor-clock-behind = Die Uhr dieses Rechners sagt { $now }, und die neueste Handlung wurde um { $newest } festgehalten: eines von beiden stimmt nicht. Die Uhr stellen, bevor etwas festgehalten wird

doctor-only-read = { $path }: kann hier nur gelesen werden; nichts kann festgehalten werden

doctor-not-open = { $address }: lässt sich nicht öffnen ({ $why })

doctor-not-derived = { $address }: aus festgehaltenen Handlungen ist noch nichts abgeleitet, oder die Ergebnisse sind die einer anderen Rechenfassung: den Befehl „recompute“ ausführen

doctor-nobody-signs = { $address }: niemand hat eine Rolle, die für ein Urteil einstehen darf (Leitung oder Analytik)

doctor-no-program = Das Hilfsprogramm { $program } ist hier nicht zu finden; es dient zu Folgendem: { $purpose }

doctor-use-keys = Unterschriften prüfen, die mit dem Schlüssel einer Person gemacht sind

doctor-use-stamps = Zeitstempel einer Zeitstempelstelle prüfen

doctor-use-survey = Übersichten über Tabellen, die größer als der Arbeitsspeicher sind (alles andere geht ohne es)

doctor-stands-at = { $address }: { $events ->
    [one] eine Handlung
   *[other] { $events } Handlungen
}, Kopf { $head }

doctor-looked-at-machine = Nachgesehen: Hilfsprogramme, die manche Befehle starten.

doctor-looked-at = Nachgesehen: Rechte, Reste, Platte und Uhr rund um { $address }, ob es abgeleitet ist, wer unterschreiben darf, Hilfsprogramme, die manche Befehle starten. Nicht nachgesehen: ob das Festgehaltene ist, was geschrieben wurde (das tut der Befehl „verify“), Kopien anderswo, das Netz.

doctor-nothing-found = Nichts Unsicheres und nichts Fehlendes gefunden.
