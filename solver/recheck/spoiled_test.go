package recheck

import (
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"rationwright/nutrients"
	"rationwright/solver/answer"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
	"rationwright/solver/rules"
	"rationwright/solver/verify"
)

func amount(v float64) *float64 { return &v }

// written is a model and a plan of it that says of itself all that follows from its request, made by
// nobody's search: Signe and two like Odd, with diabetes, get rice, Arne is left out; what it is worth
// is 100, of at least 98. What it says does not feed anybody: that is another matter.
type written struct {
	req  *ration.Request
	m    *model.Model
	plan func() *ration.Plan
}

func writtenOf(t *testing.T) written {
	t.Helper()
	arne, odd := rationtest.Adult("Arne", 50, nutrients.Male), rationtest.Adult("Odd", 40, nutrients.Male)
	arne.Conditions = []nutrients.Condition{nutrients.KidneyDisease} // refused without orders
	odd.Conditions, odd.Count = []nutrients.Condition{nutrients.Diabetes1}, 2
	req := ration.Filled(rationtest.Request(t, rationtest.Adult("Signe", 30, nutrients.Female), arne, odd))
	req.Table = rationtest.SmallTable(t, ration.FindPack(req, "white-rice-907g-bag").Food.Name, "rolled oats", "hard candy")
	req.StockWaterL, req.StockHeatMJ, req.Within = amount(10), amount(3), 0.02
	m, err := model.Build(req)
	if err != nil {
		t.Fatal(err)
	}
	k := ration.FindPack(req, "white-rice-907g-bag")
	plan := func() *ration.Plan {
		p := answer.EmptyPlan(m)
		p.Request = ration.Record(req)
		p.Status, p.Value, p.Bound, p.Gap = ration.StatusOptimal, amount(100), amount(98), amount(0.02)
		p.Totals = &ration.Totals{Currency: m.Currency(), WaterL: 60, OwnWaterL: 10, HeatMJ: 2, OwnHeatMJ: 2}
		p.Packs = []ration.PlanPack{{Pack: k.Key, Food: k.Food.Name, NDB: k.Food.NDB, Count: 3, FromStock: 1, NetG: k.NetG, Cost: 2 * k.Price,
			WeightKg: 3 * k.GrossG / 1000, VolumeL: 3 * k.VolumeL, Group: k.Food.Group, EasyOpen: rules.EasyToOpen(k)}}
		for _, e := range m.Eaters {
			eaten := []rules.Portion{{Food: k.Food, Grams: 700}}
			one := ration.PlanPerson{Name: e.Person.Name, Count: e.Person.Count, DrinkLPerDay: 1.5, AskAbout: e.Needs.AskAbout,
				Foods: []ration.PersonFood{{Food: k.Food.Name, NDB: k.Food.NDB, Grams: 700}}, Needs: rules.PersonNeeds(req, e.Needs, eaten, 1.5)}
			one.Carbohydrate, one.Rules = answer.Told(m, e, eaten, 1.5, p.Packs)
			p.People = append(p.People, one)
		}
		p.Notes = slices.Clone(p.Notes)
		p.Cautions = answer.Cautions(m, p)
		return p
	}
	return written{req, m, plan}
}

// needOf is a line of what Signe gets, to be changed.
func needOf(p *ration.Plan, nutrient string) *ration.PersonNeed { return p.People[0].Need(nutrient) }

