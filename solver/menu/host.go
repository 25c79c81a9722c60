package menu

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"

	"rationwright/foods"
	"rationwright/foods/dishes"
	"rationwright/solver/simplex"
)

// hostUp is the part of the packs still in parts that a round takes up to whole ones.
const hostUp = 0.25

// host says at which meals the packs are opened that do not keep, by a program of the
// household as one. Let z be the packs of a size opened at a meal, Y the grams of a food
// eaten in a part of what is on the table then:
//
//	Σ_t z_kt = packs,  Σ Y_tf ≤ Σ_k net_k z_kt      at the meal, or on the day
//	least·S ≤ Σ_f Y / factor ≤ most·S               goal, each part
//	energy and protein of a day near the mean       goal
//	Σ_t Y_tf + beside = grams of the plan
func (h *household) host(ctx context.Context, l layout) error {
	p := &hosting{program: &program{}, h: h, l: l, content: map[*stocked]map[int]int{}, total: map[*stocked]int{}}
	var short []*stocked
	for _, s := range h.foods {
		if s.feed {
			continue
		}
		p.total[s] = p.row(s.grams, s.grams)
		p.Set(p.total[s], p.col(costBeside*math.Max(kcalPerG(s.food), costGram), inf), 1)
		if len(s.openings) > 0 && s.openings[0].from < 0 {
			short = append(short, s)
			p.addOpenings(s)
		}
	}
	if len(short) == 0 {
		return nil
	}
	p.addDays()
	x, err := p.whole(ctx)
	if err != nil {
		return err
	}
	for _, s := range short {
		p.open(s, x)
	}
	return nil
}

// whole solves the program with whole packs: round by round, what is whole stays the
// least, the largest parts are taken up, and the rest is decided anew.
func (p *hosting) whole(ctx context.Context) ([]float64, error) {
	s, err := simplex.New(p.problem())
	if err != nil {
		return nil, err
	}
	for range len(p.opens) {
		r := s.Solve(ctx, simplex.Limits{})
		if r.Status != simplex.Optimal {
			return nil, fmt.Errorf("menu: no meals at which the packs are opened: %s %s", r.Status, r.Why)
		}
		var parts []packsAt
		over := func(v packsAt) float64 { return r.X[v.col] - math.Floor(r.X[v.col]+wholePack) }
		for _, v := range p.opens {
			_, upper := s.Bounds(v.col)
			s.SetBounds(v.col, math.Floor(r.X[v.col]+wholePack), upper)
			if over(v) > wholePack {
				parts = append(parts, v)
			}
		}
		if len(parts) == 0 {
			return r.X, nil
		}
		slices.SortStableFunc(parts, func(a, b packsAt) int { return cmp.Compare(over(b), over(a)) })
		left := map[int]float64{} // packs that are in parts yet, by the row of their count
		for _, v := range parts {
			left[v.all] += over(v)
		}
		for _, v := range parts[:int(math.Ceil(hostUp*float64(len(parts))))] {
			if left[v.all] < 1-wholePack {
				continue
			}
			left[v.all]--
			_, upper := s.Bounds(v.col)
			s.SetBounds(v.col, math.Ceil(r.X[v.col]-wholePack), upper)
		}
	}
	return nil, fmt.Errorf("menu: packs are not opened whole")
}

// costUnopened is the cost of a kcal of the least of a part for which nothing is open.
const costUnopened = 20

// wholePack is how near to a whole number counts as whole: the simplex method's
// tolerance, with room.
const wholePack = 1e-6

// hosting is the program of openings in the making.
type hosting struct {
	*program
	h       *household
	l       layout
	content map[*stocked]map[int]int // row of what is open, by meal, or by day for what keeps a day
	total   map[*stocked]int
	opens   []packsAt
}

// packsAt is the column of how many packs of one key are opened at a meal.
type packsAt struct {
	food *stocked
	key  string
	t    int
	col  int
	net  float64 // g
	all  int     // row of the count of its packs
}

// at is the place at which what is opened for t counts: the meal, or its day.
func (s *stocked) at(t int) int {
	if s.meal {
		return t
	}
	return dayOf(t)
}

// addOpenings adds the meals at which packs of s may be opened: those at which a dish
// takes it, or any main meal where none does.
func (p *hosting) addOpenings(s *stocked) {
	var places []int
	for t := range p.l {
		if p.h.cold[dayOf(t)] && !eatenCold(s.food) || len(p.h.takers(p.l, t, s.food)) == 0 {
			continue
		}
		if n := len(places); n > 0 && s.at(places[n-1]) == s.at(t) {
			continue
		}
		places = append(places, t)
	}
	if len(places) == 0 {
		for t := range p.l {
			if mealOf(t) == atEvening && (!p.h.cold[dayOf(t)] || eatenCold(s.food)) {
				places = append(places, t)
			}
		}
	}
	p.content[s] = map[int]int{}
	for _, t := range places {
		p.content[s][s.at(t)] = p.row(-inf, 0)
	}
	packs := map[string]int{}
	var keys []string
	net := map[string]float64{}
	for _, k := range s.packs {
		if packs[k.pack.Key] == 0 {
			keys = append(keys, k.pack.Key)
			net[k.pack.Key] = k.pack.NetG
		}
		packs[k.pack.Key]++
	}
	for _, key := range keys {
		n := float64(packs[key])
		all := p.row(n, n)
		for _, t := range places {
			z := p.col(0, n)
			p.Set(all, z, 1)
			p.Set(p.content[s][s.at(t)], z, -net[key])
			p.opens = append(p.opens, packsAt{s, key, t, z, net[key], all})
		}
	}
}

