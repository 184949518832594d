Invariant: hfb-14
Description: "A total exists only with all of its trials."
Severity: #error
Expression: "value.exists() implies ((code.coding.where(code.startsWith('seven-task-total')).exists() implies derivedFrom.count() = 7) and (code.coding.where(code.startsWith('six-task-total')).exists() implies derivedFrom.count() = 6))"
