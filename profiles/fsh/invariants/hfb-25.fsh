Invariant: hfb-25
Description: "The address of the subject, where there is one, is a patient's."
Severity: #error
Expression: "reference.exists() implies (reference.startsWith('Patient/') or reference.startsWith('Patient?') or reference.contains('/Patient/'))"
