package menu

import (
	"math"
	"slices"
	"testing"
	"time"

	"rationwright/foods"
	"rationwright/foods/dishes"
	"rationwright/nutrients"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
)

// TestMealByHand: water, heat, dishes and amounts of a meal. Two women have 100 g of rice and
// 10 g of oil of a pot, 50 g of warmed beans, and beside them 20 g of milk powder, 30 g more
// of the rice and 40 g of oats that need no heat; a man has 60 g of soaked oats; an infant
// has a jar of her own. A day on which nothing is heated takes the heat of what is warmed
// and of what is eaten beside the dishes.
func TestMealByHand(t *testing.T) {
	make100 := func(class string, coldOK bool, waterML, heatMJ float64) *foods.Preparation {
		return &foods.Preparation{Class: class, ColdOK: coldOK, WaterML: waterML, HeatMJ: heatMJ}
	}
	rice := &foods.Food{NDB: "20044", Name: "rice", Preparation: make100("boil", false, 200, 0.6)}
	oil := &foods.Food{NDB: "04506", Name: "oil"}
	beans := &foods.Food{NDB: "16335", Name: "beans", Preparation: make100("warm", true, 0, 0.1)}
	milk := &foods.Food{NDB: "01090", Name: "milk", Preparation: make100("none", true, 900, 0)}
	oats := &foods.Food{NDB: "08120", Name: "oats", Preparation: make100("boil", true, 300, 0.2)}
	jar := &foods.Food{NDB: "C0009", Computed: true, Name: "jar"}
	part := func(f *foods.Food, waterML *float64, as string) *candidatePart {
		return &candidatePart{part: &dishes.Part{Role: "base", ReckonedAs: f, WaterML: waterML, EatenAs: as, Options: []dishes.Option{{Food: f, Factor: 1}}}}
	}
	choiceOf := func(key, cooking string) *choice {
		return &choice{candidate: &candidate{dish: &dishes.Dish{Key: key, Name: "a " + key, How: "so", Minutes: 12, Cooking: cooking}}}
	}
	pot, warm, cold, spoon := choiceOf("pot", "boil"), choiceOf("warm", "warm"), choiceOf("cold", "none"), choiceOf("spoon", "none")
	little := 250.0 // mL that 100 g of oats soak in
	inPot, oilInPot, inWarm, inCold, inSpoon := part(rice, nil, ""), part(oil, nil, ""), part(beans, nil, "mashed"), part(oats, &little, "soaked"), part(jar, nil, "")

	women := &eater{name: "Ida", count: 2, person: &nutrients.Person{AgeMonths: 400}}
	man := &eater{name: "Leif", count: 1, person: &nutrients.Person{AgeMonths: 500}}
	infant := &eater{name: "Bo", count: 1, infant: true, person: &nutrients.Person{AgeMonths: 8}}
	h := &household{days: 2, book: &dishes.Book{}, cold: map[int]bool{}, eaters: []*eater{women, man, infant}, of: map[*foods.Food]*stocked{}, byName: map[string]*stocked{}}
	for _, f := range []*foods.Food{rice, oil, beans, milk, oats, jar} {
		s := &stocked{food: f, days: 2}
		h.of[f], h.byName[f.Name] = s, s
	}
	h.of[rice].packs = []opened{{pack: &foods.Pack{Key: "rice-bag", Food: rice, NetG: 520}}}
	l := make(layout, 2*meals)
	at := atMidday
	l[at] = place{main: pot, drinks: []*choice{warm}, instead: map[*eater]*choice{man: cold}, own: []ownDish{{infant, spoon}}}
	servings := []serving{
		{eater: women, t: at, of: pot, part: inPot, food: h.of[rice], grams: 100},
		{eater: women, t: at, of: pot, part: oilInPot, food: h.of[oil], grams: 10},
		{eater: women, t: at, of: warm, part: inWarm, food: h.of[beans], grams: 50},
		{eater: women, t: at, food: h.of[milk], grams: 20},
		{eater: women, t: at, food: h.of[rice], grams: 30},
		{eater: women, t: at, food: h.of[oats], grams: 40},
		{eater: man, t: at, of: cold, part: inCold, food: h.of[oats], grams: 60},
		{eater: infant, t: at, of: spoon, part: inSpoon, food: h.of[jar], grams: 70},
	}
	for _, c := range []struct {
		cold   bool
		heatMJ float64
	}{
		{false, 2 * (100*0.006 + 50*0.001 + 30*0.006)}, // the pot, what is warmed, the rice beside it; oats are eaten cold
		{true, 2 * (100 * 0.006)},
	} {
		h.cold[0] = c.cold
		w := &writer{h: h, layout: l, menu: &Menu{FromDay: 1}}
		m := w.meal(at, servings, nil)
		if m.Meal != "midday" || m.Hour != 13 || m.Opens == nil || len(m.Opens) > 0 {
			t.Errorf("%q at %g, opens %v", m.Meal, m.Hour, m.Opens)
		}
		// rice takes 2 mL a gram, milk 9, oats 3 by themselves and 2.5 soaked
		if want := (2*(100*2+20*9+30*2+40*3) + 60*2.5) / 1000; math.Abs(m.WaterL-want) > 1e-12 {
			t.Errorf("%g L, want %g", m.WaterL, want)
		}
		if math.Abs(m.HeatMJ-c.heatMJ) > 1e-12 {
			t.Errorf("a cold day %v: %g MJ, want %g", c.cold, m.HeatMJ, c.heatMJ)
		}
		type dish struct {
			key     string
			waterML float64
			who     []string
		}
		want := []dish{{"pot", 2 * 100 * 2, []string{"Ida"}}, {"warm", 0, []string{"Ida"}}, {"cold", 60 * 2.5, []string{"Leif"}}, {"spoon", 0, []string{"Bo"}}}
		if len(m.Dishes) != len(want) {
			t.Fatalf("dishes %v, want %v", m.Dishes, want)
		}
		for i, d := range m.Dishes {
			if w := want[i]; d.Key != w.key || d.Name != "a "+w.key || d.How != "so" || d.Minutes != 12 || math.Abs(d.WaterML-w.waterML) > 1e-9 || !slices.Equal(d.For, w.who) {
				t.Errorf("%+v, want %+v", d, w)
			}
		}
		if len(m.People) != 3 || m.People[0].Count != 2 || m.People[1].Count != 1 {
			t.Fatalf("%+v", m.People)
		}
		amounts := []Amount{ // more of what is in a dish goes with it; a bag of 520 g: 130 g are a quarter
			{Food: "rice", NDB: "20044", Dish: "pot", Grams: 130, Measure: "1/4 of a pack"}, {Food: "oil", NDB: "04506", Dish: "pot", Grams: 10},
			{Food: "beans", NDB: "16335", Dish: "warm", Grams: 50}, {Food: "milk", NDB: "01090", Grams: 20}, {Food: "oats", NDB: "08120", Grams: 40},
		}
		if !slices.Equal(m.People[0].Foods, amounts) || !slices.Equal(m.People[0].EatenAs, []string{"beans: mashed"}) {
			t.Errorf("%+v, %q, want %+v", m.People[0].Foods, m.People[0].EatenAs, amounts)
		}
		if got := m.People[1]; got.Foods[0].Dish != "cold" || got.Foods[0].Grams != 60 || !slices.Equal(got.EatenAs, []string{"oats: soaked"}) {
			t.Errorf("%+v", got)
		}
		if got := m.People[2].Foods[0]; got.NDB != "" || got.Dish != "spoon" { // no row of USDA
			t.Errorf("%+v", got)
		}
	}
	l[at].instead = nil // both women and man have of the pot: it is for all
	servings[6] = serving{eater: man, t: at, of: pot, part: inPot, food: h.of[rice], grams: 60}
	w := &writer{h: h, layout: l, menu: &Menu{FromDay: 1}}
	if m := w.meal(at, servings, nil); len(m.Dishes) != 3 || m.Dishes[0].For != nil || m.Dishes[0].WaterML != 520 {
		t.Errorf("%+v", m.Dishes)
	}
}

