//go:build defects

package main

import (
	"bufio"
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"hash/fnv"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"sort"
	"strconv"
	"strings"
	"testing"
	"time"
)

var (
	placePackages = flag.String("places", "", "packages in whose places single slips are tried, parted by commas")
	placeCount    = flag.Int("place-count", 60, "how many places of a package are drawn; 0: all")
	placeSeed     = flag.Uint64("place-seed", 1, "what the draw starts from")
	placeApart    = flag.Bool("place-apart", false, "draw from the quarter kept apart instead of from the other three")
	placeWithin   = flag.Duration("place-within", 2*time.Minute, "the time that tests get for one place")
	placeFiles    = flag.String("place-files", "", "only files whose name matches this expression")
)

// TestEveryPlace puts one slip at a time into places of the packages named by -places (a limit
// held to be the other side, a sign, a field of the same type, a guard or a statement left out,
// a figure a tenth larger, two arguments changed over) and runs the package's own tests. All
// slips stand in one test binary, which a number in its environment chooses from. Of a place
// only those tests are run that pass through it, the quickest first. Places that no test passes
// through survive without being run. A line a survivor, a total a package; it fails where less
// than -least percent is caught.
func TestEveryPlace(t *testing.T) {
	if *placePackages == "" {
		t.Skip("no -places")
	}
	for _, pkg := range strings.Split(*placePackages, ",") {
		t.Run(strings.TrimPrefix(pkg, "./"), func(t *testing.T) {
			m := mutated(t, pkg)
			m.learn(t)
			chosen := m.draw()
			caught := 0
			for _, p := range chosen {
				start := time.Now()
				by := m.try(t, p)
				if by == "" {
					why := "tests pass"
					if len(m.through[p.id]) == 0 {
						why = "no test passes through"
					}
					fmt.Printf("SURVIVED %s:%d %s: %s (%s, %.0f s)\n", filepath.Base(p.file), p.line, p.what, p.text, why, time.Since(start).Seconds())
					continue
				}
				caught++
				if testing.Verbose() {
					fmt.Printf("caught   %s:%d %s by %s\n", filepath.Base(p.file), p.line, p.what, by)
				}
			}
			if len(chosen) == 0 {
				t.Fatal("no places")
			}
			share := 100 * float64(caught) / float64(len(chosen))
			fmt.Printf("%s: %d of %d caught, %.1f %%, of %d places\n", pkg, caught, len(chosen), share, len(m.places))
			if share < *least {
				t.Errorf("%.1f %% caught, at least %g %% should be", share, *least)
			}
		})
	}
}

// mutant is a package with slips in its places, each asleep, as one test binary.
type mutant struct {
	dir     string // of the package
	binary  string
	places  []place
	took    map[string]time.Duration // by test
	through map[int][]string         // tests that pass through a place, by its id, the quickest first
}

// mutated builds the package. Places whose change does not build are left out: the compiler
// names their lines.
func mutated(t *testing.T, pkg string) *mutant {
	t.Helper()
	dir := t.TempDir()
	src := loadPackage(t, pkg)
	banned := map[string]bool{}
	for range 12 {
		places, overlay := src.rewrite(t, dir, banned)
		binary := filepath.Join(dir, "mutant.test")
		cmd := exec.Command("go", "test", "-c", "-vet=off", "-gcflags=-e", "-overlay="+overlay, "-o", binary, pkg)
		cmd.Dir = root
		out, err := cmd.CombinedOutput()
		if err == nil {
			return &mutant{dir: src.dir, binary: binary, places: places}
		}
		found := regexp.MustCompile(`(?m)([\w]+\.go):(\d+):\d+: (.*)$`).FindAllSubmatch(out, -1)
		before := len(banned)
		for _, f := range found {
			banned[string(f[1])+":"+string(f[2])] = true
		}
		if len(banned) == before {
			t.Fatalf("%s does not build:\n%s", pkg, out)
		}
	}
	t.Fatalf("%s does not build after 12 attempts", pkg)
	return nil
}

