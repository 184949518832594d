ValueSet: HfbDepartureVS
Id: hfb-vs-departure
Title: "Departures"
Description: "Every departure."
* ^experimental = false
* $departure#order-changed "Order changed"
* $departure#practice-allowed "Practice allowed"
* $departure#instructions-repeated "Instructions repeated"
* $departure#item-dropped "Item dropped"
* $departure#layout-differed "Layout differed"
* $departure#item-replaced "Item replaced"
* $departure#other-hand-helped "Other hand helped"
* $departure#orthosis-worn "Orthosis worn"
* $departure#position-changed "Position changed"
* $departure#pain-reported "Pain reported"
* $departure#interrupted "Interrupted"
* $departure#timer-started-late "Timer started late"
