Invariant: hfb-22
Description: "The hand tested as dominant agrees with the handedness."
Severity: #error
Expression: "(component.where(code.coding.where(code = 'tested-as-dominant').exists()).exists() and value.ofType(CodeableConcept).coding.where(code = '46669005' or code = 'right').exists() implies component.where(code.coding.where(code = 'tested-as-dominant').exists()).value.coding.where(code = 'right').exists()) and (component.where(code.coding.where(code = 'tested-as-dominant').exists()).exists() and value.ofType(CodeableConcept).coding.where(code = '87683000' or code = 'left').exists() implies component.where(code.coding.where(code = 'tested-as-dominant').exists()).value.coding.where(code = 'left').exists())"
