package aim

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"rationwright/foods/kinds"
	"rationwright/nutrients"
	"rationwright/solver/answer"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/search"
	"rationwright/solver/simplex"
	"rationwright/solver/verify"
)

// What a plan is to keep, in the order in which it is told: the planning rules first,
// which are rows of the first aim, then what the second aim is for.
const (
	byKind      = "caps by kind"
	oneFood     = "one food 15 %"
	oneKind     = "one kind 25 %"
	oneSize     = "one size"
	noCrumb     = "no crumb"
	noRemnant   = "no remnant"
	noSalt      = "no salt beyond"
	noSugar     = "no sugar beyond"
	noFat       = "no fat beyond"
	hotDrink    = "hot drink"
	treat       = "hot or sweet"
	threeSides  = "3 vegetables"
	sevenMains  = "7 mains"
	allOfSecond = "all of these"
)

var (
	ofFirst  = []string{byKind, oneFood, oneKind}
	ofSecond = []string{oneSize, noCrumb, noRemnant, noSalt, noSugar, noFat, hotDrink, treat, threeSides, sevenMains, allOfSecond}
)

// bareKinds are what nobody eats more of than a need or a dish asks for, with what may be
// too much of it by chance, g a day: own planning rule, no source.
var bareKinds = []struct {
	criterion, kind string
	g               float64
}{{noSalt, "table salt", 0.1}, {noSugar, "sugar", 1}, {noFat, "cooking fats", 1}}

// criteria says which of these a point has, each counted here from the packs and the
// amounts, apart from the program of the second aim.
func criteria(t *testing.T, m *model.Model, x []float64) map[string]bool {
	t.Helper()
	has := map[string]bool{}
	for _, k := range slices.Concat(ofFirst, ofSecond) {
		has[k] = true
	}
	amounts(m, x, has)
	shares(t, m, x, has)
	for _, one := range bareKinds {
		for ei, e := range m.Eaters {
			if e.Needs.Feed == nil && spare(t, m, x, ei, one.kind) > one.g*m.Days() {
				has[one.criterion] = false
			}
		}
	}
	for _, k := range ofSecond {
		has[allOfSecond] = has[allOfSecond] && has[k]
	}
	return has
}

// amounts counts sizes, portions, what is left of packs, and the foods that there are.
func amounts(m *model.Model, x []float64, has map[string]bool) {
	fed := 0
	for _, e := range m.Eaters {
		if e.Needs.Feed == nil {
			fed++
		}
	}
	there := map[string]bool{} // kinds of which half of those who eat have portions of one food
	sides := 0
	has[hotDrink], has[treat] = false, false
	for li, lf := range m.Larder {
		sizes, left := 0, 0.0
		smallest := math.Inf(1)
		for _, k := range lf.Buy {
			if n := math.Round(x[k.Col]); n > 0 {
				sizes++
				left += n * k.Usable
				smallest = math.Min(smallest, k.Usable)
			}
		}
		has[oneSize] = has[oneSize] && sizes <= 1
		portions, may := 0, 0
		for _, e := range m.Eaters {
			y, ok := e.Eating(li)
			if !ok {
				continue
			}
			left -= e.Count * y.SpareFactor * x[y.Col]
			least := math.Min(answer.LeastPortionG(&e.Person, lf.Food), y.CapG)
			if e.Needs.Feed != nil || least <= 0 {
				continue
			}
			may++
			switch {
			case x[y.Col] >= least*(1-1e-6):
				portions++
			case x[y.Col] > model.Dust:
				has[noCrumb] = false
			}
		}
		if sizes > 0 && len(lf.Stock) == 0 && left > unused*smallest*(1+1e-9) && !(lf.Food.Keeping != nil && lf.Food.Keeping.AfterOpenHours >= keepsYear) {
			has[noRemnant] = false
		}
		for _, kind := range lf.Food.Kinds {
			there[kind] = there[kind] || portions > 0 && 2*portions >= fed
		}
		if may == 0 || 2*portions < may {
			continue
		}
		if slices.Contains(lf.Food.Kinds, "side vegetables") {
			sides++
		}
		hot := slices.Contains(lf.Food.Kinds, "hot drinks")
		has[hotDrink] = has[hotDrink] || hot
		has[treat] = has[treat] || hot || slices.Contains(lf.Food.Kinds, "sweets")
	}
	has[threeSides] = sides >= 3
	has[sevenMains] = ration.DifferentMains(m.Request.Cook, func(kind string) bool { return there[kind] }) >= 7
}

