package withmenu_test

import (
	"context"
	"encoding/json"
	"testing"

	"rationwright/nutrients"
	"rationwright/solver/menu"
	"rationwright/solver/menucheck"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
	"rationwright/solver/withmenu"
)

// What a medicine asks to keep alike from day to day (FDA label of warfarin and clinical
// practice, data/medicines.csv) stays within three tenths of its mean (own planning rule)
// on the days of a menu that is made with its plan, by the check that shares nothing
// with what made it; one day that finishes a can may go a tenth beyond.
func TestMedicinesAreSteadyFromDayToDay(t *testing.T) {
	for _, c := range []struct {
		name      string
		age       int
		condition nutrients.Condition
	}{
		{"warfarin", 82, nutrients.Warfarin}, {"a medicine that spares potassium", 70, nutrients.PotassiumSparing}, {"lithium", 45, nutrients.Lithium},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := rationtest.Adult("Borghild", c.age, nutrients.Female)
			p.Conditions = []nutrients.Condition{c.condition}
			req := &ration.Request{People: []nutrients.Person{p}, Table: rationtest.Table(t), Start: "2026-01-05", WithMenu: true, Least: ration.LeastCost, Slack: 0.03}
			book, err := menu.BookOf(req)
			if err != nil {
				t.Fatal(err)
			}
			plan, err := withmenu.Make(context.Background(), req, book, nil)
			if err != nil || plan.Menu == nil {
				t.Fatalf("no plan with its menu: %v", err)
			}
			text, err := json.Marshal(plan.Menu)
			if err != nil {
				t.Fatal(err)
			}
			found, err := menucheck.Check(text, plan, ration.Filled(req), book)
			if err != nil {
				t.Fatal(err)
			}
			off := 0
			for _, f := range found {
				if f.Rule != menucheck.Steady {
					continue
				}
				if off++; off > 1 || f.Amount > menucheck.SteadyRoom+0.1 {
					t.Error(f)
				}
			}
		})
	}
}
