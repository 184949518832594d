// An attempt with the left, non-dominant hand, whether it counts or not.
RuleSet: LeftHandAttempt
* insert FunctionCategories
* insert LeftHand
* extension[runOrder].valuePositiveInt = 3
* derivedFrom = Reference(QuestionnaireResponse/example-setup-response)
* component[handRole].valueCodeableConcept = $hand-role#non-dominant
