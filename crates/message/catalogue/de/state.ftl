state-above-range = über dem Bereich
state-detected = nachgewiesen
state-estimated = geschätzt
state-not-detected = nicht nachgewiesen
state-quantified = bestimmbar
