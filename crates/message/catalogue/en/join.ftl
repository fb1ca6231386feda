# Several of a kind that does not matter in its order, one before the rest.
# $one (message): the first
# $more (message): the rest
join-comma = { $one }, { $more }
