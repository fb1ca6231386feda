//! Air, bottles, and whose metal it is.
