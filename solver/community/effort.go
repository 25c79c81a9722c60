package community

import (
	"context"
	"errors"
	"fmt"

	"rationwright/solver/ration"
	"rationwright/solver/search"
)

// roundsOf is how many rounds of most are made among so many households, least at least.
func roundsOf(most, least, households int) int {
	return max(min(most, least), most*fewHouseholds/max(fewHouseholds, households))
}

// wholeCosts is how much more the whole packs of so many are first taken to come to than
// their parts.
func wholeCosts(households int) float64 {
	if households > fewHouseholds {
		return manyCosts
	}
	return fewCosts
}

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
