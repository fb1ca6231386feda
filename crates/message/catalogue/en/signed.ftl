### The report's section on who signed.

signed-title = Who stands for what

# Caption.
signed-caption = Verdicts that a person signed, each with the newest signature

# Column.
signed-what = result

# Column.
signed-verdict = verdict now

# Column.
signed-who = who stands for it

# Column.
signed-why = why

# Column.
signed-how = how

# Note.
signed-about = A signature answers for warnings, not for evidence that is missing; the verdict beside it is worked out from the findings.
