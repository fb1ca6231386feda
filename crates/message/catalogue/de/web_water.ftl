web_water-title = Wasser
web_water-what = Das jüngste Wasser jedes Brunnens: seine Ionen, was sich darin bilden oder lösen könnte, sein Geruch, was sein Metall niedrig hält.
web_water-none = Keine Probe hat Calcium, Natrium, Chlorid und Alkalinität aufgezeichnet: Ohne sie lässt sich die Chemie eines Wassers nicht berechnen.
web_water-details = Ein Brunnen im Einzelnen
web_water-detail = { $well }, { $day }
web_water-held-down = Was das Metall niedrig hält
web_water-samples = { $n ->
    [one] { $n } Probe mit Hauptionen
   *[other] { $n } Proben mit Hauptionen
}
web_water-samples-caption = { $shown } von { $all }, die jüngsten zuerst
web_water-sample = Probe
web_water-well = Brunnen
web_water-filled = Gefüllt
web_water-results = Ergebnisse
web_water-stands-on = Worauf es beruht
web_water-stands-on-caption = Die Ergebnisse dieses Wassers
web_water-opens-case = Ein Wert öffnet seinen Fall.
web_water-all-waters = alle Wässer
web_water-no-ions = Von „{ $label }“ sind keine Hauptionen aufgezeichnet; seine Chemie lässt sich nicht berechnen.
web_water-no-result = Kein Ergebnis ist aufgezeichnet.
web_water-head-what = Was
web_water-head-value = Wert ± U
web_water-head-verdict = Urteil
web_water-bottle = Flasche
web_water-fraction = Filtriert oder nicht
web_water-laboratory = Labor
