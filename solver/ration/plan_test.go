package ration

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"reflect"
	"strings"
	"testing"

	"rationwright/foods"
	"rationwright/nutrients"
)

// TestNewsOfSeveral: what is stated of somebody else, or of another nutrient, states nothing of who is short; what
// is short or passed by a hundred-thousandth exactly is no news.
func TestNewsOfSeveral(t *testing.T) {
	const floor, top = 18.0, 45.0
	needs := func(iron, zinc float64) []PersonNeed {
		return []PersonNeed{{Nutrient: "iron", Unit: "mg", Amount: iron, Floor: amount(floor), Ceiling: amount(top)}, {Nutrient: "zinc", Unit: "mg", Amount: zinc, Floor: amount(floor), Ceiling: amount(top)}}
	}
	stated := []Shortfall{{Person: "Signe", Nutrient: "iron", Unit: "mg", Amount: 9, Target: 18}, {Person: "Odd", Nutrient: "zinc", Unit: "mg", Amount: 8, Target: 18}}
	p := &Plan{Shortfalls: stated, People: []PlanPerson{{Name: "Signe", Needs: needs(9, 7)}, {Name: "Odd", Needs: needs(6, 8)}, {Name: "Aud", Needs: needs(floor*(1-newsTol), top*(1+newsTol))}, {Name: "Eli", Needs: needs(46, 47)}}}
	want := NotFed{
		Shortfalls: append(append([]Shortfall(nil), stated...), Shortfall{Person: "Signe", Nutrient: "zinc", Unit: "mg", Amount: 7, Target: 18}, Shortfall{Person: "Odd", Nutrient: "iron", Unit: "mg", Amount: 6, Target: 18}),
		Over:       []Over{{Person: "Eli", Nutrient: "iron", Unit: "mg", Amount: 46, Ceiling: 45}, {Person: "Eli", Nutrient: "zinc", Unit: "mg", Amount: 47, Ceiling: 45}},
	}
	if got := p.NotFed(); !reflect.DeepEqual(got, want) {
		t.Errorf("%+v, want %+v", got, want)
	}
	if len(p.Shortfalls) != 2 {
		t.Errorf("the plan itself has %+v", p.Shortfalls)
	}
	p.Refused = []Refused{{Name: "Arne", Reason: "a"}, {Name: "Nils", Reason: "b"}}
	if got := p.Refusal("Nils"); got != &p.Refused[1] {
		t.Errorf("%+v of Nils", got)
	}
}

// TestLargestPlan: a plan of 32 MiB is read, here of blanks alone, one byte more is refused with that size.
func TestLargestPlan(t *testing.T) {
	blanks := bytes.Repeat([]byte{' '}, 32<<20+1)
	for n, want := range map[int]string{32 << 20: "it is empty", 32<<20 + 1: "it is larger than 32 MiB"} {
		if _, err := ReadPlan(bytes.NewReader(blanks[:n])); !errors.Is(err, ErrPlan) || !strings.Contains(err.Error(), want) {
			t.Errorf("%d bytes: %v, want %s", n, err, want)
		}
	}
	broken := errors.New("the disk is gone")
	if _, err := ReadPlan(io.MultiReader(strings.NewReader("{"), failing{broken})); !errors.Is(err, broken) || errors.Is(err, ErrPlan) {
		t.Errorf("%v", err)
	}
}

type failing struct{ err error }

func (f failing) Read([]byte) (int, error) { return 0, f.err }

// TestFaultsOfRecords: each fault names what stands there.
func TestFaultsOfRecords(t *testing.T) {
	for _, c := range []struct {
		change func(*RequestRecord)
		want   string
	}{
		{func(r *RequestRecord) { r.Version = "7" }, `it says "7", this program writes "1"`}, {func(r *RequestRecord) { r.Start = "2026-02-30" }, `request.start: "2026-02-30" is no date`},
		{func(r *RequestRecord) { r.Options["pets"] = "many" }, `request.options.pets: "many" cannot be read`}, {func(r *RequestRecord) { r.Limits = map[string]float64{"budget": -2} }, "request.limits.budget: -2 is no known limit"},
	} {
		rec := Record(Filled(&Request{People: []nutrients.Person{signe()}, Start: "2026-11-25"}))
		c.change(rec)
		if _, err := rec.Load(); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%v, want %s", err, c.want)
		}
	}
	_, err := ReadPlan(strings.NewReader(`{"version":"9","request":{}}`))
	if !errors.Is(err, ErrVersion) || !strings.Contains(err.Error(), `it says "9", this program writes "1"`) {
		t.Errorf("%v", err)
	}
	ill := CheckIll(&Request{People: []nutrients.Person{signe()}, Ill: []string{"Odd", "Signe", "Eli"}})
	if !errors.Is(ill, ErrNobody) || !strings.Contains(ill.Error(), `"Odd"`) || !strings.Contains(ill.Error(), `"Eli"`) || strings.Contains(ill.Error(), `"Signe"`) {
		t.Errorf("%v", ill)
	}
}

