signed-title = Wer wofür steht
signed-caption = Urteile, für die jemand gezeichnet hat, je mit der neuesten Zeichnung
signed-what = Ergebnis
signed-verdict = Urteil jetzt
signed-who = wer dafür steht
signed-why = warum
signed-how = wie
signed-about = Eine Zeichnung steht für Warnungen ein, nicht für fehlende Belege; das Urteil daneben folgt aus den Befunden.
