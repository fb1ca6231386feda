compound_group-haloacetic-acids = Halogenessigsäuren (fünf)
compound_group-pah-of-four = polyzyklische aromatische Kohlenwasserstoffe (vier)
compound_group-pesticides = Pestizide und ihre Abbauprodukte
compound_group-pfas-of-20 = PFAS (Liste von 20)
compound_group-pfas-of-4 = PFAS (Liste von 4)
compound_group-tri-and-tetrachloroethene = Tri- und Tetrachlorethen
compound_group-trihalomethanes = Trihalogenmethane (vier)
