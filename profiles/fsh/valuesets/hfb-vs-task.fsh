ValueSet: HfbTaskVS
Id: hfb-vs-task
Title: "Tasks"
Description: "Every task."
* ^experimental = false
* $task#writing "Writing"
* $task#card-turning "Card turning"
* $task#small-common-objects "Small common objects"
* $task#simulated-feeding "Simulated feeding"
* $task#stacking-checkers "Stacking checkers"
* $task#large-light-objects "Large light objects"
* $task#large-heavy-objects "Large heavy objects"
