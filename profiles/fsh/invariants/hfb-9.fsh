Invariant: hfb-9
Description: "H stands with a z-score of at least 2.00, N with one of at most 2.00 (the judgement itself is made on unrounded figures)."
Severity: #error
Expression: "(interpretation.coding.where(code = 'H').exists() implies component.where(code.coding.where(code = 'z-score').exists()).value.ofType(Quantity).value.all($this >= 2)) and (interpretation.coding.where(code = 'N').exists() implies component.where(code.coding.where(code = 'z-score').exists()).value.ofType(Quantity).value.all($this <= 2))"
