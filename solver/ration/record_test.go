package ration

import (
	"encoding/json"
	"errors"
	"reflect"
	"strings"
	"testing"
	"time"

	"rationwright/foods"
	"rationwright/foods/stores"
	"rationwright/nutrients"
)

func signe() nutrients.Person {
	return nutrients.Person{Name: "Signe", AgeMonths: 400, Sex: nutrients.Female, Activity: nutrients.LowActive, Count: 2}
}

// askedOf is a request in which every part is another than where it is silent.
func askedOf(t *testing.T) *Request {
	t.Helper()
	table, err := foods.Load()
	if err != nil {
		t.Fatal(err)
	}
	table.Sell(foods.SizesUS)
	return &Request{
		People: []nutrients.Person{signe()}, Table: table, Without: []string{"salt"}, Ill: []string{"Signe"}, Start: "2026-11-25",
		Least: LeastVolume, Days: 20, Standard: nutrients.StandardEAR, Energy: nutrients.Energy2005, LeanEnergy: true, Cook: CookSimmer,
		Limits: Limits{Budget: amount(1), WeightKg: amount(2), VolumeL: amount(3), WaterL: amount(4), HeatMJ: amount(0)},
		Hot:    true, Pets: 2, Stove: "kerosene", Shelves: []stores.Shelf{{Name: "low", WidthCm: 100, DepthCm: 50, HeightCm: 40, LoadKg: 60}},
		BoilWater: true, StockOnly: true, EasyOpen: true, Allowance: true, Within: 0.05, Time: 90 * time.Second, Work: 77, Slack: 0.25,
		WashingL: amount(0), WithMenu: true, Demo: Demo{Household: true},
	}
}

// TestRequestThereAndBack: a request written into a plan and rebuilt from it is the same, with every
// part of it alone set and with all; what is not set is not written.
func TestRequestThereAndBack(t *testing.T) {
	all := askedOf(t)
	plain := Filled(&Request{People: []nutrients.Person{signe()}})
	one := []*Request{all, plain}
	for i := range reflect.TypeOf(Request{}).NumField() {
		r := *plain
		reflect.ValueOf(&r).Elem().Field(i).Set(reflect.ValueOf(all).Elem().Field(i))
		one = append(one, &r)
	}
	for _, r := range one {
		text, err := json.Marshal(Record(r))
		if err != nil {
			t.Fatal(err)
		}
		var rec RequestRecord
		if err := json.Unmarshal(text, &rec); err != nil {
			t.Fatal(err)
		}
		back, err := rec.Load()
		if err != nil {
			t.Errorf("%s: %v", text, err)
			continue
		}
		sizes, want := foods.SizesMetric, *r
		if r.Table != nil {
			sizes = r.Table.Sizes()
		}
		if back.Table.Sizes() != sizes {
			t.Errorf("packs of %q, want %q", back.Table.Sizes(), sizes)
		}
		want.Table, back.Table = nil, nil
		want.Keep, want.WarmStart, want.Files, back.Files = nil, nil, Files{}, Files{}
		back.People[0].YearsOnly = false
		if !reflect.DeepEqual(&want, back) {
			t.Errorf("written %s, back %+v, want %+v", text, back, want)
		}
	}
	rec := Record(plain)
	for _, key := range []string{"work", "sizes", "slack", "washing", "with_menu"} {
		if v, ok := rec.Options[key]; ok {
			t.Errorf("option %s is %q though it was not set", key, v)
		}
	}
	if rec.Limits != nil || len(rec.Options) != 15 {
		t.Errorf("limits %v, options %v", rec.Limits, rec.Options)
	}
}

