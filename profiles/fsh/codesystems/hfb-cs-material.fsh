CodeSystem: HfbMaterialCS
Id: hfb-cs-material
Title: "Materials of the seven-task test"
Description: "Materials of a kit. This is a local code system of HandFhirBridge: no published code system was found that holds these meanings."
* ^caseSensitive = true
* ^experimental = false
* #pen "Pen"
* #writing-paper "Sheet of unruled paper"
* #sentence-card "Card with a 24-letter sentence at third-grade reading level"
* #card-stand "Stand for the card"
* #index-card "Index card"
* #empty-can "Empty can that holds one pound"
* #paper-clip "Paper clip"
* #bottle-cap "Bottle cap"
* #coin "Small coin"
* #kidney-bean "Kidney bean"
* #teaspoon "Teaspoon"
* #checker "Checker"
* #large-can-empty "Large can, empty"
* #large-can-filled "Large can, filled"
* #board "Board clamped to the table"
