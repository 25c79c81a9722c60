package main

import (
	"context"
	"encoding/json"
	"reflect"
	"strings"

	"github.com/apache/beam/sdks/v2/go/pkg/beam"
	"github.com/apache/beam/sdks/v2/go/pkg/beam/io/textio"
	beamregister "github.com/apache/beam/sdks/v2/go/pkg/beam/register"

	"rationwright/cmd/rationwright/internal/batch"
	"rationwright/cmd/rationwright/internal/register"
	"rationwright/solver/ration"
)

func init() {
	beamregister.DoFn3x1[context.Context, string, func(string), error](&planFn{})
	beamregister.Emitter1[string]()
	beam.RegisterType(reflect.TypeFor[planFn]())
}

// planFn plans the household of a line.
type planFn struct {
	Asked string // what is asked of every household: a record as in a plan, JSON

	planner *batch.Planner
}

// Setup makes the planner of a worker, once.
func (f *planFn) Setup() error {
	rec := &ration.RequestRecord{}
	if err := json.Unmarshal([]byte(f.Asked), rec); err != nil {
		return err
	}
	var err error
	f.planner, err = batch.PlannerOf(rec)
	return err
}

// ProcessElement plans one household. What is wrong with it stands in its line.
func (f *planFn) ProcessElement(ctx context.Context, line string, emit func(string)) error {
	if strings.TrimSpace(line) == "" {
		return nil
	}
	made, err := f.planner.Plan(ctx, register.Parse([]byte(line)))
	if err != nil {
		return err
	}
	emit(strings.TrimSuffix(string(made.Line), "\n"))
	return nil
}

// pipeline reads a register, plans it as asked and writes the lines.
func pipeline(households, out string, asked *ration.Request) (*beam.Pipeline, error) {
	text, err := ration.Marshal(batch.RecordOf(*asked))
	if err != nil {
		return nil, err
	}
	p, s := beam.NewPipelineWithRoot()
	lines := textio.Read(s, households)
	// A household takes a second where reading it takes none: without this the engine
	// may leave planning where the reading was.
	textio.Write(s, out, beam.ParDo(s, &planFn{Asked: string(text)}, beam.Reshuffle(s, lines)))
	return p, nil
}