// TestFilesThereAndBack: rows of the user's files are in the record, and act when it is rebuilt.
func TestFilesThereAndBack(t *testing.T) {
	req := Filled(&Request{People: []nutrients.Person{signe()}, Start: "2026-11-25"})
	req.Files = Files{
		Prices:  [][]string{{"pack", "price", "currency"}, {"white-rice-907g-bag", "99.5", "TSD"}},
		Stock:   [][]string{{"pack", "count", "best_before"}, {"white-rice-907g-bag", "3", "2027-01-01"}, {"water", "12", ""}, {"heat", "4", ""}},
		Caps:    [][]string{{"kind", "measure", "value", "unit"}, {"nut butters", "day", "7", "g"}},
		Weights: [][]string{{"aim", "weight", "kind"}, {"crumb", "6", ""}},
		Dishes:  [][]string{{"dish"}, {"own"}}, DishParts: [][]string{{"dish", "part"}, {"own", "rice"}},
	}
	back, err := Record(req).Load()
	if err != nil {
		t.Fatal(err)
	}
	if !reflect.DeepEqual(back.Files, req.Files) {
		t.Errorf("files %+v", back.Files)
	}
	pack := FindPack(back, "white-rice-907g-bag")
	if pack.Price != 99.5 || len(back.Stock) != 1 || back.Stock[0].Count != 3 || back.Stock[0].Pack != pack || *back.StockWaterL != 12 || *back.StockHeatMJ != 4 || back.Weights.Of(AimCrumb) != 6 {
		t.Errorf("price %g, stock %+v, water %v, heat %v, weights %v", pack.Price, back.Stock, back.StockWaterL, back.StockHeatMJ, back.Weights)
	}
	day := 0.0
	for _, c := range back.Table.KindCaps(&back.People[0]) {
		if c.Kind == "nut butters" && c.Measure == "day" {
			day = c.Value
		}
	}
	if day != 7 {
		t.Errorf("nut butters at most %g g a day, want 7", day)
	}
	for name, change := range map[string]func(*RequestRecord){
		"household": func(r *RequestRecord) { r.Household = [][]string{{"name"}, {"x"}} },
		"foods":     func(r *RequestRecord) { r.Foods = [][]string{{"moon"}} },
		"prices":    func(r *RequestRecord) { r.Prices[1] = []string{"moon", "1", "TSD"} },
		"stock":     func(r *RequestRecord) { r.Stock[1] = []string{"white-rice-907g-bag", "many", ""} },
		"caps":      func(r *RequestRecord) { r.Caps[1] = []string{"moon", "day", "7", "g"} },
		"weights":   func(r *RequestRecord) { r.Weights[1] = []string{"moon", "7", ""} },
	} {
		var rec RequestRecord // of its own rows
		text, err := json.Marshal(Record(req))
		if err != nil || json.Unmarshal(text, &rec) != nil {
			t.Fatal(err)
		}
		change(&rec)
		if _, err := rec.Load(); err == nil || !strings.Contains(err.Error(), "plan: "+name) {
			t.Errorf("bad %s: %v", name, err)
		}
	}
}

// TestBadParts: a part of a record that the program does not write is refused by its name, and what
// is just within its bounds is taken: a horizon of 1 to 365 days, 0 to 100 L to wash, parts of one.
func TestBadParts(t *testing.T) {
	option := func(key string, values ...string) map[string]func(*RequestRecord) {
		out := map[string]func(*RequestRecord){}
		for _, v := range values {
			out["request.options."+key+" "+v] = func(r *RequestRecord) { r.Options[key] = v }
		}
		return out
	}
	good := []map[string]func(*RequestRecord){
		option("days", "1", "365"), option("washing", "0", "100", "2.5"), option("within", "0.0001", "0.9999"), option("slack", "0.0001", "0.9999"), option("time", "1ns", "2h"),
		option("pets", "0", "9"), option("work", "0", "12"), option("least", "cost", "weight", "volume"), option("standard", "rda", "ear", "basic"),
		option("energy", "2023", "2005", "guidelines"), option("cook", "none", "warm", "boil", "simmer"), option("sizes", "us", "all"), option("stove", "", "kerosene"), option("with_menu", "true", "false"),
		{"request.start": func(r *RequestRecord) { r.Start = "2026-02-28" }, "no request.start": func(r *RequestRecord) { r.Start = "" },
			"request.limits": func(r *RequestRecord) { r.Limits = map[string]float64{"budget": 0, "heat_mj": 5} }},
	}
	bad := []map[string]func(*RequestRecord){
		option("days", "0", "366", "-1", "x", ""), option("washing", "-0.1", "100.1", "NaN", "x"), option("within", "0", "1", "-1", "NaN", "x", ""), option("slack", "0", "1", "NaN", "x"),
		option("time", "0s", "-1s", "x", ""), option("pets", "-1", "x", "1.5"), option("work", "-1", "x"), option("least", "", "money"), option("standard", "", "x"), option("energy", "", "x"),
		option("cook", "", "x"), option("sizes", "metric", "x"), option("stove", "moonlight"), option("with_menu", "x"), option("lean_energy", "", "x"), option("hot", "", "x"),
		option("boil_water", "", "x"), option("stock_only", "", "x"), option("easy_open", "", "x"), option("water_allowance", "", "x"), option("moon", "1"),
		{
			"request.start x":          func(r *RequestRecord) { r.Start = "2026-02-30" },
			"request.limits.budget -1": func(r *RequestRecord) { r.Limits = map[string]float64{"budget": -1} },
			"request.limits.moon 1":    func(r *RequestRecord) { r.Limits = map[string]float64{"moon": 1} },
			`request.shelves: "low" x`: func(r *RequestRecord) {
				r.Shelves = []stores.Shelf{{Name: "low", WidthCm: 100, DepthCm: 50, HeightCm: 40, LoadKg: -1}}
			},
			"request.unplanned x": func(r *RequestRecord) { r.Unplanned = []Refused{{Name: "Signe"}} }, // who has no orders
		},
	}
	try := func(name string, change func(*RequestRecord), fails bool) {
		rec := Record(Filled(&Request{People: []nutrients.Person{signe()}, Start: "2026-11-25"}))
		change(rec)
		_, err := rec.Load()
		place, _, _ := strings.Cut(name, " ")
		if fails && (!errors.Is(err, ErrPlan) || !strings.Contains(err.Error(), place)) || !fails && err != nil {
			t.Errorf("%s: %v, want a fault %v", name, err, fails)
		}
	}
	for _, list := range good {
		for name, change := range list {
			try(name, change, false)
		}
	}
	for _, list := range bad {
		for name, change := range list {
			try(name, change, true)
		}
	}
	rec := Record(Filled(&Request{People: []nutrients.Person{signe()}, Ill: []string{"Odd"}}))
	if _, err := rec.Load(); !errors.Is(err, ErrNobody) {
		t.Errorf("an ill person who is not there: %v", err)
	}
	rec.Version = "2"
	if _, err := rec.Load(); !errors.Is(err, ErrVersion) {
		t.Errorf("another version: %v", err)
	}
}

