Invariant: hfb-15
Description: "A reference names what it points to, by address or by identifier."
Severity: #error
Expression: "reference.exists() or (identifier.system.exists() and identifier.value.exists())"
