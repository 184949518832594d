RuleSet: Declined
* status = #cancelled
* extension[outcome].valueCode = #declined
* dataAbsentReason = $absent#asked-declined
