package referee_test

import (
	"fmt"
	"math"
	"math/rand/v2"

	"rationwright/solver/linear"
)

// structured makes integer programs of a few dozen columns, too many to try
// every point of, in the shapes that integer programs come in.
var structured = []family{
	{"knapsacks", knapsacks},
	{"set cover", setCover},
	{"fixed charge", fixedCharge},
	{"lots", lots},
	{"equation of integers", integerEquation},
	{"packs", packs},
	{"general", general},
}

// knapsacks has several resources and columns of at most three each.
func knapsacks(rng *rand.Rand) *linear.Problem {
	p := &linear.Problem{Name: "knapsacks", Maximize: true}
	n := 8 + rng.IntN(13)
	for i := range 1 + rng.IntN(4) {
		p.AddRow(fmt.Sprint("room", i), -inf, float64(30+rng.IntN(60)))
	}
	for j := range n {
		col := p.AddCol(fmt.Sprint("take", j), float64(5+rng.IntN(30)), 0, float64(1+rng.IntN(3)), true)
		for i := range p.Rows {
			p.Set(i, col, float64(1+rng.IntN(20)))
		}
	}
	return p
}

// setCover buys sets so that everything is in at least one of them.
func setCover(rng *rand.Rand) *linear.Problem {
	p := &linear.Problem{Name: "set cover"}
	m, n := 8+rng.IntN(10), 10+rng.IntN(15)
	for i := range m {
		p.AddRow(fmt.Sprint("cover", i), 1, inf)
	}
	for j := range n {
		col := p.AddCol(fmt.Sprint("set", j), float64(1+rng.IntN(9)), 0, 1, true)
		for i := range m {
			if rng.IntN(4) == 0 || j%m == i {
				p.Set(i, col, 1)
			}
		}
	}
	return p
}

// fixedCharge pays for opening a place before anything can come from it.
func fixedCharge(rng *rand.Rand) *linear.Problem {
	p := &linear.Problem{Name: "fixed charge"}
	places, needs := 3+rng.IntN(4), 3+rng.IntN(4)
	total := 0.0
	for k := range needs {
		need := float64(5 + rng.IntN(15))
		total += need
		p.AddRow(fmt.Sprint("need", k), need, inf)
	}
	room := math.Ceil(2 * total / float64(places))
	for i := range places {
		p.AddRow(fmt.Sprint("open", i), -inf, 0)
	}
	for i := range places {
		for k := range needs {
			col := p.AddCol(fmt.Sprint("from", i, "_", k), 1+math.Round(rng.Float64()*90)/10, 0, inf, false)
			p.Set(k, col, 1)
			p.Set(needs+i, col, 1)
		}
		p.Set(needs+i, p.AddCol(fmt.Sprint("opened", i), float64(20+rng.IntN(80)), 0, 1, true), -room)
	}
	return p
}

// lots makes and stores over some days, with a cost for every day of making.
func lots(rng *rand.Rand) *linear.Problem {
	p := &linear.Problem{Name: "lots"}
	days := 4 + rng.IntN(6)
	for d := range days {
		need := float64(rng.IntN(12))
		p.AddRow(fmt.Sprint("balance", d), need, need)
	}
	for d := range days {
		p.AddRow(fmt.Sprint("set up", d), -inf, 0)
	}
	for d := range days {
		made := p.AddCol(fmt.Sprint("made", d), float64(1+rng.IntN(4)), 0, inf, false)
		p.Set(d, made, 1)
		p.Set(days+d, made, 1)
		stored := p.AddCol(fmt.Sprint("stored", d), 1, 0, float64(5+rng.IntN(20)), false)
		p.Set(d, stored, -1)
		if d+1 < days {
			p.Set(d+1, stored, 1)
		}
		p.Set(days+d, p.AddCol(fmt.Sprint("runs", d), float64(5+rng.IntN(20)), 0, 3, true), -float64(8+rng.IntN(12)))
	}
	return p
}

// integerEquation asks for an exact sum, which rounding alone never finds.
func integerEquation(rng *rand.Rand) *linear.Problem {
	p := &linear.Problem{Name: "equation"}
	n := 4 + rng.IntN(4)
	for i := range 1 + rng.IntN(2) {
		p.AddRow(fmt.Sprint("sum", i), 0, 0)
	}
	for j := range n {
		col := p.AddCol(fmt.Sprint("x", j), float64(1+rng.IntN(9)), 0, float64(4+rng.IntN(6)), true)
		for i := range p.Rows {
			a := float64(3 + rng.IntN(40))
			p.Set(i, col, a)
			p.Rows[i].Lower += a * float64(rng.IntN(4))
		}
	}
	for i := range p.Rows {
		p.Rows[i].Upper = p.Rows[i].Lower
	}
	return p
}

// packs is a household in small: what people eat of each food balances whole
// packs bought, each person has floors and ceilings, costs are on packs alone.
func packs(rng *rand.Rand) *linear.Problem {
	p := &linear.Problem{Name: "packs"}
	people, foods, needs := 1+rng.IntN(3), 4+rng.IntN(6), 2+rng.IntN(4)
	for f := range foods {
		p.AddRow(fmt.Sprint("balance", f), 0, inf)
	}
	for h := range people {
		for n := range needs {
			floor := 30 + 50*rng.Float64()
			p.AddRow(fmt.Sprint("person", h, " need", n), floor, floor*(1.5+2*rng.Float64()))
		}
	}
	content := make([][]float64, foods)
	for f := range content {
		for range needs {
			content[f] = append(content[f], math.Round(rng.ExpFloat64()*100)/100)
		}
	}
	for f := range foods {
		price := 0.5 + rng.Float64()
		for k := range 1 + rng.IntN(2) {
			net := float64(4 + 8*k + rng.IntN(8))
			p.Set(f, p.AddCol(fmt.Sprint("buy", f, "_", k), math.Round(price*net*(1-0.1*float64(k))*100)/100, 0, 30, true), net)
		}
		for h := range people {
			col := p.AddCol(fmt.Sprint("eat", f, "_", h), 0, 0, 20+20*rng.Float64(), false)
			p.Set(f, col, -1)
			for n := range needs {
				p.Set(foods+h*needs+n, col, content[f][n])
			}
		}
	}
	return p
}

// general has no structure at all, and few columns for that.
func general(rng *rand.Rand) *linear.Problem {
	for {
		if p := newSketch(rng).around(4).problem(); small(p) {
			return integers(p, rng)
		}
	}
}
