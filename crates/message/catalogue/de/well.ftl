well-no-fill = Keine Füllung wurde gestoppt, also sind Schüttung und Kontaktzeit nicht bekannt.
