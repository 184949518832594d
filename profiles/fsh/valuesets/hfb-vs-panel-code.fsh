ValueSet: HfbPanelCodeVS
Id: hfb-vs-panel-code
Title: "Codes of panels"
Description: "One panel a hand."
* ^experimental = false
* $measure#panel-left "Seven-task hand function test, left hand"
* $measure#panel-right "Seven-task hand function test, right hand"
