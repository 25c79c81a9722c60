package main

import (
	"encoding/json"
	"errors"
	"go/ast"
	"go/parser"
	"go/token"
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

const module = "rationwright"

// root is the top of the repository.
var root = filepath.Join("..", "..")

// layers are the packages from the bottom up: a package imports only packages
// of lines before its own. An entry ending in / stands for all below it.
var layers = []string{
	"nutrients/table",
	"nutrients/table/tabletest",
	"nutrients",
	"foods/kinds",
	"foods/label",
	"foods/shelflist",
	"foods",
	"foods/dishes",
	"foods/stores",
	"solver/linear",
	"solver/simplex",
	"solver/branch",
	"solver/referee",
	"solver/ration",
	"solver/verify",
	"solver/rules",
	"solver/model",
	"solver/rationtest",
	"solver/search",
	"solver/answer",
	"solver/recheck",
	"solver/elastic",
	"solver/aim",
	"solver/conflicttest",
	"solver/conflict",
	"solver/plan",
	"solver/community",
	"solver/stockpile",
	"solver/plantest",
	"solver/check",
	"solver/swap",
	"solver/why",
	"solver/menucheck",
	"solver/menu",
	"solver/withmenu",
	"solver",
	"cmd/",
}

// engine are the packages that know rows and columns, never food.
var engine = []string{"solver/linear", "solver/simplex", "solver/branch", "solver/referee"}

// gates are the only places, between spaces, from which a dependency may be imported.
var gates = []struct{ dependency, only string }{
	{"gonum.org/v1/gonum/", "solver/referee"},
	{"gonum.org/v1/plot", "cmd/"},
	{"github.com/spf13/", "cmd/"},
	{"github.com/clipperhouse/", "cmd/"},
	{"golang.org/x/term", "cmd/"},
	{"github.com/hashicorp/", "cmd/"},
	{"golang.org/x/sync", "cmd/"},
	{"golang.org/x/text", "foods/kinds nutrients/table"},
}

// topLevel are the entries that may stand at the top of the repository.
var topLevel = []string{"cmd", "solver", "nutrients", "foods", "testdata", "go.mod", "go.sum", "README.md", "DEVELOPERS.md", "LICENSE", ".ci", ".gitignore", ".gitattributes", ".git"}

type goPackage struct {
	ImportPath                         string
	Imports, TestImports, XTestImports []string
}

// TestArrows fails when an import points back, jumps its gate, or when the
// engine learns of food.
func TestArrows(t *testing.T) {
	for _, p := range listPackages(t) {
		own, ok := strings.CutPrefix(p.ImportPath, module+"/")
		if !ok {
			continue
		}
		rank := layer(own)
		if rank < 0 {
			t.Errorf("package %s is in no layer: add it to this test and to DEVELOPERS.md", own)
			continue
		}
		for _, imported := range p.Imports {
			if to, inside := strings.CutPrefix(imported, module+"/"); inside {
				if r := layer(to); r > rank || r == rank && !strings.HasPrefix(layers[rank], "cmd") {
					t.Errorf("%s imports %s: the arrow points back", own, to)
				}
				if slices.Contains(engine, own) && !slices.Contains(engine, to) {
					t.Errorf("%s imports %s: the engine knows rows and columns only", own, to)
				}
				if to == "solver/branch" && own != "solver/search" {
					t.Errorf("%s imports %s: what is wanted of the engine is asked of solver/search", own, to)
				}
				if own == "solver/verify" && strings.HasPrefix(to, "solver/") && to != "solver/ration" {
					t.Errorf("%s imports %s: the check shares nothing with the solver but what is asked and answered", own, to)
				}
			}
		}
		for _, imported := range slices.Concat(p.Imports, p.TestImports, p.XTestImports) {
			for _, g := range gates {
				may := func(only string) bool { return strings.HasPrefix(own+"/", strings.TrimSuffix(only, "/")+"/") }
				if strings.HasPrefix(imported, g.dependency) && !slices.ContainsFunc(strings.Fields(g.only), may) {
					t.Errorf("%s imports %s: only %s may", own, imported, g.only)
				}
			}
		}
	}
}

// layer returns the index of the layer of a package, -1 if it has none.
func layer(own string) int {
	return slices.IndexFunc(layers, func(l string) bool {
		return own == l || strings.HasSuffix(l, "/") && strings.HasPrefix(own, l)
	})
}

func listPackages(t *testing.T) []goPackage {
	t.Helper()
	cmd := exec.Command("go", "list", "-e", "-json=ImportPath,Imports,TestImports,XTestImports", "./...")
	cmd.Dir = root
	cmd.Stderr = os.Stderr
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("go list: %v", err)
	}
	var all []goPackage
	for dec := json.NewDecoder(strings.NewReader(string(out))); ; {
		var p goPackage
		if err := dec.Decode(&p); errors.Is(err, io.EOF) {
			break
		} else if err != nil {
			t.Fatal(err)
		}
		all = append(all, p)
	}
	if len(all) < len(layers)-2 {
		t.Fatalf("go list names %d packages only", len(all))
	}
	return all
}