// shares counts what is eaten of each kind against its caps, by the independent check, and
// the energy of each food and kind against the shares of the data file.
func shares(t *testing.T, m *model.Model, x []float64, has map[string]bool) {
	t.Helper()
	plan := answer.Write(m, x)
	for _, l := range plan.Eatable.Loosened {
		has[byKind] = has[byKind] && l.Unit == ration.PartOfEnergy
	}
	plan.Eatable.Loosened = nil
	for _, v := range verify.Check(m.Request, plan) {
		has[byKind] = has[byKind] && !strings.HasPrefix(v.Limit, "most ")
	}
	for _, e := range m.Eaters {
		if e.Needs.Feed != nil {
			continue
		}
		of, all := map[string]float64{}, 0.0
		most, own := 0.0, map[string]float64{}
		for _, c := range m.Request.Table.KindCaps(&e.Person) {
			if c.Measure == kinds.Share {
				own[c.Kind] = c.Value / 100
			}
		}
		for _, y := range e.Eats {
			f := m.Larder[y.Food].Food
			kcal := f.Per100g.Known(nutrients.Energy) / 100 * x[y.Col]
			all += kcal
			most = math.Max(most, kcal)
			for _, kind := range f.Kinds {
				if k := m.Request.Table.Kinds().Kind(kind); k != nil && len(k.Foods) > 1 {
					of[kind] += kcal
				}
			}
		}
		const room = 1 + 1e-5 // of the arithmetic
		has[oneFood] = has[oneFood] && most <= own[kinds.AnyFood]*all*room
		for kind, kcal := range of {
			share, special := own[kind]
			if !special {
				share = own[kinds.AnyKind]
			}
			has[oneKind] = has[oneKind] && kcal <= share*all*room
		}
	}
}

// spare is how much of a kind somebody could leave, in g over the horizon, with the packs
// and everything else that all eat as it is: what no need asks for, nor a dish.
func spare(t *testing.T, m *model.Model, x []float64, eater int, kind string) float64 {
	t.Helper()
	q := m.Problem.Clone()
	m.FixPacks(q, x)
	for j := range q.Cols {
		q.Cols[j].Cost = 0
	}
	total := 0.0
	for ei, e := range m.Eaters {
		for _, y := range e.Eats {
			lower, upper := x[y.Col], x[y.Col]
			if ei == eater && slices.Contains(m.Larder[y.Food].Food.Kinds, kind) && x[y.Col] > model.Dust {
				lower = 0
				q.Cols[y.Col].Cost = 1
				total += x[y.Col]
			}
			q.Cols[y.Col].Lower, q.Cols[y.Col].Upper = lower, upper
		}
	}
	if total == 0 {
		return 0
	}
	lp, err := search.Relax(q)
	if err != nil {
		t.Fatal(err)
	}
	least := lp.Solve(context.Background())
	if least.Status != simplex.Optimal { // x itself is a point but for the arithmetic
		return 0
	}
	return total - least.Value
}

// tally adds up how many households have what.
type tally struct {
	households    int
	before, after map[string]int
	prices, gaps  []float64
	seconds       []float64
	value         float64
	loosened      int // where the planning rules leave no plan: the least excess over them
	unplanned     int
}

func (c *tally) write(names []string) string {
	out := ""
	n := float64(max(1, c.households))
	for _, k := range names {
		out += fmt.Sprintf("%-16s %5.1f %% before, %5.1f %% after\n", k, 100*float64(c.before[k])/n, 100*float64(c.after[k])/n)
	}
	for _, list := range [][]float64{c.prices, c.gaps, c.seconds} {
		slices.Sort(list)
	}
	if c.households == 0 {
		return out
	}
	h := c.households
	return out + fmt.Sprintf("%d households, %d of them with planning rules loosened, %d more without a plan; mean value %.2f; "+
		"price %.2f %% in the median, %.2f %% at worst; value over bound %.2f in the median; processor time %.2f s in the median, %.2f s at worst\n",
		h, c.loosened, c.unplanned, c.value/n, c.prices[h/2], c.prices[h-1], c.gaps[h/2], c.seconds[h/2], c.seconds[h-1])
}
