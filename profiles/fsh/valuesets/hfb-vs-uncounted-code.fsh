ValueSet: HfbUncountedCodeVS
Id: hfb-vs-uncounted-code
Title: "Codes of attempts that do not count"
Description: "One code for each task and hand."
* ^experimental = false
* $measure#writing-left-uncounted "Writing, left hand, attempt not counted"
* $measure#writing-right-uncounted "Writing, right hand, attempt not counted"
* $measure#card-turning-left-uncounted "Card turning, left hand, attempt not counted"
* $measure#card-turning-right-uncounted "Card turning, right hand, attempt not counted"
* $measure#small-common-objects-left-uncounted "Small common objects, left hand, attempt not counted"
* $measure#small-common-objects-right-uncounted "Small common objects, right hand, attempt not counted"
* $measure#simulated-feeding-left-uncounted "Simulated feeding, left hand, attempt not counted"
* $measure#simulated-feeding-right-uncounted "Simulated feeding, right hand, attempt not counted"
* $measure#stacking-checkers-left-uncounted "Stacking checkers, left hand, attempt not counted"
* $measure#stacking-checkers-right-uncounted "Stacking checkers, right hand, attempt not counted"
* $measure#large-light-objects-left-uncounted "Large light objects, left hand, attempt not counted"
* $measure#large-light-objects-right-uncounted "Large light objects, right hand, attempt not counted"
* $measure#large-heavy-objects-left-uncounted "Large heavy objects, left hand, attempt not counted"
* $measure#large-heavy-objects-right-uncounted "Large heavy objects, right hand, attempt not counted"
