constant_source-compilation = einer Zusammenstellung, aus dem Gedächtnis
constant_source-earlier-set-of-this-table = einem früheren Satz dieser Tabelle, aus dem Gedächtnis
constant_source-study-without-a-name = einer Arbeit, deren Name nicht bekannt ist
constant_source-textbook = einem Lehrbuch
