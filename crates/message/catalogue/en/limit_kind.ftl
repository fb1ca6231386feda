### What a limit is set for, as its authority calls it: `Message::named("limit_kind", kind)`.

limit_kind-acceptability--taste-or-odour = acceptability (taste or odour)
limit_kind-action-level = action level
limit_kind-aesthetic-objective = aesthetic objective
limit_kind-guide-value = guide value
limit_kind-guideline-value = guideline value
limit_kind-indicator-parameter = indicator parameter
limit_kind-limit = limit
limit_kind-maximum-acceptable-concentration = maximum acceptable concentration
limit_kind-maximum-contaminant-level = maximum contaminant level
limit_kind-maximum-contaminant-level-goal = maximum contaminant level goal
limit_kind-operational = operational
limit_kind-operational-guidance = operational guidance
limit_kind-parametric-value = parametric value
limit_kind-provisional-guideline-value = provisional guideline value
limit_kind-secondary-maximum-contaminant-level = secondary maximum contaminant level