// TestJSONInPlainWords: what breaks off is told so although something wraps it; what is no JSON by its place, and what is
// none of these as it is.
func TestJSONInPlainWords(t *testing.T) {
	wrap := func(err error) error { return fmt.Errorf("wrapped: %w", err) }
	for _, c := range []struct {
		err  error
		want string
	}{
		{io.EOF, "it is empty"}, {wrap(io.EOF), "it is empty"}, {io.ErrUnexpectedEOF, "it breaks off before its end"}, {wrap(io.ErrUnexpectedEOF), "it breaks off before its end"},
		{&json.SyntaxError{Offset: 12}, "it is no JSON from byte 12 on"}, {errors.New("json: unknown field \"moon\""), `it has a key "moon" that no plan has`}, {errors.New("another"), "another"},
		{&json.UnmarshalTypeError{Value: "number 1.5", Type: reflect.TypeFor[int](), Field: "days"}, "days is the number 1.5 where a whole number belongs"},
		{&json.UnmarshalTypeError{Value: "array", Type: reflect.TypeFor[int64]()}, "the whole is a list where a whole number belongs"},
		{&json.UnmarshalTypeError{Value: "bool", Type: reflect.TypeFor[float64](), Field: "value"}, "value is true or false where a number belongs"},
		{&json.UnmarshalTypeError{Value: "object", Type: reflect.TypeFor[string](), Field: "x"}, "x is an object where a text belongs"},
		{&json.UnmarshalTypeError{Value: "string", Type: reflect.TypeFor[bool](), Field: "x"}, "x is a text where true or false belongs"},
		{&json.UnmarshalTypeError{Value: "number", Type: reflect.TypeFor[[]int](), Field: "x"}, "x is a number where a list belongs"},
		{&json.UnmarshalTypeError{Value: "moon", Type: reflect.TypeFor[Plan](), Field: "x"}, "x is moon where an object belongs"},
	} {
		if got := plainJSON(c.err); got != c.want {
			t.Errorf("%v: %q, want %q", c.err, got, c.want)
		}
	}
}

// TestFilledByTheStove: what is asked of cooking, or the boiling that is meant where nothing is asked, goes no further than the stove asked for
// (fuel.csv: a can with a wick warms), whatever the day of the start.
func TestFilledByTheStove(t *testing.T) {
	for _, c := range []struct {
		cook  Cook
		stove string
		want  Cook
	}{{"", "wick-can", CookWarm}, {CookSimmer, "hexamine", CookBoil}, {CookNone, "wick-can", CookNone}, {CookSimmer, "kerosene", CookSimmer}, {"", "kerosene", CookBoil}} {
		if got := Filled(&Request{Cook: c.cook, Stove: c.stove, Start: "2026-11-25"}); got.Cook != c.want || got.Stove != c.stove || got.Start != "2026-11-25" {
			t.Errorf("%q on %s: %s on %s from %s, want %s", c.cook, c.stove, got.Cook, got.Stove, got.Start, c.want)
		}
	}
}

// TestTotalsAndPacks: the total of each aim; a pack of the table before that of the stock, and one that is in neither.
func TestTotalsAndPacks(t *testing.T) {
	total := &Totals{Cost: 1, WeightKg: 2, VolumeL: 3}
	for least, want := range map[Least]float64{LeastCost: 1, LeastWeight: 2, LeastVolume: 3, "": 1} {
		if got := total.Of(least); got != want {
			t.Errorf("least %q: %g, want %g", least, got, want)
		}
	}
	a, b, c, own := &foods.Pack{Key: "a"}, &foods.Pack{Key: "b"}, &foods.Pack{Key: "c"}, &foods.Pack{Key: "b"}
	req := &Request{Table: &foods.Table{Packs: []*foods.Pack{a, b}}, Stock: []foods.StockLine{{Pack: own}, {Pack: c}}}
	for key, want := range map[string]*foods.Pack{"a": a, "b": b, "c": c, "d": nil} {
		if got := FindPack(req, key); got != want {
			t.Errorf("%s: %+v, want %+v", key, got, want)
		}
	}
	for v, want := range map[float64]float64{1e-9: 1e-9, 0.9e-9: 0, -0.9e-9: 0, -1e-9: -1e-9, 2: 2} {
		if got := NoResidue(v); got != want {
			t.Errorf("%g counts as %g, want %g", v, got, want)
		}
	}
}
