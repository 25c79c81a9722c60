package report

import (
	"fmt"
	"strconv"
	"strings"

	"rationwright/cmd/rationwright/internal/facts"
	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/foods"
	"rationwright/nutrients"
)

// FoodList lays out the packs of list, shop group by shop group.
func FoodList(list []*foods.Food, groups []string, u sheet.Units) *sheet.Sheet {
	g := sheet.NewGrid("~food", "NDB", "=pack", ">holds", ">price", "~allergens")
	invented := false
	for _, group := range groups {
		for _, f := range list {
			if f.Group != group {
				continue
			}
			name, ndb, allergens := f.Name, ndbOf(f), strings.Join(f.Allergens, "; ")
			for _, k := range f.Packs {
				price := ""
				if k.HasPrice {
					price, invented = sheet.Money(k.Price), invented || k.Invented
				}
				g.Row(group, name, ndb, k.Key, u.Net(k.NetG), price, allergens)
				name, ndb, allergens = "", "", "" // a food with several packs is named once
			}
			if len(f.Packs) == 0 {
				g.Row(group, name, ndb, "", "", "", allergens)
			}
		}
	}
	sec := sheet.Section{Table: g}
	sec.Notes.If(invented, "Prices are invented for the demo; your own go in a file for --prices.")
	sec.Notes = append(sec.Notes, "\"holds\" is what is eaten of one pack. A makers' label may name further allergens: the label rules.")
	return &sheet.Sheet{Sections: []sheet.Section{sec}}
}

// ndbOf is the NDB number, "" for a row that USDA does not have.
func ndbOf(f *foods.Food) string {
	if f.Computed {
		return ""
	}
	return f.NDB
}

// FoodListCSV writes one row a pack. Allergens are the words of household.csv
// between semicolons.
func FoodListCSV(list []*foods.Food) *facts.Table {
	t := facts.New("food ndb group pack net_g price allergens kinds currency price_invented label_g gross_g volume_l container form basis texture")
	for _, f := range list {
		for _, k := range f.Packs {
			row := facts.Row{"ndb": ndbOf(f), "group": f.Group, "pack": k.Key, "net_g": k.NetG, "allergens": strings.Join(f.Allergens, ";"), "kinds": strings.Join(f.Kinds, ";"),
				"label_g": k.LabelG, "gross_g": k.GrossG, "volume_l": k.VolumeL, "container": k.Container, "form": f.Form, "basis": f.Basis, "texture": f.Texture}
			if k.HasPrice {
				row["price"], row["currency"], row["price_invented"] = k.Price, k.Currency, k.Invented
			}
			t.Add(f.Name, row)
		}
	}
	return t
}

type packJSON struct {
	Pack     string   `json:"pack"`
	NetG     float64  `json:"net_g"`
	LabelG   float64  `json:"label_g"`
	GrossG   float64  `json:"gross_g"`
	VolumeL  float64  `json:"volume_l"`
	Price    *float64 `json:"price,omitempty"`
	Currency string   `json:"currency,omitempty"`
	Invented bool     `json:"price_invented,omitempty"`
}

type foodJSON struct {
	Food        string             `json:"food"`
	NDB         string             `json:"ndb,omitempty"`
	Description string             `json:"description"`
	Group       string             `json:"group"`
	Form        string             `json:"form"`
	Basis       string             `json:"basis"`
	Allergens   []string           `json:"allergens,omitempty"`
	MayContain  []string           `json:"may_contain,omitempty"`
	Texture     string             `json:"texture,omitempty"`
	Tags        []string           `json:"tags,omitempty"`
	Kinds       []string           `json:"kinds,omitempty"`
	Per100g     map[string]float64 `json:"per_100_g,omitempty"`
	Unknown     []string           `json:"unknown,omitempty"`
	Packs       []packJSON         `json:"packs,omitempty"`
	Source      string             `json:"source"`
}

// FoodsJSON writes {"foods": […]}, with the composition of each food if full.
func FoodsJSON(list []*foods.Food, full bool) any {
	return struct {
		Foods []foodJSON `json:"foods"`
	}{foodsJSON(list, full)}
}

