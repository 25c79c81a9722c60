package dishes

import (
	"regexp"
	"slices"
	"strings"
	"testing"
)

// TestTimesOfADish: nobody is served the same breakfast or main dish more often than every
// other day, a snack more than once a day for each time of day that it has, or what is drunk
// more than twice a day; infants and toddlers have their milk up to eight times a day and
// what they are used to at every meal of its sort. Own planning rule.
func TestTimesOfADish(t *testing.T) {
	for _, d := range embeddedBook(t).Dishes {
		most := Fortnight * len(d.Slots)
		switch {
		case d.UnderMonths > 0 && d.Has(Drink):
			most = 8 * Fortnight
		case d.UnderMonths > 0:
		case d.Has(Breakfast) || d.Has(Midday) || d.Has(Evening):
			most = Fortnight / 2
		case d.Has(Drink):
			most = 2 * Fortnight
		}
		if d.TimesUsual < 1 || d.TimesMax < d.TimesUsual || d.TimesMax > most {
			t.Errorf("%s, %v: %d times in a fortnight and %d at most, which should be no more than %d", d.Key, d.Slots, d.TimesUsual, d.TimesMax, most)
		}
	}
}

// TestAgesOfADish: dry bread and crackers that are not soaked are for those from three years
// on, the same in every dish (own planning rule); under eight months a dish is mashed well,
// under a year mashed or soft (PAHO/WHO 2003).
func TestAgesOfADish(t *testing.T) {
	dry := []string{"bread for spreading", "plain crackers", "rye crispbread"}
	seen := map[string]int{}
	for _, d := range embeddedBook(t).Dishes {
		if d.FromMonths < 8 && d.Texture != "puree" || d.FromMonths < 12 && d.Texture != "puree" && d.Texture != "soft" {
			t.Errorf("%s from %d months is %s", d.Key, d.FromMonths, d.Texture)
		}
		if d.UnderMonths > 0 && d.UnderMonths <= d.FromMonths {
			t.Errorf("%s is served from %d months and under %d", d.Key, d.FromMonths, d.UnderMonths)
		}
		for _, p := range d.Required() {
			if !slices.Contains(dry, p.Ref) || strings.Contains(p.EatenAs, "soaked in the") || p.EatenAs == "soaked" && d.UnderMonths > 0 {
				continue
			}
			seen[p.Ref]++
			if d.FromMonths < 36 {
				t.Errorf("%s: %s from %d months", d.Key, p.Name, d.FromMonths)
			}
		}
	}
	for _, ref := range dry {
		if seen[ref] == 0 {
			t.Errorf("no dish has %s", ref)
		}
	}
}

// TestWaterOfCookedParts: where a dish that is cooked takes other water for grain, pasta or
// pulses than these take by themselves, it is never less than they soak up, by the table of
// preparation, unless they are cooked in what is wet already, and it is all that they take by
// themselves and more for a soup or what is cooked soft as porridge is. Nothing that is eaten
// out of a bowl is over a litre.
func TestWaterOfCookedParts(t *testing.T) {
	water := map[string]map[string]string{}
	for _, r := range rawRows(t, "../data/preparation.csv") {
		water[r["form"]] = r
	}
	cooking, name := map[string]string{}, map[string]string{}
	for _, r := range rawRows(t, "data/dishes.csv") {
		cooking[r["dish"]], name[r["dish"]] = r["cooking"], r["name"]
	}
	form := map[string]string{}
	for _, r := range rawRows(t, "../data/foods.csv") {
		form[r["ndb"]] = r["form"]
	}
	// What the words of a part say of the water that it has besides.
	wet := regexp.MustCompile(`milk powder takes up the rest|dough|batter|thin drink|less liquid`)
	inSoup := regexp.MustCompile(`cooked in the (broth|soup)`)
	soup := regexp.MustCompile(`a (thick )?soup|like porridge|very soft`)
	bowl := map[string]float64{}
	held := map[string]int{}
	for _, p := range rawRows(t, "data/dish_parts.csv") {
		own := water[form[p["reckoned_as"]]]
		takes, eats := number(t, own["water_ml_per_100g"]), number(t, own["water_eaten_ml_per_100g"])
		has := takes
		if p["water_ml_per_100g"] != "" {
			has = number(t, p["water_ml_per_100g"])
		}
		if p["optional"] != "yes" {
			bowl[p["dish"]] += number(t, p["usual_g"]) * (100 + has) / 100
		}
		class := cooking[p["dish"]]
		if p["water_ml_per_100g"] == "" || class != "boil" && class != "simmer" || p["role"] != "base" && p["role"] != "protein" || own["prep_class"] != "simmer" {
			continue
		}
		switch note := p["note"]; {
		case wet.MatchString(note):
			held["wet"]++
		case soup.MatchString(note) && !inSoup.MatchString(note):
			held["soup"]++
			if has < takes {
				t.Errorf("%s (%s): %g mL of water for 100 g of %s, which takes %g by itself: %s", p["dish"], name[p["dish"]], has, p["name"], takes, note)
			}
		default:
			held["soaks up"]++
			if has < eats {
				t.Errorf("%s (%s): %g mL of water for 100 g of %s, which soaks up %g: %s", p["dish"], name[p["dish"]], has, p["name"], eats, note)
			}
		}
	}
	for dish, grams := range bowl {
		if grams > 1000 {
			t.Errorf("%s: a serving of %.0f g with its water", dish, grams)
		}
	}
	for what, least := range map[string]int{"wet": 2, "soup": 8, "soaks up": 20} {
		if held[what] < least {
			t.Errorf("%d parts of the sort %q, the files have at least %d", held[what], what, least)
		}
	}
}

