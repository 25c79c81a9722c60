//go:build defects

package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"go/ast"
	"go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// A place is where a slip can be made.
type place struct {
	id   int
	file string
	line int
	what string // the kind of slip
	text string // the code that it changes, in one line
}

// source is a package to make slips in, with the types of its expressions.
type source struct {
	dir   string
	fset  *token.FileSet
	files []*ast.File
	text  map[string][]byte
	pkg   *types.Package
	info  *types.Info
}

// loadPackage reads and types a package without its tests; what it imports comes from the go
// command's export data.
func loadPackage(t *testing.T, path string) *source {
	t.Helper()
	cmd := exec.Command("go", "list", "-export", "-deps", "-json=ImportPath,Dir,GoFiles,Export,DepOnly", path)
	cmd.Dir = root
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("%s: %v", path, err)
	}
	type listed struct {
		ImportPath, Dir, Export string
		GoFiles                 []string
		DepOnly                 bool
	}
	export, s := map[string]string{}, &source{fset: token.NewFileSet(), text: map[string][]byte{}}
	var names []string
	for dec := json.NewDecoder(bytes.NewReader(out)); ; {
		var p listed
		if err := dec.Decode(&p); err == io.EOF {
			break
		} else if err != nil {
			t.Fatal(err)
		}
		export[p.ImportPath] = p.Export
		if !p.DepOnly {
			s.dir, names, path = p.Dir, p.GoFiles, p.ImportPath
		}
	}
	for _, name := range names {
		file := filepath.Join(s.dir, name)
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		tree, err := parser.ParseFile(s.fset, file, text, 0)
		if err != nil {
			t.Fatal(err)
		}
		s.files, s.text[file] = append(s.files, tree), text
	}
	conf := types.Config{Importer: importer.ForCompiler(s.fset, "gc", func(path string) (io.ReadCloser, error) { return os.Open(export[path]) })}
	s.info = &types.Info{Types: map[ast.Expr]types.TypeAndValue{}, Uses: map[*ast.Ident]types.Object{}, Selections: map[*ast.SelectorExpr]*types.Selection{}}
	if s.pkg, err = conf.Check(path, s.fset, s.files, s.info); err != nil {
		t.Fatalf("%s: %v", path, err)
	}
	return s
}

// An edit puts text at an offset in place of the next cut bytes. Of edits at one offset those
// of a lower order come first.
type edit struct {
	at, cut, order int
	text           string
}

// rewrite makes all slips but those on banned lines (file:line of the rewritten text, whose
// lines are those of the source), each asleep, and returns the places and the overlay.
func (s *source) rewrite(t *testing.T, dir string, banned map[string]bool) ([]place, string) {
	t.Helper()
	w := &slips{source: s, banned: banned}
	changed := map[string][]byte{}
	for _, tree := range s.files {
		w.file, w.edits = s.fset.Position(tree.FileStart).Filename, nil
		w.walk(tree)
		changed[w.file] = w.apply()
	}
	changed[filepath.Join(s.dir, "places_awake.go")] = []byte("package " + s.pkg.Name() + awakeSource)
	return w.places, writeOverlay(t, dir, changed)
}

// slips collects the places of a package and the edits of one file.
type slips struct {
	*source
	banned map[string]bool
	places []place
	file   string
	edits  []edit
	depth  int
}

func (w *slips) apply() []byte {
	slices.SortStableFunc(w.edits, func(a, b edit) int {
		if a.at != b.at {
			return a.at - b.at
		}
		return a.order - b.order
	})
	var out bytes.Buffer
	text, at := w.text[w.file], 0
	for _, e := range w.edits {
		out.Write(text[at:e.at])
		out.WriteString(e.text)
		at = e.at + e.cut
	}
	out.Write(text[at:])
	return out.Bytes()
}

// add notes a place at n and returns its number, false where the line is banned.
func (w *slips) add(n ast.Node, what string) (int, bool) {
	at, end := w.fset.Position(n.Pos()), w.fset.Position(n.End())
	for line := at.Line; line <= end.Line; line++ {
		if w.banned[fmt.Sprintf("%s:%d", filepath.Base(w.file), line)] {
			return 0, false
		}
	}
	text := strings.Join(strings.Fields(string(w.text[w.file][at.Offset:end.Offset])), " ")
	id := len(w.places) + 1
	w.places = append(w.places, place{id: id, file: w.file, line: at.Line, what: what, text: text[:min(len(text), 110)]})
	return id, true
}

func (w *slips) offset(p token.Pos) int { return w.fset.Position(p).Offset }

