package menu

// notAtAll is how many times worse it is not to eat what is opened than to eat it beside
// the dishes.
const notAtAll = 100

// costOther is how many times worse it is to eat another's than beside the dishes, where
// the grams are free.
const costOther = 0.5

// costLater is the cost a day of opening a pack with a date later, for a kcal in it.
const costLater = 1e-3

// costUnopened is the cost of a kcal of the least of a part for which nothing is open.
const costUnopened = 20

// dayWeight is how much the goals of e's days and meals count: more where the grams are
// free.
func (e *eater) dayWeight() float64 {
	if e.may != nil {
		return freeDays
	}
	return 1
}

// energyFar is the part of the mean beyond which a kcal of a day costs costFarEnergy where the
// grams are free: the room, but for what rounding takes. That is more than one costs that is eaten
// beside the dishes and over a sitting, and less than one not eaten by its date: else a day is
// left far from the mean for a few grams over a sitting. Planning rules of this program, no source.
const (
	energyFar     = 0.095
	costFarEnergy = 40
)

// energyGoal is that of the energy of e's days. Where what they eat is free, a kcal beyond
// energyFar costs costFarEnergy; what a medicine asks to keep alike comes before that.
func (p *program) energyGoal(m dayMean, e *eater) [2]int {
	cost := costEnergy * e.dayWeight()
	if e.may == nil || len(e.steady) > 0 {
		return m.goal(p, EnergyRoom, cost)
	}
	low, high := p.row(-m.fed, inf), p.row(-inf, -m.fed)
	p.tiers(low, high, cost, (energyFar-margin*EnergyRoom)*e.kcal, costFarEnergy)
	p.Set(low, m.col, -(1 - margin*EnergyRoom))
	p.Set(high, m.col, -(1 + margin*EnergyRoom))
	return [2]int{low, high}
}

// meanColumn is the mean carbohydrate of e's main meals, and the row that makes it that,
// −1 for who does not count it.
func (p *program) meanColumn(e *eater, days int) (mean, row int) {
	if e.band == nil {
		return -1, -1
	}
	mean, row = p.col(0, inf), p.row(0, 0)
	p.Set(row, mean, -float64(len(mainMeals)*days))
	return mean, row
}

// carbohydrateRows hold a meal near the mean, and inside the band that was ordered.
func (p *program) carbohydrateRows(e *eater, mean int) [2]int {
	cost := costCarbohydrate * e.dayWeight()
	if e.band.Enforced {
		return [2]int{p.goal(e.band.LowG, e.band.HighG, cost), -1}
	}
	low, high := p.row(-margin*CarbohydrateRoomG, inf), p.row(-inf, margin*CarbohydrateRoomG)
	p.tiers(low, high, cost, carbohydrateFarG, costFar*cost)
	p.Set(low, mean, -1)
	p.Set(high, mean, -1)
	return [2]int{low, high}
}

// carbohydrateFarG is how far beyond the room a meal costs costFar times as much: rather two
// meals a little off than one by far.
const carbohydrateFarG = 5

// overMost lets a serving be over its most, by cost.
func (p *program) overMost(row int, most, weigh float64) {
	p.over(row, costLarge*weigh, largeRoom*most, costHuge)
}
