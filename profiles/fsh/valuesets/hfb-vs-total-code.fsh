ValueSet: HfbTotalCodeVS
Id: hfb-vs-total-code
Title: "Codes of totals"
Description: "Six-task and seven-task totals are different quantities."
* ^experimental = false
* $measure#seven-task-total-left "Seven-task total, left hand"
* $measure#seven-task-total-right "Seven-task total, right hand"
* $measure#six-task-total-left "Six-task total, left hand"
* $measure#six-task-total-right "Six-task total, right hand"
