air_limit-NIOSH-REL-ceiling-10-min = NIOSH, REL-Höchstwert, 10 min
air_limit-OSHA-general-industry-ceiling = OSHA allgemeine Industrie, Höchstwert
air_limit-OSHA-general-industry-10-min-peak = OSHA allgemeine Industrie, Spitze über 10 min
air_limit-OSHA-construction-8-h-TWA = OSHA Bau, Mittel über 8 h
