ValueSet: HfbSexForNormVS
Id: hfb-vs-sex-for-norm
Title: "Sex for the norm"
Description: "Which norm applies; not a statement about gender identity."
* ^experimental = false
* $gender#female "Female"
* $gender#male "Male"
* $gender#unknown "Unknown"