// TestUnplannedInTheirOrder: who has orders that cannot all be kept is set apart again, in the order
// of the household; nobody else, and nobody twice.
func TestUnplannedInTheirOrder(t *testing.T) {
	house := func(orders ...bool) (list []nutrients.Person) {
		for i, with := range orders {
			p := nutrients.Person{Name: []string{"Aud", "Bo", "Eli"}[i]}
			if with {
				p.Orders.List = []nutrients.Order{{}}
			}
			list = append(list, p)
		}
		return list
	}
	of := func(names ...string) (list []Refused) {
		for _, n := range names {
			list = append(list, Refused{Name: n, Reason: "why " + n, Source: "S"})
		}
		return list
	}
	for _, c := range []struct {
		people []nutrients.Person
		list   []Refused
		ok     bool
	}{
		{house(true, true, true), nil, true}, {house(true, true, true), of("Aud", "Eli"), true}, {house(true, true, true), of("Bo"), true},
		{house(true, true, true), of("Eli", "Aud"), false}, {house(true, false, true), of("Bo"), false}, {house(true, true, true), of("Aud", "Aud"), false}, {house(true), of("Odd"), false},
	} {
		err := setUnplanned(c.people, c.list)
		if (err == nil) != c.ok || err != nil && !errors.Is(err, ErrPlan) {
			t.Errorf("%v: %v", c.list, err)
		}
		if c.ok && len(c.list) > 0 && !reflect.DeepEqual(unplannedOf(c.people), c.list) {
			t.Errorf("%v: %v are set apart", c.list, unplannedOf(c.people))
		}
		if c.ok && len(c.list) == 0 && unplannedOf(c.people) != nil {
			t.Errorf("%v are set apart", unplannedOf(c.people))
		}
	}
}

