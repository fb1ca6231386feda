lots-title = Flaschen und ihre Chargen
lots-lot = Charge { $lot }

lots-material = Werkstoff: { $material }
lots-cleaned-on = gereinigt am: { $day }
lots-steps = Schritte: { $steps }
lots-days-in-acid = Tage in Säure: { $days }
lots-last-rinse = letzte Spülung: „{ $rinse }“
lots-bottles = verzeichnete Flaschen: { $kinds }
lots-kind = { $n } { $kind ->
    [sample] { $n ->
        [one] Probe
       *[other] Proben
    }
    [duplicate] { $n ->
        [one] Parallelprobe
       *[other] Parallelproben
    }
    [field-blank] { $n ->
        [one] Feldblindprobe
       *[other] Feldblindproben
    }
    [trip-blank] { $n ->
        [one] Transportblindprobe
       *[other] Transportblindproben
    }
    [bottle-blank] { $n ->
        [one] Flaschenblindprobe
       *[other] Flaschenblindproben
    }
    [equipment-blank] { $n ->
        [one] Geräteblindprobe
       *[other] Geräteblindproben
    }
    [field-spike] { $n ->
        [one] Aufstockung
       *[other] Aufstockungen
    } im Feld
    [lab-spike] { $n ->
        [one] Aufstockung
       *[other] Aufstockungen
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

lots-against-target = Charge { $lot }: Flaschenblindproben gegen das Ziel, pg je Flasche
lots-target = Ziel
lots-some-left-out = { $blanks } ({ $left-out } weggelassen)
lots-none-set = keines gesetzt
lots-may-go-out = freigegeben
lots-wash-again = noch einmal waschen
lots-more-blanks = mehr Blindproben würden entscheiden
lots-limit = Grenze: Mit { $confidence } Vertrauen bringen { $content } der Flaschen der Charge weniger (Toleranzgrenze, Owen 1958, aus dem Gedächtnis).
