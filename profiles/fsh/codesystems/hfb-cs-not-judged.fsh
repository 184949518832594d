CodeSystem: HfbNotJudgedCS
Id: hfb-cs-not-judged
Title: "Reasons without a score"
Description: "Why a counted trial carries no score. This is a local code system of HandFhirBridge: no published code system was found that holds these meanings."
* ^caseSensitive = true
* ^experimental = false
* #no-time "No plain time" "It was not completed."
* #sex-unknown "Sex for the norm unknown" "Both norms are shown and none is judged."
* #age-outside-norms "Age outside the norms" "The age is outside every usable norm."
* #no-norm "No norm" "No usable norm has this task, hand role and sex at this age."
