language-name = Deutsch
language-decimal-sign = ,
language-list = { $head } und { $last }
