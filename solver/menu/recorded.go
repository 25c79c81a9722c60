package menu

import (
	"context"

	"rationwright/foods"
	"rationwright/foods/dishes"
	"rationwright/solver/ration"
)

// BookOf returns the dishes of a request: those of the program, bound to its table, and
// the user's own that it carries.
func BookOf(req *ration.Request) (*dishes.Book, error) {
	book, err := dishes.Load(req.Table)
	if err != nil || req.Files.Dishes == nil {
		return book, err
	}
	_, err = book.Read("plan: dishes", foods.FromRows(req.Files.Dishes), "plan: dish_parts", foods.FromRows(req.Files.DishParts))
	return book, err
}

// Of returns the menu of p, the plan of req: that which it was made with, if it breaks no
// rule of safety, or else one made for it.
func Of(ctx context.Context, p *ration.Plan, req *ration.Request) (*Menu, error) {
	book, err := BookOf(req)
	if err != nil {
		return nil, err
	}
	if p.Menu != nil {
		_, err := safe(p.Menu, p, req, book)
		return p.Menu, err
	}
	return Make(ctx, &Request{Plan: p, Of: req, Book: book, FromDay: 1})
}
