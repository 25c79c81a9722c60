package solver

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"rationwright/foods"
	"rationwright/nutrients"
)

// shortages lists what the closest ration from the stock lacks.
func (r *Ration) shortages(x []float64) []StockShort {
	list := []StockShort{}
	for _, s := range r.closestRation(x).Shortfalls {
		list = append(list, StockShort{
			Person: s.Person, Nutrient: s.Nutrient, Unit: s.Unit, Amount: s.Amount, Floor: s.Target,
		})
	}
	activity := r.activities(x)
	for i, info := range r.rows {
		if info.kind != rowLimit {
			continue
		}
		name := shortWater
		if info.unit == "MJ" {
			name = shortHeat
		}
		need, have := activity[i], r.Problem.Rows[i].Upper
		if need > have+shortTolerance*math.Max(1, have) {
			list = append(list, StockShort{
				Nutrient: name, Unit: info.unit, Amount: have / r.days(), Floor: need / r.days(),
			})
		}
	}
	return list
}

// rank says how much a need matters: water and energy first, then protein; of the
// days after a date likewise.
func rank(nutrient string) int {
	nutrient, _, _ = strings.Cut(nutrient, " after day ")
	switch nutrient {
	case nutrients.Water.Name(), shortWater, shortDrink:
		return 0
	case nutrients.Energy.Name():
		return 1
	case nutrients.Protein.Name():
		return 2
	default:
		return 3
	}
}

// rankShort orders shortages by how much they matter, then by how far they fall
// short.
func rankShort(list []StockShort) {
	slices.SortStableFunc(list, func(a, b StockShort) int {
		return cmp.Or(cmp.Compare(rank(a.Nutrient), rank(b.Nutrient)), cmp.Compare(a.Amount/a.Floor, b.Amount/b.Floor))
	})
}

// seasoning is the shop group of what is used as needed and not eaten up.
const seasoning = "seasonings"

// excess lists the ceilings that a person would pass by eating of everything in the
// stock alike, seasonings apart: of all of it over the horizon, or, where there is
// more than that, as much as their energy requirement takes. The furthest first.
// What is useless here is not counted.
func (r *Ration) excess() []StockShort {
	stock := slices.DeleteFunc(r.stockPortions(), func(p portion) bool { return p.food.Group == seasoning })
	all := 0.0
	for _, e := range r.eaters {
		all += e.count * e.needs.EER.Amount
	}
	if energy, _ := intake(stock, nutrients.Energy, r.days()); energy > all {
		for i := range stock {
			stock[i].grams *= all / energy
		}
	}
	var list []StockShort
	for _, e := range r.eaters {
		for _, need := range e.needs.List {
			if need.Shown || need.Ceiling == nil || need.Nutrient == nutrients.Energy {
				continue
			}
			total, _ := intake(stock, need.Nutrient, r.days())
			if share := total * e.needs.EER.Amount / all; share > need.Ceiling.Amount {
				list = append(list, StockShort{
					Person: e.person.Name, Nutrient: need.Nutrient.Name(), Unit: need.Nutrient.Unit(),
					Amount: share, Ceiling: need.Ceiling.Amount,
				})
			}
		}
	}
	slices.SortStableFunc(list, func(a, b StockShort) int {
		return cmp.Or(cmp.Compare(rank(a.Nutrient), rank(b.Nutrient)), cmp.Compare(b.Amount/b.Ceiling, a.Amount/a.Ceiling))
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
func (r *Ration) eatBy() []EatBy {
	var list []EatBy
	for _, line := range r.Request.Stock {
		day, ok := lastDay(r.Request, line)
		if !ok || day >= r.Request.Days {
			continue
		}
		e := EatBy{
			Pack: line.Pack.Key, Food: line.Pack.Food.Name, Count: line.Count, Grams: line.Count * line.Pack.NetG,
			BestBefore: line.BestBefore, Opened: line.Opened, Day: max(day, 0), Past: day < 1,
		}
		if lf := r.larderOf(line.Pack.Food); lf != nil {
			e.EatenG = math.Min(lf.usable(line.Pack)*line.Count, lf.capG*float64(e.Day)/r.days())
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
func (r *Ration) useless() []Useless {
	var list []Useless
	left := map[*larderFood]float64{} // grams of a food that may still be eaten
	for _, line := range r.Request.Stock {
		u := Useless{Pack: line.Pack.Key, Food: line.Pack.Food.Name, Count: line.Count, Reason: r.uselessBecause(line)}
		if u.Reason == "" {
			lf := r.larderOf(line.Pack.Food)
			if _, ok := left[lf]; !ok {
				left[lf] = lf.capG
			}
			used := math.Min(line.Count, math.Ceil(left[lf]/lf.usable(line.Pack)-1e-9))
			left[lf] = math.Max(0, left[lf]-used*lf.usable(line.Pack))
			u.Count = line.Count - used
			u.Reason = fmt.Sprintf("more than all here may eat of it in %d days", r.Request.Days)
		}
		if u.Count > 0 {
			list = append(list, u)
		}
	}
	return list
}

// uselessBecause says why nothing of a line is of use here, "" when something
// is.
func (r *Ration) uselessBecause(line foods.StockLine) string {
	if day, ok := lastDay(r.Request, line); ok && day < 1 {
		if past, _ := dayOf(r.Request, line.BestBefore); line.BestBefore != "" && past < 1 {
			return "past its date"
		}
		return "open for longer than it keeps"
	}
	if lf := r.larderOf(line.Pack.Food); lf != nil {
		if usable := lf.usable(line.Pack); lf.window < lf.capG && usable < (1-wastedShare)*line.Pack.NetG {
			return fmt.Sprintf("too large: of %.0f g only %.0f g can be eaten before an open pack spoils", line.Pack.NetG, usable)
		}
		return ""
	}
	for _, e := range r.eaters {
		if ok, why := foods.Eligible(e.person, r.Request.People, line.Pack.Food); !ok {
			return "nobody here may eat it: " + why.Text
		}
	}
	switch {
	case len(r.eaters) == 0:
		return "nobody here is fed from it"
	case !canCook(r.Request.Cook, line.Pack.Food):
		return "takes more cooking than there is"
	default:
		return "left out, or disliked by all who may eat it"
	}
}
