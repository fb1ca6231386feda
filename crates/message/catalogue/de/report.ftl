report-title-of = Was im Wasser von { $site } ist
report-title = Was im Wasser ist
report-trip = Probenahme { $trip }
report-run-not-reduced = Der Messlauf { $run } wurde nicht ausgewertet: { $why }.
