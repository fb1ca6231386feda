lead-ratio-without-u = Das Verhältnis { $ratio } von { $source } wird nicht verwendet: Es hat kein u, also kann nichts mit ihm übereinstimmen oder nicht.
lead-ratio-not-positive = Das Verhältnis { $ratio } von { $source } wird nicht verwendet: Ein Verhältnis ist größer als null.
lead-ratio-of-others = Das Verhältnis { $ratio } von { $source } wird nicht verwendet: Verglichen werden nur 206/207 und 208/206, auch als Kehrwert.
lead-one-ratio = Das Blei von { $source } wird nicht verglichen: 206/207 und 208/206 sind beide nötig.
lead-bias-vial = Die Massendiskriminierung der Bleiverhältnisse ist nicht berichtigt: Das Gefäß { $vial } des Rezepts hat in diesem Lauf keine Zählungen von Blei.
lead-bias-no-ratio = Die Massendiskriminierung der Bleiverhältnisse ist nicht berichtigt: Das Rezept nennt kein Verhältnis.
lead-bias-not-measured = Die Massendiskriminierung der Bleiverhältnisse ist nicht berichtigt: { $mass } ist nicht gemessen.
lead-bias-too-little = Die Massendiskriminierung der Bleiverhältnisse ist nicht berichtigt: Die Gefäße der Referenz enthalten zu wenig Blei, oder nur eine Wiederholung.
