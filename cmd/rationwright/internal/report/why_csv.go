package report

import (
	"rationwright/cmd/rationwright/internal/facts"
	"rationwright/cmd/rationwright/internal/headline"
	"rationwright/solver/why"
)

// WhyCSV writes prices as one flat table, one fact a row:
//
//	refused headline  the worst news of the plan
//	limit    what one unit more and one less of it change; no amount for a share of energy
//	pack     the price at which it enters or leaves
func WhyCSV(y *why.Why) *facts.Table {
	t := facts.New("section person limit unit amount side marginal more less no_more food ndb chosen in_plan factor pack price packs enters leaves price_unit text")
	worst(t, "person", headline.Of(y.NotFed))
	for i, l := range y.Limits {
		t.Each("limit", y.Limits[i:i+1], "person limit unit amount marginal more less no_more", facts.Row{"side": sideOf(&l), "price_unit": y.Unit})
	}
	for _, f := range y.Foods {
		t.Each("pack", f.Packs, "pack price packs=chosen enters leaves", facts.Row{"food": f.Food, "ndb": f.NDB, "chosen": f.Chosen, "in_plan": f.InPlan, "factor": f.Factor, "price_unit": y.Unit})
	}
	return t
}