// TestPrintedLinesSpoiled: each figure that a reader of a plan sees, a little off and by itself, is
// found by its name, and nothing else with it.
func TestPrintedLinesSpoiled(t *testing.T) {
	w := writtenOf(t)
	if found := printedFindings(w.req, w.plan()); len(found) > 0 {
		t.Fatalf("as it is: %q", found)
	}
	for name, c := range map[string]struct {
		change func(*ration.Plan)
		want   string
	}{
		"gap":             {func(p *ration.Plan) { p.Gap = amount(0.021) }, "gap as printed: 0.021 against 0.02"},
		"water on hand":   {func(p *ration.Plan) { p.Totals.OwnWaterL = 9 }, "water on hand as printed: 9 against 10"},
		"all the water":   {func(p *ration.Plan) { p.Totals.WaterL = 5 }, "water on hand as printed: 10 against 5"},
		"heat on hand":    {func(p *ration.Plan) { p.Totals.OwnHeatMJ = 3 }, "heat on hand as printed: 3 against 2"},
		"NDB number":      {func(p *ration.Plan) { p.Packs[0].NDB = "00001" }, "white-rice-907g-bag is of NDB number "},
		"net weight":      {func(p *ration.Plan) { p.Packs[0].NetG++ }, "net weight of white-rice-907g-bag as printed"},
		"cost":            {func(p *ration.Plan) { p.Packs[0].Cost *= 1.5 }, "cost of white-rice-907g-bag as printed"},
		"weight":          {func(p *ration.Plan) { p.Packs[0].WeightKg *= 2. / 3 }, "weight of white-rice-907g-bag as printed"},
		"volume":          {func(p *ration.Plan) { p.Packs[0].VolumeL *= 2. / 3 }, "volume of white-rice-907g-bag as printed"},
		"food":            {func(p *ration.Plan) { p.Packs[0].Food = "moon cheese" }, "white-rice-907g-bag holds "},
		"unknown pack":    {func(p *ration.Plan) { p.Packs[0].Pack = "moon" }, ""}, // found elsewhere
		"amount":          {func(p *ration.Plan) { needOf(p, "iron").Amount += 0.1 }, "Signe: iron as printed"},
		"floor":           {func(p *ration.Plan) { needOf(p, "iron").Floor = amount(1) }, "Signe: iron, at least as printed"},
		"no floor":        {func(p *ration.Plan) { needOf(p, "iron").Floor = nil }, "Signe: iron has another at least"},
		"ceiling":         {func(p *ration.Plan) { needOf(p, "iron").Ceiling = amount(46) }, "Signe: iron, at most as printed"},
		"another ceiling": {func(p *ration.Plan) { needOf(p, "fibre").Ceiling = amount(46) }, "Signe: fibre has another at most"},
		"target":          {func(p *ration.Plan) { needOf(p, "iron").Target = amount(1) }, "Signe: iron, target as printed"},
		"no target":       {func(p *ration.Plan) { needOf(p, "iron").Target = nil }, "Signe: iron has another target"},
		"a need fewer":    {func(p *ration.Plan) { needOf(p, "vitamin_c").Nutrient = "moon" }, "Signe: vitamin c is missing"},
		"of the other":    {func(p *ration.Plan) { p.People[1].Need("iron").Amount += 0.1 }, "Odd: iron as printed"},
		"one fewer":       {func(p *ration.Plan) { p.People = p.People[:1] }, ""}, // found elsewhere
		"no bound":        {func(p *ration.Plan) { p.Bound, p.Gap = nil, amount(9) }, ""},
		"no value":        {func(p *ration.Plan) { p.Value, p.Gap = nil, amount(9) }, ""},
		"no gap":          {func(p *ration.Plan) { p.Gap = nil }, ""},
		"no totals":       {func(p *ration.Plan) { p.Totals = nil }, ""},
	} {
		p := w.plan()
		c.change(p)
		found := printedFindings(w.req, p)
		if c.want == "" && len(found) > 0 || c.want != "" && (len(found) != 1 || !strings.HasPrefix(found[0], c.want)) {
			t.Errorf("%s: %q, want one with %q", name, found, c.want)
		}
	}
	p := w.plan() // what is eaten that is not in the table counts nothing
	p.People[0].Foods = append(p.People[0].Foods, ration.PersonFood{Food: "moon cheese", Grams: 500})
	if found := printedFindings(w.req, p); len(found) > 0 {
		t.Errorf("with moon cheese: %q", found)
	}
}

