stage-meaning = Bedeutung
