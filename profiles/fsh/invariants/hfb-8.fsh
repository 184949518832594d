Invariant: hfb-8
Description: "A z-score or a percent of the norm rests on exactly one reference range: two are shown only when the sex for the norm is unknown, and then nothing is judged."
Severity: #error
Expression: "component.code.coding.where(code = 'z-score' or code = 'percent-of-norm').exists() implies referenceRange.count() = 1"
