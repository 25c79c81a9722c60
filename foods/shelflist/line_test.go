package shelflist_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"rationwright/foods/shelflist"
)

// Ounces and pounds: 28.349523125 g and 453.59237 g, by definition.
func TestParse(t *testing.T) {
	for line, want := range map[string]shelflist.Item{
		"6 tins of sardines, 120 g":                            {Count: 6, Counted: true, Part: 1, Container: "can", Food: "sardines", Size: 120, Unit: "g"},
		"2 x rice 1kg":                                         {Count: 2, Counted: true, Part: 1, Food: "rice", Size: 1000, Unit: "g"},
		"half a bag of oats":                                   {Count: 1, Part: 0.5, Container: "bag", Food: "oats"},
		"- half a 1 kg bag of oats, best before 2027-03":       {Count: 1, Part: 0.5, Container: "bag", Food: "oats", Size: 1000, Unit: "g", BestBefore: "2027-03-31"},
		"4 x 120 g tins of sardines":                           {Count: 4, Counted: true, Part: 1, Container: "can", Food: "sardines", Size: 120, Unit: "g"},
		"Rice, white 1kg x 3":                                  {Count: 3, Counted: true, Part: 1, Food: "rice white", Size: 1000, Unit: "g"},
		"three jars of Peanut Butter 350 g each":               {Count: 3, Counted: true, Part: 1, Container: "jar", Food: "peanut butter", Size: 350, Unit: "g"},
		"6 tins of sardines, 720 g in total":                   {Count: 6, Counted: true, Part: 1, Container: "can", Food: "sardines", Size: 120, Unit: "g"},
		"potato bag stew 400 g":                                {Count: 1, Part: 1, Food: "potato bag stew", Size: 400, Unit: "g"}, // neither first, last, nor before "of"
		"lentils bag of 500 g":                                 {Count: 1, Part: 1, Container: "bag", Food: "lentils", Size: 500, Unit: "g"},
		"2 5-oz cans tuna":                                     {Count: 2, Counted: true, Part: 1, Container: "can", Food: "tuna", Size: 141.747615625, Unit: "g"},
		"1 lb bag of lentils":                                  {Count: 1, Part: 1, Container: "bag", Food: "lentils", Size: 453.59237, Unit: "g"},
		"olive oil 0,5 l":                                      {Count: 1, Part: 1, Food: "olive oil", Size: 500, Unit: "mL"},
		"a dozen boxes of crackers 200g (bb 31/03/2027)":       {Count: 12, Counted: true, Part: 1, Container: "box", Food: "crackers", Size: 200, Unit: "g", BestBefore: "2027-03-31"},
		"2 tins chickpeas 400 g, 240 g":                        {},
		"some rice 1 kg":                                       {Count: 1, Part: 1, Food: "rice", Size: 1000, Unit: "g"},
		"the rice of the mill 1 kg":                            {Count: 1, Part: 1, Food: "rice of the mill", Size: 1000, Unit: "g"},
		"milk 3.5% fat 1 l":                                    {Count: 1, Part: 1, Food: "milk 3.5% fat", Size: 1000, Unit: "mL"},
		"tea, 80 g, best before 3  May   2027":                 {Count: 1, Part: 1, Food: "tea", Size: 80, Unit: "g", BestBefore: "2027-05-03"},
		"rice 1 kg bb 12/12/2027":                              {Count: 1, Part: 1, Food: "rice", Size: 1000, Unit: "g", BestBefore: "2027-12-12"}, // one date either way
		"rice 1 kg bb 03/31/2027":                              {Count: 1, Part: 1, Food: "rice", Size: 1000, Unit: "g", BestBefore: "2027-03-31"}, // no 31st month
		"rice 1 kg bb 13/12/2027":                              {Count: 1, Part: 1, Food: "rice", Size: 1000, Unit: "g", BestBefore: "2027-12-13"},
		"4 jars of jam, 1000 g altogether":                     {Count: 4, Counted: true, Part: 1, Container: "jar", Food: "jam", Size: 250, Unit: "g"},
		"2 tins of peas, drained weight 240 g":                 {Count: 2, Counted: true, Part: 1, Container: "can", Food: "peas", Size: 240, Unit: "g", Drained: true},
		"1 tin of tuna, 112 g drained, best before 3 May 2027": {Count: 1, Counted: true, Part: 1, Container: "can", Food: "tuna", Size: 112, Unit: "g", Drained: true, BestBefore: "2027-05-03"},
		"2 tins of drained chickpeas":                          {Count: 2, Counted: true, Part: 1, Container: "can", Food: "drained chickpeas"}, // no size that could be drained
		"rice 50 kg":                                           {Count: 1, Part: 1, Food: "rice", Size: 50_000, Unit: "g"},
		strings.Repeat("r", 295) + " 1 kg":                     {Count: 1, Part: 1, Food: strings.Repeat("r", 295), Size: 1000, Unit: "g"}, // 300 bytes
		"salt 1 g":                                             {Count: 1, Part: 1, Food: "salt", Size: 1, Unit: "g"},
		"10000 tins of tuna":                                   {Count: 10_000, Counted: true, Part: 1, Container: "can", Food: "tuna"},
		"tinned tomatoes 400g expires 02/2028":                 {Count: 1, Part: 1, Food: "tinned tomatoes", Size: 400, Unit: "g", BestBefore: "2028-02-29"},
	} {
		got, err := shelflist.Parse(line)
		if want.Count == 0 {
			if !errors.Is(err, shelflist.ErrUnclear) {
				t.Errorf("Parse(%q) = %+v, want it refused", line, got)
			}
			continue
		}
		if math.Abs(got.Size-want.Size) > 1e-9 {
			t.Errorf("Parse(%q): size %v, want %v", line, got.Size, want.Size)
		}
		got.Size = want.Size
		if err != nil || got != want {
			t.Errorf("Parse(%q)\n got %+v, %v\nwant %+v", line, got, err, want)
		}
	}
}

