ValueSet: HfbLengthUnitVS
Id: hfb-vs-length-unit
Title: "Units of length"
Description: "Inches and centimetres."
* ^experimental = false
* $ucum#[in_i] "inch (international)"
* $ucum#cm "centimetre"
