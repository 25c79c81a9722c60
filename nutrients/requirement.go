package nutrients

import "fmt"

// protein sets the larger of the requirement in g and in g per kg; by the EAR
// standard the g per kg alone, for which alone there is an EAR.
func (b *builder) protein() error {
	goal, kind, ok := b.d.goal(b.stage, "protein")
	if !ok {
		return fmt.Errorf("%w: no protein for %s", ErrStage, b.stage.Name)
	}
	perKg, perKgKind, ok := b.d.goal(b.stage, "protein_per_kg")
	if !ok {
		return fmt.Errorf("%w: no protein per kg for %s", ErrStage, b.stage.Name)
	}
	byWeight := func(f figure, kind string) *Limit {
		return f.limit(kind).with(f.Value*b.state.WeightKg, fmt.Sprintf("%g g per kg × %g kg", f.Value, b.state.WeightKg))
	}
	need := b.need(Protein)
	if b.p.AgeMonths >= onlyMilkBelow || b.p.WeightKg <= 0 { // what is only shown goes by the infant's own weight
		need.raise(goal.limit(kind))
	}
	need.raise(*byWeight(perKg, perKgKind))
	if b.p.AgeMonths >= olderFrom {
		need.raise(*byWeight(b.d.rule("older_adult_65y_and_over", "protein, healthy"), "expert group"))
	}
	need.Target = new(*need.Floor)
	if ear, ok := b.d.find(b.stage, "protein_per_kg", "EAR"); ok && b.o.Standard == StandardEAR {
		need.Floor = byWeight(ear, "EAR")
	}
	return nil
}

// floors sets the RDA, AI or EAR of every nutrient that has a column.
func (b *builder) floors() error {
	for _, n := range driColumns {
		goal, kind, ok := b.d.goal(b.stage, n.Name())
		if !ok {
			continue
		}
		goal, err := goal.inColumn(n)
		if err != nil {
			return err
		}
		target := goal.limit(kind)
		floor := target
		if ear, ok := b.d.find(b.stage, n.Name(), "EAR"); ok && b.o.Standard == StandardEAR {
			if ear, err = ear.inColumn(n); err != nil {
				return err
			}
			floor = ear.limit("EAR")
		}
		if n == Niacin {
			floor.Note = "a requirement in niacin equivalents, held against preformed niacin alone: the safe side"
		}
		if n == Fibre {
			if floor = fibreOfEnergy(floor, b.p, b.needs.EER.Amount); floor.Amount < target.Amount {
				b.needs.say(fmt.Sprintf("Fibre: at least %.1f g a day, %s.", floor.Amount, floor.Note),
					floor.Source+"; by the child's own energy: own planning rule", floor.Verified)
			}
		}
		need := b.need(n)
		need.Target, need.Floor = &target, &floor
	}
	return nil
}

// ceilings sets the ULs that count all of a nutrient, and sodium's CDRR.
func (b *builder) ceilings() {
	for _, n := range driColumns {
		if l := b.d.upperLevel(b.stage, n); l != nil {
			b.need(n).Ceiling = l
		}
	}
}

const retinolNote = "the UL of vitamin A counts preformed retinol alone"

// retinol sets the UL of vitamin A, which counts preformed retinol alone. It
// is a safety limit and stands in every standard.
func (b *builder) retinol() error {
	f, ok := b.d.find(b.stage, VitaminA.Name(), "UL")
	if !ok {
		return fmt.Errorf("%w: no UL of vitamin A for %s", ErrStage, b.stage.Name)
	}
	b.need(Retinol).Ceiling = f.limit("UL").with(f.Value, retinolNote)
	return nil
}
