join-comma = { $one }, { $more }
