package nutrients

import (
	"fmt"
	"slices"
)

// limit returns the amount of an order as a limit of the clinician's.
func (o Orders) limit(of Order, amount float64) *Limit {
	return &Limit{
		Amount: amount, Kind: KindOrder,
		Source: fmt.Sprintf("ordered by %s, %s: %s", o.By, o.On, of), Verified: "set by the clinician",
	}
}

// under is a floor of this program's own that an ordered ceiling leaves: it
// is not itself ordered.
func (o Orders) under(of Order, amount float64) *Limit {
	l := o.limit(of, amount)
	l.Kind, l.Verified = "planning", "planning rule of this program"
	return l
}

// orders makes the clinician's orders the limits of the person, above standard
// and rule, and says so first among the notes.
func (b *builder) orders() {
	if len(b.p.Orders.List) == 0 {
		return
	}
	for _, o := range b.p.Orders.List {
		switch o.Of {
		case OrderTexture: // by way of [Person.Has]
		case OrderFluid:
			b.orderedFluid(o)
		case OrderCarbohydrate:
			b.orderedMeals(o)
		default:
			b.orderedNutrient(o)
		}
	}
	first := Note{
		fmt.Sprintf("By order of %s, %s: %s. Nothing in this plan relaxes it; ask before anything is changed.", b.p.Orders.By, b.p.Orders.On, b.p.Orders.texts()),
		"clinician's orders", "set by the clinician",
	}
	b.needs.Notes = append([]Note{first}, b.needs.Notes...)
}

func (b *builder) orderedNutrient(o Order) {
	n := orderable[o.index()].nutrient
	need := b.need(n)
	if o.Low > 0 {
		need.Floor = b.p.Orders.limit(o, o.Low)
		if top := need.Ceiling; o.High == 0 && top != nil && o.Low > belowCeiling*top.Amount {
			switch {
			case n == Energy:
				need.Ceiling = top.with(bandCeiling*o.Low, fmt.Sprintf("%g × the floor ordered", bandCeiling))
			case top.Kind != "UL":
				need.Ceiling = nil
			}
		}
	}
	if o.High > 0 {
		if top := need.Ceiling; top == nil || top.Kind != "UL" || o.High < top.Amount {
			need.Ceiling = b.p.Orders.limit(o, o.High)
		}
		if o.Of == OrderSodium && o.Low == 0 { // as with the condition of low sodium: no salt is asked for
			need.Floor = nil
		}
		if low := need.Floor; o.Low == 0 && low != nil && low.Amount > belowCeiling*o.High {
			need.Floor = nil
			if n == Energy || n == Protein { // something must be eaten
				need.Floor = b.p.Orders.under(o, belowCeiling*o.High)
				need.Floor.Note = fmt.Sprintf("%g × the ceiling ordered, in place of %s %s (%s)", belowCeiling, trim(low.Amount), n.Unit(), low.Kind)
			}
		}
		b.releaseShares(n, RuleCeiling, o.High, fmt.Sprintf("Order %q", o))
	}
	if o.Low > 0 {
		b.releaseShares(n, RuleFloor, o.Low, fmt.Sprintf("Order %q", o))
	}
}

// orderedFluid sets the fluid of a day: drinks, and what is drunk as food. The
// total water requirement, which counts the water in all food as well, and the
// least to drink stay where they lie under a ceiling, and else are that ceiling.
func (b *builder) orderedFluid(o Order) {
	w := &b.needs.Water
	if o.Low > 0 {
		w.Drinks = b.p.Orders.limit(o, o.Low)
	}
	if o.High > 0 {
		w.Most = b.p.Orders.limit(o, o.High)
		for _, least := range []**Limit{&w.Total, &w.Drinks} {
			if *least == nil || (*least).Amount > o.High {
				*least = b.p.Orders.under(o, o.High)
			}
		}
	}
}

// orderedMeals sets the carbohydrate of each main meal, and with it that of the
// day. Where only one end is ordered, the other is that of the planning band.
func (b *builder) orderedMeals(o Order) {
	r := Rule{Kind: RuleCarbohydrate, Low: o.Low, High: o.High}
	band := planningBand(b.d)
	if r.Low == 0 {
		r.Low = min(band.Low.Amount, o.High)
	}
	if r.High == 0 {
		r.High = max(band.High.Amount, o.Low)
	}
	low, high := bandPerDay(r)
	b.needs.Meals = mealBand(b.p.Orders.limit(o, r.Low), b.p.Orders.limit(o, r.High), true)
	need := b.need(Carbohydrate)
	need.Floor, need.Ceiling = b.p.Orders.limit(o, low), b.p.Orders.limit(o, high)
	b.shares[Carbohydrate], b.shares[Fat] = nil, nil
}

// concerns says which orders a refused condition can be planned with: at least
// one of them must be there, and those that are missing are named.
var concerns = map[Condition][]OrderOf{
	KidneyDisease: {OrderProtein, OrderSodium, OrderPotassium, OrderPhosphorus, OrderFluid},
	HeartFailure:  {OrderSodium, OrderFluid},
}

// plannedByOrders reports whether the orders let a person with the condition be
// planned.
func (p *Person) plannedByOrders(c Condition) bool {
	return slices.ContainsFunc(concerns[c], func(of OrderOf) bool { _, ok := p.Orders.Get(of); return ok })
}