// around puts text before and after n; the outer of two at one offset is the first before, the
// last after.
func (w *slips) around(n ast.Node, before, after string) {
	w.edits = append(w.edits,
		edit{at: w.offset(n.Pos()), order: 1000 + w.depth, text: before},
		edit{at: w.offset(n.End()), order: 500 - w.depth, text: after})
}

// walk goes through the functions of a file. What stands outside them is data, or a constant.
func (w *slips) walk(tree *ast.File) {
	for _, d := range tree.Decls {
		if f, ok := d.(*ast.FuncDecl); ok && f.Body != nil && f.Name.Name != "init" {
			var up []ast.Node
			ast.Inspect(f.Body, func(n ast.Node) bool {
				if n == nil {
					up = up[:len(up)-1]
					return true
				}
				w.depth = 2 * len(up)
				switch d := n.(type) {
				case *ast.GenDecl:
					if d.Tok != token.VAR {
						return false
					}
				case *ast.CaseClause:
					for _, s := range d.Body {
						w.statement(s)
					}
				}
				w.at(n, up)
				up = append(up, n)
				return true
			})
		}
	}
}

// at makes the slips of one node, whose ancestors in its function are up.
func (w *slips) at(n ast.Node, up []ast.Node) {
	var parent ast.Node
	if len(up) > 0 {
		parent = up[len(up)-1]
	}
	switch n := n.(type) {
	case *ast.BlockStmt:
		for _, s := range n.List {
			w.statement(s)
		}
	case *ast.IfStmt:
		if id, ok := w.add(n.Cond, "never so"); ok {
			w.around(n.Cond, "(", fmt.Sprintf(") && !placesAwake(%d)", id))
		}
	case *ast.RangeStmt:
		if _, ok := w.info.TypeOf(n.X).Underlying().(*types.Slice); ok {
			if id, ok := w.add(n.X, "last left out"); ok {
				w.around(n.X, fmt.Sprintf("placesShort(%d, ", id), ")")
			}
		}
	}
	e, ok := n.(ast.Expr)
	if !ok || !w.info.Types[e].IsValue() {
		return
	}
	switch n := e.(type) {
	case *ast.BinaryExpr:
		w.binary(n)
	case *ast.UnaryExpr:
		if n.Op == token.NOT {
			if id, ok := w.add(n, "no not"); ok {
				w.around(n, fmt.Sprintf("placesNot(%d, ", id), ")")
			}
		}
	case *ast.SelectorExpr:
		w.field(n, parent)
	case *ast.CallExpr:
		w.call(n)
	}
	w.figure(e, parent)
}

var callOf = map[token.Token]string{
	token.LSS: "placesLess", token.LEQ: "placesAtMost", token.GTR: "placesMore", token.GEQ: "placesAtLeast",
	token.ADD: "placesPlus", token.SUB: "placesMinus", token.MUL: "placesTimes", token.QUO: "placesOver",
}

func (w *slips) binary(n *ast.BinaryExpr) {
	if w.info.Types[n].Value != nil {
		return
	}
	switch n.Op {
	case token.LAND, token.LOR:
		for _, side := range []ast.Expr{n.X, n.Y} {
			if id, ok := w.add(side, "a condition left out of "+n.Op.String()); ok {
				if n.Op == token.LAND {
					w.around(side, "((", fmt.Sprintf(") || placesAwake(%d))", id))
				} else {
					w.around(side, "((", fmt.Sprintf(") && !placesAwake(%d))", id))
				}
			}
		}
	case token.EQL, token.NEQ:
		if id, ok := w.add(n, "the other of == and !="); ok {
			w.around(n, fmt.Sprintf("placesNot(%d, ", id), ")")
		}
	default:
		name, ok := callOf[n.Op]
		if !ok || !w.number(n.X) || !w.number(n.Y) {
			return
		}
		if id, ok := w.add(n, "another sign than "+n.Op.String()); ok {
			w.around(n, fmt.Sprintf("%s(%d, ", name, id), ")")
			w.edits = append(w.edits, edit{at: w.offset(n.OpPos), cut: len(n.Op.String()), order: 700, text: ","})
		}
	}
}

func (w *slips) number(e ast.Expr) bool {
	b, ok := w.info.TypeOf(e).Underlying().(*types.Basic)
	return ok && b.Info()&(types.IsInteger|types.IsFloat) != 0
}

