# No fill was timed at the visit.
well-no-fill = No fill was timed, so flow and contact time are not known.
