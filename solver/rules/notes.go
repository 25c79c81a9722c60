package rules

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// Handling says, once for each way, how what a person eats must be made ready
// for them in particular: mashed, spread thin. What holds for everybody is said
// once for all, among the cautions.
func Handling(person nutrients.Person, eaten []Portion) []ration.RuleNote {
	var list []ration.RuleNote
	food := map[string][]string{}
	for _, p := range eaten {
		for _, why := range foods.Handling(person, p.Food) {
			if why.Everyone {
				continue
			}
			if food[why.Text] == nil {
				list = append(list, ration.RuleNote{Text: why.Text, Source: ration.SourceOf(why.Source, why.Verified)})
			}
			food[why.Text] = append(food[why.Text], p.Food.Name)
		}
	}
	for i := range list {
		list[i].Text = fmt.Sprintf("%s (%s)", list[i].Text, strings.Join(food[list[i].Text], ", "))
	}
	return list
}

// Fluid says what the fluid that a clinician ordered comes to.
func Fluid(w *nutrients.WaterNeed, eaten []Portion, drinkL, days float64) ration.RuleNote {
	inFood := 0.0
	for _, p := range eaten {
		inFood += FluidLPerG(p.Food) * p.Grams / days
	}
	l := cmp.Or(w.Most, w.Drinks)
	return ration.RuleNote{
		Text: fmt.Sprintf("Fluid: %.2f L a day, which is %.2f L of water to drink and %.2f L in milk, juice, soup and other drinks. Cooking water in food is not counted.",
			drinkL+inFood, drinkL, inFood),
		Source: ration.SourceOf(l.Source, l.Verified),
	}
}

// OverUpper says which upper levels an infant's milk and food pass, and why that
// is shown and not enforced.
func OverUpper(needs *nutrients.Needs, eaten []Portion, days float64) []ration.RuleNote {
	var list []ration.RuleNote
	for _, need := range needs.List {
		if need.Upper == nil {
			continue
		}
		if got, _ := Intake(eaten, need.Nutrient, days); got > need.Upper.Amount {
			list = append(list, ration.RuleNote{
				Text: fmt.Sprintf("%s: %.3g %s a day, over the upper level of %g. It is shown and not enforced: formula is made with as much, and less milk would be worse. Give no supplement of it.",
					capital(ration.PlainName(need.Nutrient)), got, need.Nutrient.Unit(), need.Upper.Amount),
				Source: ration.SourceOf(need.Upper.Source, need.Upper.Verified),
			})
		}
	}
	return list
}

// InfantIron says where the iron of an infant who eats beside the milk comes from: far
// over the need, as cereal and formula are both fortified.
func InfantIron(needs *nutrients.Needs, eaten []Portion, days float64) []ration.RuleNote {
	if needs.Feed == nil || needs.Feed.Only {
		return nil
	}
	milk := slices.DeleteFunc(slices.Clone(eaten), func(p Portion) bool { return !IsMilkFeed(p.Food) })
	all, _ := Intake(eaten, nutrients.Iron, days)
	fromMilk, _ := Intake(milk, nutrients.Iron, days)
	for _, need := range needs.List {
		top := cmp.Or(need.Upper, need.Ceiling)
		if need.Nutrient == nutrients.Iron && top != nil {
			return []ration.RuleNote{{
				Text: fmt.Sprintf("Iron: %.0f mg a day, %.0f of it from the milk and %.0f from fortified cereal and other food; the upper level is %g. Give no iron drops beside it unless a clinician says so.",
					all, fromMilk, all-fromMilk, top.Amount),
				Source: ration.SourceOf(top.Source, top.Verified),
			}}
		}
	}
	return nil
}

func capital(s string) string { return strings.ToUpper(s[:1]) + s[1:] }

// Lows says how many doses of quick sugar are set aside for one person, and for
// what.
func Lows(r *nutrients.LowReserve, days int) ration.RuleNote {
	return ration.RuleNote{
		Text: fmt.Sprintf("Against a low blood sugar %d doses of %g g of quick sugar are set aside for %d days (treated with %s); they are never counted as food. One dose, wait 15 minutes, measure, another dose while it is low. Ask the clinician how many to keep.",
			r.For(days), r.DoseG, days, r.Why),
		Source: ration.SourceOf(r.Source, r.Verified),
	}
}

// MealRange says what perDay grams of carbohydrate come to at each meal.
func MealRange(band *nutrients.MealBand, perDay float64) *ration.MealRange {
	meal, snack := band.Split(perDay)
	return &ration.MealRange{
		MeanG: meal, LowG: band.Low.Amount, HighG: band.High.Amount,
		Meals: band.Meals, Snacks: band.Snacks, SnackG: snack,
		Enforced: band.Enforced, Source: ration.SourceOf(band.Low.Source, band.Low.Verified),
	}
}

// alike are the nutrients whose limits carry the same remark for everybody: it
// is said with the requirements, not with each person.
var alike = []nutrients.Nutrient{nutrients.Energy, nutrients.Niacin, nutrients.Retinol, nutrients.AddedSugars}

// Adjusted says which limits of a person are not the published figure as it
// stands, and why: iron of a diet without meat, protein by weight.
func Adjusted(needs *nutrients.Needs) []ration.RuleNote {
	var list []ration.RuleNote
	add := func(n nutrients.Nutrient, side string, l *nutrients.Limit) {
		if l == nil || l.Note == "" || l.Kind == "rule" {
			return
		}
		list = append(list, ration.RuleNote{
			Text:   fmt.Sprintf("%s %s %.4g %s: %s.", ration.PlainName(n), side, l.Amount, n.Unit(), strings.TrimSuffix(l.Note, ".")),
			Source: ration.SourceOf(l.Source, l.Verified),
		})
	}
	for _, need := range needs.List {
		if need.Shown || slices.Contains(alike, need.Nutrient) {
			continue
		}
		add(need.Nutrient, "at least", need.Floor)
		add(need.Nutrient, "at most", need.Ceiling)
	}
	return list
}

// Wished lists what a person does not want or asks for, as the household file
// has it. Limits on nutrients stand among the needs already.
func Wished(p *nutrients.Person) []ration.RuleNote {
	var list []ration.RuleNote
	for _, name := range p.Dislikes {
		list = append(list, ration.RuleNote{Text: "Gets no " + name + ": a dislike.", Source: "household file, dislikes"})
	}
	for _, r := range p.Rules {
		switch r.Kind {
		case nutrients.RuleNo, nutrients.RuleMost, nutrients.RuleLeast:
			list = append(list, ration.RuleNote{Text: "Own rule: " + r.String() + ".", Source: "household file, rules"})
		}
	}
	return list
}
