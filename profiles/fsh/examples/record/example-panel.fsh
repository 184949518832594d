Instance: example-panel
InstanceOf: HfbPanel
Usage: #example
Title: "Panel of the left hand"
* insert ObservationBase(panel, north-clinic/S-1/left, [[Left hand]])
* insert FunctionCategories
* insert LeftHand
* code = $measure#panel-left "Seven-task hand function test, left hand"
* insert TrialsOf(left)
