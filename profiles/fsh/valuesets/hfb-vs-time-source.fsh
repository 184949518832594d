ValueSet: HfbTimeSourceVS
Id: hfb-vs-time-source
Title: "Sources of a time"
Description: "Timer or manual."
* ^experimental = false
* $time-source#timer "Timer"
* $time-source#manual "Manual"
