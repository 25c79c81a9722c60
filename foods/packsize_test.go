package foods

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

var (
	sizeOfKey   = regexp.MustCompile(`-([\d.]+)(g|ml|l)-`)
	basePack    = regexp.MustCompile(`power of (\S+?);`)
	ofContainer = regexp.MustCompile(`container: packages.csv (\w+)`)
	scaledTo    = regexp.MustCompile(`scaled to ([\d.]+) percent`)
	drainedTo   = regexp.MustCompile(`(?:drained share|drained weight is) ([\d.]+) percent`)
	stemsOff    = regexp.MustCompile(`([\d.]+) percent stems`)
	drainedCan  = regexp.MustCompile(`drained(?: and rinsed)? ([\d.]+) g`)
)

// Every size is worked out again from what its row names: grams from its key;
// litres and tare from its container in the extract of the published
// dimensions, or in proportion and by the two-thirds power from the pack that
// the row names; drained weight from the share or the weight a can it states.
// Litres of loose food come from its weight a cup (cups_test.go).
func TestSizesOfPacks(t *testing.T) {
	containers := map[string]map[string]string{}
	for _, row := range readCSV(t, "../testdata/reference/packages.csv") {
		containers[row["id"]] = row
	}
	packs := map[string]map[string]string{}
	for _, row := range readCSV(t, "data/packs.csv") {
		packs[row["pack"]] = row
	}
	checked := map[string]int{}
	near := func(row map[string]string, column string, want, within float64) {
		checked[column]++
		if have := number(t, row[column]); math.Abs(have-want) > within {
			t.Errorf("%s: %s %g, its row asks for %.4g (%s; %s)", row["pack"], column, have, want, row["source"], row["note"])
		}
	}
	part := func(re *regexp.Regexp, s string) (float64, bool) {
		m := re.FindStringSubmatch(s)
		if m == nil {
			return 0, false
		}
		v, err := strconv.ParseFloat(m[len(m)-1], 64)
		return v, err == nil
	}
	for key, row := range packs {
		label := number(t, row["label_net_g"])
		if m := sizeOfKey.FindStringSubmatch(key); m == nil {
			t.Errorf("%s: no size in the key", key)
		} else if m[2] == "g" {
			near(row, "label_net_g", number(t, m[1]), 0.51)
		}
		base := packs[""]
		if m := basePack.FindStringSubmatch(row["source"]); m != nil {
			base = packs[m[1]]
		}
		// Drained weight, whole grams of a rounded share.
		if share, ok := part(drainedTo, row["note"]); ok && row["net_g"] != row["label_net_g"] {
			near(row, "net_g", label*share/100, 0.01*label)
		} else if stems, ok := part(stemsOff, row["note"]); ok {
			near(row, "net_g", label*(1-stems/100), 1)
		} else if can, ok := part(drainedCan, row["note"]); ok && base == nil {
			near(row, "net_g", can, 0.5)
		} else if base != nil {
			near(row, "net_g", label*number(t, base["net_g"])/number(t, base["label_net_g"]), 1)
		} else if row["basis"] == "as packed" || row["basis"] == "dry" || row["basis"] == "powder" || row["basis"] == "concentrate" {
			near(row, "net_g", label, 0)
		}
		share := 1.0
		volume, tare := 0.0, 0.0
		if base != nil {
			share = label / number(t, base["label_net_g"])
			volume, tare = number(t, base["volume_l"]), number(t, base["tare_g"])
		} else if m := ofContainer.FindStringSubmatch(row["source"]); m != nil && containers[m[1]] != nil {
			c := containers[m[1]]
			volume, tare = number(t, c["shelf_box_ml"])/1000, number(t, c["tare_g"])
			if percent, ok := part(scaledTo, row["note"]); ok {
				share = percent / 100
			} else if strings.Contains(row["note"], "scaled from") {
				share = label / number(t, c["net_g"])
			}
			if key == "prune-juice-1000g-bottle" {
				tare /= math.Pow(share, 2.0/3) // its tare is that of the whole bottle
			}
		} else {
			continue
		}
		near(row, "tare_g", tare*math.Pow(share, 2.0/3), 0.6)
		if !strings.Contains(row["note"], "net over its weight a cup") {
			near(row, "volume_l", volume*share, 0.0011+0.005*volume*share)
		}
	}
	for column, least := range map[string]int{"label_net_g": 700, "net_g": 700, "tare_g": 700, "volume_l": 500} {
		if checked[column] < least {
			t.Errorf("only %d cells of %s were worked out", checked[column], column)
		}
	}
}
