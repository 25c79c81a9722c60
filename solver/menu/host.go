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

// host says at which meals the packs are opened that do not keep, by the program of
// the plates with whole packs. Let z be the packs of a size opened at a meal, y the grams
// of a food that a person eats in a part of what is on the table then or beside it:
//
//	Σ_t z_kt = packs,  Σ_p n_p y_ptf ≤ Σ_k net_k z_kt   at the meal, or on the day
//	least·size ≤ Σ_f y / factor ≤ most·size             goal, each part
//	Σ_k min(1, net_k/least) z_kt + what keeps ≥ 1        goal, each part that a dish needs
//	energy and protein of a day near the mean, likewise what a medicine asks to
//	keep alike, what is published as the most of a day or a week, and the
//	carbohydrate of a main meal of who counts it   goal
//	Σ_t y_ptf = grams of the plan
//
// Of more people than a party it is the program of their stand-ins.
func (h *household) host(ctx context.Context, l layout) error {
	h, l = h.standIns(l)
	p := &hosting{program: &program{}, h: h, l: l, content: map[*stocked]map[int]int{}, needs: map[need]int{}}
	var short []*stocked
	for _, s := range h.foods {
		if !s.feed && s.unplaced() {
			short = append(short, s)
			p.addOpenings(s)
		}
	}
	if len(short) == 0 {
		return nil
	}
	for _, e := range h.eaters {
		p.addDays(e)
	}
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
		r := s.Solve(ctx, simplex.Limits{Iterations: shareWork})
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
			return p.moved(ctx, s, r), nil
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

// hosting is the program of openings in the making.
type hosting struct {
	*program
	h       *household
	l       layout
	content map[*stocked]map[int]int // row of what is open, by meal, or by day for what keeps a day
	needs   map[need]int             // row of what must be open
	opens   []packsAt
}

// packsAt is the column of how many packs alike are opened at a meal.
type packsAt struct {
	food *stocked
	kind opened
	t    int
	col  int
	all  int // row of the count of its packs
}

// at is the place at which what is opened for t counts: the meal, or its day.
func (s *stocked) at(t int) int {
	if s.meal {
		return t
	}
	return dayOf(t)
}

// addDays adds what e eats at each meal, and the goals of the days.
func (p *hosting) addDays(e *eater) {
	h := p.h
	fedKcal, fedProtein := e.fed(h.days, kcalPerG), e.fed(h.days, proteinPerG)
	kcal, protein := fedKcal, fedProtein // a day
	total := map[*stocked]int{}
	for _, s := range h.foods {
		if !e.eats(s.food) {
			continue
		}
		grams := e.grams[s.food]
		kcal += grams * kcalPerG(s.food) / float64(h.days)
		protein += grams * proteinPerG(s.food) / float64(h.days)
		total[s] = p.row(grams, grams)
		weigh := math.Max(kcalPerG(s.food), costGram)
		if p.content[s] != nil {
			weigh *= notAtAll
		}
		p.Set(total[s], p.col(e.count*costBeside*weigh, inf), 1)
		if e.may != nil { // the grams are free: another may have more
			p.Set(total[s], p.col(e.count*costOther*weigh, inf), -1)
		}
	}
	counts, ofMeals := p.meanColumn(e, h.days)
	alike := p.alike(h.days, e.steady, e.may != nil)
	limits := p.limit(e, h.days, e.count*e.dayWeight(), leaving)
	most := newSittings()
	for d := range h.days {
		steady := alike.goals(p.program, e.count*e.dayWeight())
		energy := p.goal((1-margin*EnergyRoom)*kcal-fedKcal, (1+margin*EnergyRoom)*kcal-fedKcal, e.count*costEnergy*e.dayWeight())
		grams := p.goal((1-margin*ProteinRoom)*protein-fedProtein, (1+margin*ProteinRoom)*protein-fedProtein, e.count*costProtein*e.dayWeight())
		far := p.goal((1-margin*proteinFar)*protein-fedProtein, (1+margin*proteinFar)*protein-fedProtein, e.count*costFar*costProtein*e.dayWeight())
		carbohydrate := map[int][2]int{} // rows of a main meal
		for _, m := range mainMeals {
			if counts >= 0 {
				carbohydrate[d*meals+m] = p.carbohydrateRows(e, counts)
			}
		}
		eat := func(y int, s *stocked, t int) {
			if p.content[s] != nil {
				p.Set(p.content[s][s.at(t)], y, e.count)
				most.add(e, s, t, y)
			}
			p.Set(total[s], y, 1)
			p.Set(energy, y, kcalPerG(s.food))
			p.Set(grams, y, proteinPerG(s.food))
			p.Set(far, y, proteinPerG(s.food))
			alike.add(p.program, steady, y, s.food)
			limits.add(p.program, d, y, s.food)
			if rows, ok := carbohydrate[t]; ok {
				p.Set(ofMeals, y, carbohydratePerG(s.food))
				for _, r := range rows {
					if r >= 0 {
						p.Set(r, y, carbohydratePerG(s.food))
					}
				}
			}
		}
		for m := range meals {
			t := d*meals + m
			for _, c := range p.l.table(t, e) {
				p.addChoice(e, t, c, eat)
			}
			for _, s := range h.foods { // beside the dishes
				if _, ok := p.content[s][s.at(t)]; ok && e.eats(s.food) && (s.meal || m == 0) {
					eat(p.col(e.count*costBeside*math.Max(kcalPerG(s.food), costGram), e.mostOf(s)), s, t)
				}
			}
		}
	}
	most.hold(p.program, e)
}

// addChoice adds what e eats of one dish at t.
func (p *hosting) addChoice(e *eater, t int, c *choice, eat func(y int, s *stocked, t int)) {
	size := e.scale(c.dish)
	must := !p.l.isOwn(t, e, c)
	for i := range c.parts {
		part := &c.parts[i]
		if !part.openTo(e) {
			continue
		}
		weigh := e.count * math.Max(kcalPerG(part.part.ReckonedAs), 10*costGram)
		row := p.row(-inf, part.part.MaxG*size)
		p.overMost(row, part.part.MaxG*size, weigh)
		if !part.part.Optional && must {
			p.Rows[row].Lower = part.part.MinG * size
			p.Set(row, p.col(costThin*freeThin*weigh, inf), 1)
			p.require(e, t, c, part)
		}
		bare := -1
		if makesDish(part.part) && must {
			bare = p.row(bareAim*part.part.MinG*size, inf)
			p.Set(bare, p.col(costBare*weigh, inf), 1)
		}
		for _, o := range part.options {
			s := p.h.of[o.Food]
			if !e.eats(o.Food) {
				continue
			}
			if rows := p.content[s]; rows != nil {
				if _, ok := rows[s.at(t)]; !ok {
					continue
				}
			} else if s.openings != nil && s.within(t) == nil {
				continue
			}
			y := p.col(0, e.mostOf(s))
			p.Set(row, y, 1/o.Factor)
			if bare >= 0 {
				p.Set(bare, y, 1/o.Factor)
			}
			if open, ok := p.needs[need{t, part, nil}]; ok && p.content[s] == nil {
				p.Set(open, y, e.count/(o.Factor*part.part.MinG*p.heads(t, c)))
			}
			if open, ok := p.needs[need{t, part, e}]; ok && p.content[s] == nil {
				p.Set(open, y, 1/(o.Factor*part.part.MinG*size))
			}
			eat(y, s, t)
		}
	}
}

// need is a part of a dish on the table at t that it cannot do without, of one who may not
// have all that it is made from, or of all.
type need struct {
	t    int
	part *candidatePart
	of   *eater // nil: all
}

// require holds that enough is open at t for everyone's least of a part, and for e's where
// others have it of what e may not eat: beans with wheat in their sauce are no coeliac's.
func (p *hosting) require(e *eater, t int, c *choice, part *candidatePart) {
	p.requireOf(need{t, part, nil}, p.heads(t, c), func(dishes.Option) bool { return true })
	barred := func(o dishes.Option) bool { return p.content[p.h.of[o.Food]] != nil && !e.eats(o.Food) }
	if slices.ContainsFunc(part.options, barred) {
		p.requireOf(need{t, part, e}, e.count*e.scale(c.dish), func(o dishes.Option) bool { return e.eats(o.Food) })
	}
}

// requireOf is that for heads, of the options that count.
func (p *hosting) requireOf(key need, heads float64, counts func(dishes.Option) bool) {
	if _, ok := p.needs[key]; ok || !slices.ContainsFunc(key.part.options, func(o dishes.Option) bool { return counts(o) && p.content[p.h.of[o.Food]] != nil }) {
		return
	}
	least := key.part.part.MinG * heads
	row := p.goal(1, inf, costUnopened*least*math.Max(kcalPerG(key.part.part.ReckonedAs), 10*costGram))
	p.needs[key] = row
	for _, o := range key.part.options {
		s := p.h.of[o.Food]
		for _, v := range p.opens {
			if counts(o) && v.food == s && s.at(v.t) == s.at(key.t) && v.t <= key.t {
				p.Set(row, v.col, math.Min(1, v.kind.pack.NetG/(o.Factor*least)))
			}
		}
	}
}

// heads are the servings that those are who have c at t and may not leave it.
func (p *hosting) heads(t int, c *choice) float64 {
	heads := 0.0
	for _, e := range p.h.eaters {
		if slices.Contains(p.l.table(t, e), c) && !p.l.isOwn(t, e, c) {
			heads += e.count * e.scale(c.dish)
		}
	}
	return heads
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
			k := slices.IndexFunc(left, func(o opened) bool { return o == v.kind })
			s.openings[i].packs = append(s.openings[i].packs, left[k])
			s.openings[i].grams += left[k].pack.NetG
			left = slices.Delete(left, k, k+1)
		}
	}
	slices.SortFunc(s.openings, func(a, b *opening) int { return a.from - b.from })
}

// taken reports whether f makes a part of what is on the table at t for anyone who eats f.
func (h *household) taken(l layout, t int, f *foods.Food) bool {
	makes := func(p candidatePart) bool {
		return slices.ContainsFunc(p.options, func(o dishes.Option) bool { return o.Food == f })
	}
	return slices.ContainsFunc(h.eaters, func(e *eater) bool {
		return e.eats(f) && slices.ContainsFunc(l.table(t, e), func(c *choice) bool { return slices.ContainsFunc(c.parts, makes) })
	})
}
