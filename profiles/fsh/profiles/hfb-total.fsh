Profile: HfbTotal
Parent: HfbObservation
Id: hfb-total
Title: "Total of one hand"
Description: "Sum in seconds of the seven tasks, or of the six without writing. Never a partial sum, and never a standard deviation that no norm gives."
* obeys hfb-1 and hfb-4 and hfb-5 and hfb-6 and hfb-14
* identifier.system = "https://handfhirbridge.example/identifier/total"
* category[exam] 1..1
* category[functionalStatus] 1..1
* category[icf] 1..1
* code from HfbTotalCodeVS (required)
* value[x] only Quantity
* value[x] MS
* value[x] = $ucum#s
* value[x].value 1..1
* value[x].unit 1..1
* value[x].comparator 0..0
* dataAbsentReason MS
* dataAbsentReason from HfbAbsentReasonVS (required)
* interpretation 0..0
* bodySite 1..1 MS
* bodySite from HfbHandSiteVS (required)
* bodySite.extension contains HfbLaterality named laterality 0..1
* bodySite.coding 1..1
* note MS
* referenceRange 0..0
* hasMember 0..0
* derivedFrom MS
* derivedFrom only Reference(Observation)
* component 0..0
