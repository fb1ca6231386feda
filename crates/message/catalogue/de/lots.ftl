lots-title = Flaschen und ihre Lose
lots-lot = Los { $lot }

lots-material = Werkstoff: { $material }
lots-cleaned-on = gereinigt am: { $day }
lots-steps = Schritte: { $steps }
lots-days-in-acid = Tage in Säure: { $days }
lots-last-rinse = letzte Spülung: { $rinse }
lots-bottles = verzeichnete Flaschen: { $kinds }
lots-kind = { $n } { $kind ->
    [sample] { $n ->
        [one] Probe
       *[other] Proben
    }
    [duplicate] { $n ->
        [one] Doppelprobe
       *[other] Doppelproben
    }
    [field-blank] { $n ->
        [one] Feldleerprobe
       *[other] Feldleerproben
    }
    [trip-blank] { $n ->
        [one] Reiseleerprobe
       *[other] Reiseleerproben
    }
    [bottle-blank] { $n ->
        [one] Flaschenleerprobe
       *[other] Flaschenleerproben
    }
    [equipment-blank] { $n ->
        [one] Geräteleerprobe
       *[other] Geräteleerproben
    }
    [field-spike] { $n ->
        [one] Zusatz
       *[other] Zusätze
    } im Feld
    [lab-spike] { $n ->
        [one] Zusatz
       *[other] Zusätze
    } im Labor
    [reference-material] { $n ->
        [one] Referenzmaterial
       *[other] Referenzmaterialien
    }
   *[other] { $kind }
}
lots-bags = Beutel: { $bags }
lots-bags-from-to = Beutel: { $from } bis { $to }
lots-openings = Öffnungen: { $openings }
lots-openings-from-to = Öffnungen: { $from } bis { $to }

lots-against-target = Los { $lot }: Flaschenleerproben gegen das Ziel, pg je Flasche
lots-target = Ziel
lots-some-left-out = { $blanks } ({ $left-out } weggelassen)
lots-none-set = keines gesetzt
lots-may-go-out = darf hinaus
lots-wash-again = noch einmal waschen
lots-more-blanks = mehr Leerproben würden entscheiden
lots-limit = Grenze: Mit { $confidence } Vertrauen bringen { $content } der Flaschen des Loses weniger (Toleranzgrenze, Owen 1958, aus dem Gedächtnis).
