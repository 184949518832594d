Invariant: hfb-18
Description: "The time of a result has a time of day and an offset, not a date alone."
Severity: #error
Expression: "$this.toString().length() > 10"
