### The page of organic compounds.

web_compounds-title = Organic compounds

web_compounds-none = No organic compound was reported yet.

web_compounds-found = Compounds that were found

web_compounds-not-found = Compounds that were not found

web_compounds-none-found = None was found.

web_compounds-all-found = All were found.

web_compounds-compound = Compound

web_compounds-number = CAS number

web_compounds-bottle = Bottle

web_compounds-value = Value ± U

web_compounds-beside-limit = Beside the limit

web_compounds-laboratory = Laboratory

web_compounds-at-most = At most

web_compounds-limit = Limit

web_compounds-no-bound = no bound stands

web_compounds-no-limit = none in the table

web_compounds-give-number = none: give it
