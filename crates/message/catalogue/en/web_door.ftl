### The door: logging in, one’s own account, sessions, the second factor, the log of the door, what is refused there.

## Names and passwords that cannot be.
# $found (name): as given
web_door-no-role = Found “{ $found }”, expected one of reader, sampler, analyst, lead.

# $found (name): as given
web_door-name-unfit = The name: found “{ $found }”, expected a name as it is to stand in the record, without blanks before or behind it.

# $most (count): characters
web_door-name-long = { $most ->
    [one] The name: expected { $most } character at most.
   *[other] The name: expected { $most } characters at most.
}

# $found (name): as given
web_door-name-illegible = The name: found “{ $found }” with signs that cannot be seen or told from others, expected letters of one writing in a word.

# $found (name): as given
# $other (name): the account there is
web_door-name-alike = The name: found “{ $found }”, which looks like { $other }, who has an account. Expected a name that nobody takes for another’s.

# $found (count): characters found
# $least (count): characters, at least
# $most (count): bytes, at most
web_door-password-length = { $found ->
    [one] The password: found { $found } character, expected at least { $least } and, in bytes, at most { $most }.
   *[other] The password: found { $found } characters, expected at least { $least } and, in bytes, at most { $most }.
}

web_door-password-guessable = The password: found one of those that are tried first (the name, “password”, a row of keys, one sign over and over), expected another.

# $who (name): the name
web_door-no-such-account = There is no account of { $who }.

## Coming in.
web_door-code = Code of your authenticator
web_door-code-hint = Six digits, where you set one up; else leave it empty.
web_door-wrong = Name, password and code do not fit.

# $n (count): seconds
web_door-wait-seconds = { $n ->
    [one] Too many tries that failed; wait { $n } s, then try again.
   *[other] Too many tries that failed; wait { $n } s, then try again.
}

## What the guard refuses.
# $found (name): the scheme
web_door-proxy-only = This programme is served through a proxy with TLS only: found the scheme { $found }, expected https.

# $host (name): as asked
web_door-loopback-only = This programme answers to 127.0.0.1 and localhost only, not to “{ $host }”.

web_door-not-from-here = The request did not come from a page of this programme, so nothing was done.
web_door-nobody-here = Nobody has an account here.

# $who (name): who asks
# $role (name): their role
# $needed (name): the role that this needs
web_door-needs-role = { $who } is { $role }; this needs { $needed } or more.

web_door-busy = Too much of yours is being done already; wait until some of it is done.
web_door-named-already = Who has logged in acts under that name.

# $found (name): as given
web_door-person-unfit = The name: found “{ $found }”, expected a name as it is to stand in the record, with a letter or a digit.

## Work that waits.
web_door-waits-its-turn = It waits until work before it is done.

# $n (count): pieces of work
web_door-enough-work = { $n ->
    [one] { $n } piece of your work waits already; wait until it is done, or stop it.
   *[other] { $n } pieces of your work wait already; wait until some are done, or stop some.
}

## One’s own account.
web_door-own = Your account

# $who (name): who
# $role (name): their role
web_door-own-who = { $who }, { $role }

web_door-own-nobody = Nobody logs in here, so there is no account of your own.
web_door-new-password = Change your password
web_door-password-now = Password now
web_door-password-new = New password
web_door-password-ends = Your other sessions end.
web_door-change = Change
web_door-password-wrong = This is not your password, or the code does not fit.
web_door-changed = Your password is changed, and your other sessions have ended.

## Sessions.
web_door-sessions = Sessions
web_door-sessions-of-all = Who is in now
web_door-session-begun = Begun
web_door-session-idle = Last asked
web_door-session-from = From
web_door-session-browser = Browser
web_door-session-this = this one
web_door-session-end = End it

# $who (name): whose
# $begun (name): when it began
web_door-session-end-of = End the session of { $who } begun { $begun }

web_door-sessions-end-others = End all others

# $n (count): minutes
web_door-minutes-ago = { $n ->
    [0] just now
    [one] { $n } min ago
   *[other] { $n } min ago
}

web_door-sessions-none = Nobody is in.

## The second factor.
web_door-second = Second factor
web_door-second-what = An authenticator on your telephone shows a code of six digits that changes every half minute. Whoever knows your password and not your telephone does not come in.
web_door-second-lead = You act as lead: a second factor guards what others stand on.
web_door-second-is = A second factor is set up: you are asked for a code when you log in.
web_door-second-is-not = No second factor is set up.
web_door-second-begin = Set up a second factor
web_door-second-key = Type this key into your authenticator (kind: by time, 6 digits, 30 s), or open the link on your telephone. Then type the code that it shows.
web_door-second-link = Open in the authenticator
web_door-second-confirm = Set it up
web_door-second-wrong = The code does not fit. Look whether the clock of this machine and of your telephone are right; a code counts once.
web_door-second-set = The second factor is set up, and your other sessions have ended.
web_door-second-end = Give it up
web_door-second-ended = The second factor is given up.
web_door-second-gone = This form is too old; begin again.
web_door-second-column = Second factor
web_door-yes = yes
web_door-no = no
web_door-second-take = Take the second factor away

# $who (name): whose
web_door-second-take-of = Take the second factor of { $who } away

## The log of the door.
web_door-log = Log of the door
web_door-log-where = Who came in, who was refused, and what was done to accounts; the newest first. The whole of it:
web_door-log-csv = as CSV
web_door-log-none = Nothing has happened yet.
web_door-log-at = When
web_door-log-who = Who
web_door-log-what = What
web_door-log-whom = Whose account
web_door-act-came-in = came in
web_door-act-refused = name, password and code did not fit
web_door-act-held-up = tried too often
web_door-act-left = went out
web_door-act-ended-session = ended a session
web_door-act-set-account = set account and role
web_door-act-removed-account = took the account away
web_door-act-changed-password = changed the password
web_door-act-set-code = set up a second factor
web_door-act-removed-code = took the second factor away

# $act (message): what was done
# $role (name): the role from then on
web_door-act-with-role = { $act }: { $role }

## What was said of accounts.
web_door-must-be-lead = Found less than lead, expected lead: somebody must be able to make accounts.
web_door-not-oneself = Nobody takes away the account that they act under: another lead can.
web_door-form-strange = This form was opened before the program was started again, or by somebody else. Go back, copy what you typed, open the page anew and send it again.

## Why the web interface is not served.
# $address (name): where it was to listen
# $accounts (name): the file
web_door-no-accounts = Listening on { $address }, or behind a proxy, lets others in, and { $accounts } names no account: make one with `limpid account STORE add NAME --role lead`, or listen on 127.0.0.1 alone.

# $address (name): where it was to listen
web_door-no-tls = Listening on { $address } without TLS sends passwords in the clear: give --tls-cert and --tls-key, or stand behind a proxy with TLS (--behind-tls), or listen on 127.0.0.1 alone.

# $file (name): the file
# $why (name): what the reader said
web_door-tls-unfit = The certificate or key in { $file }: { $why }. Expected PEM: the certificate, then those that vouch for it; and its key in a file of its own.
