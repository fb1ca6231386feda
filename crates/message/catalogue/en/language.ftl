### What a language is called and how it writes.

language-name = English

# Between the whole and the parts of a number.
language-decimal-sign = .

# Several things.
# $head (list): all but the last, joined by commas
# $last (name): the last
language-list = { $head } and { $last }
