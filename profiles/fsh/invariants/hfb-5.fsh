Invariant: hfb-5
Description: "Seconds are more than zero."
Severity: #error
Expression: "value.ofType(Quantity).value.exists() implies value.ofType(Quantity).value > 0"
