package main

import (
	"encoding/json"
	"errors"
	"go/ast"
	"go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"io"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// Most files of a package that may all need one another, and most methods of a
// type.
const (
	mostKnotted = 9
	mostMethods = 40
)

// above are the packages that are not there yet, with what they have at
// present. These figures may only fall; at or under the limit, an entry goes.
var (
	knotted = map[string]int{}
	crowded = map[string]int{}
)

// TestKnots fails where more files of a package than can be read at a sitting
// all need one another, or where a type has grown a method for everything.
func TestKnots(t *testing.T) {
	packages, exports := listTyped(t)
	fset := token.NewFileSet()
	imports := importer.ForCompiler(fset, "gc", func(path string) (io.ReadCloser, error) { return os.Open(exports[path]) })
	allFiles := 0
	for _, p := range packages {
		own := strings.TrimPrefix(p.ImportPath, module+"/")
		var files []*ast.File
		for _, name := range p.GoFiles {
			f, err := parser.ParseFile(fset, filepath.Join(p.Dir, name), nil, parser.SkipObjectResolution)
			if err != nil {
				t.Fatal(err)
			}
			files = append(files, f)
		}
		allFiles += len(files)
		info := &types.Info{Uses: map[*ast.Ident]types.Object{}}
		checked, err := (&types.Config{Importer: imports}).Check(p.ImportPath, fset, files, info)
		if err != nil {
			t.Fatal(err)
		}
		knot := largestKnot(needs(fset, checked, info))
		hold(t, "files of "+own+" all need one another", len(knot), mostKnotted, knotted, own, strings.Join(knot, " "))
		for typed, n := range methods(files) {
			hold(t, "methods of "+own+"."+typed, n, mostMethods, crowded, own+"."+typed, "")
		}
	}
	if allFiles < 300 {
		t.Errorf("only %d files were looked at", allFiles)
	}
}

// hold fails where n is over the limit or over the figure noted in its place,
// and where that figure could be lower.
func hold(t *testing.T, what string, n, most int, noted map[string]int, key, which string) {
	t.Helper()
	ceiling, ok := noted[key]
	switch {
	case n > max(most, ceiling):
		t.Errorf("%d %s, at most %d may: %s", n, what, max(most, ceiling), which)
	case ok && n < ceiling:
		t.Errorf("%d %s: lower the %d that this test notes, or take it out at %d", n, what, ceiling, most)
	}
}

type typedPackage struct {
	ImportPath, Dir, Export string
	GoFiles                 []string
}

// listTyped returns the packages of the module, and for every package that they
// import the file in which the compiler wrote what it exports.
func listTyped(t *testing.T) (own []typedPackage, exports map[string]string) {
	t.Helper()
	cmd := exec.Command("go", "list", "-export", "-deps", "-json=ImportPath,Dir,Export,GoFiles", "./...")
	cmd.Dir = root
	cmd.Stderr = os.Stderr
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("go list: %v", err)
	}
	exports = map[string]string{}
	for dec := json.NewDecoder(strings.NewReader(string(out))); ; {
		var p typedPackage
		if err := dec.Decode(&p); errors.Is(err, io.EOF) {
			return own, exports
		} else if err != nil {
			t.Fatal(err)
		}
		exports[p.ImportPath] = p.Export
		if strings.HasPrefix(p.ImportPath, module+"/") {
			own = append(own, p)
		}
	}
}

// needs says of each file of a package which of its other files declare what it
// uses: constants, variables, types with their fields, functions, methods.
func needs(fset *token.FileSet, p *types.Package, info *types.Info) map[string]map[string]bool {
	all := map[string]map[string]bool{}
	for id, used := range info.Uses {
		v, isVar := used.(*types.Var)
		local := isVar && !v.IsField() && v.Parent() != p.Scope()
		if used.Pkg() != p || !used.Pos().IsValid() || local {
			continue
		}
		from, to := filepath.Base(fset.Position(id.Pos()).Filename), filepath.Base(fset.Position(used.Pos()).Filename)
		if from == to {
			continue
		}
		if all[from] == nil {
			all[from] = map[string]bool{}
		}
		all[from][to] = true
	}
	return all
}

// methods counts the methods of each type.
func methods(files []*ast.File) map[string]int {
	count := map[string]int{}
	for _, f := range files {
		for _, d := range f.Decls {
			if fn, ok := d.(*ast.FuncDecl); ok && fn.Recv != nil {
				count[strings.TrimPrefix(types.ExprString(fn.Recv.List[0].Type), "*")]++
			}
		}
	}
	return count
}

// largestKnot returns the largest strongly connected set of a graph, sorted: R.
// Tarjan, Depth-first search and linear graph algorithms, 1972.
func largestKnot(to map[string]map[string]bool) (largest []string) {
	index, low, onStack := map[string]int{}, map[string]int{}, map[string]bool{}
	var stack []string
	var visit func(v string)
	visit = func(v string) {
		index[v] = len(index) + 1
		low[v] = index[v]
		stack, onStack[v] = append(stack, v), true
		for w := range to[v] {
			if index[w] == 0 {
				visit(w)
				low[v] = min(low[v], low[w])
			} else if onStack[w] {
				low[v] = min(low[v], index[w])
			}
		}
		if low[v] == index[v] {
			at := slices.Index(stack, v)
			knot := slices.Clone(stack[at:])
			stack = stack[:at]
			for _, w := range knot {
				onStack[w] = false
			}
			if len(knot) > len(largest) {
				largest = knot
			}
		}
	}
	for _, v := range slices.Sorted(maps.Keys(to)) {
		if index[v] == 0 {
			visit(v)
		}
	}
	slices.Sort(largest)
	return largest
}

// The largest knot of a graph with two, drawn by hand: a → b → c → a, and d ⇄ e.
func TestLargestKnot(t *testing.T) {
	to := map[string]map[string]bool{
		"a": {"b": true}, "b": {"c": true, "d": true}, "c": {"a": true}, "d": {"e": true}, "e": {"d": true}, "f": {"a": true},
	}
	if got := largestKnot(to); !slices.Equal(got, []string{"a", "b", "c"}) {
		t.Errorf("the largest knot is %v, want a b c", got)
	}
}
