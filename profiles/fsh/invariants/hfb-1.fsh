Invariant: hfb-1
Description: "There is either a time or a reason why there is none, never both and never neither."
Severity: #error
Expression: "value.exists() xor dataAbsentReason.exists()"