// TestNamesHoldTheirParts: what the name of a dish says is in it cannot be left out, but for
// these, which are named for what is better to have than not.
func TestNamesHoldTheirParts(t *testing.T) {
	may := map[string]string{
		"crispbread-cheese": "pickles", "semolina-raisins-nuts": "nuts", "boxed-macaroni-tuna": "tuna", "mash-beans-onion": "onion",
		"plain-bran-bowl": "seeds", "toddler-pot-beans": "vegetables", "nut-fruit-milk": "milk",
	}
	skip := []string{"and", "or", "of", "in", "with", "dry", "dried", "soft", "canned", "snack", "fresh", "everyday", "quick", "plain", "whole"}
	stem := func(w string) string { return strings.TrimSuffix(strings.TrimSuffix(w, "s"), "e") }
	words := func(s string) []string {
		var list []string
		for _, w := range regexp.MustCompile(`[a-z]+`).FindAllString(strings.ToLower(s), -1) {
			if len(w) > 2 && !slices.Contains(skip, w) {
				list = append(list, stem(w))
			}
		}
		return list
	}
	used := map[string]bool{}
	for _, d := range embeddedBook(t).Dishes {
		named, needed := words(d.Name), []string{}
		for _, p := range d.Required() {
			needed = append(needed, words(p.Name+" "+p.Ref)...)
		}
		for _, p := range d.Parts {
			if !p.Optional {
				continue
			}
			for _, w := range words(p.Name) {
				switch {
				case !slices.Contains(named, w) || slices.Contains(needed, w):
				case w == stem(may[d.Key]):
					used[d.Key] = true
				default:
					t.Errorf("%s is called %q and can do without its %s", d.Key, d.Name, p.Name)
				}
			}
		}
	}
	for key, what := range may {
		if !used[key] {
			t.Errorf("%s needs its %s or is not named for it: leave it out of the list", key, what)
		}
	}
}

// TestTimeAtTheBoil: a dish is at the boil for at least as long as each part that it needs takes
// by the table of preparation, soaked or not as the dish is, but for what is safe cold or soaked
// and what a dish says it cooks in its own way; and it takes no less time in all than it boils
// and stands, and no more than twenty minutes beside.
func TestTimeAtTheBoil(t *testing.T) {
	ready := map[string]map[string]string{}
	for _, r := range rawRows(t, "../data/preparation.csv") {
		ready[r["form"]] = r
	}
	form := map[string]string{}
	for _, r := range rawRows(t, "../data/foods.csv") {
		form[r["ndb"]] = r["form"]
	}
	dish := map[string]map[string]string{}
	for _, d := range rawRows(t, "data/dishes.csv") {
		dish[d["dish"]] = d
		if beside := number(t, d["minutes"]) - number(t, d["simmer_min"]) - number(t, d["stand_min"]); beside < 0 || beside > 20 {
			t.Errorf("%s: %s minutes, of which %s at the boil and %s standing", d["dish"], d["minutes"], d["simmer_min"], d["stand_min"])
		}
	}
	held := 0
	for _, p := range rawRows(t, "data/dish_parts.csv") {
		d, own := dish[p["dish"]], ready[form[p["reckoned_as"]]]
		takes := number(t, own["simmer_min"])
		if number(t, d["soak_hours"]) > 1 && own["simmer_min_if_soaked"] != "" {
			takes = number(t, own["simmer_min_if_soaked"])
		}
		if p["optional"] == "yes" || takes == 0 || strings.HasPrefix(own["cold_ok"], "yes") || strings.Contains(p["note"], "class of the dish counts") {
			continue
		}
		held++
		if number(t, d["simmer_min"]) < takes {
			t.Errorf("%s is %s minutes at the boil; %s takes %g", p["dish"], d["simmer_min"], p["name"], takes)
		}
	}
	if held < 30 {
		t.Errorf("%d parts are held to their time, the files have more", held)
	}
}

// TestAmountsOfAPart: the least of a part is a quarter of the usual amount or more and leaves
// some room, the most is two and a half times as much at most, and a dish is served four times
// as often as usual at most: own planning rule.
func TestAmountsOfAPart(t *testing.T) {
	for _, d := range embeddedBook(t).Dishes {
		if d.TimesMax > 4*d.TimesUsual {
			t.Errorf("%s: usually %d times, at most %d", d.Key, d.TimesUsual, d.TimesMax)
		}
		for _, p := range d.Parts {
			if p.MinG < p.UsualG/4-1e-9 || p.MinG > 0.9*p.UsualG || p.MaxG > 2.5*p.UsualG+1e-9 {
				t.Errorf("%s: %g, usually %g, at most %g g of %s", d.Key, p.MinG, p.UsualG, p.MaxG, p.Name)
			}
		}
	}
}
