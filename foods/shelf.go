package foods

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"rationwright/foods/shelflist"
	"rationwright/nutrients/table"
)

// shelfItem is a line of a shelf list with what it was taken for: packs, or what is
// no food.
type shelfItem struct {
	shelflist.Item
	pack   *Pack
	supply *Supply
	amount float64  // of the supply, in its unit
	other  []string // foods that the words could also have meant
	traces []string // allergens that these may hold, and the food itself does not
}

// said says in words what the line was taken for.
func (it *shelfItem) said(written string) string {
	if it.supply != nil {
		return fmt.Sprintf("%q is taken for %g %s of %s", written, it.amount, it.supply.Unit, it.supply.What)
	}
	s := fmt.Sprintf("%q is taken for %d × %s: %s, %.0f g eaten of each", written, it.Count, it.pack.Key, it.pack.Food.Name, it.pack.NetG)
	if len(it.other) > 0 {
		s += "; it could also be " + table.OrList(it.other)
	}
	if len(it.traces) > 0 {
		s += "; look at the label for " + strings.Join(it.traces, " and ")
	}
	return s
}

// onShelf finds what a line of a shelf list means. The error is a [*shelflist.Fault],
// or one about the name, see [NameFault].
func onShelf(t *Table, line string) (*shelfItem, error) {
	read, err := shelflist.Parse(line)
	if err != nil {
		return nil, err
	}
	it := &shelfItem{Item: read}
	if it.supply = t.supply(strings.ReplaceAll(read.Food, " ", "-")); it.supply != nil {
		return it, it.goods()
	}
	f, err := it.food(t)
	if err != nil {
		return nil, err
	}
	if it.pack, err = it.packOf(t, f); err != nil {
		return nil, err
	}
	if it.Part < 1 {
		it.pack = partOfPack(it.pack, it.Part)
	}
	return it, nil
}

// goods measures what is no food.
func (it *shelfItem) goods() error {
	it.amount = float64(it.Count) * it.Part
	switch litres := it.supply.Unit == "L"; {
	case litres && it.Unit == "mL":
		it.amount *= it.Size / 1000
	case litres:
		return &shelflist.Fault{Err: errors.New("not said how many litres"), Fix: "write the litres: 4 x 5 l water"}
	case it.Size > 0:
		return &shelflist.Fault{Err: fmt.Errorf("%s is counted in %s", it.supply.What, it.supply.Unit), Fix: "write how many of these there are"}
	}
	return nil
}

// food resolves the words of the line. The container narrows what they can mean (a
// tin of chickpeas is not a bag of dry ones); after that the plain form of data/usual.csv
// is meant, or else it must be asked.
func (it *shelfItem) food(t *Table) (*Food, error) {
	var m *Meaning
	err := ErrUnknown // until it is found
	if it.Container == "can" {
		m, err = t.Resolve("canned " + it.Food)
	}
	if err != nil {
		m, err = t.Resolve(it.Food)
	}
	if err != nil {
		return nil, err
	}
	among := m.Foods
	if it.Container != "" {
		in := slices.DeleteFunc(slices.Clone(among), func(f *Food) bool { return !soldIn(t, f, it.Container) })
		if len(in) > 0 {
			among = in
		}
	}
	kind := m.Name
	if len(among) < len(m.Foods) { // the smallest kind that holds what is left may have a plain form
		for _, name := range among[0].Kinds {
			if usual := usualOf(name, among); usual != nil {
				kind = name
				break
			}
		}
	}
	if len(among) == 1 {
		return among[0], nil
	}
	if usual := usualOf(kind, among); usual != nil {
		for _, f := range among {
			if f != usual {
				it.other = append(it.other, f.Name)
			}
		}
		it.traces = tracesBeyond(usual, among)
		return usual, nil
	}
	ambiguous := &AmbiguousError{Name: it.Food, Choices: foodNames(among)}
	const most = 6
	if more := len(ambiguous.Choices) - most; more > 0 {
		ambiguous.Choices, ambiguous.Note = ambiguous.Choices[:most], fmt.Sprintf("and %d more", more)
	}
	return nil, ambiguous
}

// soldIn reports whether the table has a pack of f in such a container.
func soldIn(t *Table, f *Food, container string) bool {
	return slices.ContainsFunc(t.Packs, func(p *Pack) bool {
		return p.Food == f && slices.Contains(containerWords[container], containerOf(p))
	})
}

// sameSize is how near a size must be to that of a pack of the table to be it: labels
// in ounces are rounded to whole grams, of 100 g and more.
const sameSize = 0.01

