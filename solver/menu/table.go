package menu

import (
	"cmp"
	"slices"
	"strings"
	"time"

	"rationwright/foods"
	"rationwright/foods/dishes"
	"rationwright/nutrients"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rules"
)

// Request is everything that decides a menu. The same request gives the same menu.
type Request struct {
	Plan     *ration.Plan
	Of       *ration.Request // that of the plan
	Book     *dishes.Book
	ColdDays []int // days of the plan on which nothing is heated
	FromDay  int   // day of the whole plan on which this one starts; 0 means 1
}

// household is what is shared out: the eaters and the foods of a plan.
type household struct {
	days     int
	book     *dishes.Book
	cook     ration.Cook // the most demanding cooking there is
	eaters   []*eater
	foods    []*stocked // in order of the food table
	of       map[*foods.Food]*stocked
	byName   map[string]*stocked
	cold     map[int]bool // days on which nothing is heated, from 0
	closed   []Left       // packs of food that nobody eats
	start    time.Time    // of the first of its days; zero where unknown
	rough    bool         // a first share: crumbs stay
	milkless []string     // what is to be asked for small children who may have no milk
	shared   places       // where the rows and columns of servings stood
	heads    float64      // Σ count × size of those who eat dishes
}

// eater is a person of the plan who is fed.
type eater struct {
	name    string
	count   float64
	person  *nutrients.Person
	size    float64 // of a serving, an adult's usual one is 1
	grams   map[*foods.Food]float64
	byDate  []ration.DatedFood
	kcal    float64 // a day
	protein float64 // g a day
	band    *ration.MealRange
	steady  []evened      // what a medicine asks to keep alike from day to day
	limits  []rules.Limit // published, of a day or a week
	glasses []rules.Limit // of a kind at a sitting, of a child, own planning rules
	infant  bool          // eats no dishes of the household
	feeds   []feed        // milk of an infant, over the days of the plan

	may     map[*foods.Food]bool // what may be on the plate; nil: what the plan has
	instead map[string]bool      // dishes chosen in place of the household's, by key
}

// fed is what e is fed a day of what per gives a gram of milk.
func (e *eater) fed(days int, per func(*foods.Food) float64) float64 {
	sum := 0.0
	for _, f := range e.feeds {
		sum += f.grams * per(f.food) / float64(days)
	}
	return sum
}

// feed is an infant's milk.
type feed struct {
	food  *foods.Food
	grams float64
}

// eats reports whether the plan gives the eater any of f, or may.
func (e *eater) eats(f *foods.Food) bool {
	if e.may != nil {
		return e.may[f]
	}
	return e.grams[f] > 0
}

// stocked is a food of the plan: its packs, and how long they keep once opened.
type stocked struct {
	food     *foods.Food
	grams    float64 // all eat of it
	packs    []opened
	days     int        // it keeps once opened; 0: for a meal or a day only
	feed     bool       // milk of an infant: opened feed by feed where it does not keep
	meal     bool       // it is finished at the meal at which it is opened
	openings []*opening // of what does not keep for all days
}

// opened is a pack and when it is opened.
type opened struct {
	pack       *foods.Pack
	bestBefore string
}

// opening is packs opened together, and the meals at which they are eaten.
type opening struct {
	packs      []opened
	grams      float64
	from, last int // positions in the whole menu, day × meals + meal; −1: not placed yet
}