// TestWordsSpoiled: each word of a plan that follows from its request, another by itself, is found.
func TestWordsSpoiled(t *testing.T) {
	w := writtenOf(t)
	if found := rewrittenFindings(w.req, w.plan()); len(found) > 0 {
		t.Fatalf("as it is: %q", found)
	}
	const follows = " is not what follows from its request"
	for name, c := range map[string]struct {
		change func(*ration.Plan)
		want   string
	}{
		"notice":            {func(p *ration.Plan) { p.Notice = "" }, "notice" + follows},
		"refused":           {func(p *ration.Plan) { p.Refused[0].Reason = "he is not hungry" }, "refused" + follows},
		"not checked":       {func(p *ration.Plan) { p.NotChecked = p.NotChecked[1:] }, "not_checked" + follows},
		"weak hands":        {func(p *ration.Plan) { p.WeakHands = true }, "weak_hands" + follows},
		"cautions":          {func(p *ration.Plan) { p.Cautions = p.Cautions[1:] }, "cautions" + follows},
		"currency":          {func(p *ration.Plan) { p.Totals.Currency = "XXX" }, "totals.currency" + follows},
		"notes":             {func(p *ration.Plan) { p.Notes = append(p.Notes, "all is well") }, "notes are not what follows"},
		"less room":         {func(p *ration.Plan) { p.Notes = append(p.Notes, ration.LessRoomNote) }, ""},
		"no gap":            {func(p *ration.Plan) { p.Gap = nil }, "it has a bound without a gap"},
		"no bound":          {func(p *ration.Plan) { p.Bound = nil }, "it has a bound without a gap"},
		"neither":           {func(p *ration.Plan) { p.Bound, p.Gap = nil, nil }, `its status is "optimal", which its gap does not bear out`},
		"neither, by time":  {func(p *ration.Plan) { p.Bound, p.Gap, p.Status, p.Stopped = nil, nil, ration.StatusLimit, "time" }, ""},
		"a wider gap":       {func(p *ration.Plan) { p.Gap = amount(0.021) }, `its status is "optimal", which its gap does not bear out`},
		"said less":         {func(p *ration.Plan) { p.Status = ration.StatusLimit }, `its status is "limit", which its gap does not bear out`},
		"proven, stopped":   {func(p *ration.Plan) { p.Stopped = "time" }, "it is proven, and says that it was stopped"},
		"a bound over it":   {func(p *ration.Plan) { p.Bound = amount(100.001) }, "its bound passes its value"},
		"a bound just it":   {func(p *ration.Plan) { p.Bound = amount(100.00009) }, ""},
		"group":             {func(p *ration.Plan) { p.Packs[0].Group = "moon" }, "white-rice-907g-bag: group" + follows},
		"easy open":         {func(p *ration.Plan) { p.Packs[0].EasyOpen = !p.Packs[0].EasyOpen }, "white-rice-907g-bag: easy_open" + follows},
		"NDB of a food":     {func(p *ration.Plan) { p.People[0].Foods[0].NDB = "00001" }, "Signe: " + "rice"},
		"carbohydrate":      {func(p *ration.Plan) { p.People[1].Carbohydrate = nil }, "Odd: carbohydrate_per_meal" + follows},
		"another meal":      {func(p *ration.Plan) { p.People[1].Carbohydrate.LowG++ }, "Odd: carbohydrate_per_meal" + follows},
		"rules":             {func(p *ration.Plan) { p.People[1].Rules = p.People[1].Rules[1:] }, "Odd: rules" + follows},
		"ask about":         {func(p *ration.Plan) { p.People[0].AskAbout = []nutrients.Tablet{{Name: "moon dust"}} }, "Signe: ask_about" + follows},
		"a need fewer":      {func(p *ration.Plan) { p.People[0].Needs = p.People[0].Needs[1:] }, "Signe: needs are "},
		"unit":              {func(p *ration.Plan) { needOf(p, "iron").Unit = "lb" }, "Signe: iron has another unit or source"},
		"source":            {func(p *ration.Plan) { needOf(p, "iron").Source = "hearsay" }, "Signe: iron has another unit or source"},
		"unknown":           {func(p *ration.Plan) { needOf(p, "iron").Unknown = true }, "Signe: iron has another unit or source"},
		"no totals":         {func(p *ration.Plan) { p.Totals, p.Bound = nil, nil; p.Cautions = answer.Cautions(w.m, p) }, ""},
		"no totals, spoilt": {func(p *ration.Plan) { p.Totals, p.Notice = nil, ""; p.Cautions = answer.Cautions(w.m, p) }, "notice" + follows},
	} {
		p := w.plan()
		c.change(p)
		found := rewrittenFindings(w.req, p)
		place := c.want
		if name == "NDB of a food" {
			place = "Signe: " + p.People[0].Foods[0].Food + ": ndb" + follows
		}
		if place == "" && len(found) > 0 || place != "" && (len(found) != 1 || !strings.HasPrefix(found[0], place)) {
			t.Errorf("%s: %q, want one with %q", name, found, place)
		}
	}
}

