### What is missing or unsafe on this machine and about a programme, each with what to do.

doctor-unsafe = unsafe

doctor-missing = missing

doctor-told = to know

# $path (name): a file or folder
doctor-others-change = { $path }: others on this machine can change it. Take that right away (chmod go-w)

# $path (name): a file
doctor-others-read = { $path }: others on this machine can read it. Where they should not: chmod go-r

# $path (name): the programme
# $beside (name): the file beside it
doctor-newest-beside = { $path }: the newest acts may still stand in { $beside } beside it. A copy of the one file would lack them: copy with the command “backup”

# $path (name): a file
doctor-left-over = { $path }: left over from work that broke off. Where nothing is at work on the programme it can be deleted

# $path (name): the folder
doctor-network-folder = { $path }: lies on another machine's disk. The locks that keep two writers apart cannot be trusted there: keep the programme on a disk of this machine, or on a server

# $path (name): the folder
# $free (count): megabytes
# $needed (count): megabytes
doctor-little-space = { $path }: { $free } MB are free; a copy of the programme and a report need { $needed } MB

# $now (name): date and time
# $newest (name): date and time
doctor-clock-behind = The clock of this machine says { $now }, and the newest act was kept at { $newest }: one of the two is wrong. Set the clock before anything is kept

# $path (name): the programme
doctor-only-read = { $path }: can only be read here; nothing can be kept

# $address (name): the programme
# $why (name): what opening it said
doctor-not-open = { $address }: cannot be opened ({ $why })

# $address (name): the programme
doctor-not-derived = { $address }: acts are kept from which nothing was derived yet, or the results are another engine's: run the command “recompute”

# $address (name): the programme
doctor-nobody-signs = { $address }: nobody on record has a role that may stand for a verdict (lead or analyst)

# $program (name): its name
# $purpose (message): what it is for
doctor-no-program = The program { $program } is not found here; it is for { $purpose }

doctor-use-keys = checking signatures made with a person's key

doctor-use-stamps = checking time-stamps of an authority

doctor-use-survey = surveys of tables larger than memory (the rest works without it)

# $address (name): the programme
# $events (count): number of acts
# $head (name): hash of the newest
doctor-stands-at = { $address }: { $events ->
    [one] one act
   *[other] { $events } acts
}, head { $head }

doctor-looked-at-machine = Looked at: programs that some commands start.

# $address (name): the programme
doctor-looked-at = Looked at: rights, leftovers, disk and clock around { $address }, whether it is derived, who may sign, programs that some commands start. Not looked at: whether what is kept is what was written (the command “verify” does), copies elsewhere, the network.

doctor-nothing-found = Nothing unsafe and nothing missing was found.
