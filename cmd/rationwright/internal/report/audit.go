package report

import (
	"fmt"

	"rationwright/cmd/rationwright/internal/facts"
	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/solver/ration"
)

// audit says what the second look at the proof found; nothing when none was
// asked for.
func audit(p *ration.Plan) sheet.Section {
	a := p.Audit
	if a == nil {
		return sheet.Section{}
	}
	g := sheet.NewGrid("~relaxation of", ">here", ">referee", "~verdict")
	for _, o := range a.Opinions {
		here, there, verdict := "", "", "the same"
		if o.Engine != 0 {
			here = fmt.Sprintf("%.6f", o.Engine)
		}
		if o.Referee != 0 {
			there = fmt.Sprintf("%.6f", o.Referee)
		}
		switch {
		case there != "" && !o.Agree:
			verdict = "DIFFERENT"
		case there == "":
			verdict = "no second figure"
		}
		g.Row("", facts.Printable(o.What), here, there, verdict+sheet.Around("; ", o.Remark, ""))
	}
	sec := sheet.Section{
		Title: "The proof, gone through again", Table: g,
		Lead: []string{"The relaxation allows parts of packs. The referee is a second solver that shares nothing with ours."},
	}
	if a.Proof == nil {
		return sec
	}
	sec.Notes = proofLines(a.Proof)
	return sec
}

// proofLines tells the proof in plain words.
func proofLines(p *ration.Proof) []string {
	is := func(ok bool, yes, no string) string {
		if ok {
			return yes
		}
		return no
	}
	lines := []string{
		is(p.ValueOK, "The plan found keeps every row of the model and has the value stated.",
			"NOT CONFIRMED: the plan found does not keep every row of the model, or not at the value stated."),
		is(p.RootOK, fmt.Sprintf("The bound of the relaxation comes to %.6f again, from the original rows, rounded outward.", p.RootBound),
			fmt.Sprintf("NOT CONFIRMED: the bound of the relaxation comes to %.6f only.", p.RootBound)),
		fmt.Sprintf("%d of %d tightened bounds derived again.", p.ReductionsOK, p.Reductions),
		fmt.Sprintf("%d of the %d cuts that the proof uses derived again from their multipliers; %d are trusted.", p.CutsDerived, p.Cuts, p.CutsTrusted),
		fmt.Sprintf("%d of the %d parts of the search confirmed from their stored prices; the parts %s.", p.PartsOK, p.Parts,
			is(p.Covered, "leave nothing out", "DO NOT cover everything")),
		is(p.BoundOK, fmt.Sprintf("Together they prove %.6f: the bound stated is confirmed.", p.Bound),
			fmt.Sprintf("NOT CONFIRMED: together they prove %.6f only.", p.Bound)),
	}
	for _, u := range p.Unconfirmed {
		lines = append(lines, "Not confirmed: "+u+".")
	}
	return lines
}
