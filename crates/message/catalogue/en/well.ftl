# No fill was timed at the visit.
well-no-fill = No fill was timed, so flow and contact time are not known.

# $from (amount): upper end of the gap
# $to (amount): lower end
well-log-gap = The layer log says nothing from { $from } to { $to }.

# Sections, and no screen.
well-no-screen = The record has no screen or open hole: which layer feeds the well is not known.

# $flow (message): flow with u
# $fills (count): timed fills
well-flow = The well flows at { $flow } by { $fills ->
    [one] { $fills } timed fill
   *[other] { $fills } timed fills
}.

# $flow (message): flow with u
# $known (share): its u as a part of it
# $asked (share): largest that the programme allows
well-flow-loose = The flow, { $flow }, is known to { $known } only; the programme asks for { $asked }: time more fills.

# $flow (message): flow without u
well-flow-one-fill = The flow is { $flow } by one timed fill, so its uncertainty is not known: time three fills or more.

# $p (amount): chance of so much change by scatter alone
well-flow-steady = The flow did not change over the fills beyond their scatter (p { $p }).

# $change (amount): percent
# $p (amount): chance of so much change by scatter alone
well-flow-fell = The flow fell by { $change } over the fills (p { $p }): it was not steady yet.

# $change (amount): percent
# $p (amount): chance of so much change by scatter alone
well-flow-rose = The flow rose by { $change } over the fills (p { $p }): it was not steady yet.

# $time (message): minutes with u
# $material (name): what the pipe is made of
well-contact-in = { $time } in { $material ->
    [galvanised-steel] galvanised steel
    [stainless-steel] stainless steel
    [iron] iron
    [cast-iron] cast iron
    [copper] copper
    [steel] steel
   *[other] { $material }
}

# One stretch after another.
# $before (message): those above
# $next (message): the next one
well-contact-next = { $before }, { $next }

# $contact (message): minutes in each material
# $longest (amount): the programme's limit
well-contact-short = The water touches the well for { $contact }: within the programme's { $longest }.

# $contact (message): minutes in each material
# $longest (amount): the programme's limit
well-contact-long = The water touches the well for { $contact }: longer than the programme's { $longest }, so the pipe may speak in the metals.

# $readings (count): in a row
# $spacing (amount): least time between two
# $width (amount): half of the band, number alone
# $unit (name): unit of the width
# $source (name): who wrote the rule
# $seen (name): how well the source is known
well-rule = { $readings } readings in a row, { $spacing } apart or more, within ± { $width } { $unit } of their mean ({ $source }, { $seen ->
    [recalled] recalled
    [seen-in-part] seen in part
    [seen-in-a-secondary-source] seen in a secondary source
   *[other] { $seen }
})

# $readings (count): in a row
# $spacing (amount): least time between two
# $width (amount): half of the band, number alone
# $unit (name): unit of the width
# $relative (amount): half of the band, percent of the mean
# $source (name): who wrote the rule
# $seen (name): how well the source is known
well-rule-larger = { $readings } readings in a row, { $spacing } apart or more, within ± { $width } { $unit } or { $relative }, whichever is larger, of their mean ({ $source }, { $seen ->
    [recalled] recalled
    [seen-in-part] seen in part
    [seen-in-a-secondary-source] seen in a secondary source
   *[other] { $seen }
})

# The mean lies where the rules have no band.
well-rule-none = no band holds at this mean

# $parameter (name): what was read
# $since (amount): time of the first steady reading
# $rule (message): by which rule
well-reading-steady = The { $parameter ->
    [dissolved-oxygen] dissolved oxygen
   *[other] { $parameter }
} has been steady since { $since }: { $rule }.

# $parameter (name): what was read
# $rule (message): by which rule
well-reading-not-steady = The { $parameter ->
    [dissolved-oxygen] dissolved oxygen
   *[other] { $parameter }
} is not steady: the rule is { $rule }.

# $parameter (name): what was read
# $spacing (amount): least time between two
# $have (count): readings so far apart
# $need (count): readings that the rule asks for
well-readings-too-few = Steady or not cannot be told: readings of { $parameter ->
    [dissolved-oxygen] dissolved oxygen
   *[other] { $parameter }
} at least { $spacing } apart: { $have } given, at least { $need } needed; go on reading.

# $reading (count): which one
# $time (amount): its time
# $before (amount): time of the one before
well-readings-backwards = Steady or not cannot be told: time of reading { $reading }: found { $time }, expected later than the { $before } of the reading before.

# $parameter (name): what was read
# $rule (name): set of rules
# $known (list): what there are rules for
well-readings-no-rule = Steady or not cannot be told: parameter and rule: found { $parameter ->
    [dissolved-oxygen] dissolved oxygen
   *[other] { $parameter }
} ({ $rule }), expected one of { $known }.

# $parameter (name): what is read
# $rule (name): set of rules
well-rule-of = { $parameter ->
    [dissolved-oxygen] dissolved oxygen
   *[other] { $parameter }
} ({ $rule })

# $times (amount): volumes of the well
# $left (share): of the standing water
well-renewed = The well was renewed { $times } times since it was opened; { $left } of the standing water is left at most.

# $times (amount): volumes of the well
# $least (amount): volumes that the programme asks for
# $left (share): of the standing water
well-renewed-too-little = The well was renewed { $times } times since it was opened, the programme asks for { $least }: up to { $left } of the standing water is left.

# $age (amount): years
# $u (amount): its u
well-age-with-u = { $age } ± { $u } years

# $age (amount): years
well-age-over = over { $age } years

# $age (amount): years
well-age-under = under { $age } years

# $tracer (name): what the age is by
# $age (message): with u, or a bound
# $low (amount): travel time, 2.5 %
# $high (amount): travel time, 97.5 %
well-age-within = The age by { $tracer ->
    [tracer] a tracer
   *[other] { $tracer }
}, { $age }, lies within the travel time by Darcy, { $low } to { $high } years.

# $tracer (name): what the age is by
# $age (message): with u, or a bound
# $low (amount): travel time, 2.5 %
# $high (amount): travel time, 97.5 %
well-age-contradicts = The age by { $tracer ->
    [tracer] a tracer
   *[other] { $tracer }
}, { $age }, contradicts the travel time by Darcy, { $low } to { $high } years: the path, the porosity or the mixing of waters is not as assumed.