func newHousehold(req *Request) *household {
	h := &household{
		days: req.Plan.Days, book: req.Book, cook: req.Of.Cook, cold: map[int]bool{},
		of: map[*foods.Food]*stocked{}, byName: map[string]*stocked{}, shared: places{}, milkless: rules.MilkCautions(req.Of),
	}
	byName := map[string]*foods.Food{}
	for _, f := range req.Of.Table.Foods {
		byName[f.Name] = f
	}
	for i := range req.Plan.People {
		p := &req.Plan.People[i]
		at := slices.IndexFunc(req.Of.People, func(q nutrients.Person) bool { return q.Name == p.Name })
		if at < 0 {
			continue
		}
		e := &eater{
			name: p.Name, count: float64(p.Count), person: &req.Of.People[at], grams: map[*foods.Food]float64{},
			band: p.Carbohydrate, byDate: p.ByDate,
		}
		e.steady, e.limits, e.glasses = steadyOf(e.person), rules.Published(req.Of.Table, e.person), rules.Glasses(req.Of.Table, e.person)
		for _, line := range p.Foods {
			f := byName[line.Food]
			if f == nil || line.Grams <= 0 {
				continue
			}
			e.kcal += line.Grams / 100 * f.Per100g.Known(nutrients.Energy) / float64(h.days)
			e.protein += line.Grams / 100 * f.Per100g.Known(nutrients.Protein) / float64(h.days)
			for i := range e.steady {
				e.steady[i].mean += line.Grams / 100 * f.Per100g.Known(e.steady[i].of) / float64(h.days)
			}
			s := h.of[f]
			if s == nil {
				s = &stocked{food: f}
				h.of[f] = s
				h.byName[f.Name] = s
				h.foods = append(h.foods, s)
			}
			if rules.IsMilkFeed(f) {
				e.feeds = append(e.feeds, feed{f, line.Grams})
				s.feed = true
			} else {
				e.grams[f] += line.Grams
			}
			s.grams += e.count * line.Grams
		}
		e.size = e.kcal / model.AdultServingsKcal
		e.infant = e.person.AgeMonths < model.TableMonths
		if !e.infant {
			h.heads += e.count * e.size
		}
		h.eaters = append(h.eaters, e)
	}
	slices.SortFunc(h.foods, func(a, b *stocked) int { return strings.Compare(a.food.NDB, b.food.NDB) })
	if start, err := time.Parse(time.DateOnly, req.Of.Start); err == nil {
		h.start = start.AddDate(0, 0, max(req.FromDay, 1)-1)
	}
	for _, d := range req.ColdDays {
		h.cold[d-max(req.FromDay, 1)] = true
	}
	h.addPacks(req)
	for _, s := range h.foods {
		h.open(s)
	}
	return h
}

// addPacks puts the packs of the plan to their foods, those first that must be eaten
// first: opened ones, then by best before, then the smaller.
func (h *household) addPacks(req *Request) {
	for _, line := range req.Plan.Packs {
		i := slices.IndexFunc(req.Of.Table.Packs, func(k *foods.Pack) bool { return k.Key == line.Pack })
		if i < 0 || line.Reserve {
			continue
		}
		pack := req.Of.Table.Packs[i]
		s := h.of[pack.Food]
		if s == nil {
			h.closed = append(h.closed, Left{Pack: pack.Key, Count: line.Count})
			continue
		}
		left := line.FromStock
		for _, l := range req.Of.Stock {
			for n := 0; l.Pack == pack && left > 0 && n < int(l.Count); n++ {
				s.packs = append(s.packs, opened{pack, l.BestBefore})
				left--
			}
		}
		for range line.Count - line.FromStock + left {
			s.packs = append(s.packs, opened{pack, noDate})
		}
	}
	for _, s := range h.foods {
		slices.SortStableFunc(s.packs, func(a, b opened) int {
			byDate := cmp.Compare(cmp.Or(a.bestBefore, noDate), cmp.Or(b.bestBefore, noDate))
			return cmp.Or(byDate, cmp.Compare(a.pack.NetG, b.pack.NetG))
		})
	}
}

// lastDay is the last day, from 0, on which a pack is within its date.
func (h *household) lastDay(k opened) int {
	date, err := time.Parse(time.DateOnly, k.bestBefore)
	if err != nil || h.start.IsZero() {
		return h.days
	}
	return int(date.Sub(h.start).Hours()) / model.DayHours
}

// noDate sorts behind every date.
const noDate = "9999"
