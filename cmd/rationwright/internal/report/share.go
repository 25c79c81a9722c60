package report

import (
	"fmt"
	"strconv"

	"rationwright/cmd/rationwright/internal/facts"
	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/solver/ration"
)

// Shared is how a common store is shared, as it is written.
type Shared struct {
	Stopped    string         `json:"stopped,omitempty"`
	Level      float64        `json:"level"` // the part of every need that the household served worst gets
	LevelBound float64        `json:"level_bound"`
	LevelGap   float64        `json:"level_gap"`
	Cost       float64        `json:"cost"` // of all together, water and fuel counted in
	Bound      float64        `json:"bound"`
	Gap        float64        `json:"gap"`
	Currency   string         `json:"currency"`
	Households []SharedTo     `json:"households"`
	Left       []SharedRemain `json:"left"` // of the stock
}

// SharedTo is what one household gets.
type SharedTo struct {
	ID         string             `json:"id"`
	Exit       int                `json:"exit"`
	Totals     *ration.Totals     `json:"totals,omitempty"`
	Packs      []ration.PlanPack  `json:"packs,omitempty"`
	Shortfalls []ration.Shortfall `json:"shortfalls,omitempty"`
	Refused    []ration.Refused   `json:"refused,omitempty"`
	Errors     []string           `json:"errors,omitempty"`
}

// SharedRemain is what is left of one line of the stock.
type SharedRemain struct {
	Pack  string `json:"pack"`
	Food  string `json:"food"`
	Count int    `json:"count"`
}

// Share lays out who gets what.
func Share(s *Shared, u sheet.Units) *sheet.Sheet {
	out := &sheet.Sheet{}
	short, apart := 0, 0
	hand := sheet.NewGrid("=pack", "~food", ">from the stock", ">to buy", ">cost")
	for _, h := range s.Households {
		for _, r := range h.Refused {
			out.Alerts = append(out.Alerts, fmt.Sprintf("%s DOES NOT FEED %s: %s", h.ID, r.Name, r.Reason))
		}
		if h.Totals == nil {
			apart++
			for _, e := range h.Errors {
				out.Alerts = append(out.Alerts, fmt.Sprintf("%s gets nothing here: %s", h.ID, e))
			}
			continue
		}
		if len(h.Shortfalls) > 0 {
			short++
		}
		for _, k := range h.Packs {
			hand.Row(h.ID, k.Pack, k.Food, strconv.Itoa(k.FromStock), strconv.Itoa(k.Count-k.FromStock), sheet.Money(k.Cost))
		}
	}
	lead := sheet.Lines{
		fmt.Sprintf("%s share. The household that is served worst gets %s %% of all that its people need; it is proven that no way of sharing gives it more than %s %% (gap %s).",
			sheet.Count(len(s.Households)-apart, "household", "households"), sheet.Percent(s.Level), sheet.Percent(s.LevelBound), sheet.GapPercent(s.LevelGap)),
		fmt.Sprintf("All together spend %s %s, water and fuel included; to serve everyone as well cannot cost less than %s (gap %s).%s",
			sheet.Money(s.Cost), s.Currency, sheet.Money(s.Bound), sheet.GapPercent(s.Gap), sheet.Around(" (", s.Stopped, ")")),
		"However short the store, nothing is taken from milk for infants, water to drink, what is set aside against a low blood sugar and a clinician's orders; allergies and upper limits hold.",
	}
	lead.If(short > 0, "%s short of something; --format json says of what. Where food is short, ask the local authorities and the health service.", sheet.Count(short, "household is", "households are"))
	out.Add(sheet.Section{Title: "How the store is shared", Lead: lead})
	out.Add(sheet.Section{Title: "To hand out and to buy", Table: hand})
	left := sheet.NewGrid("=pack", "~food", ">left")
	for _, l := range s.Left {
		if l.Count > 0 {
			left.Row("", l.Pack, l.Food, strconv.Itoa(l.Count))
		}
	}
	out.Add(sheet.Section{Title: "Left in the store", Table: left})
	return out
}

// ShareCSV is the same as one flat table, a row for each pack of each household.
func ShareCSV(s *Shared) *facts.Table {
	t := facts.New("row household pack food ndb from_stock to_buy cost currency weight_kg level level_bound bound water_l text")
	t.Add("all", facts.Row{"cost": s.Cost, "currency": s.Currency, "level": s.Level, "level_bound": s.LevelBound, "bound": s.Bound})
	t.AddIf(s.Stopped != "", "stopped", facts.Row{"text": s.Stopped})
	for _, h := range s.Households {
		for _, e := range h.Errors {
			t.Add("apart", facts.Row{"household": h.ID, "text": e})
		}
		for _, r := range h.Refused {
			t.Add("refused", facts.Row{"household": h.ID, "text": r.Name + ": " + r.Reason})
		}
		if h.Totals == nil {
			continue
		}
		t.Add("household", facts.Row{"household": h.ID, "cost": h.Totals.Cost, "currency": s.Currency, "weight_kg": h.Totals.WeightKg, "water_l": h.Totals.WaterL})
		for _, k := range h.Packs {
			t.Add("pack", facts.Row{
				"household": h.ID, "pack": k.Pack, "food": k.Food, "ndb": k.NDB, "from_stock": k.FromStock, "to_buy": k.Count - k.FromStock,
				"cost": k.Cost, "currency": s.Currency, "weight_kg": k.WeightKg,
			})
		}
		for _, short := range h.Shortfalls {
			t.Add("short", facts.Row{"household": h.ID, "text": fmt.Sprintf("%s: %s %.4g of %.4g %s", short.Person, short.Nutrient, short.Amount, short.Target, short.Unit)})
		}
	}
	for _, l := range s.Left {
		t.Add("left", facts.Row{"pack": l.Pack, "food": l.Food, "from_stock": l.Count})
	}
	return t
}
