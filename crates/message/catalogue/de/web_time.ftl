web_time-title = Über die Zeit
web_time-title-one = { $substance } in { $well } über die Zeit
web_time-what = An wie vielen Tagen jeder Brunnen auf jeden Stoff beprobt wurde. Eine Zahl öffnet die Reihe.
web_time-one-day = Ein Tag ist kein Trend; der zweite Punkt kommt mit dem nächsten Probenahmetag.
web_time-no-day = Noch ist kein Ergebnis eines Brunnens aufgezeichnet.
web_time-plan-trip = Einen Probenahmetag planen
web_time-caption = Tage mit Probe nach Stoff und Brunnen
web_time-substance = Stoff
web_time-foot = Flaschen eines Tages zählen einmal.
web_time-no-result = Davon ist kein Ergebnis aufgezeichnet.
web_time-none-in-years = Aus diesen Jahren ist davon kein Ergebnis mit Datum aufgezeichnet.
web_time-newest = Die jüngsten Ergebnisse davon
web_time-newest-first = Das jüngste zuerst
web_time-day = Tag
web_time-value = Wert ± U
web_time-verdict = Urteil
web_time-of = Von
web_time-bottle = Flasche
web_time-opens-case = Ein Wert öffnet seinen Fall.
web_time-all-results = { $n ->
    [one] Das eine Ergebnis
   *[other] Alle { $n } Ergebnisse
}
web_time-years = Gezeigte Jahre
web_time-from-year = Ab Jahr
web_time-to-year = Bis Jahr
web_time-show-years = Diese Jahre zeigen
web_time-all-years = Alle Jahre