// addDays adds what is eaten at each meal, and the goals of the days.
func (p *hosting) addDays() {
	h := p.h
	kcal, protein := 0.0, 0.0 // a day, of all but feeds
	for _, s := range h.foods {
		if !s.feed {
			kcal += s.grams * kcalPerG(s.food) / float64(h.days)
			protein += s.grams * proteinPerG(s.food) / float64(h.days)
		}
	}
	for d := range h.days {
		energy := p.goal((1-margin*EnergyRoom)*kcal, (1+margin*EnergyRoom)*kcal, costEnergy)
		grams := p.goal((1-margin*ProteinRoom)*protein, (1+margin*ProteinRoom)*protein, costProtein)
		for m := range meals {
			t := d*meals + m
			for _, c := range p.onTable(t) {
				p.addChoice(t, c, energy, grams)
			}
		}
	}
}

// onTable returns everything that somebody is served at t, each once.
func (p *hosting) onTable(t int) []*choice {
	var list []*choice
	for _, e := range p.h.eaters {
		for _, c := range p.l.table(t, e) {
			if !has(list, c) {
				list = append(list, c)
			}
		}
	}
	return list
}

// addChoice adds what is eaten of one dish at t.
func (p *hosting) addChoice(t int, c *choice, energy, protein int) {
	for i := range c.parts {
		part := &c.parts[i]
		heads, must := 0.0, 0.0
		for _, e := range p.h.eaters {
			if has(p.l.table(t, e), c) && part.openTo(e) {
				heads += e.count * e.scale(c.dish)
				if !p.l.isOwn(t, e, c) {
					must += e.count * e.scale(c.dish)
				}
			}
		}
		weigh := math.Max(kcalPerG(part.part.ReckonedAs), 10*costGram)
		row := p.row(-inf, part.part.MaxG*heads)
		p.Set(row, p.col(costLarge*weigh, inf), -1)
		if !part.part.Optional && must > 0 {
			p.Rows[row].Lower = part.part.MinG * must
			p.Set(row, p.col(costThin*freeThin*weigh, inf), 1)
		}
		open := -1
		if !part.part.Optional && must > 0 && slices.ContainsFunc(part.options, func(o dishes.Option) bool { return p.content[p.h.of[o.Food]] != nil }) {
			open = p.goal(1, inf, costUnopened*weigh*part.part.MinG*must)
		}
		for _, o := range part.options {
			s := p.h.of[o.Food]
			y := p.col(0, inf)
			least := o.Factor * part.part.MinG * must
			if open >= 0 && p.content[s] == nil {
				p.Set(open, y, 1/least)
			}
			for _, v := range p.opens {
				if open >= 0 && v.food == s && s.at(v.t) == s.at(t) && v.t <= t {
					p.Set(open, v.col, math.Min(1, v.net/least))
				}
			}
			if rows := p.content[s]; rows != nil {
				at, ok := rows[s.at(t)]
				if !ok {
					p.Cols[y].Upper = 0
					continue
				}
				p.Set(at, y, 1)
			} else if s.openings != nil && s.within(t) == nil {
				p.Cols[y].Upper = 0
				continue
			}
			p.Set(p.total[s], y, 1)
			p.Set(row, y, 1/o.Factor)
			p.Set(energy, y, kcalPerG(o.Food))
			p.Set(protein, y, proteinPerG(o.Food))
		}
	}
}

// open makes the openings of s of a point, its packs in the order in which they must be
// eaten.
func (p *hosting) open(s *stocked, x []float64) {
	s.openings = nil
	left := slices.Clone(s.packs)
	for _, v := range p.opens {
		n := int(math.Round(x[v.col]))
		if v.food != s || n == 0 {
			continue
		}
		i := slices.IndexFunc(s.openings, func(o *opening) bool { return o.from == v.t })
		if i < 0 {
			i = len(s.openings)
			o := &opening{from: v.t, last: v.t}
			for !s.meal && mealOf(o.last) < meals-1 && clock[mealOf(o.last)+1].hour <= clock[mealOf(o.from)].hour+s.food.Keeping.AfterOpenHours {
				o.last++
			}
			s.openings = append(s.openings, o)
		}
		for range n {
			k := slices.IndexFunc(left, func(o opened) bool { return o.pack.Key == v.key })
			s.openings[i].packs = append(s.openings[i].packs, left[k])
			s.openings[i].grams += left[k].pack.NetG
			left = slices.Delete(left, k, k+1)
		}
	}
	slices.SortFunc(s.openings, func(a, b *opening) int { return a.from - b.from })
}

// takers are the parts of what is on the table at t, for anyone who eats f, that f
// makes.
func (h *household) takers(l layout, t int, f *foods.Food) []*candidatePart {
	var list []*candidatePart
	for _, e := range h.eaters {
		if !e.eats(f) {
			continue
		}
		for _, c := range l.table(t, e) {
			for i := range c.parts {
				if slices.ContainsFunc(c.parts[i].options, func(o dishes.Option) bool { return o.Food == f }) && !slices.Contains(list, &c.parts[i]) {
					list = append(list, &c.parts[i])
				}
			}
		}
	}
	return list
}

// at returns what is on the table at t, the main dish first.
func (l layout) at(t int) []*choice {
	if l[t].main == nil {
		return l[t].drinks
	}
	return append([]*choice{l[t].main}, l[t].drinks...)
}
