### Groups of compounds whose sum a limit names: `Message::named("compound_group", group)`.

compound_group-haloacetic-acids = haloacetic acids (five)
compound_group-pah-of-four = polycyclic aromatic hydrocarbons (four)
compound_group-pesticides = pesticides and their metabolites
compound_group-pfas-of-20 = PFAS (list of 20)
compound_group-pfas-of-4 = PFAS (list of 4)
compound_group-tri-and-tetrachloroethene = tri- and tetrachloroethene
compound_group-trihalomethanes = trihalomethanes (four)
