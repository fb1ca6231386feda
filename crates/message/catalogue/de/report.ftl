report-title-of = Was im Wasser von { $site } ist
report-title = Was im Wasser ist
report-trip = Probenahme { $trip }
report-run-not-reduced = Der Lauf { $run } wurde nicht ausgewertet: { $why }.
