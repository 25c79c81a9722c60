package solver

import (
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// advise notes what the household file leaves open and the plan cannot settle
// unasked.
func (r *Ration) advise() {
	if !r.Request.EasyOpen && olderOnly(r.Request.People) {
		r.notes = append(r.notes, "everyone here who opens packs is 65 or over: "+
			"with --easy-open the plan holds only packs that weak hands can open and lift")
	}
	if r.Request.EasyOpen {
		r.notes = append(r.notes, "the containers of stored water are too heavy for weak hands: "+
			"have them set where water can be drawn off, or use smaller ones")
	}
	nursing := false
	for _, p := range r.Request.People {
		nursing = nursing || p.Lactating()
	}
	for _, e := range r.eaters {
		if feed := e.needs.Feed; feed != nil && feed.HumanMilkML != nil && !nursing {
			r.notes = append(r.notes, e.person.Name+" is breast-fed, but nobody here is entered as breast-feeding: write "+
				string(nutrients.Lactating1)+" or "+string(nutrients.Lactating2)+" as the state of the mother, "+
				"so that she gets the food and water that the milk takes")
		}
	}
}

// adviseSupplements says what to do about vitamins that the plan leaves short.
func adviseSupplements(shortfalls []ration.Shortfall) []string {
	if len(shortfalls) == 0 {
		return nil
	}
	return []string{"vitamins A, D and B12 are stored in the body, so the plan is made although it is short of them; " +
		"ask a pharmacist or a clinician about a supplement"}
}
