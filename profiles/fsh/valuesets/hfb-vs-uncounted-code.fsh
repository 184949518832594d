ValueSet: HfbUncountedCodeVS
Id: hfb-vs-uncounted-code
Title: "Codes of attempts that do not count"
Description: "One code for each task and hand."
* ^experimental = false
* $measure#writing-left-uncounted "Writing, left hand, attempt not counted"
* $measure#writing-right-uncounted "Writing, right hand, attempt not counted"
* $measure#card-turning-left-uncounted "Card turning, left hand, attempt not counted"
* $measure#card-turning-right-uncounted "Card turning, right hand, attempt not counted"
* $measure#small-common-objects-left-uncounted "Picking up small common objects, left hand, attempt not counted"
* $measure#small-common-objects-right-uncounted "Picking up small common objects, right hand, attempt not counted"
* $measure#simulated-feeding-left-uncounted "Simulated feeding, left hand, attempt not counted"
* $measure#simulated-feeding-right-uncounted "Simulated feeding, right hand, attempt not counted"
* $measure#stacking-checkers-left-uncounted "Stacking checkers, left hand, attempt not counted"
* $measure#stacking-checkers-right-uncounted "Stacking checkers, right hand, attempt not counted"
* $measure#large-light-objects-left-uncounted "Moving large light objects, left hand, attempt not counted"
* $measure#large-light-objects-right-uncounted "Moving large light objects, right hand, attempt not counted"
* $measure#large-heavy-objects-left-uncounted "Moving large heavy objects, left hand, attempt not counted"
* $measure#large-heavy-objects-right-uncounted "Moving large heavy objects, right hand, attempt not counted"
