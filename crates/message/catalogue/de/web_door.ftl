### Die Tür: Anmelden, das eigene Konto, Sitzungen, der zweite Faktor, das Buch der Tür, was dort abgelehnt wird.

## Namen und Passwörter, die es nicht geben kann.
web_door-no-role = Gefunden „{ $found }“, erwartet reader (liest), sampler (probt), analyst (wertet aus) oder lead (leitet).

web_door-name-unfit = Der Name: gefunden „{ $found }“, erwartet ein Name, wie er in der Aufzeichnung stehen soll, ohne Leerzeichen davor oder dahinter.

web_door-name-long = { $most ->
    [one] Der Name: erwartet höchstens { $most } Zeichen.
   *[other] Der Name: erwartet höchstens { $most } Zeichen.
}

web_door-name-illegible = Der Name: gefunden „{ $found }“ mit Zeichen, die man nicht sieht oder nicht von anderen unterscheidet, erwartet in einem Wort Buchstaben einer Schrift.

web_door-name-alike = Der Name: gefunden „{ $found }“, der aussieht wie { $other }; dieser Name hat ein Konto. Erwartet ein Name, den niemand für einen anderen hält.

web_door-password-length = { $found ->
    [one] Das Passwort: gefunden { $found } Zeichen, erwartet mindestens { $least } und, in Byte, höchstens { $most }.
   *[other] Das Passwort: gefunden { $found } Zeichen, erwartet mindestens { $least } und, in Byte, höchstens { $most }.
}

web_door-password-guessable = Das Passwort: gefunden eines von denen, die zuerst versucht werden (der Name, „Passwort“, eine Reihe der Tastatur, immer dasselbe Zeichen), erwartet ein anderes.

web_door-no-such-account = Es gibt kein Konto von { $who }.

## Hereinkommen.
web_door-code = Code des Authentifikators
web_door-code-hint = Sechs Ziffern, wenn Sie einen eingerichtet haben; sonst leer lassen.
web_door-wrong = Name, Passwort und Code passen nicht zusammen.

web_door-wait-seconds = { $n ->
    [one] Zu viele misslungene Versuche; warten Sie { $n } s und versuchen Sie es dann wieder.
   *[other] Zu viele misslungene Versuche; warten Sie { $n } s und versuchen Sie es dann wieder.
}

## Was die Tür ablehnt.
web_door-proxy-only = Dieses Programm wird nur durch einen Proxy mit TLS bedient: gefunden das Schema { $found }, erwartet https.

web_door-loopback-only = Dieses Programm antwortet nur auf 127.0.0.1 und localhost, nicht auf „{ $host }“.

web_door-not-from-here = Die Anfrage kam nicht von einer Seite dieses Programms, deshalb wurde nichts getan.
web_door-nobody-here = Hier hat niemand ein Konto.

web_door-needs-role = Rolle von { $who }: { $role }; hierfür braucht es mindestens die Rolle { $needed }.

web_door-busy = Von Ihnen wird schon zu viel bearbeitet; warten Sie, bis einiges davon fertig ist.
web_door-named-already = Wer angemeldet ist, handelt unter diesem Namen.

web_door-person-unfit = Der Name: gefunden „{ $found }“, erwartet ein Name, wie er in der Aufzeichnung stehen soll, mit einem Buchstaben oder einer Ziffer.

## Arbeit, die wartet.
web_door-waits-its-turn = Sie wartet, bis die Arbeit vor ihr fertig ist.

web_door-enough-work = { $n ->
    [one] { $n } Arbeit von Ihnen wartet schon; warten Sie, bis sie fertig ist, oder brechen Sie sie ab.
   *[other] { $n } Arbeiten von Ihnen warten schon; warten Sie, bis einige fertig sind, oder brechen Sie einige ab.
}

## Das eigene Konto.
web_door-own = Ihr Konto

web_door-own-who = { $who }, Rolle: { $role }

web_door-own-nobody = Hier meldet sich niemand an, deshalb haben Sie kein eigenes Konto.
web_door-new-password = Passwort ändern
web_door-password-now = Jetziges Passwort
web_door-password-new = Neues Passwort
web_door-password-ends = Ihre anderen Sitzungen enden.
web_door-change = Ändern
web_door-password-wrong = Das ist nicht Ihr Passwort, oder der Code passt nicht.
web_door-changed = Ihr Passwort ist geändert, und Ihre anderen Sitzungen sind beendet.

## Sitzungen.
web_door-sessions = Sitzungen
web_door-sessions-of-all = Wer gerade angemeldet ist
web_door-session-begun = Begonnen
web_door-session-idle = Letzte Anfrage
web_door-session-from = Von
web_door-session-browser = Browser
web_door-session-this = diese
web_door-session-end = Beenden