// TestNoPlanInPlainWords: what is no plan is refused by where it breaks off and what is wrong there.
func TestNoPlanInPlainWords(t *testing.T) {
	deep := func(n int) string { return strings.Repeat(`{"a":`, n) + "1" + strings.Repeat("}", n) }
	for text, want := range map[string]string{
		"": "it is empty", "  ": "it is empty", `{"a":1`: "it breaks off before its end", `{"a":`: "it breaks off before its end", `{"a" 1}`: "it is no JSON from byte",
		`{"version":"1"} x`: "at byte", `{"version":"1"}{}`: "something stands behind its end, at byte", "{\"a\":\"\xff\"}": "byte 7, 0xff, is no UTF-8",
		`{"a":1,"a":2}`: "a is there twice", `{"a":[{"b":1,"b":2}]}`: "a[0].b is there twice", `{"a":[1,{"b":{"c":1,"c":1}}]}`: "a[1].b.c is there twice",
		deep(33): "goes down further than a plan does", deep(32): "it has no version or no request",
		`{}`: "it has no version or no request", `[]`: "the whole is a list where an object belongs", `"x"`: "the whole is a text where an object belongs", `7`: "the whole is a number where an object belongs",
		`true`: "the whole is true or false where an object belongs",
		`{"version":"1","request":{"version":"1"},"days":"x"}`: "days is a text where a whole number belongs", `{"version":"1","request":{},"days":1.5}`: "days is the number 1.5 where a whole number belongs",
		`{"version":"1","request":{},"value":[]}`: "value is a list where a number belongs", `{"version":"1","request":{},"weak_hands":1}`: "weak_hands is a number where true or false belongs",
		`{"version":"1","request":{},"packs":{}}`: "packs is an object where a list belongs", `{"version":"1","request":{},"status":true}`: "status is true or false where a text belongs",
		`{"version":"1","request":{},"moon":1}`: `it has a key "moon" that no plan has`, `{"version":"","request":{}}`: "it has no version or no request",
	} {
		if _, err := ReadPlan(strings.NewReader(text)); !errors.Is(err, ErrPlan) || !strings.Contains(err.Error(), want) || !strings.HasSuffix(err.Error(), "; give the output of plan --format json") {
			t.Errorf("%.60q: %v, want %q", text, err, want)
		}
	}
	if _, err := ReadPlan(strings.NewReader(`{"version":"2"}`)); !errors.Is(err, ErrVersion) {
		t.Errorf("another version: %v", err)
	}
	for _, text := range []string{`{"version":"1","request":{}}`, "\xef\xbb\xbf" + `{"version":"1","request":{}}` + "\n ", `{"note":"x","plan":{"version":"1","request":{}}}`} {
		if p, err := ReadPlan(strings.NewReader(text)); err != nil || p.Version != "1" || !reflect.DeepEqual(p.Changed(), []string{"digest"}) {
			t.Errorf("%q: %+v, %v", text, p, err)
		}
	}
}

// TestAskedOfAPlan: the request of a plan with a ration; a plan without one, or without a request,
// is told.
func TestAskedOfAPlan(t *testing.T) {
	rec := Record(Filled(&Request{People: []nutrients.Person{signe()}}))
	if r, err := (&Plan{Request: rec, Totals: &Totals{}}).Asked(); err != nil || r.People[0].Name != "Signe" {
		t.Errorf("%+v, %v", r, err)
	}
	if _, err := (&Plan{Request: rec}).Asked(); !errors.Is(err, ErrNoRation) {
		t.Errorf("without a ration: %v", err)
	}
	if _, err := (&Plan{Totals: &Totals{}}).Asked(); !errors.Is(err, ErrPlan) {
		t.Errorf("without a request: %v", err)
	}
}

// TestDigestsGone: a part that is gone with its digest left, and one that came without a digest.
func TestDigestsGone(t *testing.T) {
	sums, err := Digests(map[string]any{"a": 1, "request": map[string]any{"b": 2}, "digest": "x"})
	if err != nil || len(sums) != 2 || len(sums["a"]) != 32 || len(sums["request.b"]) != 32 || sums["a"] == sums["request.b"] {
		t.Fatalf("%v, %v", sums, err)
	}
	of := func(parts map[string]any, digest map[string]any) map[string]any {
		parts["digest"] = digest
		return parts
	}
	for _, c := range []struct {
		plan map[string]any
		want []string
	}{
		{of(map[string]any{"a": 1}, map[string]any{"a": sums["a"]}), nil},
		{of(map[string]any{"a": 1}, map[string]any{"a": sums["a"], "c": "x"}), []string{"c"}},
		{of(map[string]any{"a": 1, "d": 1}, map[string]any{"a": sums["a"], "c": "x"}), []string{"c", "d"}},
		{of(map[string]any{"a": 2}, map[string]any{"a": sums["a"]}), []string{"a"}},
		{map[string]any{"a": 1}, []string{"digest"}},
	} {
		if got, err := changedParts(c.plan); err != nil || !reflect.DeepEqual(got, c.want) {
			t.Errorf("%v: %v, %v", c.plan, got, err)
		}
	}
}

