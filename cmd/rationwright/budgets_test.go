package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// Where the budgets and tolerances of a package of the solver stand, and how such a
// constant is called.
var (
	budgetFiles = []string{"budgets.go", "tolerance.go", "parameters.go"}
	budgetName  = regexp.MustCompile(`(Work|Gap|Tol|Tolerance|Rounds|Iterations)$`)
)

// TestBudgetsStandTogether: a reader who asks why a search ends, or what counts as nothing,
// finds the constant beside the others of its package, with what it is compared with.
func TestBudgetsStandTogether(t *testing.T) {
	seen := 0
	err := filepath.WalkDir(filepath.Join(root, "solver"), func(path string, d os.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		fset := token.NewFileSet()
		f, err := parser.ParseFile(fset, path, nil, parser.SkipObjectResolution)
		if err != nil {
			return err
		}
		together := slices.Contains(budgetFiles, filepath.Base(path))
		for _, decl := range f.Decls {
			g, ok := decl.(*ast.GenDecl)
			if !ok || g.Tok != token.CONST {
				continue
			}
			for _, spec := range g.Specs {
				values := spec.(*ast.ValueSpec)
				for k, name := range values.Names {
					word := k < len(values.Values) && isText(values.Values[k])
					if word || !budgetName.MatchString(name.Name) {
						continue
					}
					if seen++; !together {
						t.Errorf("%s: %s stands apart; put it into one of %s", fset.Position(name.Pos()), name.Name, strings.Join(budgetFiles, ", "))
					}
				}
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if seen == 0 {
		t.Error("no budget or tolerance was found at all")
	}
}

func isText(e ast.Expr) bool {
	literal, ok := e.(*ast.BasicLit)
	return ok && literal.Kind == token.STRING
}
