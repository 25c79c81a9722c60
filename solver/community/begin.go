package community

import (
	"context"
	"errors"
	"math"

	"rationwright/solver/model"
	"rationwright/solver/plan"
	"rationwright/solver/ration"
)

// begin makes the program of a household and its first point: the cheapest for all
// needs with the stock at the prices of the shop. Where not all needs can be met
// whatever there is to share, what a plan of the household gives up by itself is given
// up here too: this program's own planning rules, and vitamins that the body stores.
func begin(ctx context.Context, req *ration.Request, rests bool) (*program, []use, error) {
	if ctx.Err() != nil { // before the model is built, which takes its time too
		return nil, nil, ctx.Err()
	}
	m, err := model.Build(req)
	if err != nil {
		return nil, nil, err
	}
	if len(m.Eaters) == 0 {
		return nil, nil, errors.New("a clinician must plan for everyone in this household")
	}
	p, shop := newProgram(m), shopPrice(req)
	p.rests = rests
	p.crash(ctx)
	bought, bound, err := p.least(ctx, shop, 1)
	if err != nil {
		return nil, nil, err
	}
	if math.IsInf(bound, 1) {
		eased, short, start, err := plan.Ease(ctx, m)
		if err != nil {
			return nil, nil, err
		}
		if start == nil {
			return nil, nil, errors.New("no ration meets all needs and limits, whatever there is to share; plan shows what conflicts")
		}
		p = newProgram(eased)
		p.eased, p.rests = short, rests
		p.crash(ctx)
		if bought, bound, err = p.least(ctx, shop, 1); err != nil {
			return nil, nil, err
		}
	}
	p.dearest = bound
	return p, p.usesOf(bought), nil
}

// ends adds the other points that the first prices are of: the cheapest at level 0 and
// at level 1, all of the stock free, and at level 0 with the stock at the prices of the
// shop. Between them every level can be had at once; from the first alone, the worst
// served is another one at each round of prices. The first is that at level 0.
func (p *program) ends(ctx context.Context, points []use) ([]use, error) {
	shop := shopPrice(p.model.Request)
	free := stockFree(len(shop.packs))
	x, bound, err := p.least(ctx, free, 0)
	if err != nil {
		return nil, err
	}
	if x == nil {
		return nil, errors.New("what is never given up cannot all be kept, whatever there is to share; plan shows what conflicts")
	}
	p.fixed = bound
	full, _, err := p.least(ctx, free, 1)
	if err != nil {
		return nil, err
	}
	little, _, err := p.least(ctx, shop, 0)
	if err != nil {
		return nil, err
	}
	return append(p.usesOf(x, little, full), points...), nil
}

// usesOf are the uses of the points that there are.
func (p *program) usesOf(points ...[]float64) (uses []use) {
	for _, x := range points {
		if x != nil {
			uses = append(uses, p.useOf(x))
		}
	}
	return uses
}

// shopPrice are prices at which the stock is no cheaper than the shop.
func shopPrice(req *ration.Request) price {
	at := price{money: 1}
	for _, line := range req.Stock {
		at.packs = append(at.packs, line.Pack.Price)
	}
	return at
}

// stockFree are prices at which the stock, of so many lines, costs nothing.
func stockFree(lines int) price { return price{money: 1, packs: make([]float64, lines)} }

// leastForAll is the proven least money for all needs of the households that share.
func leastForAll(programs []*program, shop price, stock []float64) float64 {
	var bounds []float64
	for _, p := range programs {
		if p != nil && !math.IsInf(p.dearest, 1) { // else it cannot have all needs, whatever there is
			bounds = append(bounds, p.dearest)
		}
	}
	return lessStock(shop, stock, bounds)
}

// lessStock bounds the money of households that can do no better than bounds where the
// stock is at the prices of the shop: all that it is worth there may have been spared.
func lessStock(shop price, stock []float64, bounds []float64) float64 {
	least := 0.0
	for k, at := range shop.packs {
		least -= at * stock[k]
	}
	for _, b := range bounds {
		least += b
	}
	return least
}
