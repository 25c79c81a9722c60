package synthetic

import (
	"bytes"
	_ "embed"
	"math/rand/v2"
	"sync"

	"rationwright/nutrients/table"
)

//go:embed data/shares.csv
var sharesCSV []byte

// share is how many of those of an age and sex are or have something.
type share struct {
	word        string
	percent     float64
	from, below int    // years
	sex         string // "" both
}

// The words of the column draw. Of the first kind one is drawn for each household or
// person; of the second each may be there or not.
const (
	drawSize      = "size"
	drawAlone     = "alone"
	drawPair      = "pair"
	drawFamily    = "family"
	drawFeeding   = "feeding"
	drawState     = "state"
	drawActivity  = "activity"
	drawBody      = "body"
	drawCondition = "condition"
	drawAllergy   = "allergy"
	drawDislike   = "dislike"
)

var draws = []string{drawSize, drawAlone, drawPair, drawFamily, drawFeeding, drawState, drawActivity, drawBody, drawCondition, drawAllergy, drawDislike}

// shares are the shares by what is drawn, in the order of the table.
var shares = sync.OnceValues(func() (map[string][]share, error) {
	t, err := table.Read("synthetic/data/shares.csv", bytes.NewReader(sharesCSV), []table.Column{
		{Name: "draw", Presence: table.Filled}, {Name: "word", Presence: table.Filled}, {Name: "percent", Presence: table.Filled},
		{Name: "from_years"}, {Name: "below_years"}, {Name: "sex"}, {Name: "source", Presence: table.Filled}, {Name: "verified", Presence: table.Filled},
	})
	if err != nil {
		return nil, err
	}
	all := map[string][]share{}
	for _, row := range t.Rows {
		s := share{word: row.Text("word"), sex: row.Text("sex"), below: 200}
		s.percent, _ = row.Float("percent", 0, 100)
		s.from, _ = row.Int("from_years", 0, 200)
		if v, ok := row.Int("below_years", 0, 200); ok {
			s.below = v
		}
		what := row.Choice("draw", draws...)
		all[what] = append(all[what], s)
	}
	return all, t.Err()
})

// fits reports whether the share is about a person.
func (s *share) fits(years int, sex string) bool {
	return years >= s.from && years < s.below && (s.sex == "" || s.sex == sex)
}

// pick draws one word by the shares of those that fit; "" for the rest to 100 %.
func pick(rng *rand.Rand, list []share, years int, sex string) string {
	at := 100 * rng.Float64()
	for _, s := range list {
		if !s.fits(years, sex) {
			continue
		}
		if at -= s.percent; at < 0 {
			return s.word
		}
	}
	return ""
}

// each draws every word that fits by its own share.
func each(rng *rand.Rand, list []share, years int, sex string) (words []string) {
	for _, s := range list {
		if s.fits(years, sex) && 100*rng.Float64() < s.percent {
			words = append(words, s.word)
		}
	}
	return words
}
