Invariant: hfb-16
Description: "A cap is more than zero seconds."
Severity: #error
Expression: "item.where(linkId = 'cap-seconds').answer.value.ofType(Quantity).value.all($this > 0)"
