//! Published limits and the sentences the data support.
