package rationtest

import (
	"context"
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"
	"time"

	"rationwright/foods"
	"rationwright/foods/stores"
	"rationwright/nutrients"
	"rationwright/solver/linear"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/referee"
	"rationwright/solver/simplex"
)

// SmallTable is the embedded table with only the named foods in it.
func SmallTable(t testing.TB, names ...string) *foods.Table {
	t.Helper()
	all := Table(t)
	kept := map[*foods.Food]bool{}
	for _, name := range names {
		f, err := all.Food(name)
		if err != nil {
			t.Fatal(err)
		}
		kept[f] = true
	}
	all.Foods = slices.DeleteFunc(all.Foods, func(f *foods.Food) bool { return !kept[f] })
	all.Packs = slices.DeleteFunc(all.Packs, func(k *foods.Pack) bool { return !kept[k.Food] })
	return all
}

// StockOf reads stock rows with the columns of a stock file.
func StockOf(t testing.TB, on *foods.Table, rows ...string) *foods.Stock {
	t.Helper()
	stock, err := on.ReadStock("stock.csv", strings.NewReader("pack,count,best_before,opened,food,grams\n"+strings.Join(rows, "\n")))
	if err != nil {
		t.Fatal(err)
	}
	return stock
}

// FitsByReferee decides a program's relaxation by the referee alone.
func FitsByReferee(t testing.TB, p *linear.Problem) bool {
	t.Helper()
	p = p.Relaxation()
	for j := range p.Cols {
		p.Cols[j].Cost = 0
	}
	ctx, cancel := context.WithTimeout(context.Background(), time.Minute)
	defer cancel()
	opinion, err := referee.Solve(ctx, p)
	if err != nil {
		t.Fatal(err)
	}
	switch opinion.Verdict {
	case referee.Optimal, referee.Unbounded:
		return true
	case referee.Infeasible:
		return false
	}
	t.Fatalf("the referee says nothing: %s", opinion.Why)
	return false
}

// SmallShop is a table with enough in it for a balanced ration of one adult by
// standard basic, and few enough packs for the search to end.
var SmallShop = []string{
	"white-rice-907g-bag", "rolled-oats-510g-canister", "canned-kidney-beans-439g-can", "sunflower-oil-0.5l-bottle", "light-tuna-oil-142g-can",
	"peanut-butter-454g-jar", "whole-dry-milk-360g-can", "tomatoes-411g-can", "peaches-juice-425g-can", "sugar-454g-bag",
}

// Loaded is req with what a stock check may have changed in it.
func Loaded(p *ration.Plan, t testing.TB, req *ration.Request) *ration.Request {
	t.Helper()
	out := *req
	out.StockOnly = p.Request.Options[ration.OptionStockOnly] == "true"
	out.Least = p.Least
	return &out
}

// WholeFeasible decides the relaxation of p with every row and column in from the
// start.
func WholeFeasible(t testing.TB, p *linear.Problem) (bool, error) {
	t.Helper()
	q := p.Clone()
	for j := range q.Cols {
		q.Cols[j].Cost = 0
	}
	for i := range q.Rows {
		q.Rows[i].Lazy = false
	}
	x, err := simplex.New(q)
	if err != nil {
		return false, err
	}
	switch result := x.Solve(context.Background(), simplex.Limits{}); result.Status {
	case simplex.Optimal:
		return true, nil
	case simplex.Infeasible:
		return false, nil
	default:
		return false, fmt.Errorf("the relaxation ended %v: %s", result.Status, result.Why)
	}
}

func WithoutStoredVitamins(m *model.Model) *linear.Problem {
	return model.WithoutStoredVitamins(m).Problem
}

// Crowd draws invented adults and children, no two alike.
func Crowd(n int) []nutrients.Person {
	rng := rand.New(rand.NewPCG(40, 14))
	people := Islanders(min(n, 8))
	for i := len(people); i < n; i++ {
		sex := []nutrients.Sex{nutrients.Female, nutrients.Male}[i%2]
		people = append(people, Adult(fmt.Sprintf("islander %d", i+1), 9+rng.IntN(80), sex))
	}
	return people
}

