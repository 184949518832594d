Instance: hfb-cm-measure
InstanceOf: ConceptMap
Usage: #definition
Title: "Measures to LOINC"
Description: "For a site to fill. No LOINC code was found for the seven-task test, so every measure is unmatched until a site maps it to a code of its own laboratory or terminology."
* url = "https://handfhirbridge.example/fhir/ConceptMap/hfb-cm-measure"
* version = "0.1.0"
* name = "HfbMeasureCM"
* title = "Measures to LOINC"
* status = #draft
* experimental = false
* publisher = "HandFhirBridge"
* description = "For a site to fill. No LOINC code was found for the seven-task test, so every measure is unmatched until a site maps it."
* sourceCanonical = "https://handfhirbridge.example/fhir/ValueSet/hfb-vs-measure"
* group.source = "https://handfhirbridge.example/fhir/CodeSystem/hfb-cs-measure"
* group.target = "http://loinc.org"
* group.element[+].code = #seven-task-report
* group.element[=].display = "Seven-task hand function test report"
* group.element[=].target.equivalence = #unmatched
* group.element[+].code = #handedness
* group.element[=].display = "Handedness"
* group.element[=].target.equivalence = #unmatched
* group.element[+].code = #panel-left
* group.element[=].display = "Seven-task hand function test, left hand"
* group.element[=].target.equivalence = #unmatched
* group.element[+].code = #panel-right
* group.element[=].display = "Seven-task hand function test, right hand"
* group.element[=].target.equivalence = #unmatched
* group.element[+].code = #writing-left
* group.element[=].display = "Writing, left hand"
* group.element[=].target.equivalence = #unmatched
* group.element[+].code = #writing-right
* group.element[=].display = "Writing, right hand"
* group.element[=].target.equivalence = #unmatched
* group.element[+].code = #card-turning-left
* group.element[=].display = "Card turning, left hand"
* group.element[=].target.equivalence = #unmatched
* group.element[+].code = #card-turning-right
* group.element[=].display = "Card turning, right hand"
* group.element[=].target.equivalence = #unmatched
* group.element[+].code = #small-common-objects-left
* group.element[=].display = "Small common objects, left hand"
* group.element[=].target.equivalence = #unmatched
* group.element[+].code = #small-common-objects-right
* group.element[=].display = "Small common objects, right hand"
* group.element[=].target.equivalence = #unmatched
* group.element[+].code = #simulated-feeding-left
* group.element[=].display = "Simulated feeding, left hand"
* group.element[=].target.equivalence = #unmatched
* group.element[+].code = #simulated-feeding-right
* group.element[=].display = "Simulated feeding, right hand"
* group.element[=].target.equivalence = #unmatched
* group.element[+].code = #stacking-checkers-left
* group.element[=].display = "Stacking checkers, left hand"
* group.element[=].target.equivalence = #unmatched
* group.element[+].code = #stacking-checkers-right
* group.element[=].display = "Stacking checkers, right hand"
* group.element[=].target.equivalence = #unmatched
* group.element[+].code = #large-light-objects-left
* group.element[=].display = "Large light objects, left hand"
* group.element[=].target.equivalence = #unmatched
* group.element[+].code = #large-light-objects-right
* group.element[=].display = "Large light objects, right hand"
* group.element[=].target.equivalence = #unmatched
* group.element[+].code = #large-heavy-objects-left
* group.element[=].display = "Large heavy objects, left hand"
* group.element[=].target.equivalence = #unmatched
* group.element[+].code = #large-heavy-objects-right
* group.element[=].display = "Large heavy objects, right hand"
* group.element[=].target.equivalence = #unmatched
* group.element[+].code = #seven-task-total-left
* group.element[=].display = "Seven-task total, left hand"
* group.element[=].target.equivalence = #unmatched
* group.element[+].code = #seven-task-total-right
* group.element[=].display = "Seven-task total, right hand"
* group.element[=].target.equivalence = #unmatched
* group.element[+].code = #six-task-total-left
* group.element[=].display = "Six-task total, left hand"
* group.element[=].target.equivalence = #unmatched
* group.element[+].code = #six-task-total-right
* group.element[=].display = "Six-task total, right hand"
* group.element[=].target.equivalence = #unmatched
