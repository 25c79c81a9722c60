package facts

import (
	"math"
	"testing"
)

func TestNumber(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{Number(169.99999999999997), "170"},
		{Number(2191.645), "2191.645"},
		{Number(0.1 + 0.2), "0.3"},
		{Number(0), "0"},
		{Number(-1e-7), "-0.0000001"}, // plain decimals
		{Number(-1e-12), "0"},         // what arithmetic leaves of nothing
		{Number(7.2e-17), "0"},
		{Number(csvResidue), "0.000000001"}, // the least that is not nothing
		{Number(-csvResidue), "-0.000000001"},
		{Number(0.999 * csvResidue), "0"},
		{Number(math.MaxFloat64)[:17], "17976931348623157"}, // the largest of IEEE 754; ten digits of it, rounded, are none
	} {
		if c.got != c.want {
			t.Errorf("got %q, want %q", c.got, c.want)
		}
	}
}
