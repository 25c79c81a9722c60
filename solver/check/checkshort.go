package check

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/elastic"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rules"
	"rationwright/solver/search"
)

// shortages lists what the closest ration from the stock lacks.
func shortages(m *model.Model, x []float64) []StockShort {
	list := []StockShort{}
	for _, s := range elastic.WriteClosest(m, x).Shortfalls {
		list = append(list, StockShort{
			Person: s.Person, Nutrient: s.Nutrient, Unit: s.Unit, Amount: s.Amount, Floor: s.Target,
		})
	}
	activity := m.Activities(x)
	for i, info := range m.Rows {
		if info.Kind != model.RowLimit {
			continue
		}
		name := ration.ShortWater
		if info.Unit == "MJ" {
			name = ration.ShortHeat
		}
		need, have := activity[i], m.Problem.Rows[i].Upper
		if need > have+search.ShortTolerance*math.Max(1, have) {
			list = append(list, StockShort{
				Nutrient: name, Unit: info.Unit, Amount: have / m.Days(), Floor: need / m.Days(),
			})
		}
	}
	return list
}

// seasoning is the shop group of what is used as needed and not eaten up.
const seasoning = "seasonings"

// excess lists the ceilings that a person would pass by eating of everything in the
// stock alike, seasonings apart: of all of it over the horizon, or, where there is
// more than that, as much as their energy requirement takes. The furthest first.
// What is useless here is not counted.
func excess(m *model.Model) []StockShort {
	stock := slices.DeleteFunc(stockPortions(m), func(p rules.Portion) bool { return p.Food.Group == seasoning })
	all := 0.0
	for _, e := range m.Eaters {
		all += e.Count * e.Needs.EER.Amount
	}
	if energy, _ := rules.Intake(stock, nutrients.Energy, m.Days()); energy > all {
		for i := range stock {
			stock[i].Grams *= all / energy
		}
	}
	var list []StockShort
	for _, e := range m.Eaters {
		for _, need := range e.Needs.List {
			if need.Shown || need.Ceiling == nil || need.Nutrient == nutrients.Energy {
				continue
			}
			total, _ := rules.Intake(stock, need.Nutrient, m.Days())
			if share := total * e.Needs.EER.Amount / all; share > need.Ceiling.Amount {
				list = append(list, StockShort{
					Person: e.Person.Name, Nutrient: need.Nutrient.Name(), Unit: need.Nutrient.Unit(),
					Amount: share, Ceiling: need.Ceiling.Amount,
				})
			}
		}
	}
	slices.SortStableFunc(list, func(a, b StockShort) int {
		return cmp.Or(cmp.Compare(elastic.Rank(a.Nutrient), elastic.Rank(b.Nutrient)), cmp.Compare(b.Amount/b.Ceiling, a.Amount/a.Ceiling))
	})
	return list
}

// EatBy is stock that must be eaten within the horizon, by its date or because
// it is open.
type EatBy struct {
	Pack       string  `json:"pack"`
	Food       string  `json:"food"`
	Count      float64 `json:"count"`
	BestBefore string  `json:"best_before,omitempty"`
	Opened     string  `json:"opened,omitempty"`
	Day        int     `json:"day"`            // last day of the plan on which it counts, 0 past already
	Grams      float64 `json:"grams"`          // in the packs
	EatenG     float64 `json:"eaten_g"`        // most that all here may eat of the food by then
	Past       bool    `json:"past,omitempty"` // counts for nothing
}

// eatBy lists the stock that must be eaten within the horizon, the earliest
// first.
func eatBy(m *model.Model) []EatBy {
	var list []EatBy
	for _, line := range m.Request.Stock {
		day, ok := rules.LastDay(m.Request, line)
		if !ok || day >= m.Request.Days {
			continue
		}
		e := EatBy{
			Pack: line.Pack.Key, Food: line.Pack.Food.Name, Count: line.Count, Grams: line.Count * line.Pack.NetG,
			BestBefore: line.BestBefore, Opened: line.Opened, Day: max(day, 0), Past: day < 1,
		}
		if lf := m.LarderOf(line.Pack.Food); lf != nil {
			e.EatenG = math.Min(lf.Usable(line.Pack)*line.Count, lf.CapG*float64(e.Day)/m.Days())
		}
		list = append(list, e)
	}
	slices.SortStableFunc(list, func(a, b EatBy) int { return cmp.Compare(a.Day, b.Day) })
	return list
}

// Useless is stock that does nothing here, and why.
type Useless struct {
	Pack   string  `json:"pack"`
	Food   string  `json:"food"`
	Count  float64 `json:"count"`
	Reason string  `json:"reason"`
}

// wastedShare is the part of a pack that must be lost for the pack to be called
// too large to finish once open: planning value, common practice, no source.
const wastedShare = 0.5

// useless lists the stock that feeds nobody here, and the packs of a line that
// are more than all may eat, with the reason.
func useless(m *model.Model) []Useless {
	var list []Useless
	left := map[*model.LarderFood]float64{} // grams of a food that may still be eaten
	for _, line := range m.Request.Stock {
		u := Useless{Pack: line.Pack.Key, Food: line.Pack.Food.Name, Count: line.Count, Reason: uselessBecause(m, line)}
		if u.Reason == "" {
			lf := m.LarderOf(line.Pack.Food)
			if _, ok := left[lf]; !ok {
				left[lf] = lf.CapG
			}
			used := math.Min(line.Count, math.Ceil(left[lf]/lf.Usable(line.Pack)-1e-9))
			left[lf] = math.Max(0, left[lf]-used*lf.Usable(line.Pack))
			u.Count = line.Count - used
			u.Reason = fmt.Sprintf("more than all here may eat of it in %d days", m.Request.Days)
		}
		if u.Count > 0 {
			list = append(list, u)
		}
	}
	return list
}

// uselessBecause says why nothing of a line is of use here, "" when something
// is.
func uselessBecause(m *model.Model, line foods.StockLine) string {
	if day, ok := rules.LastDay(m.Request, line); ok && day < 1 {
		if past, _ := rules.DayOf(m.Request, line.BestBefore); line.BestBefore != "" && past < 1 {
			return "past its date"
		}
		return "open for longer than it keeps"
	}
	if lf := m.LarderOf(line.Pack.Food); lf != nil {
		if usable := lf.Usable(line.Pack); lf.Window < lf.CapG && usable < (1-wastedShare)*line.Pack.NetG {
			return fmt.Sprintf("too large: of %.0f g only %.0f g can be eaten before an open pack spoils", line.Pack.NetG, usable)
		}
		return ""
	}
	barred := "" // by what the first of all is kept from it, "" where somebody may eat it
	for _, e := range m.Eaters {
		ok, why := foods.Eligible(e.Person, m.Request.People, line.Pack.Food)
		if ok {
			barred = ""
			break
		}
		barred = cmp.Or(barred, why.Text)
	}
	switch {
	case barred != "":
		return "nobody here may eat it: " + barred
	case len(m.Eaters) == 0:
		return "nobody here is fed from it"
	case !rules.CanCook(m.Request.Cook, line.Pack.Food):
		return "takes more cooking than there is"
	default:
		return "left out, or disliked by all who may eat it"
	}
}
