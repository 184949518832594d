ValueSet: HfbTrialCodeVS
Id: hfb-vs-trial-code
Title: "Codes of trials"
Description: "One code for each task and hand."
* ^experimental = false
* $measure#writing-left "Writing, left hand"
* $measure#writing-right "Writing, right hand"
* $measure#card-turning-left "Card turning, left hand"
* $measure#card-turning-right "Card turning, right hand"
* $measure#small-common-objects-left "Small common objects, left hand"
* $measure#small-common-objects-right "Small common objects, right hand"
* $measure#simulated-feeding-left "Simulated feeding, left hand"
* $measure#simulated-feeding-right "Simulated feeding, right hand"
* $measure#stacking-checkers-left "Stacking checkers, left hand"
* $measure#stacking-checkers-right "Stacking checkers, right hand"
* $measure#large-light-objects-left "Large light objects, left hand"
* $measure#large-light-objects-right "Large light objects, right hand"
* $measure#large-heavy-objects-left "Large heavy objects, left hand"
* $measure#large-heavy-objects-right "Large heavy objects, right hand"
