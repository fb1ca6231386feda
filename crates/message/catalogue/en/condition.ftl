### What laboratories report beside substances and what is read at the well, by its name: `Message::named("condition", name)`.

condition-alkalinity = alkalinity
condition-alkalinity--laboratory = alkalinity (laboratory)
condition-conductivity = conductivity
condition-dissolved-oxygen = dissolved oxygen
condition-hardness = hardness
condition-temperature = temperature
condition-pH = pH
condition-Eh = Eh
condition-turbidity = turbidity
