CodeSystem: HfbMaterialCS
Id: hfb-cs-material
Title: "Materials of the seven-task test"
Description: "Materials of a kit. This is a local code system of HandFhirBridge: no published code system was found that holds these meanings."
* ^caseSensitive = true
* ^experimental = false
* #pen "Pen"
* #writing-paper "Unruled writing paper"
* #sentence-card "Sentence card"
* #card-stand "Card stand"
* #index-card "Index card"
* #empty-can "Empty can"
* #paper-clip "Paper clip"
* #bottle-cap "Bottle cap"
* #coin "Coin"
* #kidney-bean "Kidney bean"
* #teaspoon "Teaspoon"
* #checker "Checker"
* #large-can-empty "Large can, empty"
* #large-can-filled "Large can, filled"
* #board "Board"
