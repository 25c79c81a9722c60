package withmenu

import (
	"context"
	"errors"
	"math"
	"slices"
	"time"

	"rationwright/foods/dishes"
	"rationwright/nutrients"
	"rationwright/solver/aim"
	"rationwright/solver/answer"
	"rationwright/solver/menu"
	"rationwright/solver/model"
	"rationwright/solver/plan"
	"rationwright/solver/ration"
	"rationwright/solver/rules"
	"rationwright/solver/search"
)

// Make makes the plan of req with its menu. Where no plan fits at all, the answer is that
// of [plan.Make], with its reasons; errors are its errors.
func Make(ctx context.Context, req *ration.Request, book *dishes.Book, progress func(search.Progress)) (*ration.Plan, error) {
	without := *ration.Filled(req)
	part := freePart
	if without.Audit = false; !harmed(req) {
		without.Slack = 0
	} else {
		part = harmedFreePart
	}
	without.Effort = time.Duration(freeEffort * float64(without.Time))
	timed, stop := search.Part(ctx, part)
	free, err := plan.Make(timed, &without, progress)
	stop()
	if err != nil {
		return nil, err
	}
	if free.Totals == nil || len(free.People) == 0 {
		free.Request = ration.Record(ration.Filled(req))
		return free, nil
	}
	d := &dining{req: ration.Filled(req), book: book, free: free, tight: free, sodium: littleSodium(free)}
	part = dishPart
	if free.First != nil { // it stands as it is
		part = 1
	}
	timed, stop = search.Part(ctx, part)
	p, why, err := d.plan(timed, progress)
	if p == nil && search.OutOfTime(timed) {
		why, err = outOfTime, nil
	}
	stop()
	if err != nil || p != nil {
		return p, err
	}
	return d.nearest(ctx, why)
}

// dining is one plan with dishes in the making.
type dining struct {
	req    *ration.Request
	book   *dishes.Book
	free   *ration.Plan       // without dishes, by the same rules
	sodium map[string]float64 // at most, by the person's name, mg a day

	wanted []bool       // foods by larder index that were called for already
	tight  *ration.Plan // without dishes, with its rules loosened by as little as was found
	room   float64      // by how much more they are loosened, as a part
}

// harmed reports whether somebody is to have little sodium and something may be spent on
// it: then the plan without dishes seeks it, and those with dishes may have hardly more.
func harmed(req *ration.Request) bool {
	return req.Slack > 0 && slices.ContainsFunc(req.People, func(p nutrients.Person) bool { return rules.LittleSodium(&p) })
}

// moreSodium is how many times the sodium of the plan without dishes one with dishes may
// have, for those who are to have little: own planning rule.
const moreSodium = 1.25

// littleSodium is the most of each person who is to have little and got less than was
// asked, nil where the plan sought none.
func littleSodium(free *ration.Plan) map[string]float64 {
	if free.First == nil || free.Eatable == nil || free.Eatable.LittleSodium == nil {
		return nil
	}
	most := map[string]float64{}
	for _, name := range free.Eatable.LittleSodium.People {
		if i := slices.IndexFunc(free.People, func(p ration.PlanPerson) bool { return p.Name == name }); i >= 0 {
			if need := free.People[i].Need(nutrients.Sodium.Name()); need != nil {
				most[name] = moreSodium * need.Amount
			}
		}
	}
	return most
}

// model builds the model of the request with whatever the plan without dishes had to
// loosen.
func (d *dining) model() (*model.Model, error) {
	m, err := model.BuildFor(d.req, d.tight)
	if err != nil {
		return nil, err
	}
	if d.room > 0 {
		m = m.Roomier(d.tight.Eatable.Loosened, d.room)
	}
	return model.WithSodium(model.WithShortfalls(m, d.free.Shortfalls), d.sodium), nil
}

// plan makes the plan; it is nil where there is none, with the reason.
func (d *dining) plan(ctx context.Context, progress func(search.Progress)) (p *ration.Plan, why string, err error) {
	l, c, why, err := d.choice(ctx)
	if err != nil || c == nil {
		return nil, why, err
	}
	served, seating, result, err := d.wholePacks(ctx, l, c, progress)
	if err != nil {
		return nil, "", err
	}
	switch {
	case result.X == nil && result.Why == outOfTime:
		return nil, outOfTime, nil
	case result.X == nil:
		return nil, "no whole packs were found for the dishes", nil
	}
	first, err := answer.Finish(ctx, served, result.X, result, d.free.Shortfalls)
	if err != nil {
		return nil, "", err
	}
	found := answer.Gladder{}
	x := result.X
	if d.req.Slack > 0 {
		part, effort := aimPart, aimEffort
		if aim.Harmed(served) {
			part, effort = harmedPart, harmedEffort
		}
		timed, stop := search.Part(ctx, part)
		found, err = aim.Seek(timed, served.WithTime(effort), x, *first.Value, result)
		stop()
		if err != nil {
			return nil, "", err
		}
		found.SodiumLeast = nil // among other dishes there may be less
		if found.X != nil {
			x = found.X
		}
	}
	return d.days(ctx, answer.Second(served, first, found), first, found, seating, given(seating, c, x), x)
}

