body-Olympic-pool-50-m-x-25-m-x-2-m = einem Olympia-Becken von 50 m x 25 m x 2 m
body-one-cubic-kilometre = einem Kubikkilometer
