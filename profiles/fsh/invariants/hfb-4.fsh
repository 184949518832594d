Invariant: hfb-4
Description: "What was cancelled has no value, and says why."
Severity: #error
Expression: "status = 'cancelled' implies (value.empty() and dataAbsentReason.exists())"
