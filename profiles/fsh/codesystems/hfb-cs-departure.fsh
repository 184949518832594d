CodeSystem: HfbDepartureCS
Id: hfb-cs-departure
Title: "Departures from the standard procedure"
Description: "What differed from the standard procedure in one trial. This is a local code system of HandFhirBridge: no published code system was found that holds these meanings."
* ^caseSensitive = true
* ^experimental = false
* #order-changed "Given out of the standard order" "This trial did not run at its place in the standard order of tasks and hands."
* #practice-allowed "Practised before the timed trial" "The patient practised the task before it was timed."
* #instructions-repeated "Instructions repeated or explained again" "Instructions were given again during the trial."
* #item-dropped "An item was dropped" "An item fell or left the table during the trial."
* #layout-differed "Layout differed from the standard" "Items did not lie as the standard asks."
* #item-replaced "An item was replaced by another" "A material was not the standard one."
* #other-hand-helped "The other hand helped" "The hand not under test helped."
* #orthosis-worn "An orthosis or dressing was worn" "An orthosis or a dressing was worn on the hand under test."
* #position-changed "Sat or stood differently from the standard" "The patient did not sit as the standard asks."
* #pain-reported "Pain was reported" "The patient reported pain during the trial."
* #interrupted "Interrupted" "The trial was interrupted."
* #timer-started-late "Timer started or stopped late" "Timing did not begin at the start word, or did not end with the task."
