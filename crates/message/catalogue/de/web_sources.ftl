web_sources-title = Quellen
web_sources-what = Woher das Metall einer Flasche stammt, nach einer Bilanz: Was Blindproben und Flaschen dieses Brunnens gemessen haben, steht als eigener Teil, alles andere bleibt beim Wasser.
web_sources-none = Kein aufgezeichneter Messlauf hat Blindproben und Wässer eines Probenahmetags gemessen; noch lässt sich nichts zuordnen. Nötig sind die Zählimpulse eines Messlaufs und von jeder Flasche, was sie ausgesetzt war: Säure, Öffnungen, Minuten im Freien.
web_sources-metals = Metalle
web_sources-bottle = Flasche
web_sources-left-out = Ausgelassen: { $why }
web_sources-no-such-metal = Kein aufgezeichneter Messlauf hat „{ $metal }“ in Flaschen eines Probenahmetags gemessen.
web_sources-would-tell = { $n ->
    [one] { $n } Frage ist offen, und was sie klären würde
   *[other] { $n } Fragen sind offen, und was sie klären würde
}
web_sources-add-to-trip = Zum nächsten Probenahmetag hinzufügen
web_sources-by-all = Nach allen Flaschen des Probenahmetags zusammen
