package foods

import (
	"strings"
	"testing"
)

// What a soft diet leaves out is not soft: mechanical (dental) soft diet lists
// (texture.csv, rows soft_rule avoid: nuts, seeds, popcorn, chips, granola, hard
// crackers and crusts, jerky, raw hard vegetables, canned corn, coconut, hard or sticky
// candy), and, as an own planning rule, what the tongue finds as grit or loose hard
// grains: bran, germ and whole grains that stay apart.
func TestWhatASoftDietLeavesOut(t *testing.T) {
	table := load(t)
	words := []string{
		"nuts", "almonds", "pecans", "walnuts", "seeds", "popcorn", "chips", "granola", "cracker", "crispbread", "jerky", "corn, whole kernel", "corn, cream",
		"candy", "gumdrops", "caramels", "marshmallows", "wheat bran", "wheat germ", "bulgur", "barley", "millet", "quinoa", "buckwheat", "brown rice", "hominy",
	}
	for _, word := range words {
		found := false
		for _, f := range table.Foods {
			if !strings.Contains(f.Name, word) || strings.Contains(f.Name, "chocolate chips") {
				continue
			}
			found = true
			if f.Texture == "soft" || f.Texture == "puree" {
				t.Errorf("%s is %s: %s has no place in a soft diet", f.Name, f.Texture, word)
			}
		}
		if !found {
			t.Logf("no food is called %s", word)
		}
	}
}