// field: another field of the same type of the same value.
func (w *slips) field(n *ast.SelectorExpr, parent ast.Node) {
	if !w.plain(n, parent) || !quiet(n.X) {
		return
	}
	sel := w.info.Selections[n]
	if sel == nil || sel.Kind() != types.FieldVal {
		return
	}
	of := sel.Recv()
	if p, ok := of.Underlying().(*types.Pointer); ok {
		of = p.Elem()
	}
	st, ok := of.Underlying().(*types.Struct)
	if !ok {
		return
	}
	var like []string
	for i := range st.NumFields() {
		f := st.Field(i)
		if f.Name() != n.Sel.Name && types.Identical(f.Type(), sel.Type()) && (f.Exported() || f.Pkg() == w.pkg) {
			like = append(like, f.Name())
		}
	}
	if len(like) == 0 {
		return
	}
	// Which one is drawn by the place, so that it stays the same one.
	other := like[w.offset(n.Pos())%len(like)]
	if id, ok := w.add(n, "field "+other+" for"); ok {
		x := string(w.text[w.file][w.offset(n.X.Pos()):w.offset(n.X.End())])
		w.around(n, fmt.Sprintf("placesOf(%d, %s.%s, ", id, x, other), ")")
	}
}

// plain: the value of e is read where it stands, so that a call may stand there.
func (w *slips) plain(e ast.Expr, parent ast.Node) bool {
	switch p := parent.(type) {
	case *ast.BinaryExpr, *ast.ReturnStmt, *ast.KeyValueExpr, *ast.IfStmt, *ast.ParenExpr:
		return true
	case *ast.CompositeLit:
		return p.Type != e
	case *ast.CallExpr:
		return p.Fun != e
	case *ast.IndexExpr:
		return p.Index == e
	case *ast.AssignStmt:
		return slices.Contains(p.Rhs, e)
	}
	return false
}

// quiet: reading e again changes nothing.
func quiet(e ast.Expr) bool {
	switch e := e.(type) {
	case *ast.Ident:
		return true
	case *ast.SelectorExpr:
		return quiet(e.X)
	}
	return false
}

// call: two neighbouring arguments of one type changed over, the other of min and max.
func (w *slips) call(n *ast.CallExpr) {
	if id, ok := n.Fun.(*ast.Ident); ok && len(n.Args) == 2 && (id.Name == "min" || id.Name == "max") {
		if _, ok := w.info.Uses[id].(*types.Builtin); ok && w.info.Types[n].Value == nil && w.number(n) {
			if number, ok := w.add(n, "the other of min and max"); ok {
				name := map[string]string{"min": "placesLeast", "max": "placesMost"}[id.Name]
				w.edits = append(w.edits, edit{at: w.offset(n.Fun.Pos()), cut: 4, text: fmt.Sprintf("%s(%d, ", name, number), order: 2000})
			}
		}
		return
	}
	if tv := w.info.Types[n.Fun]; tv.IsType() || tv.IsBuiltin() || n.Ellipsis.IsValid() {
		return
	}
	for i := 0; i+1 < len(n.Args); i++ {
		a, b := n.Args[i], n.Args[i+1]
		if !quiet(a) || !quiet(b) || !types.Identical(w.info.TypeOf(a), w.info.TypeOf(b)) || w.info.Types[a].Value != nil || w.info.Types[b].Value != nil {
			continue
		}
		text := w.text[w.file]
		x, y := string(text[w.offset(a.Pos()):w.offset(a.End())]), string(text[w.offset(b.Pos()):w.offset(b.End())])
		if x == "nil" || y == "nil" || x == y {
			continue
		}
		if id, ok := w.add(n, "arguments "+x+" and "+y+" changed over in"); ok {
			w.depth++
			w.around(a, fmt.Sprintf("placesOf(%d, %s, ", id, y), ")")
			w.around(b, fmt.Sprintf("placesOf(%d, %s, ", id, x), ")")
			w.depth--
			return
		}
	}
}

// figure: a constant of a number a tenth larger, of a whole one by one.
func (w *slips) figure(e ast.Expr, parent ast.Node) {
	tv := w.info.Types[e]
	if tv.Value == nil || !w.plain(e, parent) {
		return
	}
	if p, ok := parent.(ast.Expr); ok && w.info.Types[p].Value != nil {
		return // part of a constant
	}
	if c, ok := parent.(*ast.CallExpr); ok && (w.info.Types[c.Fun].IsType() || w.info.Types[c.Fun].IsBuiltin()) {
		return
	}
	b, ok := tv.Type.(*types.Basic)
	if !ok || b.Info()&types.IsUntyped != 0 {
		return
	}
	switch {
	case b.Info()&types.IsBoolean != 0:
		if id, ok := w.add(e, "not"); ok {
			w.around(e, fmt.Sprintf("placesNot(%d, ", id), ")")
		}
	case b.Info()&(types.IsInteger|types.IsFloat) != 0:
		if id, ok := w.add(e, "a larger figure than"); ok {
			w.around(e, fmt.Sprintf("placesLarger[%s](%d, ", b.Name(), id), ")")
		}
	}
}

