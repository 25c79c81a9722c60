package community

import (
	"context"
	"errors"
	"fmt"

	"rationwright/solver/ration"
	"rationwright/solver/search"
)

// fewHouseholds is up to how many all rounds are made. Of more, rounds shrink as the
// households grow: each takes a smaller part of what is common, so that prices settle in
// fewer rounds. Never fewer than leastRounds.
// Relaxations of more rest between rounds: twelve households took 7 MB each where they
// do not and 2 MB where they do, but twice the iterations in the rounds.
const fewHouseholds, leastRounds = 30, 2

// roundsOf is how many rounds of most are made among so many households, least at least.
func roundsOf(most, least, households int) int {
	return max(min(most, least), most*fewHouseholds/max(fewHouseholds, households))
}

// fullWork is up to how many households each search in whole packs has all the work asked
// for: 200 invented households came to 12 % over their parts with 0.15 of it, a quarter of
// a second of processor time for each.
const fullWork = 60

// fewCosts is how much more whole packs of few households are first taken to come to
// than their parts, manyCosts those of more, with less work each: 12, 30 and 100
// invented households came to 5.9, 5.6 and 7.3 %, 200 to 12 %.
const fewCosts, manyCosts = 0.06, 0.1

// roundingCosts is how much more whole packs come to than their parts where fractions are
// rounded up and what can be done without is taken away: 12 invented households came to
// 14.1 %, to 16.5 % before anything is taken away.
const roundingCosts = 0.15

// wholeCosts is how much more the whole packs of so many are first taken to come to than
// their parts.
func wholeCosts(households int) float64 {
	if households > fewHouseholds {
		return manyCosts
	}
	return fewCosts
}

// Parts of the time that is left, where there is a deadline: of the search, so that
// the plans can still be written and checked; of the first prices, the level's; of the
// prices at a level, before whole packs are dealt; of the rounds in whole packs, before
// the choice among them. Common practice, no source.
const (
	sharePart  = 0.85
	levelPart  = 0.25
	pricesPart = 0.35
	wholePart  = 0.5
)

// fairPart is ctx with an even part of the time that is left to it for household h of so
// many, who are asked two at a time in their order.
func fairPart(ctx context.Context, h, households int) (context.Context, context.CancelFunc) {
	return search.Part(ctx, 1/float64((households-h+1)/2))
}

// inTime says of an error that comes of the end of the time what can be done.
func inTime(err error) error {
	if errors.Is(err, context.DeadlineExceeded) {
		return fmt.Errorf("%w: the time was up before all were dealt with; a longer --time may do, or fewer households", ration.ErrNoPlan)
	}
	return err
}
