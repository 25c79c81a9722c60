package menu

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"rationwright/foods"
	"rationwright/foods/dishes"
)

// feedsMeal is the name under which an infant's milk feeds of a day stand.
const feedsMeal = "feeds"

// writer puts servings into the form of a menu.
type writer struct {
	h      *household
	layout layout
	menu   *Menu
	fed    map[*stocked][]feedDay // of milk that does not keep until the next day
}

// written is the menu of servings.
func written(h *household, req *Request, l layout, servings []serving) *Menu {
	m := &Menu{Start: req.Of.Start, FromDay: max(req.FromDay, 1)}
	w := &writer{fed: map[*stocked][]feedDay{}, h: h, layout: l, menu: m}
	at := make([][]serving, len(w.layout))
	for _, v := range servings {
		at[v.t] = append(at[v.t], v)
	}
	for _, l := range h.closed {
		w.leave(l.Pack, l.Count)
	}
	opens := w.opens(servings)
	for d := range h.days {
		day := Day{Day: d + w.menu.FromDay, Cold: h.cold[d]}
		if !h.start.IsZero() {
			day.Date = h.start.AddDate(0, 0, d).Format(time.DateOnly)
		}
		if feeds, ok := w.feeds(d, opens); ok {
			day.Meals = append(day.Meals, feeds)
		}
		for m := range meals {
			t := d*meals + m
			meal := w.meal(t, at[t], opens[t])
			if len(meal.People) > 0 || len(meal.Dishes) > 0 {
				day.Meals = append(day.Meals, meal)
			}
		}
		for _, meal := range day.Meals {
			day.WaterL += meal.WaterL
			day.HeatMJ += meal.HeatMJ
		}
		w.menu.WaterL += day.WaterL
		w.menu.HeatMJ += day.HeatMJ
		w.menu.Days = append(w.menu.Days, day)
	}
	for d := 0; d+1 < h.days; d++ {
		for m := range meals {
			if c := w.layout[(d+1)*meals+m].main; c != nil && c.dish.SoakHours > 1 {
				w.menu.Days[d].Tonight = append(w.menu.Days[d].Tonight, fmt.Sprintf("soak for %s tomorrow %s", c.dish.Name, clock[m].name))
			}
		}
	}
	w.misfits(servings)
	return m
}