// statement: one left out.
func (w *slips) statement(s ast.Stmt) {
	switch s := s.(type) {
	case *ast.ExprStmt:
		if c, ok := s.X.(*ast.CallExpr); ok {
			if name, ok := c.Fun.(*ast.Ident); ok && name.Name == "panic" {
				return // what ends a function
			}
		}
	case *ast.IncDecStmt:
	case *ast.AssignStmt:
		if s.Tok == token.DEFINE || slices.ContainsFunc(s.Lhs, func(e ast.Expr) bool { i, ok := e.(*ast.Ident); return ok && i.Name == "_" }) {
			return
		}
	case *ast.BranchStmt:
		if s.Label != nil || (s.Tok != token.CONTINUE && s.Tok != token.BREAK) {
			return
		}
	default:
		return
	}
	if id, ok := w.add(s, "left out"); ok {
		w.edits = append(w.edits,
			edit{at: w.offset(s.Pos()), order: 900 + w.depth, text: fmt.Sprintf("if !placesAwake(%d) { ", id)},
			edit{at: w.offset(s.End()), order: 600, text: " }"})
	}
}

// awakeSource is added to the package: the slips, each awake under its number alone.
const awakeSource = `

import (
	placesOS "os"
	placesConv "strconv"
	placesAtomic "sync/atomic"
)

var placesNumber, placesFile = func() (int, *placesOS.File) {
	n, _ := placesConv.Atoi(placesOS.Getenv("PLACES_AWAKE"))
	var f *placesOS.File
	if name := placesOS.Getenv("PLACES_HIT"); name != "" {
		f, _ = placesOS.OpenFile(name, placesOS.O_CREATE|placesOS.O_APPEND|placesOS.O_WRONLY, 0o600)
	}
	return n, f
}()

var placesSeen [60000]placesAtomic.Bool

func placesAwake(id int) bool {
	if placesFile != nil && !placesSeen[id].Load() && !placesSeen[id].Swap(true) {
		placesFile.WriteString(placesConv.Itoa(id) + "\n")
	}
	return id == placesNumber
}

type placesInt interface {
	~int | ~int8 | ~int16 | ~int32 | ~int64 | ~uint | ~uint8 | ~uint16 | ~uint32 | ~uint64
}
type placesNum interface{ placesInt | ~float32 | ~float64 }

func placesNot[T ~bool](id int, a T) T {
	if placesAwake(id) {
		return !a
	}
	return a
}
func placesLess[T placesNum](id int, a, b T) bool {
	if placesAwake(id) {
		return a <= b
	}
	return a < b
}
func placesAtMost[T placesNum](id int, a, b T) bool {
	if placesAwake(id) {
		return a < b
	}
	return a <= b
}
func placesMore[T placesNum](id int, a, b T) bool {
	if placesAwake(id) {
		return a >= b
	}
	return a > b
}
func placesAtLeast[T placesNum](id int, a, b T) bool {
	if placesAwake(id) {
		return a > b
	}
	return a >= b
}
func placesPlus[T placesNum](id int, a, b T) T {
	if placesAwake(id) {
		return a - b
	}
	return a + b
}
func placesMinus[T placesNum](id int, a, b T) T {
	if placesAwake(id) {
		return a + b
	}
	return a - b
}
func placesTimes[T placesNum](id int, a, b T) T {
	if placesAwake(id) {
		return a
	}
	return a * b
}
func placesOver[T placesNum](id int, a, b T) T {
	if placesAwake(id) {
		return a
	}
	return a / b
}
func placesLeast[T placesNum](id int, a, b T) T {
	if placesAwake(id) {
		return max(a, b)
	}
	return min(a, b)
}
func placesMost[T placesNum](id int, a, b T) T {
	if placesAwake(id) {
		return min(a, b)
	}
	return max(a, b)
}
func placesLarger[T placesNum](id int, a T) T {
	if placesAwake(id) {
		b := a + a/10
		if b == a {
			b++
		}
		return b
	}
	return a
}
func placesOf[T any](id int, slip, a T) T {
	if placesAwake(id) {
		return slip
	}
	return a
}
func placesShort[S ~[]E, E any](id int, s S) S {
	if placesAwake(id) && len(s) > 0 {
		return s[:len(s)-1]
	}
	return s
}
`