// TestEveryWordOfALine: each word for a number, a part and a unit is that number, part and unit.
// Sources: avoirdupois ounce and pound and US fluid ounce by definition (28.349523125 g, 16 oz,
// 29.5735295625 mL).
func TestEveryWordOfALine(t *testing.T) {
	for words, n := range map[string]int{
		"a": 1, "an": 1, "one": 1, "1": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "half a dozen": 6, "seven": 7, "eight": 8, "nine": 9,
		"ten": 10, "eleven": 11, "twelve": 12, "dozen": 12, "a dozen": 12, "12 x": 12, "x 12": 12, "12×": 12, "12 *": 12,
	} {
		want := shelflist.Item{Count: n, Counted: true, Part: 1, Container: "bag", Food: "oats", Size: 500, Unit: "g"}
		if got, err := shelflist.Parse(words + " bags of oats 500 g"); err != nil || got != want {
			t.Errorf("%q bags: %+v, %v; want %+v", words, got, err, want)
		}
	}
	for words, part := range map[string]float64{
		"half a": 0.5, "a half": 0.5, "½": 0.5, "½ a": 0.5, "1/2": 0.5, "a quarter": 0.25, "quarter": 0.25, "¼": 0.25, "1/4": 0.25,
		"three quarters of a": 0.75, "three-quarters": 0.75, "¾": 0.75, "3/4": 0.75, "a third of a": 1. / 3, "1/3": 1. / 3, "⅓": 1. / 3,
		"two thirds of a": 2. / 3, "two-thirds": 2. / 3, "⅔": 2. / 3, "2/3": 2. / 3,
	} {
		want := shelflist.Item{Count: 1, Part: part, Container: "bag", Food: "oats", Size: 500, Unit: "g"}
		for _, line := range []string{words + " bag of oats 500 g", "a bag of oats 500 g, " + strings.TrimSuffix(strings.TrimSuffix(words, " a"), " of") + " full"} {
			got, err := shelflist.Parse(line)
			if err != nil || math.Abs(got.Part-part) > 1e-12 {
				t.Errorf("%q: %+v, %v; want %g of it", line, got, err, part)
			}
			if got.Part = part; got != want {
				t.Errorf("%q: %+v, want %+v", line, got, want)
			}
		}
	}
	for words, size := range map[string]float64{
		"g": 1, "gr": 1, "gm": 1, "gms": 1, "gram": 1, "grams": 1, "gramme": 1, "grammes": 1,
		"kg": 1000, "kgs": 1000, "kilo": 1000, "kilos": 1000, "kilogram": 1000, "kilograms": 1000,
		"oz": 28.349523125, "ounce": 28.349523125, "ounces": 28.349523125, "lb": 453.59237, "lbs": 453.59237, "pound": 453.59237, "pounds": 453.59237,
		"ml": -1, "cl": -10, "dl": -100, "l": -1000, "litre": -1000, "litres": -1000, "liter": -1000, "liters": -1000, // mL
		"fl oz": -29.5735295625, "fl. oz": -29.5735295625, "fluid ounce": -29.5735295625, "fluid ounces": -29.5735295625,
	} {
		unit := "g"
		if size < 0 {
			size, unit = -size, "mL"
		}
		got, err := shelflist.Parse("oat drink 2.5 " + words)
		if err != nil || math.Abs(got.Size-2.5*size) > 1e-9 || got.Unit != unit || got.Food != "oat drink" {
			t.Errorf("2.5 %s: %+v, %v; want %g %s", words, got, err, 2.5*size, unit)
		}
	}
}

