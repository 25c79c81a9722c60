package nutrients

// shareNutrients are the nutrients with a range in per cent of energy, and
// their energy in kcal per g.
var shareNutrients = []struct {
	n        Nutrient
	kcalPerG float64
}{
	{Protein, kcalPerGProtein},
	{Fat, kcalPerGFat},
	{Carbohydrate, kcalPerGCarbohydrate},
	{SaturatedFat, kcalPerGFat},
	{AddedSugars, kcalPerGCarbohydrate},
}

// setShare sets the published range of n.
func (b *builder) setShare(n Nutrient) {
	for _, s := range shareNutrients {
		if s.n == n {
			low, high := b.d.share(n, b.p.AgeMonths)
			b.shares[n] = &Share{Nutrient: n, KcalPerG: s.kcalPerG, Min: low, Max: high}
		}
	}
}

// noAddedSugars sets the ceiling of 0 g of added sugars under two years, in
// every standard, in place of a share.
func (b *builder) noAddedSugars() {
	if _, high := b.d.share(AddedSugars, b.p.AgeMonths); high != nil && high.Amount == 0 {
		high.Note = "none under 24 months"
		b.need(AddedSugars).Ceiling = high
		b.shares[AddedSugars] = nil
	}
}

// maxCarbohydrateShare returns the upper end of the AMDR of carbohydrate for
// p, in per cent of energy.
func maxCarbohydrateShare(p *Person) float64 {
	if d, err := data(); err == nil {
		if _, high := d.share(Carbohydrate, p.AgeMonths); high != nil {
			return high.Amount
		}
	}
	return 100
}

// fit keeps the floors of protein and carbohydrate, which are in grams, within
// the share of energy that they may make up, and carbohydrate within what the
// least fat and protein leave. A small child's requirement of carbohydrate, for
// one, is more than the AMDR allows of so little energy.
func (b *builder) fit() {
	room := 100.0 // per cent of energy not yet taken
	if fat := b.shares[Fat]; fat != nil && fat.Min != nil {
		room -= fat.Min.Amount
	}
	perCent := 100 * kcalPerGProtein / b.needs.EER.Amount // of energy, per g of protein or carbohydrate
	for _, n := range []Nutrient{Protein, Carbohydrate} {
		need := b.list[n]
		if need == nil || need.Floor == nil {
			continue
		}
		_, high := b.d.share(n, b.p.AgeMonths)
		if own := b.shares[n]; own != nil && own.Max != nil {
			high = own.Max
		}
		if most := belowCeiling * min(high.Amount, room) / perCent; need.Floor.Amount > most && need.Floor.Kind != kindRule && !need.Floor.Ordered() {
			why := "lowered from " + trim(need.Floor.Amount) + " g to fit into " + trim(min(high.Amount, room)) + " % of energy"
			need.Floor = need.Floor.with(most, joinNotes(need.Floor.Note, why))
		}
		if need.Floor.Amount <= 0 { // a rule on protein takes all of the energy
			need.Floor = nil
			continue
		}
		room -= perCent * need.Floor.Amount
	}
}

func joinNotes(a, b string) string {
	if a == "" {
		return b
	}
	return a + "; " + b
}
