condition-alkalinity = Alkalität
condition-alkalinity--laboratory = Alkalität (Labor)
condition-conductivity = Leitfähigkeit
condition-dissolved-oxygen = gelöster Sauerstoff
condition-hardness = Härte
condition-temperature = Temperatur
