### Conditions of the water that are read at the well, by the record's name: `Message::named("quantity", name)`.

quantity-temperature = temperature
quantity-conductivity = conductivity
quantity-pH = pH
quantity-Eh = Eh
quantity-dissolved-oxygen = dissolved oxygen
quantity-turbidity = turbidity
