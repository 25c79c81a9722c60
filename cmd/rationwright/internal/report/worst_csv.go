package report

import (
	"rationwright/cmd/rationwright/internal/facts"
	"rationwright/cmd/rationwright/internal/headline"
)

// worst writes the worst news as the first rows of t: everyone who is not fed,
// under who, and then the rest of the headline.
func worst(t *facts.Table, who string, news headline.News) {
	for _, x := range news.Refused {
		row := facts.Row{who: x.Name, "text": "THIS PLAN DOES NOT FEED " + x.Name + ": " + x.Reason}
		if t.Has("source") {
			row["source"] = x.Source
		}
		t.Add("refused", row)
	}
	for _, line := range news.Rest() {
		t.Add("headline", facts.Row{"text": line})
	}
}
