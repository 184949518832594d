CodeSystem: HfbComponentCS
Id: hfb-cs-component
Title: "Components of a measure"
Description: "What a component of a trial or of the dominance says. This is a local code system of HandFhirBridge: no published code system was found that holds these meanings."
* ^caseSensitive = true
* ^experimental = false
* #hand-role "Hand role" "Part this hand played in the session."
* #z-score "z-score" "(seconds - norm mean) / norm SD; positive is slower."
* #percent-of-norm "Percent of norm mean" "100 x seconds / norm mean."
* #departure "Departure" "What differed from the standard procedure."
* #laterality-quotient "Laterality quotient" "-100 (all left) to +100 (all right)."
* #tested-as-dominant "Hand tested as dominant" "The hand that was tested in the dominant role."
