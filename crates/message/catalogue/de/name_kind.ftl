name_kind-analyte = ein Analyt
name_kind-fraction = eine Fraktion
name_kind-quantity = eine Größe
