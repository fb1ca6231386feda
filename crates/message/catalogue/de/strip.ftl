strip-times-as-wide = die kleinen Teile, { $factor }-fach breit
strip-none-on-record = keine vorhanden
strip-of-hundred = Von 100 Teilen { $element } in dieser Flasche
strip-by-model = Von 100 Teilen { $element } in dieser Flasche, nur nach dem Modell
strip-bottle = { $bottle }, { $found } in { $volume }
strip-bottle-without-volume = { $bottle }, { $found }
strip-between = { $low } bis { $high }
strip-at-most = höchstens { $most }