// TestSecondAimSpoiled: of a plan of value 102, found from one of 100 within a slack of 5 %, at least
// 98 by proof: what it spent, 2 %, its first gap, 2 %, and the weights of its second aim.
func TestSecondAimSpoiled(t *testing.T) {
	w := writtenOf(t)
	req := *w.req
	req.Slack = 0.05
	m, err := model.Build(&req)
	if err != nil {
		t.Fatal(err)
	}
	plan := func() *ration.Plan {
		p := w.plan()
		p.Value, p.First = amount(102), &ration.First{Value: 100, Gap: amount(0.02)}
		p.Eatable = answer.Eatable(m, p)
		p.Eatable.Price, p.Eatable.Weight, p.Eatable.Bound = amount(0.02), amount(7), amount(6)
		return p
	}
	if found := eatableFindings(m, plan()); len(found) > 0 {
		t.Fatalf("as it is: %q", found)
	}
	for name, c := range map[string]struct {
		change func(*ration.Plan)
		want   string
	}{
		"price":                {func(p *ration.Plan) { p.Eatable.Price = amount(0.021) }, "eatable.price is 0.021, not 0.02"},
		"no price":             {func(p *ration.Plan) { p.Eatable.Price = nil }, "it has first, and eatable has no price or no weight"},
		"no weight":            {func(p *ration.Plan) { p.Eatable.Weight = nil }, "it has first, and eatable has no price or no weight"},
		"all the slack":        {func(p *ration.Plan) { p.Value, p.Eatable.Price = amount(105), amount(0.05) }, ""},
		"beyond the slack":     {func(p *ration.Plan) { p.Value, p.Eatable.Price = amount(105.01), amount(0.0501) }, "its value is 105.01, beyond the slack of first, 100"},
		"first gap":            {func(p *ration.Plan) { p.First.Gap = amount(0.03) }, "first.gap is 0.03, not 0.02"},
		"no first gap":         {func(p *ration.Plan) { p.First.Gap = nil }, "first has a gap without a bound"},
		"no bound":             {func(p *ration.Plan) { p.Bound = nil }, "first has a gap without a bound"},
		"neither":              {func(p *ration.Plan) { p.First.Gap, p.Bound = nil, nil }, ""},
		"bound passes weight":  {func(p *ration.Plan) { p.Eatable.Bound = amount(7.001) }, "eatable.bound passes eatable.weight"},
		"bound is weight":      {func(p *ration.Plan) { p.Eatable.Bound = amount(7.000001) }, ""},
		"no bound of weight":   {func(p *ration.Plan) { p.Eatable.Bound = nil }, ""},
		"no first":             {func(p *ration.Plan) { p.First = nil }, "eatable says what a second aim did, and first is not there"},
		"no first, a weight":   {func(p *ration.Plan) { p.First, p.Eatable.Price, p.Eatable.Bound = nil, nil, nil }, "eatable says what a second aim did, and first is not there"},
		"no first, no aim":     {func(p *ration.Plan) { p.First, p.Eatable.Price, p.Eatable.Weight, p.Eatable.Bound = nil, nil, nil, nil }, ""},
		"no value":             {func(p *ration.Plan) { p.Value = nil }, ""}, // found elsewhere
		"no eatable":           {func(p *ration.Plan) { p.Eatable = nil }, "it has first and no eatable"},
		"no eatable, no first": {func(p *ration.Plan) { p.Eatable, p.First = nil, nil }, ""},
		"mains":                {func(p *ration.Plan) { p.Eatable.Mains++ }, "eatable.mains is 1, not 0"},
		"sodium of nobody":     {func(p *ration.Plan) { p.Eatable.LittleSodium = &ration.LittleSodium{} }, "eatable.little_sodium is not about those who are to have little"},
	} {
		p := plan()
		c.change(p)
		found := eatableFindings(m, p)
		if c.want == "" && len(found) > 0 || c.want != "" && (len(found) != 1 || !strings.HasPrefix(found[0], c.want)) {
			t.Errorf("%s: %q, want one with %q", name, found, c.want)
		}
	}
	if found := eatableFindings(w.m, plan()); len(found) != 1 || found[0] != "it has first, and its request asks for no second aim" {
		t.Errorf("without a slack: %q", found)
	}
	// The least that matters of what is worth nothing is a cent, or a gram: 0.5 of it is spent.
	p := plan()
	step := ration.SmallestStep(p.Least)
	p.First.Value, p.Value, p.Bound, p.First.Gap, p.Eatable.Price = 0, amount(step/25), amount(0), amount(0), amount(0.04)
	if found := eatableFindings(m, p); len(found) > 0 {
		t.Errorf("of next to nothing: %q", found)
	}
}

