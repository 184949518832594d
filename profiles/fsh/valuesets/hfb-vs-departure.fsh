ValueSet: HfbDepartureVS
Id: hfb-vs-departure
Title: "Departures"
Description: "Every departure."
* ^experimental = false
* $departure#order-changed "Given out of the standard order"
* $departure#practice-allowed "Practised before the timed trial"
* $departure#instructions-repeated "Instructions repeated or explained again"
* $departure#item-dropped "An item was dropped"
* $departure#layout-differed "Layout differed from the standard"
* $departure#item-replaced "An item was replaced by another"
* $departure#other-hand-helped "The other hand helped"
* $departure#orthosis-worn "An orthosis or dressing was worn"
* $departure#position-changed "Sat or stood differently from the standard"
* $departure#pain-reported "Pain was reported"
* $departure#interrupted "Interrupted"
* $departure#timer-started-late "Timer started or stopped late"