// learn runs each test by itself without a slip: how long it takes, and which places it passes
// through.
func (m *mutant) learn(t *testing.T) {
	t.Helper()
	out, err := m.run("", "-test.list", ".")
	if err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	m.took, m.through = map[string]time.Duration{}, map[int][]string{}
	scan := bufio.NewScanner(bytes.NewReader(out))
	for scan.Scan() {
		test := scan.Text()
		if !strings.HasPrefix(test, "Test") && !strings.HasPrefix(test, "Fuzz") && !strings.HasPrefix(test, "Example") {
			continue
		}
		hits := filepath.Join(t.TempDir(), "hits")
		start := time.Now()
		if out, err := m.run("PLACES_HIT="+hits, "-test.run", "^"+test+"$"); err != nil {
			fmt.Printf("%s fails without a slip, left out:\n%s\n", test, out)
			continue
		}
		m.took[test] = time.Since(start)
		text, _ := os.ReadFile(hits)
		for _, word := range strings.Fields(string(text)) {
			id, err := strconv.Atoi(word)
			if err != nil {
				t.Fatal(err)
			}
			m.through[id] = append(m.through[id], test)
		}
	}
	for _, tests := range m.through {
		sort.SliceStable(tests, func(i, j int) bool { return m.took[tests[i]] < m.took[tests[j]] })
	}
}

// draw chooses the places to try: a quarter of them, told by their text, is kept apart.
func (m *mutant) draw() []place {
	var all []place
	only := regexp.MustCompile(*placeFiles)
	for _, p := range m.places {
		h := fnv.New32a()
		fmt.Fprint(h, filepath.Base(p.file), p.what, p.text)
		if (h.Sum32()%4 == 0) == *placeApart && only.MatchString(filepath.Base(p.file)) {
			all = append(all, p)
		}
	}
	r := rand.New(rand.NewPCG(*placeSeed, 0))
	r.Shuffle(len(all), func(i, j int) { all[i], all[j] = all[j], all[i] })
	if *placeCount > 0 && len(all) > *placeCount {
		all = all[:*placeCount]
	}
	slices.SortFunc(all, func(a, b place) int { return a.id - b.id })
	return all
}

// try runs the tests that pass through p with its slip awake, and returns the first that fails.
func (m *mutant) try(t *testing.T, p place) string {
	t.Helper()
	end := time.Now().Add(*placeWithin)
	const together = 3 * time.Second // quick tests run in one process
	tests := m.through[p.id]
	for len(tests) > 0 && time.Now().Before(end) {
		n, sum := 1, m.took[tests[0]]
		for n < len(tests) && sum+m.took[tests[n]] < together {
			sum += m.took[tests[n]]
			n++
		}
		limit := 10*sum + 10*time.Second
		if _, err := m.run("PLACES_AWAKE="+strconv.Itoa(p.id), "-test.failfast", "-test.timeout", limit.String(), "-test.run", "^("+strings.Join(tests[:n], "|")+")$"); err != nil {
			return tests[0]
		}
		tests = tests[n:]
	}
	return ""
}

func (m *mutant) run(env string, args ...string) ([]byte, error) {
	cmd := exec.Command(m.binary, args...)
	cmd.Dir = m.dir
	cmd.Env = append(os.Environ(), env)
	return cmd.CombinedOutput()
}

// writeOverlay writes the changed files of a package to dir and the overlay that puts them in
// place of their own.
func writeOverlay(t *testing.T, dir string, changed map[string][]byte) string {
	t.Helper()
	replace := map[string]string{}
	for name, text := range changed {
		to := filepath.Join(dir, filepath.Base(name))
		if err := os.WriteFile(to, text, 0o600); err != nil {
			t.Fatal(err)
		}
		replace[name] = to
	}
	text, err := json.Marshal(map[string]any{"Replace": replace})
	if err != nil {
		t.Fatal(err)
	}
	overlay := filepath.Join(dir, "overlay.json")
	if err := os.WriteFile(overlay, text, 0o600); err != nil {
		t.Fatal(err)
	}
	return overlay
}
