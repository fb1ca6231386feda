unseen-finding = { $compared } { $rule }
unseen-holds-more = { $group } ({ $bottles }) enthalten { $metal-expanded } (k = 2) je Flasche mehr, als Wasser und gefragte Quellen erklären; über { $groups ->
    [one] { $groups } Gruppe
   *[other] { $groups } Gruppen
} p = { $p }. Eine Quelle, nach der niemand fragte, ist in ihnen, oder eine Exposition ist falsch notiert.
unseen-holds-less = { $group } ({ $bottles }) enthalten { $metal-expanded } (k = 2) je Flasche weniger, als Wasser und gefragte Quellen erklären; über { $groups ->
    [one] { $groups } Gruppe
   *[other] { $groups } Gruppen
} p = { $p }. Die übrigen Flaschen trafen eine Quelle, nach der niemand fragte, oder eine Exposition ist falsch notiert.
unseen-none-stands-out = Keine Art von Flaschen fällt aus der gemeinsamen Anpassung: { $groups ->
    [one] { $groups } Gruppe
   *[other] { $groups } Gruppen
} verglichen, kleinstes p über alle { $p }.
unseen-not-compared = Arten von Flaschen ließen sich nicht vergleichen: zu wenige Flaschen einer Art, oder keine, die sich in mehr als ihrem Wasser unterscheiden.
unseen-not-fitted = Arten von Flaschen ließen sich nicht vergleichen, denn die Flaschen wurden nicht gemeinsam angepasst: { $why }.
unseen-rule = { $rule } { $shows }
unseen-not-met = Metall, das keine Blindprobe traf, zählt als das des Wassers; keine Blindprobe traf: { $stages }.
unseen-all-met = Metall, das keine Blindprobe traf, zählt als das des Wassers; von den verzeichneten Expositionen traf eine Blindprobe jede, von anderen ist nichts bekannt.
unseen-volumes-differ = Was jede Probe gleich traf, würde sich an den verschieden hohen Füllungen zeigen.
unseen-alike = Was jede Probe gleich traf, lässt sich mit diesen Flaschen nicht vom Wasser trennen: Flaschen mit verschieden hoher Füllung, bei anderer Schüttung oder in anderer Luft geöffnet würden es zeigen.
unseen-pipe = das Rohr
unseen-open-air = die offene Luft an { $place }
unseen-group-named = Flaschen mit { $by } { $group }
unseen-samples = Proben
unseen-field-blanks = Feldblindproben
unseen-trip-blanks = Transportblindproben
unseen-bottle-blanks = Flaschenblindproben
unseen-other-kind = Flaschen der Art { $kind }
unseen-in-open-air = Im Freien geöffnete Flaschen
unseen-in-cabinet = Nur im Schrank geöffnete Flaschen
unseen-never-opened = Nie geöffnete Flaschen
unseen-lot = Flaschen der Charge { $lot }
unseen-acid = Flaschen mit der Säure { $acid }
unseen-day = Am { $day } gefüllte Flaschen
unseen-person = Von { $person } gefüllte Flaschen
