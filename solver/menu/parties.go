package menu

import (
	"cmp"
	"slices"

	"rationwright/foods"
)

// partyMost is the most rows of people whose plates are decided in one program. More are
// parted into parties of at most so many, one program each, so that the work grows with
// the people and not with its square.
const partyMost = 8

// parties parts the eaters, in their order, into as few parties as may be.
func (h *household) parties() [][]*eater {
	return parted(h.eaters, (len(h.eaters)+partyMost-1)/partyMost)
}

// parted is a list in n parties of like size, in its order.
func parted(list []*eater, n int) [][]*eater {
	parties := make([][]*eater, n)
	for k := range parties {
		parties[k] = list[k*len(list)/n : (k+1)*len(list)/n]
	}
	return parties
}

// portion is what a party has of every opening: the share of the food that it eats.
func portion(list []*stocked, party []*eater) map[*opening]float64 {
	content := map[*opening]float64{}
	for _, s := range list {
		grams := 0.0
		for _, e := range party {
			grams += e.count * e.grams[s.food]
		}
		for _, o := range s.openings {
			content[o] = o.grams * grams / s.grams
		}
	}
	return content
}

// standIns returns the household with one eater for each of partyMost parties, who eats
// what one of the party eats on average, and the layout with the table of one of them.
// Those stand together who have dishes of their own about as often. It returns h and l
// where there are no more eaters than that.
func (h *household) standIns(l layout) (*household, layout) {
	if len(h.eaters) <= partyMost {
		return h, l
	}
	own := map[*eater]int{}
	for t := range l {
		for e := range l[t].instead {
			own[e]++
		}
		for _, o := range l[t].own {
			own[o.eater]++
		}
	}
	order := slices.Clone(h.eaters)
	slices.SortStableFunc(order, func(a, b *eater) int { return cmp.Compare(own[a], own[b]) })
	few, table := *h, slices.Clone(l)
	for t := range table {
		table[t].instead, table[t].own = nil, nil
	}
	few.eaters = nil
	for _, party := range parted(order, partyMost) {
		one := party[len(party)/2]
		e := standIn(party, one)
		few.eaters = append(few.eaters, e)
		for t := range l {
			if c := l[t].instead[one]; c != nil {
				table[t].instead = put(table[t].instead, e, c)
			}
			for _, o := range l[t].own {
				if o.eater == one {
					table[t].own = append(table[t].own, ownDish{e, o.choice})
				}
			}
		}
	}
	return &few, table
}

// standIn is an eater for all of a party, like one of them but for what they eat.
func standIn(party []*eater, one *eater) *eater {
	e := *one
	e.count, e.size, e.grams, e.may = 0, 0, map[*foods.Food]float64{}, nil
	for _, p := range party {
		e.count += p.count
		e.size += p.count * p.size
		for f, grams := range p.grams {
			e.grams[f] += p.count * grams
		}
		for f, may := range p.may {
			if e.may == nil {
				e.may = map[*foods.Food]bool{}
			}
			e.may[f] = e.may[f] || may
		}
	}
	e.size /= e.count
	for f := range e.grams {
		e.grams[f] /= e.count
	}
	return &e
}

// standing are the eaters of the household's dishes, or where they are more than a party,
// those who stand for them.
func (h *household) standing() []*eater {
	list := slices.DeleteFunc(slices.Clone(h.eaters), func(e *eater) bool { return e.infant })
	if len(list) <= partyMost {
		return list
	}
	var few []*eater
	for _, party := range parted(list, partyMost) {
		few = append(few, standIn(party, party[0]))
	}
	return few
}
