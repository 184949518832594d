Invariant: hfb-21
Description: "The source is named with the SHA-256 digest of the session document."
Severity: #error
Expression: "what.display.startsWith('sha-256:') and what.display.length() = 72"
