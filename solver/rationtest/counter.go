package rationtest

import (
	"fmt"
	"math"
	"slices"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/linear"
	"rationwright/solver/model"
	"rationwright/solver/ration"
)

// Counter is a model made by hand: Signe needs energy and protein over ten days, at least as much as
// the rows Energy and Protein say, and eats of foods that are sold in packs, one size each. It is so
// small that every way of buying can be tried.
type Counter struct {
	*model.Model
	Energy, Protein int // rows

	kcal, gram, net, most []float64 // by larder index
}

// NewCounter sells nothing yet, and nothing is needed.
func NewCounter(least ration.Least) *Counter {
	c := &Counter{Model: &model.Model{
		Request: &ration.Request{Days: 10, Least: least, Time: ration.DefaultTime}, Problem: &linear.Problem{}, Water: -1, Heat: -1,
		Eaters: []*model.Eater{{Person: nutrients.Person{Name: "Signe", Count: 1}, Count: 1, Drink: -1}},
	}}
	need := func(n nutrients.Nutrient) int {
		c.Rows = append(c.Rows, model.RowInfo{Kind: model.RowNutrient, Class: model.Requirement, Nutrient: n, Text: n.Name(), Unit: n.Unit(), PerDay: 10})
		return c.Problem.AddRow(n.Name(), 0, math.Inf(1))
	}
	c.Energy, c.Protein = need(nutrients.Energy), need(nutrients.Protein)
	return c
}

// Sell adds a food: at most so many packs of net g each at a price, of which at most most g are
// eaten, with kcal and g of protein in a gram. Food n of the larder has the name "food n", its pack
// the key "pack n".
func (c *Counter) Sell(price, packs, net, most, kcal, protein float64) {
	li := len(c.Larder)
	f := &foods.Food{Name: fmt.Sprint("food ", li)}
	f.Per100g[nutrients.Energy], f.Per100g[nutrients.Protein] = 100*kcal, 100*protein
	pack := &foods.Pack{Key: fmt.Sprint("pack ", li), Food: f, NetG: net}
	f.Packs = []*foods.Pack{pack}
	lf := &model.LarderFood{Food: f, Window: most, CapG: most, Balance: len(c.Rows)}
	c.Rows = append(c.Rows, model.RowInfo{Kind: model.RowBalance, Class: model.Structural, Eater: -1, Text: f.Name, PerDay: 1})
	c.Problem.AddRow(f.Name, math.Inf(-1), 0)
	buy := c.Problem.AddCol(pack.Key, price, 0, packs, true)
	eat := c.Problem.AddCol("eat "+f.Name, 0, 0, most, false)
	c.Problem.Set(lf.Balance, buy, -math.Min(net, most))
	c.Problem.Set(c.Energy, eat, kcal)
	c.Problem.Set(c.Protein, eat, protein)
	c.Problem.Set(lf.Balance, eat, 1)
	c.Cols = slices.Grow(c.Cols, 2)[:len(c.Cols)+2]
	c.Cols[buy].Kind, c.Cols[buy].Eater, c.Cols[buy].Larder = model.ColBuy, -1, li
	c.Cols[eat].Kind, c.Cols[eat].Eater, c.Cols[eat].Larder = model.ColEat, 0, li
	lf.Buy = []model.PackCol{{Pack: pack, Col: buy, Usable: math.Min(net, most), Line: -1}}
	c.Larder = append(c.Larder, lf)
	e := c.Eaters[0]
	e.Eats = slices.Grow(e.Eats, 1)[:li+1]
	e.Eats[li].Food, e.Eats[li].Col, e.Eats[li].CapG, e.Eats[li].Window, e.Eats[li].SpareFactor = li, eat, most, most, 1
	c.kcal, c.gram, c.net, c.most = append(c.kcal, kcal), append(c.gram, protein), append(c.net, net), append(c.most, most)
	model.MergeAll(c.Problem)
}

// Pack is the column of the packs of a food, Eat that of what is eaten of it, by larder index.
func (c *Counter) Pack(li int) int { return c.Larder[li].Buy[0].Col }

// Eat is the column of what is eaten of a food, in g.
func (c *Counter) Eat(li int) int { return c.Eaters[0].Eats[li].Col }

// Need asks for a part of all the energy and the protein that may be eaten.
func (c *Counter) Need(energy, protein float64) {
	for li := range c.Larder {
		c.Problem.Rows[c.Energy].Lower += energy * c.kcal[li] * c.most[li]
		c.Problem.Rows[c.Protein].Lower += protein * c.gram[li] * c.most[li]
	}
}

// Every calls with each way of buying that feeds Signe, and what it costs.
func (c *Counter) Every(do func(packs []int, value float64)) {
	packs := make([]int, len(c.Larder))
	var from func(li int)
	from = func(li int) {
		if li < len(packs) {
			for packs[li] = 0; packs[li] <= int(c.Problem.Cols[c.Pack(li)].Upper); packs[li]++ {
				from(li + 1)
			}
			packs[li] = 0
			return
		}
		kcal, gram, value := 0.0, 0.0, 0.0
		for li, n := range packs {
			eaten := math.Min(float64(n)*math.Min(c.net[li], c.most[li]), c.most[li])
			kcal, gram, value = kcal+eaten*c.kcal[li], gram+eaten*c.gram[li], value+float64(n)*c.Problem.Cols[c.Pack(li)].Cost
		}
		if kcal >= c.Problem.Rows[c.Energy].Lower-1e-9 && gram >= c.Problem.Rows[c.Protein].Lower-1e-9 {
			do(packs, value)
		}
	}
	from(0)
}