// TestWordsOfAPlan: names and lines as people read them.
func TestWordsOfAPlan(t *testing.T) {
	m := MealRange{MeanG: 52.4, Meals: 3, Snacks: 2, SnackG: 15}
	if got := m.Words(187.3); got != "This plan gives 187 g of carbohydrate a day: about 52 g at each of 3 meals, with 2 snacks of 15 g." {
		t.Error(got)
	}
	for got, want := range map[string]string{
		OrderText("Dr Moe", "2026-11-01", "sodium"): "order by Dr Moe, 2026-11-01: sodium", PlainName(nutrients.VitaminB12): "vitamin B12", PlainName(nutrients.VitaminC): "vitamin C",
		PlainName(nutrients.SaturatedFat): "saturated fat", PlainName(nutrients.Iron): "iron", Spaced("dark_green-leaves"): "dark green leaves", GroupName("protein"): "protein-foods", GroupName("grains"): "grains",
		SecondOpinion{What: "Signe", Engine: 1.5, Agree: true}.String(): "Signe: both 1.500000", SecondOpinion{What: "Signe", Engine: 1.5, Referee: 2}.String(): "Signe: 1.500000 here, 2.000000 by the referee",
		SecondOpinion{What: "all", Remark: "too large"}.String(): "all: too large", SecondOpinion{What: "all", Remark: "near", Agree: true, Engine: 2}.String(): "all: both 2.000000",
	} {
		if got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// TestShortfallWritten: a shortfall of what is residue alone is written as none.
func TestShortfallWritten(t *testing.T) {
	for v, want := range map[float64]string{1e-12: `"amount":0,`, 0.5: `"amount":0.5,`} {
		if text, err := Marshal(Shortfall{Person: "Åse & Knut", Nutrient: "iron", Amount: v, Target: 8}); err != nil || !strings.Contains(string(text), want) || !strings.Contains(string(text), "Åse & Knut") {
			t.Errorf("%g: %s, %v", v, text, err)
		}
	}
}

// TestWhatARequestMeans: where a request is silent it means what the package says; the cooking goes no
// further than the stove; what it asks for stays, and it is not changed itself.
func TestWhatARequestMeans(t *testing.T) {
	r := &Request{People: []nutrients.Person{{Name: "Signe"}, {Name: "Odd", Count: 3}}}
	got := Filled(r)
	if got.Least != LeastCost || got.Days != 14 || got.Standard != nutrients.StandardRDA || got.Energy != nutrients.Energy2023 || got.Stove != stores.UsualStove ||
		got.Cook != CookBoil || got.Within != 0.01 || got.Time != 10*time.Second || got.People[0].Count != 1 || got.People[1].Count != 3 || r.People[0].Count != 0 || r.Days != 0 {
		t.Errorf("%+v", got)
	}
	all := askedOf(t)
	if again := Filled(all); !reflect.DeepEqual(again, all) {
		t.Errorf("%+v became %+v", all, again)
	}
	for _, c := range []struct {
		cook  Cook
		stove string
		want  Cook
	}{ // fuel.csv: what each is suited for
		{CookSimmer, "kerosene", CookSimmer}, {CookSimmer, "hexamine", CookBoil}, {CookWarm, "hexamine", CookWarm}, {CookBoil, "wick-can", CookWarm}, {CookNone, "wick-can", CookNone}, {CookSimmer, "moonlight", CookSimmer},
	} {
		if got := OnStove(c.cook, c.stove); got != c.want {
			t.Errorf("%s on %s: %s, want %s", c.cook, c.stove, got, c.want)
		}
	}
}

// TestPartsOfAPlan: a need is found by its name wherever it stands, of whom it is asked; a plan in which
// nothing fits is told by its status alone; a gap is of the size of what is worth less than nothing too.
func TestPartsOfAPlan(t *testing.T) {
	p := &Plan{People: []PlanPerson{{Name: "Odd", Needs: []PersonNeed{{Nutrient: "iron", Amount: 1}}}, {Name: "Signe", Needs: []PersonNeed{{Nutrient: "zinc", Amount: 2}, {Nutrient: "iron", Amount: 3}}}}}
	if got := p.NeedOf("Signe", "iron"); got == nil || got.Amount != 3 || got != p.People[1].Need("iron") {
		t.Errorf("iron of Signe %+v", got)
	}
	if p.NeedOf("Odd", "zinc") != nil || p.NeedOf("Liv", "iron") != nil {
		t.Error("a need of nobody is found")
	}
	for status, want := range map[string]bool{StatusInfeasible: true, StatusLimit: false, StatusOptimal: false, "": false} {
		if (&Plan{Status: status}).Infeasible() != want {
			t.Errorf("%q: infeasible %v", status, !want)
		}
	}
	if got := GapOf(-100, -110, 0.01); got != 0.1 {
		t.Errorf("gap %g, want 0.1", got)
	}
	w, _, err := ReadWeights("w.csv", strings.NewReader("aim,weight,kind\ntreat,3,sweets\nvariety,5,rice\n"))
	if err != nil || w.OfKind(AimTreat, "sweets") != 3 || w.OfKind(AimTreat, "rice") != 0 || w.Of(AimTreat) != 0 || w.OfKind(AimVariety, "rice") != 5 {
		t.Errorf("%v, %v", w, err)
	}
}
