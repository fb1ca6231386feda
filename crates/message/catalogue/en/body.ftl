### Bodies of water of the table that are no names of places: `Message::named("body", name)`; the German in the dative.

body-Olympic-pool-50-m-x-25-m-x-2-m = Olympic pool 50 m x 25 m x 2 m
body-one-cubic-kilometre = one cubic kilometre
