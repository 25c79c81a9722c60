package search

import (
	"context"
	"math"
	"testing"
	"time"

	"rationwright/nutrients"
	"rationwright/solver/model"
	"rationwright/solver/rationtest"
	"rationwright/solver/simplex"
)

// The referee, which shares no code with the engine, agrees on one person's
// program, and so does the engine's relaxation of the full model with packs.
func TestSecondOpinion(t *testing.T) {
	ctx, cancel := context.WithTimeout(context.Background(), time.Minute)
	defer cancel()
	for _, person := range []nutrients.Person{rationtest.Adult("Arvid", 70, nutrients.Male)} {
		req := rationtest.Request(t, person)
		p, err := personProgram(req, person)
		if err != nil {
			t.Fatal(err)
		}
		o, err := secondOpinion(ctx, person.Name, p)
		if err != nil {
			t.Fatal(err)
		}
		if !o.Agree {
			t.Errorf("%v", o)
		}
		m, err := model.Build(req)
		if err != nil {
			t.Fatal(err)
		}
		s, err := simplex.New(m.Problem)
		if err != nil {
			t.Fatal(err)
		}
		full := s.Solve(ctx, simplex.Limits{})
		if math.Abs(full.Value-o.Referee) > agreeTolerance*math.Abs(full.Value) {
			t.Errorf("%s: the model with packs relaxes to %.9g, the referee's program without packs to %.9g",
				person.Name, full.Value, o.Referee)
		}
	}
}
