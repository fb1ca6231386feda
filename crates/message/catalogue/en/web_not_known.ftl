### What holds a result back where nobody knows whether a check is met, by the name of the check.

web_not_known-cool-box-seal = Seals not on record
web_not_known-run-blank-count = Blanks of the run not known
web_not_known-run-reference-material = No control water in the run
web_not_known-number-recovery = No recovery known in this water
web_not_known-number-duplicates = No second bottle beside it
web_not_known-number-uncertainty = No uncertainty stated
web_not_known-number-blanks = Blanks not on record
web_not_known-number-limit = Not found, but below what is not stated
web_not_known-number-replicates = Replicates not on record
web_not_known-air-class = Air over the open bottle not counted
web_not_known-well-contact-time = Time in the pipe not known
web_not_known-well-steady = Too few readings at the well
web_not_known-lab-method = Method not stated
web_not_known-lab-accreditation = Accreditation not on record
web_not_known-lab-blank = Blanks of the laboratory not on record
web_not_known-lab-recovery = Recovery of the laboratory not on record
web_not_known-lab-duplicate = Duplicates of the laboratory not on record
