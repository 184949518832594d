ValueSet: HfbGlassesVS
Id: hfb-vs-glasses
Title: "Glasses"
Description: "Whether glasses were worn."
* ^experimental = false
* $setup#worn "Worn"
* $setup#not-needed "Not needed"
* $setup#needed-not-worn "Needed but not worn"
