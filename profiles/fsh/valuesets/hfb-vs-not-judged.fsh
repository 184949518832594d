ValueSet: HfbNotJudgedVS
Id: hfb-vs-not-judged
Title: "Reasons without a score"
Description: "Every reason."
* ^experimental = false
* $not-judged#no-time "No plain time"
* $not-judged#sex-unknown "Sex for the norm unknown"
* $not-judged#age-outside-norms "Age outside the norms"
* $not-judged#no-norm "No norm"
