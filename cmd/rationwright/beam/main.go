package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"os"

	"github.com/apache/beam/sdks/v2/go/pkg/beam"
	"github.com/apache/beam/sdks/v2/go/pkg/beam/x/beamx"

	"rationwright/cmd/rationwright/internal/cli"
)

var (
	households = flag.String("households", "", "the register: NDJSON, a file or a pattern of names that the runner can read")
	out        = flag.String("out", "", "where the lines go: a file that the runner can write")
)

func main() {
	flag.Parse()
	beam.Init()
	if err := run(context.Background()); err != nil {
		fmt.Fprintln(os.Stderr, "beam:", err)
		os.Exit(1)
	}
}

// run makes the pipeline of the flags and runs it to its end.
func run(ctx context.Context) error {
	if *households == "" || *out == "" {
		return errors.New("say -households FILE and -out FILE")
	}
	asked, err := cli.Asked(ctx, flag.Args(), os.Stderr)
	if err != nil {
		return err
	}
	p, err := pipeline(*households, *out, asked)
	if err != nil {
		return err
	}
	return beamx.Run(ctx, p)
}