// TestPacksAreOpenedInTurn: of bags of 300 g, 250 g, 100 g and then 400 g are eaten: the
// second is opened when the first does not reach, at the second meal, the third at the last; a
// fourth stays closed. An infant's milk powder is taken from day by day. Two eat of it.
func TestPacksAreOpenedInTurn(t *testing.T) {
	rice := &foods.Food{Name: "rice"}
	powder := &foods.Food{Name: "formula", Tags: []string{foods.TagInfantFormula}, Keeping: &foods.Keeping{AfterOpenHours: 24 * 30}}
	packs := func(key string, f *foods.Food, n int, netG float64) []opened {
		return slices.Repeat([]opened{{pack: &foods.Pack{Key: key, Food: f, NetG: netG}}}, n)
	}
	bags, tins := &stocked{food: rice, days: 4, packs: packs("rice", rice, 4, 300)}, &stocked{food: powder, days: 4, feed: true, packs: packs("tin", powder, 2, 400)}
	two, infant := &eater{name: "Ida", count: 2}, &eater{name: "Bo", count: 1, infant: true, feeds: []feed{{powder, 600}}}
	h := &household{days: 4, eaters: []*eater{two, infant}, foods: []*stocked{bags, tins}, of: map[*foods.Food]*stocked{rice: bags, powder: tins}}
	w := &writer{h: h, layout: make(layout, 4*meals), menu: &Menu{}, fed: map[*stocked][]feedDay{}}
	at := w.opens([]serving{{eater: two, t: 1, food: bags, grams: 125}, {eater: two, t: 7, food: bags, grams: 50}, {eater: two, t: 19, food: bags, grams: 200}})
	got := map[int]string{}
	for pos, list := range at {
		for _, o := range list {
			got[pos] += o.pack.Key + " "
		}
	}
	// 150 g of powder a day of tins of 400 g: the second is opened on the third day
	for pos, want := range map[int]string{0: "tin ", 1: "rice ", 7: "rice ", 2 * meals: "tin ", 19: "rice "} {
		if got[pos] != want {
			t.Errorf("at %d: %q, want %q", pos, got[pos], want)
		}
	}
	if len(got) != 5 || len(w.menu.Leftovers) != 1 || w.menu.Leftovers[0] != (Left{Pack: "rice", Count: 1}) {
		t.Errorf("opened %v, left %v", got, w.menu.Leftovers)
	}
	w.leave("rice", 2)
	w.leave("salt", 1)
	if want := []Left{{Pack: "rice", Count: 3}, {Pack: "salt", Count: 1}}; !slices.Equal(w.menu.Leftovers, want) {
		t.Errorf("left %v, want %v", w.menu.Leftovers, want)
	}
}

