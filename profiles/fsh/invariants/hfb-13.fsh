Invariant: hfb-13
Description: "A reference range does not begin below zero and ends above its begin."
Severity: #error
Expression: "low.value >= 0 and low.value < high.value"
