Invariant: hfb-7
Description: "A judgement (N or H) rests on exactly one reference range: two ranges are shown only when the sex for the norm is unknown, and then nothing is judged."
Severity: #error
Expression: "interpretation.coding.where(code = 'N' or code = 'H').exists() implies referenceRange.count() = 1"
