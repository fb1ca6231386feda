### Sources of constants that are words and no title, by the source of the row in the table of constants up to its first
### bracket: `Message::named("constant_source", "compilation")`. They stand behind "of".

constant_source-compilation = a compilation, from memory

constant_source-earlier-set-of-this-table = an earlier set of this table, from memory

constant_source-study-without-a-name = a study whose name is not known

constant_source-textbook = a textbook
