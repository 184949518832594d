Instance: hfb-12-fails
InstanceOf: HfbTrial
Usage: #example
Title: "Demonstration norm on a resource that is not marked as test data"
* insert LeftCardTurning
* insert Completed(4.20)
* insert Norm(0, female, 4.00, 0.60, 2.80, 5.20)
* insert Demonstration
* referenceRange[0].text = "DEMONSTRATION: mean 4.00 s, SD 0.60 s, from memory"
* insert Judged(N, 0.33, 105.0)