// meal writes what is eaten at t.
func (w *writer) meal(t int, servings []serving, opens []opened) Meal {
	m := Meal{Meal: clock[mealOf(t)].name, Hour: clock[mealOf(t)].hour, Opens: []string{}}
	for _, o := range opens {
		m.Opens = append(m.Opens, o.pack.Key)
		if s := w.h.of[o.pack.Food]; s.days < w.h.days {
			kept := Kept{Pack: o.pack.Key, Until: "this meal", Safety: s.food.Keeping != nil && s.food.Keeping.AfterOpenBasis == "safety"}
			if in := s.within(t); in != nil && dayOf(in.last) > dayOf(t) {
				kept.Until = fmt.Sprintf("the evening of day %d", dayOf(in.last)+w.menu.FromDay)
			} else if in != nil && in.last > t {
				kept.Until = clock[mealOf(in.last)].name
			}
			m.Keeps = append(m.Keeps, kept)
		}
	}
	water := map[string]float64{}          // by dish
	eating := map[string]map[string]bool{} // who eats it
	for _, e := range w.h.eaters {
		got := Served{Name: e.name, Count: int(e.count)}
		amounts := map[[2]string]int{}
		for _, v := range servings {
			if v.eater != e {
				continue
			}
			f := v.food.food
			a := amountOf(f, v.grams)
			ml, mj := 0.0, 0.0
			if v.of != nil {
				a.Dish = v.of.dish.Key
				ml, _ = v.part.part.Water(f, v.grams)
				if c := v.of.dish.Cooking; c != "none" && (c != "warm" || !w.h.cold[dayOf(t)]) {
					mj = heatMJ(f, v.grams)
				}
				water[a.Dish] += e.count * ml
				if eating[a.Dish] == nil {
					eating[a.Dish] = map[string]bool{}
				}
				eating[a.Dish][e.name] = true
				if v.part.part.EatenAs != "" {
					got.EatenAs = append(got.EatenAs, f.Name+": "+v.part.part.EatenAs)
				}
			} else {
				ml = v.grams * waterPerG(f)
				if !w.h.cold[dayOf(t)] && !eatenCold(f) {
					mj = heatMJ(f, v.grams)
				}
			}
			m.WaterL += e.count * ml / 1000
			m.HeatMJ += e.count * mj
			i, ok := amounts[[2]string{a.Food, a.Dish}]
			if !ok && v.of == nil { // more of what is in a dish goes with it
				i, ok = amounts[[2]string{a.Food, anyDish}]
			}
			if ok {
				got.Foods[i].Grams += a.Grams
				continue
			}
			amounts[[2]string{a.Food, a.Dish}] = len(got.Foods)
			amounts[[2]string{a.Food, anyDish}] = len(got.Foods)
			got.Foods = append(got.Foods, a)
		}
		if len(got.Foods) == 0 {
			continue
		}
		for i := range got.Foods {
			a := &got.Foods[i]
			s := w.h.byName[a.Food]
			a.Measure = w.h.book.Measure(s.food, a.Grams, s.firstPack())
		}
		slices.Sort(got.EatenAs)
		got.EatenAs = slices.Compact(got.EatenAs)
		m.People = append(m.People, got)
	}
	for _, c := range w.served(t) {
		who := eating[c.dish.Key]
		if len(who) == 0 || slices.ContainsFunc(m.Dishes, func(d Dish) bool { return d.Key == c.dish.Key }) {
			continue
		}
		d := Dish{Key: c.dish.Key, Name: c.dish.Name, How: c.dish.How, Minutes: c.dish.Minutes, Cooking: c.dish.Cooking, WaterML: water[c.dish.Key]}
		if len(who) < w.h.atTables() {
			for _, e := range w.h.eaters {
				if who[e.name] {
					d.For = append(d.For, e.name)
				}
			}
		}
		m.Dishes = append(m.Dishes, d)
	}
	return m
}

func amountOf(f *foods.Food, grams float64) Amount {
	a := Amount{Food: f.Name, Grams: grams}
	if !f.Computed {
		a.NDB = f.NDB
	}
	return a
}

// anyDish stands for the first dish in which a food is.
const anyDish = "*"

// served returns everything on the table at t: the dish of the household, what some
// have instead, drinks, what one has for oneself.
func (w *writer) served(t int) []*choice {
	var list []*choice
	if main := w.layout[t].main; main != nil {
		list = append(list, main)
	}
	list = append(list, w.layout[t].drinks...)
	for _, e := range w.h.eaters {
		for _, c := range w.layout.table(t, e) {
			if !slices.Contains(list, c) {
				list = append(list, c)
			}
		}
	}
	return list
}

// atTables is the number of rows of people who eat dishes.
func (h *household) atTables() int {
	n := 0
	for _, e := range h.eaters {
		if !e.infant {
			n++
		}
	}
	return n
}

func (s *stocked) firstPack() *foods.Pack {
	if len(s.packs) == 0 {
		return nil
	}
	return s.packs[0].pack
}

func heatMJ(f *foods.Food, grams float64) float64 {
	if f.Preparation == nil {
		return 0
	}
	return grams / 100 * f.Preparation.HeatMJ
}

// waterPerG is the mL of water that a gram of f takes as it is prepared.
func waterPerG(f *foods.Food) float64 {
	if f.Preparation == nil {
		return 0
	}
	return f.Preparation.WaterML / 100
}