func foodsJSON(list []*foods.Food, full bool) []foodJSON {
	all := make([]foodJSON, 0, len(list))
	for _, f := range list {
		j := foodJSON{Food: f.Name, NDB: ndbOf(f), Description: f.Description, Group: f.Group, Form: f.Form, Basis: f.Basis,
			Allergens: f.Allergens, MayContain: f.MayContain, Texture: f.Texture, Tags: f.Tags, Kinds: f.Kinds, Source: marked(f.Source, f.Verified)}
		if full {
			j.Per100g = map[string]float64{}
			for n := range nutrients.Count {
				if v, known := f.Per100g.Get(n); known {
					j.Per100g[n.Column()] = v
				} else {
					j.Unknown = append(j.Unknown, n.Column())
				}
			}
		}
		for _, k := range f.Packs {
			p := packJSON{Pack: k.Key, NetG: k.NetG, LabelG: k.LabelG, GrossG: k.GrossG, VolumeL: k.VolumeL}
			if k.HasPrice {
				p.Price, p.Currency, p.Invented = &k.Price, k.Currency, k.Invented
			}
			j.Packs = append(j.Packs, p)
		}
		all = append(all, j)
	}
	return all
}

// Food lays out all that is known of one food.
func Food(f *foods.Food, u sheet.Units) *sheet.Sheet {
	s := &sheet.Sheet{}
	head := f.Name
	if !f.Computed {
		head += ", NDB " + f.NDB
	}
	s.Add(sheet.Section{Title: head, Lead: describe(f)})
	s.Add(composition(f))
	s.Add(packsOf(f, u))
	s.Add(keepingOf(f))
	s.Add(preparationOf(f))
	s.Add(sheet.Section{Title: "Sources", Lead: sourcesOf(f)})
	return s
}

// describe says what the food is and who must leave it.
func describe(f *foods.Food) []string {
	lines := sheet.Lines{sheet.Sentence(f.Description)}
	lines.Say("Shop group: %s. All figures are for 100 g %s.", f.Group, f.Basis)
	lines.If(f.Computed && !f.Own, "This is not a USDA row: put the figures of your own label in a file for --foods.")
	lines.If(len(f.Kinds) > 0, "Kinds: %s.", strings.Join(f.Kinds, ", "))
	lines.If(len(f.Allergens) > 0, "Allergens: %s.", strings.Join(f.Allergens, ", "))
	lines.If(len(f.MayContain) > 0, "Some makers' packs also hold: %s.", strings.Join(f.MayContain, ", "))
	lines.If(f.Texture != "", "Texture: %s.", f.Texture)
	lines.If(f.Mercury != "", "Mercury class of the fish: %s.", f.Mercury)
	lines.If(len(f.Companions) > 0, "Eaten only with: %s.", strings.Join(f.Companions, ", "))
	lines.If(len(f.Tags) > 0, "Marks that decide who may eat it: %s.", strings.Join(f.Tags, ", "))
	lines.If(f.GI > 0, "Glycaemic index %s (%s).", sheet.Decimals(f.GI, 0), f.GIClass)
	for _, v := range f.Serves {
		lines = append(lines, fmt.Sprintf("Counts %s towards %s.", sheet.Amount(v.Per100g), v.Group))
	}
	if f.DayG > 0 {
		lines = append(lines, sheet.Sentence(fmt.Sprintf("An adult eats at most %s g at a time and %s g a day (%s)", sheet.Decimals(f.OccasionG, 0), sheet.Decimals(f.DayG, 0), f.CapSource)))
	}
	lines.If(f.Note != "", "%s", sheet.Sentence(f.Note))
	return lines
}

