Profile: HfbPanel
Parent: HfbObservation
Id: hfb-panel
Title: "Panel of one hand"
Description: "Groups the seven trials and two totals of one hand; has no value of its own."
* obeys hfb-6
* identifier.system = "https://handfhirbridge.example/identifier/panel"
* category[exam] 1..1
* category[functionalStatus] 1..1
* category[icf] 1..1
* code from HfbPanelCodeVS (required)
* value[x] 0..0
* dataAbsentReason 0..0
* interpretation 0..0
* bodySite 1..1 MS
* bodySite from HfbHandSiteVS (required)
* bodySite.extension contains HfbLaterality named laterality 0..1
* bodySite.coding 1..1
* referenceRange 0..0
* hasMember 9..9 MS
* hasMember only Reference(Observation)
* component 0..0
