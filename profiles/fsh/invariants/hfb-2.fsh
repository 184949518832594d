Invariant: hfb-2
Description: "A time that is a bound (comparator) is interpreted as off scale (>), and nothing else is."
Severity: #error
Expression: "value.ofType(Quantity).comparator.exists() = interpretation.coding.where(system = 'http://terminology.hl7.org/CodeSystem/v3-ObservationInterpretation' and code = '>').exists()"