// opens says at which position each pack is opened: in its opening, or when the
// pack before it is empty.
func (w *writer) opens(servings []serving) map[int][]opened {
	at := map[int][]opened{}
	eaten := map[*stocked][]float64{}
	for _, s := range w.h.foods {
		eaten[s] = make([]float64, len(w.layout))
	}
	for _, v := range servings {
		eaten[v.food][v.t] += v.eater.count * v.grams
	}
	for _, e := range w.h.eaters {
		for _, f := range e.feeds {
			for d := range w.h.days {
				eaten[w.h.of[f.food]][d*meals] += e.count * f.grams / float64(w.h.days)
			}
		}
	}
	for _, s := range w.h.foods {
		if s.fresh() {
			w.fed[s] = s.feedDays(w.h.days)
			for d, day := range w.fed[s] {
				at[d*meals] = append(at[d*meals], day.packs...)
			}
			continue
		}
		if s.openings != nil {
			for _, o := range s.openings {
				t := o.from
				for t <= o.last && eaten[s][t] < leastG { // at the first meal that takes it
					t++
				}
				if t > o.last { // nobody has anything of it
					for _, p := range o.packs {
						w.leave(p.pack.Key, 1)
					}
					continue
				}
				at[t] = append(at[t], o.packs...)
			}
			continue
		}
		next, left := 0, 0.0
		for t, grams := range eaten[s] {
			for ; left+1e-6 < grams && next < len(s.packs); next++ {
				at[t] = append(at[t], s.packs[next])
				left += s.packs[next].pack.NetG
			}
			left -= grams
		}
		for _, p := range s.packs[next:] {
			w.leave(p.pack.Key, 1)
		}
	}
	for t := range at {
		slices.SortStableFunc(at[t], func(a, b opened) int { return strings.Compare(a.pack.Key, b.pack.Key) })
	}
	return at
}

// leave notes packs that stay closed.
func (w *writer) leave(pack string, n int) {
	for i := range w.menu.Leftovers {
		if w.menu.Leftovers[i].Pack == pack {
			w.menu.Leftovers[i].Count += n
			return
		}
	}
	w.menu.Leftovers = append(w.menu.Leftovers, Left{Pack: pack, Count: n})
}

// feeds writes an infant's milk feeds of a day.
func (w *writer) feeds(d int, opens map[int][]opened) (Meal, bool) {
	m := Meal{Meal: feedsMeal, Opens: []string{}}
	for _, e := range w.h.eaters {
		if len(e.feeds) == 0 {
			continue
		}
		got := Served{Name: e.name, Count: int(e.count)}
		dish := w.feedDish(e)
		for _, f := range e.feeds {
			grams := f.grams / float64(w.h.days)
			if days := w.fed[w.h.of[f.food]]; days != nil {
				grams = f.grams * days[d].part
			}
			a := amountOf(f.food, grams)
			a.Dish, a.Measure = dish.Key, fmt.Sprintf("%.0f feeds", math.Round(float64(dish.TimesUsual)/dishes.Fortnight))
			got.Foods = append(got.Foods, a)
			m.WaterL += e.count * grams * waterPerG(f.food) / 1000
			m.HeatMJ += e.count * heatMJ(f.food, grams)
			t := d * meals
			opens[t] = slices.DeleteFunc(opens[t], func(o opened) bool {
				if o.pack.Food == f.food {
					m.Opens = append(m.Opens, o.pack.Key)
					return true
				}
				return false
			})
		}
		m.People = append(m.People, got)
		m.Dishes = append(m.Dishes, Dish{Key: dish.Key, Name: dish.Name, How: dish.How, Minutes: dish.Minutes, Cooking: dish.Cooking, For: []string{e.name}})
	}
	return m, len(m.People) > 0
}

// feedDish is the dish of a milk feed for the infant's age.
func (w *writer) feedDish(e *eater) *dishes.Dish {
	for _, d := range w.h.book.Dishes {
		if isFeed(d) && d.ServedTo(e.person.AgeMonths) &&
			slices.ContainsFunc(d.Parts, func(p *dishes.Part) bool { _, ok := p.Makes(e.feeds[0].food); return ok }) {
			return d
		}
	}
	return &dishes.Dish{Key: "feed", Name: "milk feed", How: "As the feeding rules and the tin say.", TimesUsual: 8 * dishes.Fortnight}
}