// TestFeedsByHand: two infants of a row are fed 300 g of powder each in three days, 100 g a
// day, with 500 mL of water for 100 g; the tin of the day is opened for their feeds. Milk that
// does not keep is fed by the day's share of it. The dish of the feed is by age and milk.
func TestFeedsByHand(t *testing.T) {
	powder := &foods.Food{Name: "powder", NDB: "03001", Preparation: &foods.Preparation{Class: "boil", WaterML: 500, HeatMJ: 0.3}, Keeping: &foods.Keeping{AfterOpenHours: 24 * 28}}
	ready := &foods.Food{Name: "ready", NDB: "03002", Keeping: &foods.Keeping{AfterOpenHours: 23}}
	drink := []dishes.Slot{dishes.Drink}
	dish := func(key string, from, under int, f *foods.Food, times int, slots ...dishes.Slot) *dishes.Dish {
		return &dishes.Dish{Key: key, FromMonths: from, UnderMonths: under, Slots: slots, TimesUsual: times, Parts: []*dishes.Part{{ReckonedAs: f, Options: []dishes.Option{{Food: f, Factor: 1}}}}}
	}
	book := &dishes.Book{Dishes: []*dishes.Dish{
		dish("cup", 6, 36, powder, 14, drink...), dish("porridge", 6, 12, powder, 14, dishes.Breakfast), dish("young", 0, 6, powder, 112, drink...),
		dish("ready-older", 6, 12, ready, 70, drink...), dish("older", 6, 12, powder, 70, drink...),
	}}
	tins, bottles := &stocked{food: powder, feed: true, days: 3}, &stocked{food: ready, feed: true, days: 3}
	infants := &eater{name: "Bo", count: 2, infant: true, person: &nutrients.Person{AgeMonths: 8}, feeds: []feed{{powder, 300}, {ready, 600}}}
	h := &household{days: 3, book: book, eaters: []*eater{{name: "Ida", count: 1}, infants}, of: map[*foods.Food]*stocked{powder: tins, ready: bottles}}
	w := &writer{h: h, menu: &Menu{}, fed: map[*stocked][]feedDay{bottles: {{part: 0.5}, {part: 0.25}, {part: 0.25}}}}
	tin, rice := opened{pack: &foods.Pack{Key: "tin", Food: powder}}, opened{pack: &foods.Pack{Key: "rice", Food: &foods.Food{}}}
	opens := map[int][]opened{meals: {rice, tin}, meals + 1: {tin}}
	m, ok := w.feeds(1, opens)
	if !ok || m.Meal != "feeds" || len(m.People) != 1 || m.People[0].Name != "Bo" || m.People[0].Count != 2 {
		t.Fatalf("%v %+v", ok, m)
	}
	want := []Amount{{Food: "powder", NDB: "03001", Dish: "older", Grams: 100, Measure: "5 feeds"}, {Food: "ready", NDB: "03002", Dish: "older", Grams: 150, Measure: "5 feeds"}}
	if !slices.Equal(m.People[0].Foods, want) {
		t.Errorf("%+v, want %+v", m.People[0].Foods, want)
	}
	if math.Abs(m.WaterL-2*0.5) > 1e-12 || math.Abs(m.HeatMJ-2*0.3) > 1e-12 {
		t.Errorf("%g L, %g MJ, want 1 and 0.6", m.WaterL, m.HeatMJ)
	}
	if !slices.Equal(m.Opens, []string{"tin"}) || !slices.Equal(opens[meals], []opened{rice}) || len(opens[meals+1]) != 1 {
		t.Errorf("opened for feeds %v, else %v", m.Opens, opens)
	}
	if len(m.Dishes) != 1 || m.Dishes[0].Key != "older" || !slices.Equal(m.Dishes[0].For, []string{"Bo"}) {
		t.Errorf("%+v", m.Dishes)
	}
	for _, c := range []struct {
		months int
		milk   *foods.Food
		want   string
	}{{5, powder, "young"}, {6, powder, "older"}, {11, powder, "older"}, {12, powder, "feed"}, {6, ready, "ready-older"}, {5, ready, "feed"}} {
		e := &eater{person: &nutrients.Person{AgeMonths: c.months}, feeds: []feed{{c.milk, 1}}}
		if got := w.feedDish(e).Key; got != c.want {
			t.Errorf("%s at %d months: %s, want %s", c.milk.Name, c.months, got, c.want)
		}
	}
	infants.feeds = nil
	if _, ok := w.feeds(1, opens); ok {
		t.Error("feeds where nobody is fed")
	}
}

