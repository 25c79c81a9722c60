package search

// PlentyADay bounds columns that have no bound of their own, in litres, MJ or
// containers per head and day: far over any ration's, and small enough for the
// relaxation's bound to hold where a reduced cost is a billionth off.
const PlentyADay = 1000
