Profile: HfbProvenance
Parent: Provenance
Id: hfb-provenance
Title: "Provenance of a delivery"
Description: "Who tested, for which clinic, which software made the resources, and from which session document."
* meta 1..1
* meta.tag 1..*
* meta.tag ^slicing.discriminator.type = #value
* meta.tag ^slicing.discriminator.path = "system"
* meta.tag ^slicing.rules = #open
* meta.tag contains session 1..1
* meta.tag[session].system 1..1
* meta.tag[session].system = "https://handfhirbridge.example/identifier/session"
* meta.tag[session].code 1..1
* text 1..1 MS
* target MS
* target obeys hfb-15
* recorded MS
* activity 1..1 MS
* activity from HfbActivityVS (required)
* agent 2..* MS
* agent ^slicing.discriminator.type = #pattern
* agent ^slicing.discriminator.path = "type"
* agent ^slicing.rules = #open
* agent.onBehalfOf obeys hfb-15
* agent contains author 1..1 and assembler 1..1
* agent[author].type 1..1
* agent[author].type = $participant#author
* agent[author].role 0..1
* agent[author].role from HfbPerformerRoleVS (required)
* agent[author].who only Reference(Practitioner or PractitionerRole)
* agent[author].who obeys hfb-15
* agent[author].onBehalfOf 1..1
* agent[author].onBehalfOf only Reference(Organization)
* agent[assembler].type 1..1
* agent[assembler].type = $participant#assembler
* agent[assembler].who only Reference(Device)
* agent[assembler].who obeys hfb-15
* agent[assembler].onBehalfOf 1..1
* agent[assembler].onBehalfOf only Reference(Organization)
* entity 1..1 MS
* entity obeys hfb-21
* entity.role = #source
* entity.what.identifier 1..1
* entity.what.identifier.system 1..1
* entity.what.identifier.system = "https://handfhirbridge.example/identifier/session"
* entity.what.identifier.value 1..1
* entity.what.display 1..1