func TestRefused(t *testing.T) {
	for line, want := range map[string]string{
		"":                                  "no food is named",
		"6 tins, 120 g":                     "no food is named",
		"2.5 bags of rice 1 kg":             `what does "2.5" stand for?`,
		"rice 20044 1 kg":                   `what does "20044" stand for?`,
		"rice 1 kg best before 03/04/2027":  "could be of two months",
		"rice 1 kg best before 03/27":       "is no date",
		"rice 1 kg bb 05/12/2027":           "could be of two months",
		"rice 1 kg bb 12/05/2027":           "could be of two months",
		"rice 1 kg bb 13/13/2027":           "is no date",
		"rice 1 kg bb 31/12/1979":           "is no date",
		"rice 3.5 of 1 kg":                  `what does "3.5" stand for?`,
		"three 4 x rice 1 kg":               "two counts, 4 and 3",
		"rice 1 kg best before 30 Feb 2027": "is no date",
		"rice 1 kg best before soon":        "is no date",
		"2 x 3 x rice 1 kg":                 "two counts",
		"4 x 3 tins of tuna":                "two counts, 4 and 3",
		"3 half bags of rice 1 kg":          "a part of each of 3 packs",
		"rice 1,000 g":                      `"1,000 g" could be thousands or a fraction`,
		"0 tins of tuna 120 g":              "0 packs",
		"99999999999999999999 tins of tuna": "packs",
		"rice 1 t":                          `what does "1" stand for?`,
		"rice 0 g":                          "0 g in a pack",
		"rice 50.001 kg":                    "in a pack",
		"salt 0.9 g":                        "in a pack",
		"10001 tins of tuna":                "10001 packs",
		"rice 1 kg bb 2027-03, bb 2027-04":  "two dates",
		"chickpeas 400 g, 240 g drained":    `two sizes, "400 g" and "240 g"`,
		strings.Repeat("r", 296) + " 1 kg":  "longer than",
	} {
		got, err := shelflist.Parse(line)
		fault := (*shelflist.Fault)(nil)
		if !errors.As(err, &fault) || !strings.Contains(err.Error(), want) || fault.Fix == "" {
			t.Errorf("Parse(%.40q) = %+v, %v; want a fault with %q and a remedy", line, got, err, want)
		}
	}
}

// FuzzParse: whatever the line, it is read or refused with a remedy; what is read is
// within the limits, has a food without stray numbers, and reads the same again.
func FuzzParse(f *testing.F) {
	for _, seed := range []string{"6 tins of sardines, 120 g", "2 x rice 1kg", "½ bag oats 1 kg, bb 2027-03", "x 2", "§", "\xff tin", "1 kg", "a dozen of of 5 oz", "use by end march 2027 tea 80 g total"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, line string) {
		it, err := shelflist.Parse(line)
		if err != nil {
			fault := (*shelflist.Fault)(nil)
			if !errors.As(err, &fault) || fault.Fix == "" {
				t.Fatalf("no remedy: %v", err)
			}
			return
		}
		if it.Food == "" || it.Count < 1 || !(it.Part > 0 && it.Part <= 1) || it.Size < 0 || it.Size > 50_000 || (it.Size > 0) != (it.Unit != "") {
			t.Fatalf("Parse(%q) = %+v", line, it)
		}
		if again, err := shelflist.Parse(line); err != nil || again != it {
			t.Fatalf("read again: %+v, %v", again, err)
		}
	})
}
