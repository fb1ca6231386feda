### What laboratories report beside substances, by its name: `Message::named("condition", name)`. A name that is a sign (pH, Eh) is the same in every language.

condition-alkalinity = alkalinity
condition-alkalinity--laboratory = alkalinity (laboratory)
condition-conductivity = conductivity
condition-dissolved-oxygen = dissolved oxygen
condition-hardness = hardness
condition-temperature = temperature