// TestLittleSodiumSpoiled: two alike who are to have little sodium get 500 mg each, at least 900 by
// what is proven.
func TestLittleSodiumSpoiled(t *testing.T) {
	salt := rationtest.Adult("Siv", 50, nutrients.Female)
	salt.Conditions, salt.Count = []nutrients.Condition{nutrients.LowSodium}, 2
	req := ration.Filled(rationtest.Request(t, rationtest.Adult("Signe", 30, nutrients.Female), salt))
	req.Slack, req.Table = 0.05, rationtest.SmallTable(t, "rolled oats")
	m, err := model.Build(req)
	if err != nil {
		t.Fatal(err)
	}
	for name, c := range map[string]struct {
		said  ration.LittleSodium
		first bool
		want  string
	}{
		"as it is":          {ration.LittleSodium{People: []string{"Siv"}, Amount: 1000, Least: 900}, true, ""},
		"none proven":       {ration.LittleSodium{People: []string{"Siv"}, Amount: 1000, Least: 0}, true, ""},
		"all proven":        {ration.LittleSodium{People: []string{"Siv"}, Amount: 1000, Least: 1000}, true, ""},
		"another amount":    {ration.LittleSodium{People: []string{"Siv"}, Amount: 990, Least: 900}, true, "eatable.little_sodium is 990, not 1000"},
		"more proven":       {ration.LittleSodium{People: []string{"Siv"}, Amount: 1000, Least: 1001}, true, "eatable.little_sodium has a least of 1001 and an amount of 1000"},
		"less than nothing": {ration.LittleSodium{People: []string{"Siv"}, Amount: 1000, Least: -1}, true, "eatable.little_sodium has a least of -1"},
		"of somebody else":  {ration.LittleSodium{People: []string{"Signe"}, Amount: 1000, Least: 900}, true, "eatable.little_sodium is not about"},
		"without first":     {ration.LittleSodium{People: []string{"Siv"}, Amount: 1000, Least: 900}, false, "eatable.little_sodium is not about"},
	} {
		p := answer.EmptyPlan(m)
		p.Totals = &ration.Totals{}
		p.People = []ration.PlanPerson{{Name: "Signe", Count: 1}, {Name: "Siv", Count: 2, Needs: []ration.PersonNeed{{Nutrient: "sodium", Amount: 500}}}}
		if c.first {
			p.First = &ration.First{}
		}
		p.Eatable = answer.Eatable(m, p)
		p.Eatable.LittleSodium = &c.said
		found := eatableFindings(m, p)
		if c.want == "" && len(found) > 0 || c.want != "" && (len(found) != 1 || !strings.HasPrefix(found[0], c.want)) {
			t.Errorf("%s: %q, want one with %q", name, found, c.want)
		}
	}
}

// TestRequestSpoiled: a part of the request inside a plan that its reader would have written otherwise
// is found by its key; an empty list in place of none is the same.
func TestRequestSpoiled(t *testing.T) {
	w := writtenOf(t)
	for name, c := range map[string]struct {
		change func(*ration.RequestRecord)
		want   string
	}{
		"as it is": {func(*ration.RequestRecord) {}, ""},
		"empty list": {func(r *ration.RequestRecord) {
			r.Without, r.Limits, r.Stock = []string{}, map[string]float64{}, [][]string{}
		}, ""},
		"without":   {func(r *ration.RequestRecord) { r.Without = []string{"salt"} }, "request.without holds what the program does not write"},
		"limits":    {func(r *ration.RequestRecord) { r.Limits = map[string]float64{"budget": 1} }, "request.limits holds"},
		"start":     {func(r *ration.RequestRecord) { r.Start += " " }, "request.start holds"},
		"options":   {func(r *ration.RequestRecord) { r.Options["days"] = "014" }, "request.options holds"},
		"household": {func(r *ration.RequestRecord) { r.Household = r.Household[1:] }, "request.household holds"},
		"demo":      {func(r *ration.RequestRecord) { r.Demo.Prices = !r.Demo.Prices }, "request.demo holds"},
		"version":   {func(r *ration.RequestRecord) { r.Version = "x" }, "request.version holds"},
	} {
		p := w.plan()
		c.change(p.Request)
		found := requestFindings(w.req, p)
		if c.want == "" && len(found) > 0 || c.want != "" && (len(found) != 1 || !strings.HasPrefix(found[0], c.want)) {
			t.Errorf("%s: %q, want one with %q", name, found, c.want)
		}
	}
}

