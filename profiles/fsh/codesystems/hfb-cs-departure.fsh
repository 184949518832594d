CodeSystem: HfbDepartureCS
Id: hfb-cs-departure
Title: "Departures from the standard procedure"
Description: "What differed from the standard procedure in one trial. This is a local code system of HandFhirBridge: no published code system was found that holds these meanings."
* ^caseSensitive = true
* ^experimental = false
* #order-changed "Order changed" "Tasks or hands did not run in the standard order."
* #practice-allowed "Practice allowed" "The patient practised the task before it was timed."
* #instructions-repeated "Instructions repeated" "Instructions were given again during the trial."
* #item-dropped "Item dropped" "An item fell or left the table during the trial."
* #layout-differed "Layout differed" "Items did not lie as the standard asks."
* #item-replaced "Item replaced" "A material was not the standard one."
* #other-hand-helped "Other hand helped" "The hand not under test helped."
* #orthosis-worn "Orthosis worn" "An orthosis was worn on the hand under test."
* #position-changed "Position changed" "The patient did not sit as the standard asks."
* #pain-reported "Pain reported" "The patient reported pain during the trial."
* #interrupted "Interrupted" "The trial was interrupted."
* #timer-started-late "Timer started late" "Timing did not begin at the start word."
