### What a name is of where no table of the record is named by it, with its article.

name_kind-analyte = an analyte
name_kind-fraction = a fraction
name_kind-quantity = a quantity