// TestRecheckTells: a plan is refused by its parts that were changed and by the first three of its
// findings, with how many more there are; a changed request is told as such.
func TestRecheckTells(t *testing.T) {
	w := writtenOf(t)
	nothing := func(change func(*ration.Plan), after func(string) string) (*ration.Plan, error) {
		p := answer.EmptyPlan(w.m)
		p.Request, p.Status = ration.Record(w.req), ration.StatusInfeasible
		p.Cautions = answer.Cautions(w.m, p)
		change(p)
		text, err := json.Marshal(p)
		if err != nil {
			t.Fatal(err)
		}
		back, err := ration.ReadPlan(strings.NewReader(after(string(text))))
		if err != nil {
			t.Fatal(err)
		}
		return back, Recheck(w.req, back)
	}
	same, as := func(*ration.Plan) {}, func(s string) string { return s }
	if _, err := nothing(same, as); err != nil {
		t.Errorf("a plan in which nothing fits, as it is: %v", err)
	}
	_, err := nothing(func(p *ration.Plan) { p.Notice = "" }, as)
	if !errors.Is(err, ration.ErrTampered) || errors.Is(err, ration.ErrChangedRequest) || !strings.HasSuffix(err.Error(), ": notice is not what follows from its request; make it again with plan --format json") {
		t.Errorf("one finding: %v", err)
	}
	spoil := func(n int) func(*ration.Plan) {
		return func(p *ration.Plan) {
			for i, change := range []func(){func() { p.Notice = "" }, func() { p.Refused = nil }, func() { p.NotChecked = nil }, func() { p.WeakHands = true }, func() { p.Cautions = nil }} {
				if i < n {
					change()
				}
			}
		}
	}
	for n, more := range map[int]string{3: "", 4: " (and 1 more)", 5: " (and 2 more)"} {
		_, err := nothing(spoil(n), as)
		want := "notice is not what follows from its request; refused is not what follows from its request; not_checked is not what follows from its request" + more + "; make it again"
		if err == nil || !strings.Contains(err.Error(), ": "+want) {
			t.Errorf("%d findings: %v", n, err)
		}
	}
	_, err = nothing(same, func(s string) string { return strings.Replace(s, `"version":"1"`, `"stopped":"x","version":"1"`, 1) })
	if !errors.Is(err, ration.ErrTampered) || errors.Is(err, ration.ErrChangedRequest) || !strings.Contains(err.Error(), "changed since: stopped; make it again") {
		t.Errorf("a part changed: %v", err)
	}
	_, err = nothing(same, func(s string) string { return strings.Replace(s, `"start":"2026-11-25"`, `"start":"2026-11-26"`, 1) })
	if !errors.Is(err, ration.ErrTampered) || !errors.Is(err, ration.ErrChangedRequest) || !strings.Contains(err.Error(), "changed since: request.start; request.start holds") {
		t.Errorf("its request changed: %v", err)
	}
	// One with a ration is held to its head first, and then to all that follows.
	p := w.plan()
	p.Days, p.Notice = 13, ""
	if err := Recheck(w.req, p); err == nil || !strings.Contains(err.Error(), "it is for least") || strings.Contains(err.Error(), "notice") {
		t.Errorf("of another horizon: %v", err)
	}
	p = w.plan()
	p.Totals.OwnHeatMJ, p.Notice = 1, "" // a figure and a word beside what the plan does not feed
	limits, figures, words := verify.Check(w.req, p), printedFindings(w.req, p), rewrittenFindings(w.req, p)
	err = Recheck(w.req, p)
	if more := len(limits) + len(figures) + len(words) - shownFindings; err == nil || len(limits) == 0 || len(figures) != 1 || len(words) != 1 ||
		!strings.Contains(err.Error(), fmt.Sprintf("%s; ", inWords(limits[0]))) || !strings.Contains(err.Error(), fmt.Sprintf(" (and %d more)", more)) {
		t.Errorf("a plan that feeds nobody, %d limits, %d figures, %d words: %v", len(limits), len(figures), len(words), err)
	}
	for v, want := range map[verify.Violation]string{
		{Person: "Signe", Limit: "iron", Amount: 1.23456789, Bound: 18}: "Signe: iron: 1.23457 against 18", {Limit: "heat", Amount: 2, Bound: 3}: "heat: 2 against 3",
	} {
		if got := inWords(v); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
