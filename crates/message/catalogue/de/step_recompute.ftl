### Was die Herleitung eines Ergebnisses sonst noch hält, damit ein anderes Programm auf dieselben Ziffern kommt.

step_recompute-scatter = Streuung der Wiederholungen gegenüber der des Zählens, als Varianzen
step_recompute-scatter-from = aus den Wiederholungen von { $vials ->
    [one] { $vials } Gefäß
   *[other] { $vials } Gefäßen
} des Laufs zusammen; daneben { $flicker } des Signals in jeder Wiederholung
step_recompute-contamination = was eine Flasche mehr oder weniger aufnimmt als die { $role ->
    [procedural-blank] Verfahrensleerproben
    [bottle-blank] Flaschenleerproben
    [trip-blank] Reiseleerproben
    [field-blank] Feldleerproben
    [calibration-blank] Kalibrierleerproben
    [equipment-blank] Geräteleerproben
   *[other] Blindproben
} im Mittel
step_recompute-contamination-letters = s die Standardabweichung der Blindproben, m das u der Messung einer einzelnen; wo m größer ist, ist u null
