package stores

// Allowance is a usual or published amount of water to keep a head.
type Allowance struct {
	Key          string  `json:"key"` // "usual" or "published"
	Name         string  `json:"name"`
	LPerHeadDay  float64 `json:"l_per_head_day"`
	RenewMonths  float64 `json:"renew_months,omitempty"` // 0: by container, see [WaterRenewals]
	SourceAmount string  `json:"source_amount"`          // as the source writes it
	Ref
}

// published is the key of the published allowance.
const published = "published"

// fortnightDays is exact.
const fortnightDays = 14

// UsualAllowance is the trade's allowance: 7 US gallons a person for a
// fortnight, renewed every three months. Common practice, no source.
func UsualAllowance() Allowance {
	w := waterRule("Usual practice", "person", "allowance")
	return Allowance{
		Key: "usual", Name: "older allowance (7 US gallons)", LPerHeadDay: w.Value * LPerGallon / fortnightDays,
		RenewMonths:  waterRule("Usual practice", "household", "renewal_allowance").Value,
		SourceAmount: "7 US gallons a person for a fortnight", Ref: w.Ref,
	}
}

// PublishedAllowance is the published store for each person: 1 US gallon a
// day for drinking, food preparation and sanitation together. Source: FEMA and
// American Red Cross, Food and Water in an Emergency; CDC.
//
// The row of water.csv gives 3.785 L; the exact gallon is used, never less.
func PublishedAllowance() Allowance {
	w := waterRule("FEMA/Red Cross", "person", "total")
	return Allowance{
		Key: published, Name: "published allowance", LPerHeadDay: LPerGallon,
		SourceAmount: "1 US gallon a person a day", Ref: w.Ref,
	}
}

// Litres returns what the allowance comes to for heads people over days.
func (a Allowance) Litres(heads, days int) float64 {
	return a.LPerHeadDay * float64(heads) * float64(days)
}
