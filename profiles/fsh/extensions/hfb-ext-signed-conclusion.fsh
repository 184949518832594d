Extension: HfbSignedConclusion
Id: hfb-ext-signed-conclusion
Title: "Signed conclusion"
Description: "What the performer concluded, in their own words, and when they signed it. The report's conclusion repeats the words, with what must not be left out beside them. A report without this extension has a conclusion that rules drafted and nobody signed."
* ^context[0].type = #element
* ^context[0].expression = "DiagnosticReport"
* extension contains
    text 1..1 and
    signedAt 1..1
* extension[text].value[x] only string
* extension[text].value[x] 1..1
* extension[signedAt].value[x] only dateTime
* extension[signedAt].value[x] 1..1