// given is what was chosen, in the words of the menu.
func given(seating *model.Seating, c *chosen, x []float64) *menu.Given {
	g := &menu.Given{Counts: c.counts, Between: map[string]map[string]float64{}, Instead: map[string]map[string]bool{}}
	has := func(j int) bool { return j >= 0 && x[j] >= chosenTolerance }
	for _, party := range seating.Parties {
		between, instead := map[string]float64{}, map[string]bool{}
		for _, o := range party.Own {
			if has(o.Breakfast) || has(o.Main) {
				instead[o.Dish.Key] = true
			}
			if has(o.Between) {
				between[o.Dish.Key] = x[o.Between] / party.HeadsOf(o.Dish)
			}
		}
		for _, e := range party.Eaters {
			g.Between[e.Person.Name], g.Instead[e.Person.Name] = between, instead
		}
	}
	return g
}

// days spreads the plan p over its days, from a point of the model with dishes, and
// writes the plan that comes of it.
func (d *dining) days(ctx context.Context, p, first *ration.Plan, found answer.Gladder, seating *model.Seating, g *menu.Given, x []float64) (*ration.Plan, string, error) {
	m, err := d.model()
	if err != nil {
		return nil, "", err
	}
	g.Model, g.Most = m, *first.Value+d.req.Slack*math.Abs(*first.Value)
	if d.req.Slack == 0 {
		g.Most = math.Inf(1)
	}
	if x, err = alike(ctx, m, seating.Parties, x[:len(m.Cols)], g.Most); err != nil {
		return nil, "", err
	}
	made, y, beyondL, err := menu.MakeGiven(ctx, &menu.Request{Plan: p, Of: d.req, Book: d.book}, g, x)
	if err != nil && search.Interrupted(ctx) {
		return nil, "", err
	}
	if err != nil || made == nil { // the plan without dishes stands, whatever ended this
		return nil, "the dishes of the plan could not be spread over the days", nil
	}
	m = model.WithMoreWater(m, beyondL)
	found.X = y
	if found.Value, err = aim.Weigh(m, *first.Value, y); err != nil {
		return nil, "", err
	}
	out := answer.Second(m, first, found)
	if out == first {
		return nil, "the menu did not pass the check of the plan", nil
	}
	if d.req.Slack == 0 { // there is no second aim
		out.First, out.Eatable.Price, out.Eatable.Weight, out.Eatable.Bound = nil, nil, nil, nil
		if out.Bound != nil {
			out.Judge(*out.Bound, d.req.Within)
		}
	}
	if err := menu.Hold(made, out, d.req, d.book); err != nil {
		return nil, "the menu did not pass its own check", nil
	}
	out.Menu = made
	out.Dishes = d.cost(*first.Value)
	return out, "", nil
}

// cost is what dishes add to the plan without them.
func (d *dining) cost(value float64) *ration.DishesCost {
	free, gap := firstOf(d.free)
	return &ration.DishesCost{
		Value: free, Bound: d.free.Bound, Gap: gap, Room: d.room,
		Price: (value - free) / math.Max(math.Abs(free), ration.SmallestStep(d.req.Least)),
	}
}

// none says why there are no dishes beside p.
func none(p *ration.Plan, why string) *ration.DishesCost {
	value, gap := firstOf(p)
	return &ration.DishesCost{Value: value, Bound: p.Bound, Gap: gap, None: why}
}

// firstOf is the first aim's value of p and its gap.
func firstOf(p *ration.Plan) (value float64, gap *float64) {
	if p.First != nil {
		return p.First.Value, p.First.Gap
	}
	return *p.Value, p.Gap
}

// without is the plan without dishes as it is made where none are asked for, with its
// second aim, and little sodium before that; where no time is left for these, the one that
// dishes were sought for, whose request then says that nothing is spent on them.
func (d *dining) without(ctx context.Context) *ration.Plan {
	if d.tight.First != nil {
		d.tight.Request = ration.Record(d.req)
		return d.tight
	}
	req := *d.req
	req.WarmStart, req.Effort = d.tight.Bought(), time.Duration(packEffort*float64(req.Time))
	if req.Slack > 0 && ctx.Err() == nil {
		if p, err := plan.Make(ctx, &req, nil); err == nil && p.Value != nil && len(p.People) > 0 && d.asGood(p) {
			return p
		}
	}
	req.Slack = 0
	d.tight.Request = ration.Record(&req)
	return d.tight
}

// asGood reports whether p, made again, is hardly worse by the first aim than the plan for
// which dishes were sought.
func (d *dining) asGood(p *ration.Plan) bool {
	value, _ := firstOf(p)
	return value <= *d.tight.Value+worseAgain*math.Abs(*d.tight.Value)
}

// nearest is the plan without dishes with the menu that is nearest to it.
func (d *dining) nearest(ctx context.Context, why string) (*ration.Plan, error) {
	part := packPart
	if why == outOfTime {
		part = latePart
	}
	timed, stop := search.Part(ctx, part)
	p := d.without(timed)
	stop()
	made, err := menu.Make(ctx, &menu.Request{Plan: p, Of: d.req, Book: d.book, FromDay: 1})
	if errors.Is(err, ration.ErrUnverified) { // then none is shown
		made, why, err = nil, why+", and no menu nearest to it is safe", nil
	}
	if errors.Is(err, menu.ErrTime) { // the plan stands without one
		if made, err = nil, nil; why != outOfTime {
			why += ", and the time ended before the nearest menu was made"
		}
	}
	if err != nil {
		return nil, err
	}
	p.Menu, p.Dishes = made, none(p, why)
	return p, nil
}
