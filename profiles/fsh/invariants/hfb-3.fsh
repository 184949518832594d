Invariant: hfb-3
Description: "A bound is no time: it carries neither a z-score nor a percent of the norm."
Severity: #error
Expression: "value.ofType(Quantity).comparator.exists() implies component.code.coding.where(code = 'z-score' or code = 'percent-of-norm').empty()"
