ValueSet: HfbTaskVS
Id: hfb-vs-task
Title: "Tasks"
Description: "Every task."
* ^experimental = false
* $task#writing "Writing"
* $task#card-turning "Card turning"
* $task#small-common-objects "Picking up small common objects"
* $task#simulated-feeding "Simulated feeding"
* $task#stacking-checkers "Stacking checkers"
* $task#large-light-objects "Moving large light objects"
* $task#large-heavy-objects "Moving large heavy objects"
