package web

import (
	"net/url"
	"slices"
	"strings"
	"testing"

	"rationwright/foods"
)

// wished is a form of wishes, as the page sends it, with changes.
func wished(changed url.Values) url.Values {
	form := url.Values{"days": {"14"}, "pets": {"0"}, "start": {"2026-01-05"}, "least": {"cost"}, "cook": {"boil"}, "stove": {"butane-cartridge"}, "standard": {"rda"}, "sizes": {"metric"}, "slack": {"3"}, "do": {"save"}}
	for key, v := range changed {
		form[key] = v
	}
	return form
}

// TestWishesReachTheRequest: what the form says of sizes, liking, washing water and ill
// people is what is asked for, and stands on the form when it is shown again.
func TestWishesReachTheRequest(t *testing.T) {
	x := serve(t, Options{})
	x.post(t, "/household", url.Values{"rows": {"2"}, "do": {"save"}, "p0.name": {"Maja"}, "p0.age_years": {"38"}, "p0.sex": {"f"}, "p1.name": {"Torleif"}, "p1.age_years": {"50"}, "p1.sex": {"m"}})
	_, page := x.post(t, "/wishes", wished(url.Values{"sizes": {"us"}, "slack": {"4,5 %"}, "washing": {"0,5"}, "ill": {"Torleif"}, "water_allowance": {"true"}}))
	if strings.Contains(page, `role="alert"`) {
		t.Fatalf("the form is refused:\n%s", page)
	}
	req, err := x.entered.request()
	if err != nil {
		t.Fatal(err)
	}
	if req.Table.Sizes() != foods.SizesUS || req.Slack != 0.045 || req.WashingL == nil || *req.WashingL != 0.5 || !slices.Equal(req.Ill, []string{"Torleif"}) || !req.Allowance {
		t.Errorf("sizes %s, slack %g, washing %v, ill %v, allowance %t", req.Table.Sizes(), req.Slack, req.WashingL, req.Ill, req.Allowance)
	}
	if p, err := x.shop().Pack("almond-butter-1000g-jar"); err != nil || slices.Contains(p.Food.Packs, p) {
		t.Error("the list of prices sells a pack of metric countries where the shop is in North America")
	}
	for _, want := range []string{`value="us" selected`, `name="slack" value="4.5"`, `name="washing" value="0.5"`, `name="ill" value="Torleif" checked`, `name="water_allowance" value="true" checked`} {
		if !strings.Contains(page, want) {
			t.Errorf("the form shown again has no %s", want)
		}
	}

	// Back to what is usual: nothing of it is left.
	x.post(t, "/wishes", wished(nil))
	req, err = x.entered.request()
	if err != nil {
		t.Fatal(err)
	}
	if req.Table.Sizes() != foods.SizesMetric || req.Slack != 0.03 || req.WashingL != nil || req.Ill != nil || req.Allowance {
		t.Errorf("sizes %s, slack %g, washing %v, ill %v, allowance %t", req.Table.Sizes(), req.Slack, req.WashingL, req.Ill, req.Allowance)
	}
}

// TestWishesRefused: what cannot be meant is refused in the words of the form, and
// nothing of the form is taken.
func TestWishesRefused(t *testing.T) {
	x := serve(t, Options{})
	_, page := x.post(t, "/wishes", wished(url.Values{"days": {"9"}, "slack": {"80"}, "washing": {"-1"}}))
	for _, want := range []string{"What it may cost more so that people like it", "Water for washing"} {
		if !strings.Contains(page, want+" ") && !strings.Contains(page, want+",") || !strings.Contains(page, `role="alert"`) {
			t.Errorf("nothing is said of %q", want)
		}
	}
	if x.entered.Options["days"] != "14" {
		t.Error("a part of a refused form was taken")
	}
	if _, page = x.post(t, "/wishes", wished(url.Values{"sizes": {"lunar"}})); !strings.Contains(page, `role="alert"`) || x.entered.Options["sizes"] != "" {
		t.Error("sizes that no shop has were taken")
	}
}

// TestIllLeaves: whoever is taken out of the household is no longer said to be ill.
func TestIllLeaves(t *testing.T) {
	x := serve(t, Options{})
	both := url.Values{"rows": {"2"}, "do": {"save"}, "p0.name": {"Maja"}, "p0.age_years": {"38"}, "p0.sex": {"f"}, "p1.name": {"Torleif"}, "p1.age_years": {"50"}, "p1.sex": {"m"}}
	x.post(t, "/household", both)
	x.post(t, "/wishes", wished(url.Values{"ill": {"Maja", "Torleif"}}))
	both.Set("remove", "1")
	x.post(t, "/household", both)
	if !slices.Equal(x.entered.Ill, []string{"Maja"}) {
		t.Errorf("ill: %v", x.entered.Ill)
	}
	if _, err := x.entered.request(); err != nil {
		t.Error(err)
	}
}
