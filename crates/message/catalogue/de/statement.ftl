statement-no-value = kein Wert
statement-no-verdict = kein Urteil
statement-cannot-be-checked = lässt sich nicht mehr prüfen
statement-result-revised = { $result } ist jetzt Fassung { $revision }: { $before } → { $now }
statement-taken-out = { $result } wurde aus den Belegen genommen: { $why }
statement-verdict-changed = { $result }: { $before } → { $now }
statement-verdict-changed-by = { $result }: { $before } → { $now } ({ $checks })
statement-series-changed = die Reihe: { $came ->
    [one] { $came } Ergebnis kam
   *[other] { $came } Ergebnisse kamen
} seither hinzu, { $left ->
    [one] { $left } fiel
   *[other] { $left } fielen
} weg
statement-answer-changed = Antwort: { $before } → { $now }
statement-changed-since = Seither geändert: { $change }.
statement-today = Nach der Aufzeichnung von heute: { $plain }
statement-section = Aussagen
statement-method-text = Ein Satz wird als Felder gegeben und durch einseitige 95-%-Grenzen des Verhältnisses geprüft, das er behauptet; nicht Nachgewiesenes steht als Grenze, nie als Zahl. Er wird mit den Ergebnissen bewahrt, auf denen er beruht, und gekennzeichnet, wenn sich eines ändert.
statement-introduction = Jeder Satz wurde gegen die Ergebnisse geprüft, die er nennt. Die letzte Spalte ist der nächste Satz, den die Daten tragen.
statement-caption = Sätze und was die Daten dazu sagen
statement-sentence-asked = vorgelegter Satz
statement-may-be-said = was sich sagen lässt
statement-answer-marked = { $answer }, † siehe unten
statement-note-changed = † ein Ergebnis hat sich seit der Prüfung des Satzes geändert.
statement-revision = { $name }, Fassung { $revision }
statement-despite = Vorläufige oder verworfene Ergebnisse wurden trotzdem genommen: „{ $why }“ ({ $person }).
statement-on-no-result = Beruht auf keinem Ergebnis dieser Aufzeichnung; geprüft beim Kopf { $head }… von { $person }.
statement-stands-on = Beruht auf { $results }; geprüft beim Kopf { $head }… von { $person }.
statement-stands-on-more = Beruht auf { $results } und { $more } weiteren; geprüft beim Kopf { $head }… von { $person }.
statement-result-with-verdict = { $result } ({ $verdict })
statement-result-without-verdict = { $result } (ohne Urteil)
statement-compounds-unread = Zu den organischen Stoffen: { $why }.
statement-well-changed = der Wert des Brunnens: seither { $came ->
    [one] { $came } Flasche hinzugekommen
   *[other] { $came } Flaschen hinzugekommen
}, { $left } weggefallen
statement-of-fractions = Fraktion: { $fractions }.
statement-bottle-changed = die Flasche: { $came ->
    [one] { $came } Stoff kam
   *[other] { $came } Stoffe kamen
} seither hinzu, { $left ->
    [one] { $left } fiel
   *[other] { $left } fielen
} weg
statement-of-bottles = Was in den Flaschen gefunden wurde: { $sentence }
statement-of-waters-and-bottles = Das Wasser selbst: { $waters } Was in den Flaschen gefunden wurde: { $bottles }
statement-upper-bounds = Für das Wasser nur eine obere Schranke, zusammen mit dem Metall eines Abschnitts, den keine Blindprobe erfasste: { $results }.
statement-leans-changed = worauf das Alter beruht: { $what } kam, fiel weg oder änderte sich seither
statement-leans-on-tracer = { $tracer } vom { $day }
statement-leans-on-history = der Verlauf { $name }
statement-leans-on-recharge = die Neubildung: { $name }
statement-leans-on-chemistry = die Chemie, nach der Tracer gelesen werden
statement-stands-on-tracers = Beruht auf { $rows }; geprüft beim Kopf { $head }… von { $person }.
