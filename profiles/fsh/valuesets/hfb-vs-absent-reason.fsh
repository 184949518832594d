ValueSet: HfbAbsentReasonVS
Id: hfb-vs-absent-reason
Title: "Why there is no time"
Description: "One reason for each outcome that has no time."
* ^experimental = false
* $absent#not-performed "Not Performed"
* $absent#asked-declined "Asked But Declined"
* $absent#error "Error"
