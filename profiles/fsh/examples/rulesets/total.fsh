RuleSet: LeftTotal
* insert ObservationBase(total, north-clinic/S-1/six-task-total/left, [[Six-task total, left hand]])
* insert FunctionCategories
* insert LeftHand
* code = $measure#six-task-total-left "Six-task total, left hand"
