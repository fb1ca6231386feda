### What a bottle is and what a vial is for, by the word of the record: `Message::named("kind", word)`.

kind-bottle-blank = bottle blank
kind-calibration-blank = calibration blank
kind-drift-check = drift check
kind-duplicate = duplicate
kind-equipment-blank = equipment blank
kind-field-blank = field blank
kind-field-spike = field spike
kind-interference-check = interference check
kind-lab-spike = lab spike
kind-procedural-blank = procedural blank
kind-reference-material = reference material
kind-sample = sample
kind-standard = standard
kind-trip-blank = trip blank