// packOf returns the pack of the table that the line means, or one of the size that
// it says.
func (it *shelfItem) packOf(t *Table, f *Food) (*Pack, error) {
	packs := packsOf(t, f, it.Container)
	if it.Size <= 0 {
		return onlyPack(f, packs)
	}
	grams := it.Size
	if it.Unit == "mL" {
		density, ok := t.looseDensity(f, "")
		if !ok {
			for _, p := range packs { // a liquid, sold by volume and weighed in the table
				if p.LabelG >= grams && p.LabelG <= wetDensity*grams {
					return p, nil
				}
			}
			return nil, &shelflist.Fault{Err: fmt.Errorf("what a litre of %s weighs is not in the table", f.Name), Fix: "write the grams of a pack"}
		}
		grams *= density
	}
	size := func(p *Pack) float64 {
		if it.Drained {
			return p.NetG
		}
		return p.LabelG
	}
	for _, p := range packs {
		if math.Abs(size(p)-grams) <= sameSize*grams {
			return p, nil
		}
	}
	if it.Drained && len(packs) > 0 {
		grams *= packs[0].LabelG / packs[0].NetG
	}
	return sizedPack(t, f, grams, it.Container), nil
}

// onlyPack is the pack of a food that is sold in one size; where there are several
// the size must be asked.
func onlyPack(f *Food, packs []*Pack) (*Pack, error) {
	sold := slices.DeleteFunc(slices.Clone(packs), func(p *Pack) bool { return !slices.Contains(f.Packs, p) })
	if len(sold) == 0 {
		sold = packs
	}
	slices.SortStableFunc(sold, func(a, b *Pack) int { return cmp.Compare(a.LabelG, b.LabelG) })
	if len(sold) == 1 {
		return sold[0], nil
	}
	var sizes []string
	for _, p := range sold {
		if s := fmt.Sprintf("%.0f g", p.LabelG); !slices.Contains(sizes, s) {
			sizes = append(sizes, s)
		}
	}
	what := "not said how much is in a pack of " + f.Name
	if len(sizes) > 0 {
		what += "; shops sell " + strings.Join(sizes, ", ")
	}
	return nil, &shelflist.Fault{Err: errors.New(what), Fix: "write the grams of one pack"}
}

// partOfPack is what is left of an open pack: its box and container stay.
func partOfPack(p *Pack, part float64) *Pack {
	left := *p
	left.NetG, left.LabelG = p.NetG*part, p.LabelG*part
	left.GrossG = left.LabelG + p.TareG
	left.Key = fmt.Sprintf("%s-%sg-left%s", strings.TrimSuffix(p.Key, ownSuffix), plainGrams(left.LabelG), ownSuffix)
	left.Own, left.HasPrice, left.Price = true, false, 0
	left.Note = "what is left of an open pack; " + cmp.Or(p.Note, "of "+p.Key)
	return &left
}

// isShelfLine reports whether the text of a pack cell is a line of a shelf list and no
// key: keys hold no blank.
func isShelfLine(text string) bool { return strings.ContainsAny(text, " \t") }

// shelfLine reads the row of a shelf list into line, or adds it to the goods of s.
// count is that of the cell beside it, counted that the cell is sound.
func (s *Stock) shelfLine(t *Table, row *table.Row, line StockLine, count float64, counted bool) (StockLine, bool) {
	written := row.Text("pack")
	it, err := onShelf(t, written)
	if err != nil {
		failShelf(row, err)
		return line, false
	}
	if row.Has("count") {
		switch {
		case !counted || !whole(row, count):
			return line, false
		case it.Counted:
			row.Fail("count", errors.New("the line says a count too"), "leave one of them")
			return line, false
		}
		it.Count = int(count)
		it.amount *= count
	}
	if it.BestBefore != "" {
		if row.Has("best_before") {
			row.Fail("best_before", errors.New("the line says a date too"), "leave one of them")
			return line, false
		}
		line.BestBefore = it.BestBefore
	}
	line.Taken = it.said(written)
	s.Taken = append(s.Taken, line.Taken)
	if it.supply != nil {
		s.addGoods(it.supply, it.amount, line)
		return line, false
	}
	line.Pack, line.Count = it.pack, float64(it.Count)
	return line, true
}

// failShelf records why a line of a shelf list is not understood.
func failShelf(row *table.Row, err error) {
	fault := (*shelflist.Fault)(nil)
	if errors.As(err, &fault) {
		row.Fail("pack", fault.Err, fault.Fix)
		return
	}
	if unknown := (*UnknownError)(nil); errors.As(err, &unknown) && row.Crowded() {
		row.Fail("pack", fmt.Errorf("no food is called %q", unknown.Name), "see foods list for what there is")
		return
	}
	if what, fix, ok := NameFault(err); ok {
		row.Fail("pack", errors.New(what), fix)
		return
	}
	row.Fail("pack", err, "write as 6 tins of sardines, 120 g")
}