func TestTopLevel(t *testing.T) {
	entries, err := os.ReadDir(root)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		if !slices.Contains(topLevel, e.Name()) && e.Name() != "rationwright" {
			t.Errorf("%s does not belong at the top level", e.Name())
		}
	}
}

// TestOnlyMainExits: nothing below main ends the process, writes to its
// standard streams by itself, or logs on its own.
func TestOnlyMainExits(t *testing.T) {
	forbidden := map[string][]string{
		"os":  {"Exit", "Stdout", "Stderr", "Stdin"},
		"log": {"Fatal", "Fatalf", "Fatalln", "Panic", "Panicf", "Panicln", "Print", "Printf", "Println"},
		"fmt": {"Print", "Printf", "Println"},
	}
	files := 0
	eachGoFile(t, func(name string, file *ast.File) {
		if strings.HasSuffix(name, "_test.go") || name == "cmd/rationwright/main.go" || name == "cmd/rationwright/beam/main.go" {
			return
		}
		files++
		ast.Inspect(file, func(n ast.Node) bool {
			if sel, ok := n.(*ast.SelectorExpr); ok {
				if x, ok := sel.X.(*ast.Ident); ok && x.Obj == nil && slices.Contains(forbidden[x.Name], sel.Sel.Name) {
					t.Errorf("%s uses %s.%s", name, x.Name, sel.Sel.Name)
				}
			}
			return true
		})
	})
	if files < 50 {
		t.Errorf("only %d files were looked at", files)
	}
}

// TestPackageComments: every package says what it is in a file doc.go, and no
// file is a drawer for what has no name.
func TestPackageComments(t *testing.T) {
	documented := map[string]bool{}
	eachGoFile(t, func(name string, file *ast.File) {
		dir, base := path.Split(name)
		if strings.HasSuffix(base, "_test.go") {
			return
		}
		documented[dir] = documented[dir] || file.Doc != nil
		if slices.Contains([]string{"utils.go", "util.go", "helpers.go", "helper.go", "common.go", "misc.go", "types.go"}, base) {
			t.Errorf("%s: name the file for its idea", name)
		}
	})
	for dir, ok := range documented {
		if !ok {
			t.Errorf("package %s has no package comment", dir)
		}
	}
}

// backticked finds the names that DEVELOPERS.md sets as code.
var backticked = regexp.MustCompile("`([a-z0-9_/.-]+)`")

// TestDevelopersIsUpToDate: the guide names every package, and no Go file that
// is not there.
func TestDevelopersIsUpToDate(t *testing.T) {
	guide, err := os.ReadFile(filepath.Join(root, "DEVELOPERS.md"))
	if err != nil {
		t.Fatal(err)
	}
	named := map[string]bool{}
	for _, m := range backticked.FindAllStringSubmatch(string(guide), -1) {
		named[m[1]] = true
	}
	files := map[string]bool{}
	eachGoFile(t, func(name string, _ *ast.File) {
		files[path.Base(name)] = true
		if dir := path.Dir(name); !named[dir] && !strings.HasPrefix(dir, "cmd/") {
			t.Errorf("DEVELOPERS.md does not name package %s", dir)
			named[dir] = true
		}
	})
	for name := range named {
		if strings.HasSuffix(name, ".go") && !files[path.Base(name)] {
			t.Errorf("DEVELOPERS.md names %s, which is not there", name)
		}
	}
}

// eachGoFile parses every Go file of the repository with its comments.
func eachGoFile(t *testing.T, do func(name string, file *ast.File)) {
	t.Helper()
	set := token.NewFileSet()
	err := fs.WalkDir(os.DirFS(root), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(name, ".go") {
			return err
		}
		file, err := parser.ParseFile(set, filepath.Join(root, filepath.FromSlash(name)), nil, parser.ParseComments)
		if err != nil {
			return err
		}
		do(name, file)
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}
