### What proves a record to a stranger: its identity, anchors, signatures by key, the order of its moments.

# $identity (name)
# $n (count)
# $head (name)
trust-programme = programme { $identity }, { $n ->
    [one] one event
   *[other] { $n } events
}, head { $head }

# $n (count)
# $head (name)
trust-no-identity = no identity (made before version 11): { $n ->
    [one] one event
   *[other] { $n } events
}, head { $head }

# $file (name)
trust-copied = { $file } holds all of it as it stood when it was copied; whatever is done after that is not in it

trust-no-anchor = no anchor: nobody outside keeps a head of this programme, so that whoever can write to it could have rewritten all of it unseen; `limpid anchor` writes one to be kept elsewhere

# $events (count)
# $file (name)
trust-anchor-shown = last anchor: events 1 to { $events } are what they were when { $file } was written

# $events (count)
# $file (name)
# $at (date)
trust-stamp-shown = last anchor: events 1 to { $events }, stamped at { $at } ({ $file }); `openssl ts -verify` tells whether the stamp is the authority's

# $events (count)
# $who (name)
trust-anchor-kept = last anchor on record: events 1 to { $events }, said to be kept by { $who }; it proves something when it is shown: `limpid verify STORE --anchor FILE`

# $events (count)
# $who (name)
# $at (date)
trust-stamp-kept = last anchor on record: events 1 to { $events }, stamped at { $at } ({ $who }); `limpid anchor STORE --write DIR` writes the stamp out for `openssl ts -verify`

# $file (name)
trust-anchor-beside = { $file } lies beside the programme: who rewrites the one can rewrite the other, so it counts as no anchor

# $n (count)
# $acts (list): what they were
trust-since = { $n ->
    [one] one event since then
   *[other] { $n } events since then
}: { $acts }

trust-none-since = no event since then

# $event (count)
# $act (name)
# $who (name)
trust-event = { $event } { $act } ({ $who })

# $first (count)
# $last (count)
# $act (name)
# $who (name)
trust-events = { $first } to { $last } { $act } ({ $who })

# $person (name)
# $key (name)
# $events (count)
trust-last-signature = last signature by key: { $person } ({ $key }), events 1 to { $events }

trust-no-signature = no signature by key

# $keys (count)
# $logins (count)
# $typed (count)
trust-sign-offs = sign-offs: { $keys } signed by key, { $logins } by login, { $typed } typed at the command line

# How a sign-off was made.
trust-by-key = signed by key

trust-by-login = by login

trust-typed = typed, without key

# $key (name)
# $how (message)
trust-key-ended = key { $key }: { $how }

trust-retired = retired

trust-lost = lost

# Faults.

# $file (name)
# $events (count): of the anchor
# $here (count): of the programme
trust-anchor-later = { $file } knows event { $events }, this programme ends with event { $here }: it is an older copy, or its end was cut off

# $file (name)
# $event (count)
trust-anchor-other = { $file }: event { $event } had another hash when it was noted; what stands there, or before it, was written anew

# $file (name)
# $theirs (name)
# $ours (name)
trust-anchor-of-another = { $file } speaks of programme { $theirs }, this is { $ours }: another programme, or one that was begun anew in its place

# $file (name)
# $at (date)
trust-stamp-of-none = { $file } is a stamp of { $at } on no head of this programme: it was rewritten, is an older copy, or is another programme

# $file (name)
trust-nothing-in-it = { $file }: no line of a head (`limpid-head 1 …`) and no time stamp is in it

# $n (count): number of the event that holds it
# $person (name)
# $why (message)
trust-signature-is-none = the signature by key of { $person } (event { $n }) is none: { $why }

# $key (name)
# $person (name)
trust-key-unproved = key { $key }: its own signature does not say that it is { $person }'s

trust-why-form = it has not the form of one

trust-why-namespace = it was made for another use

trust-why-other-key = another key made it

trust-why-other-text = it is not of this text

trust-why-line = what was signed is not what stands on record

trust-why-person = the key is not of the person who stands there

trust-why-ended = the key was retired or lost before

# $n (count): number of the event that holds it
trust-anchor-on-record = the anchor that event { $n } took in is of no head of this record: what it covers was written anew

# Moments.

# $event (count)
# $at (date)
# $before (count)
# $earlier (date)
trust-clock-back = event { $event } is dated { $at }, before event { $before } of { $earlier }: a clock was wrong

# $event (count)
# $at (date)
trust-clock-ahead = event { $event } is dated { $at }, later than the clock of this computer: one of the two is wrong

# $n (count)
trust-more-moments = { $n ->
    [one] one more event
   *[other] { $n } more events
} out of order in time

# Copies.

# $n (count)
# $file (name)
trust-in-the-log = { $n ->
    [one] the newest event stands
   *[other] the newest { $n } events stand
} in the log beside the file yet: a plain copy of { $file } alone lacks { $n ->
    [one] it
   *[other] them
}; `limpid backup` copies all

# $file (name)
trust-left-over = { $file } was left by a copy or a start that was broken off: it held nothing that is not elsewhere, and was removed

# $file (name)
trust-being-made = { $file } is being written, or was left a moment ago by a copy or a start that was broken off

# Keys.

# $person (name)
# $key (name)
trust-key-added = { $key } is the key of { $person } from now on

# $person (name)
# $key (name)
# $how (message)
trust-key-listed = { $key } { $person }: { $how }

trust-in-use = in use

trust-no-keys = no keys on record: `limpid keys STORE --add FILE --as PERSON`

# $key (name)
trust-lost-what-now = what { $key } signed before stays and is named; sign anew with another key what should stand without it

# $n (count)
# $person (name)
# $key (name)
trust-signed = { $n ->
    [one] one line
   *[other] { $n } lines
} signed for { $person } by key { $key }

# $n (count)
# $person (name)
trust-waiting = { $n ->
    [one] one sign-off
   *[other] { $n } sign-offs
} of { $person } without signature by key: `limpid sign STORE RESULT --key FILE`, or all of them with --all

# $person (name)
trust-nothing-to-sign = no sign-off of { $person } waits for a signature there; with --why a new one is made

# Anchors.

# $n (count)
# $head (name)
trust-mail-subject = Head of a record at event { $n }: { $head }

trust-mail-body = Please keep this line as it is, where I cannot change it; there is no need to answer. It stands for everything that my record held at this moment, and tells nothing of what is in it. If you are asked for it one day, send it back as you have it.

trust-anchor-next = keep it where the programme is not: `limpid anchor STORE --receipt FILE --kept-by WHO --as PERSON` notes who has it

# $file (name)
trust-request-next = { $file } goes to an authority for time stamps (RFC 3161), by whatever way it takes; its answer comes in by `limpid anchor STORE --receipt ANSWER.tsr --kept-by WHO --as PERSON`

# $events (count)
# $who (name)
trust-anchor-taken = noted: { $who } keeps the head after { $events ->
    [one] one event
   *[other] { $events } events
}
