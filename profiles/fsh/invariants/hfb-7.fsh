Invariant: hfb-7
Description: "A judgement (N or H) stands with the z-score it was made from."
Severity: #error
Expression: "interpretation.coding.where(code = 'N' or code = 'H').exists() implies component.code.coding.where(code = 'z-score').exists()"
