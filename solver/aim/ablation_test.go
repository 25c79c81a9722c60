package aim

import (
	"context"
	"slices"
	"strings"
	"testing"
	"time"

	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
)

// ablationTime is what the requests of these households allow: a third of the default, so
// that the campaign ends.
const ablationTime = 3 * time.Second

// What each weight of the data file brings: the plans of the second aim with and without
// it, by how much of what it counts they have, and by all weights together. Together they
// bring what they are for. Only in a campaign of 5 households or more; -v prints the table.
func TestWhatEachWeightBrings(t *testing.T) {
	if *rationtest.Campaign < 5 {
		t.Skip("a campaign of 5 households or more shows it")
	}
	weights, err := ration.DefaultWeights()
	if err != nil {
		t.Fatal(err)
	}
	n := len(weights)
	with, without := make([]float64, n), make([]float64, n)
	all, allWithout := 0.0, make([]float64, n)
	households := 0
	for household := *from; households < *rationtest.Campaign; household++ {
		m, first, loosened := planned(t, household)
		if first.X == nil || len(m.Eaters) == 0 || loosened {
			continue
		}
		households++
		seek := func(w ration.Weights) []float64 {
			req := *m.Request
			req.Weights, req.Time = w, ablationTime
			m.Request = &req
			found, err := Seek(context.Background(), m, first.X, m.ValueOf(first.X), first)
			if err != nil {
				t.Fatal(err)
			}
			if found.X == nil {
				return first.X
			}
			return found.X
		}
		weigh := func(x []float64, w ration.Weights) float64 {
			return newProgram(m, m.ValueOf(first.X), m.Request.Slack, w).weigh(x)
		}
		x := seek(weights)
		all += weigh(x, weights)
		for k, one := range weights {
			y := seek(slices.Delete(slices.Clone(weights), k, k+1))
			alone := ration.Weights{one}
			with[k] += weigh(x, alone) / one.Value
			without[k] += weigh(y, alone) / one.Value
			allWithout[k] += weigh(y, weights)
		}
		t.Logf("household %d is done", household)
	}
	count := float64(households)
	sum, sumWithout := 0.0, 0.0
	for k, one := range weights {
		t.Logf("%-28s weight %4g: %6.2f of it with, %6.2f without; all weights %.2f with, %.2f without",
			string(one.Part)+" "+strings.Join(one.Kinds[:min(2, len(one.Kinds))], ";"), one.Value, with[k]/count, without[k]/count, all/count, allWithout[k]/count)
		sum, sumWithout = sum+one.Value*with[k], sumWithout+one.Value*without[k]
	}
	if sum >= sumWithout {
		t.Errorf("what the weights count comes to %g with them, %g each time without", sum, sumWithout)
	}
}
