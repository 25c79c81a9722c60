package menu

import (
	"math"

	"rationwright/foods"
	"rationwright/nutrients"
)

// dayMean is the mean of a day, a column: fixed where the grams are. What an infant is fed
// is alike on all days, and no column.
type dayMean struct {
	col, row int // row: the mean is that of the days; -1 where it is fixed
	fed      float64
}

func (p *program) dayMean(days int, mean, fed float64, free bool) dayMean {
	m := dayMean{p.col(0, inf), -1, fed}
	if !free {
		p.Cols[m.col].Lower, p.Cols[m.col].Upper = mean, mean
		return m
	}
	n := float64(days)
	m.row = p.row(-n*fed, -n*fed)
	p.Set(m.row, m.col, -n)
	return m
}

// goal holds a day near the mean: the rows of its least and its most.
func (m dayMean) goal(p *program, room, cost float64) [2]int {
	low, high := p.goal(-m.fed, inf, cost), p.goal(-inf, -m.fed, cost)
	p.Set(low, m.col, -(1 - margin*room))
	p.Set(high, m.col, -(1 + margin*room))
	return [2]int{low, high}
}

// add counts what a column adds to a day.
func (m dayMean) add(p *program, day [2]int, col int, each float64) {
	p.Set(day[0], col, each)
	p.Set(day[1], col, each)
	if m.row >= 0 {
		p.Set(m.row, col, each)
	}
}

// margin is the part of the room that a goal keeps to.
const margin = 0.9

// SteadyRoom is how far a day may lie from the mean in what a medicine asks to keep alike,
// as a part of it; costSteady what a whole mean beyond that costs. Planning rules of this
// program, no source: the medicines' texts name no figure.
const (
	SteadyRoom = 0.3
	costSteady = 12000
)

// evened is a nutrient that somebody is to have alike from day to day, and how much of it
// the plan holds a day. A food without a figure counts nothing.
type evened struct {
	of   nutrients.Nutrient
	mean float64
}

// steadyOf lists what the medicines of a person ask to keep alike.
func steadyOf(p *nutrients.Person) []evened {
	needs, err := nutrients.For(*p, nutrients.Options{})
	if err != nil {
		return nil
	}
	var list []evened
	for _, n := range needs.Steady {
		list = append(list, evened{of: n})
	}
	return list
}

// evenShare is the part of a day's mean of what a medicine asks to keep alike from which an
// opening of a food counts.
const evenShare = 0.1

// mustBeEven reports whether an opening of s holds so much of what a medicine of one of its
// eaters asks to keep alike that it is opened beside the dishes rather than twice on a day.
func (s *stocked) mustBeEven(eaters []*eater) bool {
	for _, e := range eaters {
		for _, a := range e.steady {
			each := e.grams[s.food] / float64(max(1, len(s.packs))) // of one pack
			if e.eats(s.food) && each*s.food.Per100g.Known(a.of)/100 > evenShare*a.mean {
				return true
			}
		}
	}
	return false
}

// alikes are the means of what is to be alike.
type alikes []alike

type alike struct {
	dayMean
	evened
}

func (p *program) alike(days int, list []evened, free bool) alikes {
	var all alikes
	for _, s := range list {
		all = append(all, alike{p.dayMean(days, s.mean, 0, free), s})
	}
	return all
}

// goals hold one day near the means.
func (a alikes) goals(p *program, weight float64) [][2]int {
	var list [][2]int
	for _, s := range a {
		list = append(list, s.goal(p, SteadyRoom, costSteady/math.Max(s.mean, 1)*weight))
	}
	return list
}

// add counts what a column of f adds to a day.
func (a alikes) add(p *program, day [][2]int, col int, f *foods.Food) {
	for i, s := range a {
		if each := f.Per100g.Known(s.of) / 100; each > 0 {
			s.dayMean.add(p, day[i], col, each)
		}
	}
}
