package stores

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"rationwright/nutrients/table"
)

func TestReadShelves(t *testing.T) {
	const text = "\ufeffshelf,load_kg,width_cm,depth_cm,height_cm,colour\r\nfloor,100,90,40,45,grey\r\n\"top, left\",30.5,90,40,35,\r\n"
	shelves, warnings, err := ReadShelves("shelves.csv", strings.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	want := []Shelf{{"floor", 90, 40, 45, 100, 0}, {"top, left", 90, 40, 35, 30.5, 45}}
	if len(shelves) != 2 || shelves[0] != want[0] || shelves[1] != want[1] {
		t.Errorf("shelves = %+v, want %+v", shelves, want)
	}
	if len(warnings) != 1 || !strings.Contains(warnings[0], "colour") {
		t.Errorf("warnings = %q, want one about colour", warnings)
	}
	if v := shelves[0].VolumeL(); math.Abs(v-162) > 1e-9 { // 9 × 4 × 4.5 dm
		t.Errorf("volume = %g L, want 162", v)
	}
}

// Every bad cell is reported at its place, all of them in one run.
func TestReadShelvesFaults(t *testing.T) {
	tests := []struct {
		name, text string
		want       []string // position and a word of each fault
		is         error
	}{
		{"bad cells", "shelf,width_cm,depth_cm,height_cm,load_kg\na,x,40,0,10\na,90,-1,30,\n",
			[]string{`s.csv:2:3: width_cm "x"`, `s.csv:2:8: height_cm "0"`, `s.csv:3:1: shelf "a"`, `s.csv:3:6: depth_cm "-1"`, `s.csv:3:12: load_kg ""`}, table.ErrNumber},
		{"decimal comma", "shelf,width_cm,depth_cm,height_cm,load_kg\na,\"90,5\",40,30,10\n", []string{`s.csv:2:3: width_cm "90,5"`}, table.ErrNumber},
		{"no column", "shelf,width_cm,depth_cm,height_cm\na,1,1,1\n", []string{`s.csv:1:1`}, table.ErrColumn},
		{"no rows", "shelf,width_cm,depth_cm,height_cm,load_kg\n", []string{"s.csv:1:1"}, table.ErrNoRows},
		{"order", "shelf,width_cm,depth_cm,height_cm,load_kg,above_floor_cm\nup,90,40,30,10,50\ndown,90,40,30,10,0\n", []string{`s.csv:3:18: above_floor_cm "0"`}, ErrShelfOrder},
		{"twice", "shelf,width_cm,depth_cm,height_cm,load_kg\na,90,40,30,10\na,90,40,30,10\n", []string{`s.csv:3:1: shelf "a"`}, ErrShelfTwice},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			shelves, _, err := ReadShelves("s.csv", strings.NewReader(tt.text))
			if err == nil || shelves != nil {
				t.Fatalf("read %v, error %v; want only an error", shelves, err)
			}
			if !errors.Is(err, tt.is) {
				t.Errorf("error %v is not %v", err, tt.is)
			}
			lines := strings.Split(err.Error(), "\n")
			if len(lines) != len(tt.want) {
				t.Fatalf("%d faults, want %d:\n%v", len(lines), len(tt.want), err)
			}
			for i, w := range tt.want {
				if !strings.HasPrefix(lines[i], w) {
					t.Errorf("fault %d = %s, want %s…", i, lines[i], w)
				}
			}
		})
	}
}

func FuzzReadShelves(f *testing.F) {
	for _, seed := range []string{
		"", "shelf,width_cm,depth_cm,height_cm,load_kg\n", "\ufeffshelf,width_cm,depth_cm,height_cm,load_kg\r\na,90,40,30,10\r\n",
		"shelf;width_cm\na;1\n", "shelf,width_cm,depth_cm,height_cm,load_kg\na,NaN,inf,0x1p4,1_0\n",
		"shelf,width_cm,depth_cm,height_cm,load_kg,above_floor_cm\na,1,1,1,1,5\nb,1,1,1,1,4\n", "shelf,shelf\n\"a", "a\x00b",
	} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		shelves, _, err := ReadShelves("f.csv", strings.NewReader(text))
		if err != nil {
			return
		}
		for _, s := range shelves {
			if !(s.WidthCm > 0 && s.DepthCm > 0 && s.HeightCm > 0 && s.LoadKg > 0) || s.Name == "" {
				t.Fatalf("accepted %+v", s)
			}
		}
		if faults := CheckFit(shelves, nil, FitShelves(shelves, nil)); len(faults) > 0 {
			t.Fatal(faults)
		}
	})
}

// The bounds of a shelf: above 0, a warehouse of 100 m and 100 t at most; the first board
// may stand on the floor, each next no lower than the one before.
func TestBoundsOfAShelf(t *testing.T) {
	good := Shelf{"s", 90, 40, 30, 10, 0}
	for _, tt := range []struct {
		change func(*Shelf)
		sound  bool
	}{
		{func(*Shelf) {}, true}, {func(s *Shelf) { s.WidthCm, s.DepthCm, s.HeightCm, s.LoadKg = 0.5, 0.5, 0.5, 0.5 }, true},
		{func(s *Shelf) { s.WidthCm, s.DepthCm, s.HeightCm, s.LoadKg = 1e4, 1e4, 1e4, 1e5 }, true},
		{func(s *Shelf) { s.WidthCm = 0 }, false}, {func(s *Shelf) { s.DepthCm = 0 }, false}, {func(s *Shelf) { s.HeightCm = 0 }, false}, {func(s *Shelf) { s.LoadKg = 0 }, false},
		{func(s *Shelf) { s.WidthCm = 10001 }, false}, {func(s *Shelf) { s.DepthCm = 10001 }, false}, {func(s *Shelf) { s.HeightCm = 10001 }, false}, {func(s *Shelf) { s.LoadKg = 100001 }, false},
		{func(s *Shelf) { s.WidthCm = math.NaN() }, false}, {func(s *Shelf) { s.LoadKg = math.NaN() }, false}, {func(s *Shelf) { s.LoadKg = -1 }, false},
		{func(s *Shelf) { s.AboveFloorCm = -1 }, false}, {func(s *Shelf) { s.AboveFloorCm = 10000 }, true},
	} {
		s := good
		tt.change(&s)
		text := fmt.Sprintf("shelf,width_cm,depth_cm,height_cm,load_kg,above_floor_cm\ns,%g,%g,%g,%g,%g\n", s.WidthCm, s.DepthCm, s.HeightCm, s.LoadKg, s.AboveFloorCm)
		shelves, _, err := ReadShelves("s.csv", strings.NewReader(text))
		if s.Sound() != tt.sound || (err == nil) != tt.sound || err == nil && shelves[0] != s {
			t.Errorf("%+v: sound %v, read as %+v, %v, want %v", s, s.Sound(), shelves, err, tt.sound)
		}
	}
	const three = "shelf,width_cm,depth_cm,height_cm,load_kg,above_floor_cm\na,90,40,30,10,\nb,90,40,30,10,\nc,90,40,30,10,%g\n"
	for above, sound := range map[float64]bool{29.9: false, 30: true, 60: true} {
		shelves, _, err := ReadShelves("s.csv", strings.NewReader(fmt.Sprintf(three, above)))
		if (err == nil) != sound || err == nil && (shelves[0].AboveFloorCm != 0 || shelves[1].AboveFloorCm != 30 || shelves[2].AboveFloorCm != above) {
			t.Errorf("the third board at %g cm: %+v, %v", above, shelves, err)
		}
	}
}
