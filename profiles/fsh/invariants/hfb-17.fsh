Invariant: hfb-17
Description: "Where somebody is ambidextrous, the hand tested as dominant is named."
Severity: #error
Expression: "value.ofType(CodeableConcept).coding.where(code = '23088002' or code = 'ambidextrous').exists() implies component.where(code.coding.where(code = 'tested-as-dominant').exists()).value.exists()"
