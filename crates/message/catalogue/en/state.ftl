### What may be claimed of a result, by the word of the record: `Message::named("state", word)`.

state-above-range = above range
state-detected = detected
state-estimated = estimated
state-not-detected = not detected
state-quantified = quantified
state-not-decided = not decided
