# What one phone says of a bottle or a reading.
# $phone (name): which
# $value (name): as it was noted
# $entry (count): number of the entry
field-said = phone { $phone } says { $value } (entry { $entry })

# Field sheets that differ, and nothing is on record.
# $subject (name): bottle or well
# $field (name): column or quantity
# $said (message): what each phone says
field-neither = { $subject }, { $field }: { $said }; neither is taken until a person decides

# Field sheets that differ in a reading.
# $subject (name): bottle or well
# $field (name): column or quantity
# $said (message): what each phone says
field-both = { $subject }, { $field }: { $said }; both stand

# Field sheets that differ from the record.
# $subject (name): bottle or well
# $field (name): column or quantity
# $said (message): what each phone says
# $value (name): what the record says
field-stands = { $subject }, { $field }: { $said }; the record says { $value }, which stands until a person decides

# The same as a finding.
# $conflict (message): who says what
field-differ = Field sheets differ for { $conflict }.

# A sheet of an unknown state of the programme.
# $head (name): begin of its digest
field-head = The sheet was made from a state of the programme ({ $head }…) that this record does not have; was an older copy restored?

# A phone whose clock went back.
# $earlier (count): number of the entry before
# $earlier-at (date): its time
# $later (count): number of the entry after
# $later-at (date): its time
field-clock-back = The phone's clock went back between entries { $earlier } ({ $earlier-at }) and { $later } ({ $later-at }); the order is that of the counter.

# Days that a person had added to a phone's times.
# $days (name): as the mapping says
# $phone (name): which
field-days-added = { $days } days were added to every time of phone { $phone }, as the mapping says.

# A phone with another offset from UTC.
# $phone (name): which
# $offset (name): as +02:00
field-offset = Phone { $phone } was set to another offset from UTC ({ $offset }) than the first phone of the trip; its times are turned to the first one's.

# An entry that was taken back too late.
# $entry (count): its number
# $what (name): kind of entry
# $at (date): its time
field-struck = Entry { $entry } ({ $what }, { $at }) was taken back on the phone after it had come home; its row stays in the record.