web_door-session-end-of = Sitzung von { $who } beenden, begonnen { $begun }

web_door-sessions-end-others = Alle anderen beenden

web_door-minutes-ago = { $n ->
    [0] eben
    [one] vor { $n } min
   *[other] vor { $n } min
}

web_door-sessions-none = Niemand ist angemeldet.

## Der zweite Faktor.
web_door-second = Zweiter Faktor
web_door-second-what = Ein Authentifikator auf Ihrem Telefon zeigt einen Code von sechs Ziffern, der jede halbe Minute wechselt. Wer Ihr Passwort kennt und Ihr Telefon nicht hat, kommt nicht herein.
web_door-second-lead = Sie leiten das Programm: Ein zweiter Faktor schützt, worauf andere sich verlassen.
web_door-second-is = Ein zweiter Faktor ist eingerichtet: Beim Anmelden werden Sie nach einem Code gefragt.
web_door-second-is-not = Kein zweiter Faktor ist eingerichtet.
web_door-second-begin = Zweiten Faktor einrichten
web_door-second-key = Tippen Sie diesen Schlüssel in Ihren Authentifikator (Art: nach der Zeit, 6 Ziffern, 30 s), oder öffnen Sie den Verweis auf Ihrem Telefon. Tippen Sie dann den Code, den er zeigt.
web_door-second-link = Im Authentifikator öffnen
web_door-second-confirm = Einrichten
web_door-second-wrong = Der Code passt nicht. Sehen Sie nach, ob die Uhren dieses Rechners und Ihres Telefons richtig gehen; ein Code zählt einmal.
web_door-second-set = Der zweite Faktor ist eingerichtet, und Ihre anderen Sitzungen sind beendet.
web_door-second-end = Aufgeben
web_door-second-ended = Der zweite Faktor ist aufgegeben.
web_door-second-gone = Dieses Formular ist zu alt; beginnen Sie noch einmal.
web_door-second-column = Zweiter Faktor
web_door-yes = ja
web_door-no = nein
web_door-second-take = Zweiten Faktor wegnehmen

web_door-second-take-of = Zweiten Faktor von { $who } wegnehmen

## Das Buch der Tür.
web_door-log = Buch der Tür
web_door-log-where = Wer hereinkam, wer abgewiesen wurde und was mit Konten geschah; das Neueste zuerst. Das Ganze:
web_door-log-csv = als CSV
web_door-log-none = Noch ist nichts geschehen.
web_door-log-at = Wann
web_door-log-who = Wer
web_door-log-what = Was
web_door-log-whom = Wessen Konto
web_door-act-came-in = kam herein
web_door-act-refused = Name, Passwort und Code passten nicht
web_door-act-held-up = versuchte es zu oft
web_door-act-left = ging hinaus
web_door-act-ended-session = beendete eine Sitzung
web_door-act-set-account = setzte Konto und Rolle
web_door-act-removed-account = nahm das Konto weg
web_door-act-changed-password = änderte das Passwort
web_door-act-set-code = richtete einen zweiten Faktor ein
web_door-act-removed-code = nahm den zweiten Faktor weg

web_door-act-with-role = { $act }: { $role }

## Was zu Konten gesagt wird.
web_door-must-be-lead = Gefunden weniger als Leitung, erwartet Leitung: Jemand muss Konten einrichten können.
web_door-not-oneself = Niemand nimmt das Konto weg, unter dem er handelt: Das kann jemand anders mit der Rolle Leitung.
web_door-form-strange = Dieses Formular wurde geöffnet, bevor das Programm neu gestartet wurde, oder von jemand anderem. Gehen Sie zurück, kopieren Sie, was Sie getippt haben, öffnen Sie die Seite neu und senden Sie es noch einmal.

## Warum die Weboberfläche nicht bedient wird.
web_door-no-accounts = Auf { $address } oder hinter einem Proxy kommen andere herein, und { $accounts } nennt kein Konto: Richten Sie eines ein mit `limpid account STORE add NAME --role lead`, oder lauschen Sie nur auf 127.0.0.1.

web_door-no-tls = Auf { $address } ohne TLS gehen Passwörter offen über das Netz: Geben Sie --tls-cert und --tls-key an, oder stehen Sie hinter einem Proxy mit TLS (--behind-tls), oder lauschen Sie nur auf 127.0.0.1.

web_door-tls-unfit = Zertifikat oder Schlüssel in { $file }: { $why }. Erwartet PEM: das Zertifikat, dann die, die für es bürgen; und sein Schlüssel in einer eigenen Datei.
