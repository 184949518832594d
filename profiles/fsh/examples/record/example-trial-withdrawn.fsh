Instance: example-trial-withdrawn
InstanceOf: HfbTrial
Usage: #example
Title: "Completed trial, judged"
* insert LeftCardTurning
* insert Completed(4.20)
* insert Norm(0, female, 4.00, 0.60, 2.80, 5.20)
* insert Judged(N, 0.33, 105.0)
* text.div = "<div xmlns=\"http://www.w3.org/1999/xhtml\"><p><b>WITHDRAWN. This result must not be used.</b></p></div>"
* extension[statusReason].valueCodeableConcept.text = "Entered in the wrong chart."
* status = #entered-in-error
