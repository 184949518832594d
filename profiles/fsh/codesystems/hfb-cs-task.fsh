CodeSystem: HfbTaskCS
Id: hfb-cs-task
Title: "Tasks of the seven-task test"
Description: "The tasks in their standard order. This is a local code system of HandFhirBridge: no published code system was found that holds these meanings."
* ^caseSensitive = true
* ^experimental = false
* #writing "Writing" "Copying a short sentence from a card with a pen."
* #card-turning "Card turning" "Turning five cards over, one after another."
* #small-common-objects "Small common objects" "Picking up small common objects and dropping them into a can."
* #simulated-feeding "Simulated feeding" "Moving kidney beans into a can with a teaspoon."
* #stacking-checkers "Stacking checkers" "Stacking four checkers on a board."
* #large-light-objects "Large light objects" "Moving five empty large cans onto a board."
* #large-heavy-objects "Large heavy objects" "Moving five filled large cans (1 lb each) onto a board."
