// A trial of the left, non-dominant hand, without its result.
RuleSet: LeftCardTurning
* insert ObservationBase(trial, north-clinic/S-1/card-turning/left, [[Card turning, left hand]])
* insert LeftHandAttempt
* code = $measure#card-turning-left "Card turning, left hand"