// composition is the row of the food table; a missing figure is said to be
// missing.
func composition(f *foods.Food) sheet.Section {
	g := sheet.NewGrid("nutrient", ">in 100 g", "unit")
	missing := 0
	for n := range nutrients.Count {
		v, known := f.Per100g.Get(n)
		if !known {
			missing++
			g.Row("", sheet.Nutrient(n.Name()), "unknown", n.Unit())
			continue
		}
		g.Row("", sheet.Nutrient(n.Name()), strconv.FormatFloat(v, 'f', -1, 64), n.Unit())
	}
	sec := sheet.Section{Title: "Composition", Table: g}
	sec.Notes.If(missing > 0, "Unknown is not zero: it counts nothing towards a need and is marked against a ceiling.")
	sec.Notes.If(f.AddedRule != "", "%s", sheet.Sentence("added sugars: "+f.AddedRule))
	return sec
}

func packsOf(f *foods.Food, u sheet.Units) sheet.Section {
	g := sheet.NewGrid("=pack", ">label", ">eaten of it", ">full weight", ">shelf", ">price", "~basis")
	for _, k := range f.Packs {
		price := ""
		if k.HasPrice {
			price = sheet.Money(k.Price) + " " + k.Currency
			if k.Invented {
				price += " (invented)"
			}
		}
		g.Row("", k.Key, u.Net(k.LabelG), u.Net(k.NetG), u.Net(k.GrossG), u.PackSpace(k.VolumeL), price, k.Basis)
	}
	return sheet.Section{Title: "Packs", Table: g}
}

func keepingOf(f *foods.Food) sheet.Section {
	k := f.Keeping
	if k == nil {
		return sheet.Section{}
	}
	sec := sheet.Section{Title: "Keeping"}
	switch {
	case k.UseByMonths > 0:
		sec.Lead = append(sec.Lead, fmt.Sprintf("Unopened: use within %s months at 21 °C.", sheet.Decimals(k.UseByMonths, 0)))
	default:
		sec.Lead = append(sec.Lead, "Unopened: the date on the label rules.")
	}
	sec.Lead.If(k.LabelDateBinds, "The date on the label binds.")
	sec.Lead.If(k.AfterOpenHours > 0, "Opened, without refrigeration: %s (%s).", openTime(k.AfterOpenHours), k.AfterOpenBasis)
	sec.Lead.If(k.MaxStorageC > 0, "Store below %s °C.", sheet.Decimals(k.MaxStorageC, 0))
	return sec
}

// openTime writes the hours that an opened pack keeps, in days from two days
// on.
func openTime(hours float64) string {
	if hours >= 48 {
		return sheet.Decimals(hours/24, 0) + " days"
	}
	return sheet.Figure(hours) + " hours"
}

func preparationOf(f *foods.Food) sheet.Section {
	p := f.Preparation
	if p == nil {
		return sheet.Section{}
	}
	sec := sheet.Section{Title: "Preparation", Lead: []string{fmt.Sprintf("Cooking: %s.", p.Class)}}
	sec.Lead.If(p.ColdOK, "May be eaten cold.")
	sec.Lead.If(p.WaterML > 0, "For 100 g: %s mL water, of which %s mL is eaten or drunk.", sheet.Decimals(p.WaterML, 0), sheet.Decimals(p.EatenML, 0))
	sec.Lead.If(p.SimmerMin > 0, "Simmers for %s minutes.", sheet.Decimals(p.SimmerMin, 0))
	sec.Lead.If(p.HeatMJ > 0, "Takes %s MJ of useful heat for 100 g.", sheet.Decimals(p.HeatMJ, 3))
	return sec
}

// sourcesOf lists each source once, with what it is for.
func sourcesOf(f *foods.Food) []string {
	lines := []string{"- " + sheet.Sourced("composition", marked(f.Source, f.Verified))}
	if f.Keeping != nil {
		lines = append(lines, "- "+sheet.Sourced("keeping", marked(f.Keeping.Source, f.Keeping.Verified)))
	}
	if f.Preparation != nil {
		lines = append(lines, "- "+sheet.Sourced("preparation", marked(f.Preparation.Source, f.Preparation.Verified)))
	}
	for _, k := range f.Packs {
		lines = addOnce(lines, "- "+sheet.Sourced("pack "+k.Container, marked(k.Source, k.Verified)))
	}
	return lines
}