// TestTonight: what soaks for over an hour is put in water on the evening before the day on
// which it is eaten; of the first day's nothing can be said, and half an hour needs no word.
func TestTonight(t *testing.T) {
	of := func(name string, hours float64) *choice {
		return &choice{candidate: &candidate{dish: &dishes.Dish{Key: name, Name: name, SoakHours: hours}}}
	}
	req := &Request{Plan: &ration.Plan{Days: 3}, Of: &ration.Request{Table: &foods.Table{}}}
	l := make(layout, 3*meals)
	l[atMidday].main, l[meals+atBreakfast].main, l[meals+atEvening].main, l[2*meals+atMidday].main = of("beans", 8), of("oats", 1), of("chickpeas", 1.5), of("peas", 8)
	days := written(newHousehold(req), req, l, nil).Days
	for d, want := range [][]string{{"soak for chickpeas tomorrow evening"}, {"soak for peas tomorrow midday"}, nil} {
		if !slices.Equal(days[d].Tonight, want) {
			t.Errorf("day %d: %q, want %q", d+1, days[d].Tonight, want)
		}
		if len(days[d].Meals) > 0 { // of which nobody eats
			t.Errorf("day %d: %+v", d+1, days[d].Meals)
		}
	}
}

// TestHouseholdOfAPlan: what a plan says of people, foods and packs, in the sums that the
// days are made from. Bread is eaten by two women of a row and a man, milk powder is fed to an
// infant, salt is set aside and stays closed, jam is eaten by none.
func TestHouseholdOfAPlan(t *testing.T) {
	per := func(ndb, name string, kcal, protein, potassium float64, tags ...string) *foods.Food {
		f := &foods.Food{NDB: ndb, Name: name, Tags: tags, OccasionG: 100, DayG: 200, Per100g: nutrients.Unknown()}
		f.Per100g[nutrients.Energy], f.Per100g[nutrients.Protein], f.Per100g[nutrients.Potassium] = kcal, protein, potassium
		return f
	}
	rice, bread := per("20044", "rice", 360, 7, 115), per("18069", "bread", 250, 10, 200)
	formula, jam, salt := per("03001", "formula", 500, 11, 0, foods.TagInfantFormula), per("19297", "jam", 278, 0, 0), per("02047", "salt", 0, 0, 0)
	pack := func(key string, f *foods.Food, netG float64) *foods.Pack {
		return &foods.Pack{Key: key, Food: f, NetG: netG}
	}
	small, large, loaf, tin, jar, shaker := pack("rice-s", rice, 400), pack("rice-l", rice, 800), pack("loaf", bread, 500), pack("tin", formula, 350), pack("jar", jam, 300), pack("shaker", salt, 200)
	table := rationtest.Table(t)
	table.Foods, table.Packs = []*foods.Food{rice, bread, formula, jam, salt}, []*foods.Pack{small, large, loaf, tin, jar, shaker}
	women := nutrients.Person{Name: "Ida", AgeMonths: 400, Sex: nutrients.Female, Conditions: []nutrients.Condition{nutrients.PotassiumSparing}, Activity: nutrients.LowActive, Count: 2}
	req := &Request{
		FromDay: 3, ColdDays: []int{4, 6},
		Of: &ration.Request{
			Start: "2026-01-05", Cook: ration.CookWarm, People: []nutrients.Person{women, {Name: "Bo", AgeMonths: 11, Sex: nutrients.Male}, {Name: "Leif", AgeMonths: 12, Sex: nutrients.Male}},
			Table: table,
			Stock: []foods.StockLine{{Pack: small, Count: 2, BestBefore: "2026-02-01"}, {Pack: large, Count: 1, BestBefore: "2026-01-20"}, {Pack: small, Count: 3, BestBefore: "2026-01-10"}},
		},
		Plan: &ration.Plan{
			Days: 4,
			People: []ration.PlanPerson{
				{Name: "Ida", Count: 2, Foods: []ration.PersonFood{{Food: "rice", Grams: 800}, {Food: "bread", Grams: 400}, {Food: "jam", Grams: 0}, {Food: "gone", Grams: 5}},
					ByDate: []ration.DatedFood{{Food: "rice", Day: 2, Grams: 1}}, Carbohydrate: &ration.MealRange{LowG: 45}},
				{Name: "nobody", Count: 1, Foods: []ration.PersonFood{{Food: "rice", Grams: 9}}},
				{Name: "Bo", Count: 1, Foods: []ration.PersonFood{{Food: "formula", Grams: 300}, {Food: "rice", Grams: 20}}},
				{Name: "Leif", Count: 1, Foods: []ration.PersonFood{{Food: "bread", Grams: 100}}},
			},
			Packs: []ration.PlanPack{
				{Pack: "rice-s", Count: 5, FromStock: 4}, {Pack: "rice-l", Count: 2, FromStock: 1}, {Pack: "loaf", Count: 2}, {Pack: "tin", Count: 1},
				{Pack: "jar", Count: 3}, {Pack: "shaker", Count: 1, Reserve: true}, {Pack: "unknown", Count: 1},
			},
		},
	}
	h := newHousehold(req)
	if len(h.eaters) != 3 || h.cook != ration.CookWarm || h.days != 4 {
		t.Fatalf("%d eaters, cook %s, %d days", len(h.eaters), h.cook, h.days)
	}
	ida, bo, leif := h.eaters[0], h.eaters[1], h.eaters[2]
	// Ida: 800 g of 3.6 kcal and 400 g of 2.5 kcal in four days, protein 56 g and 40 g, potassium 920 mg and 800 mg
	if ida.count != 2 || math.Abs(ida.kcal-970) > 1e-9 || math.Abs(ida.protein-24) > 1e-9 || math.Abs(ida.size-970./2050) > 1e-12 || ida.infant || ida.band == nil || len(ida.byDate) != 1 {
		t.Errorf("%+v", ida)
	}
	if len(ida.steady) != 1 || ida.steady[0].of != nutrients.Potassium || math.Abs(ida.steady[0].mean-430) > 1e-9 {
		t.Errorf("kept alike %+v", ida.steady)
	}
	if !bo.infant || len(bo.feeds) != 1 || bo.feeds[0] != (feed{formula, 300}) || bo.eats(formula) || !bo.eats(rice) || math.Abs(bo.kcal-393) > 1e-9 { // 1500 and 72 kcal
		t.Errorf("%+v", bo)
	}
	if got := bo.fed(4, kcalPerG); math.Abs(got-375) > 1e-9 {
		t.Errorf("fed %g kcal a day, want 375", got)
	}
	if leif.infant || len(leif.steady) != 0 || leif.eats(rice) { // from the first birthday at the table
		t.Errorf("%+v", leif)
	}
	if want := 2*ida.size + leif.size; math.Abs(h.heads-want) > 1e-12 {
		t.Errorf("%g heads, want %g", h.heads, want)
	}
	var order []string
	for _, s := range h.foods {
		order = append(order, s.food.Name)
	}
	if want := []string{"formula", "bread", "rice"}; !slices.Equal(order, want) || h.byName["rice"] != h.of[rice] { // by their numbers
		t.Errorf("foods %v, want %v", order, want)
	}
	if h.of[rice].grams != 2*800+20 || h.of[bread].grams != 2*400+100 || !h.of[formula].feed || h.of[rice].feed {
		t.Errorf("%g g of rice, %g g of bread", h.of[rice].grams, h.of[bread].grams)
	}
	var packs []string
	for _, k := range h.of[rice].packs {
		packs = append(packs, k.pack.Key+" "+k.bestBefore)
	}
	// of the small ones four are from stock, in the order of the list: two of February and two
	// of January; what expires first is opened first, of those without a date the smaller
	if want := []string{"rice-s 2026-01-10", "rice-s 2026-01-10", "rice-l 2026-01-20", "rice-s 2026-02-01", "rice-s 2026-02-01", "rice-s 9999", "rice-l 9999"}; !slices.Equal(packs, want) {
		t.Errorf("packs %v, want %v", packs, want)
	}
	if want := []Left{{Pack: "jar", Count: 3}}; !slices.Equal(h.closed, want) {
		t.Errorf("closed %v, want %v", h.closed, want)
	}
	if want := time.Date(2026, 1, 7, 0, 0, 0, 0, time.UTC); !h.start.Equal(want) { // day 3 of the plan
		t.Errorf("starts on %v, want %v", h.start, want)
	}
	for d := range 4 {
		if want := d == 1 || d == 3; h.cold[d] != want {
			t.Errorf("day %d of the plan cold: %v", d+3, h.cold[d])
		}
	}
	for date, want := range map[string]int{"2026-01-07": 0, "2026-01-08": 1, "2026-01-10": 3, "": 4, noDate: 4} {
		if got := h.lastDay(opened{bestBefore: date}); got != want {
			t.Errorf("%q is day %d, want %d", date, got, want)
		}
	}
	h.start = time.Time{}
	if got := h.lastDay(opened{bestBefore: "2026-01-07"}); got != 4 {
		t.Errorf("without a start day %d, want none: 4", got)
	}
}