// MoreFoods adds foods that are like those of the table, each nutrient and
// price up to a tenth off.
func MoreFoods(all *foods.Table, count int) *foods.Table {
	rng := rand.New(rand.NewPCG(1000, 14))
	more := all.Clone()
	for i := 0; len(more.Foods) < count; i++ {
		f := *all.Foods[i%len(all.Foods)]
		if len(f.Packs) == 0 {
			continue
		}
		f.NDB, f.Name, f.Computed = fmt.Sprintf("G%04d", i), fmt.Sprintf("%s, kind %d", f.Name, i), true
		for n := range f.Per100g {
			f.Per100g[n] *= 0.9 + 0.2*rng.Float64()
		}
		packs := f.Packs
		f.Packs = nil
		for _, k := range packs {
			p := *k
			p.Food, p.Key, p.Price = &f, fmt.Sprintf("%s-%d", k.Key, i), k.Price*(0.9+0.2*rng.Float64())
			f.Packs = append(f.Packs, &p)
			more.Packs = append(more.Packs, &p)
		}
		more.Foods = append(more.Foods, &f)
	}
	return more
}

func Infant(name string, months int, kg float64, feeding nutrients.Feeding) nutrients.Person {
	return nutrients.Person{
		Name: name, AgeMonths: months, Sex: nutrients.Female, WeightKg: kg, Feeding: feeding, Activity: nutrients.LowActive, Count: 1,
	}
}

// Islanders are eight invented people of Ternsund, in the order in which the
// models take them.
func Islanders(n int) []nutrients.Person {
	all := []nutrients.Person{
		Adult("Signe", 36, nutrients.Female), Adult("Arvid", 39, nutrients.Male), Adult("Ottar", 15, nutrients.Male),
		Adult("Liv", 8, nutrients.Female), Adult("Gudrun", 68, nutrients.Female), Adult("Halvor", 72, nutrients.Male),
		Adult("Ylva", 24, nutrients.Female), Adult("Eskil", 11, nutrients.Male),
	}
	return all[:n]
}

var Campaign = flag.Int("campaign", 1, "size of the randomised campaigns: 1 small, 10 middle, 100 full")

var household = flag.Int("household", -1, "the one household of a randomised campaign that is tried; -1: all of them")

// Asked reports whether household n of a campaign is to be tried.
func Asked(n int) bool { return *household < 0 || *household == n }

// Ask draws what else a request may say: cooking, days, standard, climate, and
// limits on water and heat.
func Ask(rng *rand.Rand, req *ration.Request) {
	req.Cook = oneOf(rng, ration.CookNone, ration.CookWarm, ration.CookBoil, ration.CookSimmer)
	req.Days = oneOf(rng, 3, 7, 14, 14, 21)
	req.Standard = oneOf(rng, nutrients.StandardRDA, nutrients.StandardRDA, nutrients.StandardEAR, nutrients.StandardBasic)
	req.Hot = chance(rng, 6)
	req.EasyOpen = chance(rng, 4)
	heads := 0.0
	for _, p := range req.People {
		heads += float64(p.Count)
	}
	if chance(rng, 3) {
		litres := float64(req.Days) * heads * (1.5 + 3*rng.Float64())
		req.Limits.WaterL = &litres
	}
	if chance(rng, 3) {
		heat := heads * float64(req.Days) * 0.3 * rng.Float64()
		req.Limits.HeatMJ = &heat
	}
}

// Described is a request in one line, to be built again.
func Described(req *ration.Request) string {
	text := fmt.Sprintf("%q, cook %s, %d days, %s, hot %v, easy-open %v", nutrients.HouseholdRows(req.People)[1:], req.Cook, req.Days, req.Standard, req.Hot, req.EasyOpen)
	if w := req.Limits.WaterL; w != nil {
		text += fmt.Sprintf(", at most %g L", *w)
	}
	if h := req.Limits.HeatMJ; h != nil {
		text += fmt.Sprintf(", at most %g MJ", *h)
	}
	return text
}

func Kcal(f *foods.Food) float64 {
	v, _ := f.Per100g.Get(nutrients.Energy)
	return v
}

