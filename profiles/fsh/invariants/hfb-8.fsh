Invariant: hfb-8
Description: "A z-score or a percent of the norm rests on exactly one reference range."
Severity: #error
Expression: "component.code.coding.where(code = 'z-score' or code = 'percent-of-norm').exists() implies referenceRange.count() = 1"
