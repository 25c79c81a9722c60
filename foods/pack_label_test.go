package foods

import (
	"math"
	"regexp"
	"strconv"
	"testing"
)

// TestSizesOfPacksByLabel: what is eaten of a pack as packed is what its label says; of one
// that is drained it is the share that the note names, whole grams below.
func TestSizesOfPacksByLabel(t *testing.T) {
	share := regexp.MustCompile(`drained share ([0-9.]+) percent`)
	stems := regexp.MustCompile(`([0-9.]+) percent stems`)
	asPacked, drained := 0, 0
	for _, row := range readCSV(t, "data/packs.csv") {
		label, err1 := strconv.ParseFloat(row["label_net_g"], 64)
		net, err2 := strconv.ParseFloat(row["net_g"], 64)
		if err1 != nil || err2 != nil {
			t.Fatalf("%s: %v, %v", row["pack"], err1, err2)
		}
		if row["basis"] == "as packed" || row["basis"] == "dry" || row["basis"] == "powder" {
			asPacked++
			if m := stems.FindStringSubmatch(row["note"]); m != nil {
				part, err := strconv.ParseFloat(m[1], 64)
				if err != nil {
					t.Fatal(err)
				}
				if math.Abs(net-label*(1-part/100)) > 1 {
					t.Errorf("%s: %g g of %g without stems, %g %%", row["pack"], net, label, part)
				}
			} else if net != label {
				t.Errorf("%s: %g g of a label of %g, as packed", row["pack"], net, label)
			}
			continue
		}
		m := share.FindStringSubmatch(row["note"])
		if m == nil {
			continue
		}
		drained++
		part, err := strconv.ParseFloat(m[1], 64)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(net-label*part/100) > 1 {
			t.Errorf("%s: %g g of %g, drained share %g %%", row["pack"], net, label, part)
		}
	}
	if asPacked < 300 || drained < 5 {
		t.Errorf("%d packs as packed and %d drained were looked at", asPacked, drained)
	}
}
