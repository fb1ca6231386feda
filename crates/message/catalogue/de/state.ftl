state-above-range = über dem Messbereich
state-detected = nachgewiesen
state-estimated = geschätzt
state-not-detected = nicht nachgewiesen
state-quantified = bestimmbar
state-not-decided = nicht entschieden
