quantity-temperature = Temperatur
quantity-conductivity = Leitfähigkeit
quantity-pH = pH
quantity-Eh = Eh
quantity-dissolved-oxygen = gelöster Sauerstoff
quantity-turbidity = Trübung