// StandsOn recomputes from the packs of a plan and the shelves alone that what
// the plan says of them is so.
func StandsOn(t *testing.T, req *ration.Request, p *ration.Plan) {
	t.Helper()
	if p.Shelves == nil {
		t.Fatal("the plan says nothing of the shelves")
	}
	for _, fault := range stores.CheckFit(req.Shelves, p.Shelves.Loads, p.Shelves.Fit) {
		t.Error(fault)
	}
	// Every pack of the plan, and as many containers as hold the water, is placed
	// or left over, once.
	count := map[string]int{}
	for _, line := range p.Packs {
		count[line.Pack] += line.Count
	}
	for _, place := range p.Shelves.Places {
		count[place.Pack] -= place.Count
	}
	for _, left := range p.Shelves.Left {
		count[left.Pack] -= left.Count
	}
	for _, c := range stores.WaterContainers() {
		if n, ok := count[c.Key]; ok {
			holds := float64(-n) * c.NetML / 1000
			if holds < p.Totals.WaterL-1e-3 || holds > p.Totals.WaterL+c.NetML/1000 {
				t.Errorf("%d of %s for %g L", -n, c.Key, p.Totals.WaterL)
			}
			delete(count, c.Key)
		}
	}
	for pack, n := range count {
		if n != 0 {
			t.Errorf("%s: %d more in the plan than on the shelves", pack, n)
		}
	}
	// No shelf bears or holds more than it can.
	for i, use := range p.Shelves.Use {
		s := req.Shelves[i]
		if use.Kg > s.LoadKg+1e-6 || use.BoxL > s.WidthCm*s.DepthCm*s.HeightCm/1000+1e-6 {
			t.Errorf("%s bears %g kg and %g L: %+v", s.Name, use.Kg, use.BoxL, s)
		}
	}
}

// Demo reads a household of testdata/examples.
func Demo(t testing.TB, name string) []nutrients.Person {
	t.Helper()
	file, err := os.Open("../testdata/examples/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	people, _, err := nutrients.ReadHousehold(name, file)
	if err != nil {
		t.Fatal(err)
	}
	return people
}

// Basics asks for a plan that is made quickly: energy, protein and water only.
func Basics(t testing.TB, people ...nutrients.Person) *ration.Request {
	t.Helper()
	return &ration.Request{
		People: people, Table: Table(t), Least: ration.LeastWeight, Standard: nutrients.StandardBasic,
		Within: 0.1, Time: time.Minute, Start: "2026-11-25",
	}
}

// Near1 reports equality to one part in a million, or to a millionth.
func Near1(a, b float64) bool { return math.Abs(a-b) <= 1e-6*math.Max(1, math.Abs(b)) }

// Ternsund's demo household, without the names of its file.
func Ternsund() []nutrients.Person {
	list := []nutrients.Person{
		Adult("Henrik", 41, nutrients.Male), Adult("Maja", 38, nutrients.Female), Adult("Ylva", 15, nutrients.Female),
		Adult("Emil", 9, nutrients.Male), Adult("Solveig", 71, nutrients.Female),
	}
	list[2].Activity, list[3].Activity, list[4].Activity = nutrients.Active, nutrients.Active, nutrients.Inactive
	return list
}

// Adult is one invented person of the island community of Ternsund.
func Adult(name string, years int, sex nutrients.Sex) nutrients.Person {
	return nutrients.Person{
		Name: name, AgeMonths: 12 * years, YearsOnly: true, Sex: sex, Activity: nutrients.LowActive, Count: 1,
	}
}

func Table(t testing.TB) *foods.Table {
	t.Helper()
	all, err := foods.Load()
	if err != nil {
		t.Fatal(err)
	}
	all.Sell(foods.SizesUS) // the packs that the tests name
	return all
}

// Request asks for a plan of those people at a gap that is reached quickly.
func Request(t testing.TB, people ...nutrients.Person) *ration.Request {
	t.Helper()
	return &ration.Request{
		People: people, Table: Table(t), Least: ration.LeastWeight, Within: 0.02, Time: time.Minute, Start: "2026-11-25",
	}
}
