Extension: HfbNormSource
Id: hfb-ext-norm-source
Title: "Source of a norm"
Description: "Which norm set a reference range or a report rests on, where it comes from, and how far it can be trusted."
* ^context[0].type = #element
* ^context[0].expression = "Observation.referenceRange"
* ^context[1].type = #element
* ^context[1].expression = "DiagnosticReport"
* extension contains
    normSet 1..1 and
    version 1..1 and
    source 1..1 and
    evidence 1..1 and
    demonstrationOnly 1..1 and
    mean 0..1 and
    standardDeviation 0..1 and
    sampleSize 0..1 and
    note 0..1
* extension[normSet].value[x] only string
* extension[normSet].value[x] 1..1
* extension[version].value[x] only string
* extension[version].value[x] 1..1
* extension[source].value[x] only string
* extension[source].value[x] 1..1
* extension[evidence].value[x] only code
* extension[evidence].value[x] 1..1
* extension[evidence].value[x] from HfbEvidenceVS (required)
* extension[demonstrationOnly].value[x] only boolean
* extension[demonstrationOnly].value[x] 1..1
* extension[mean].value[x] only decimal
* extension[mean].value[x] 1..1
* extension[standardDeviation].value[x] only decimal
* extension[standardDeviation].value[x] 1..1
* extension[sampleSize].value[x] only positiveInt
* extension[sampleSize].value[x] 1..1
* extension[note].value[x] only string
* extension[note].value[x] 1..1
