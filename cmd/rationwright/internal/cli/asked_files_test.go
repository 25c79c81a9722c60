package cli

import (
	"bytes"
	"reflect"
	"strings"
	"testing"

	"rationwright/cmd/rationwright/internal/exit"
	"rationwright/foods"
	"rationwright/foods/stores"
	"rationwright/nutrients"
	"rationwright/solver/ration"

	"github.com/spf13/pflag"
)

// planAsked is the request of a command line of plan, with what is said while its files are
// read.
func planAsked(t *testing.T, stdin string, args ...string) (*ration.Request, string, error) {
	t.Helper()
	var (
		f    planFlags
		said bytes.Buffer
	)
	fs := pflag.NewFlagSet("plan", pflag.ContinueOnError)
	f.add(fs)
	if err := fs.Parse(append([]string{"--start", "2026-01-05"}, args...)); err != nil {
		t.Fatal(err)
	}
	req, err := f.request(&session{ctx: t.Context(), stdin: strings.NewReader(stdin), stderr: &said})
	return req, said.String(), err
}

// TestFilesAreAsked: what each file holds stands in its own place of the request.
func TestFilesAreAsked(t *testing.T) {
	write := writer(t, t.TempDir())
	home := write("home.csv", "name,age_years,sex\nSigne,30,f\nOdd,60,m\n")
	prices := write("prices.csv", "pack,price\nwhite-rice-907g-bag,1.25\n")
	stock := write("stock.csv", "pack,count,best_before\nwhite-rice-907g-bag,3,2028-01-01\nwater,20,\nheat,5,\n")
	shelves := write("shelves.csv", "shelf,width_cm,depth_cm,height_cm,load_kg\nA,90,40,35,60\n")
	caps := write("caps.csv", "kind,measure,value\nrice,day,123\n")
	own := write("own.csv", "name,pack,grams,price,allergens,like\nTernsund rice,ternsund-rice-500g-bag,500,2.5,none,white rice\n")
	req, said, err := planAsked(t, "", "--household", home, "--prices", prices, "--stock", stock, "--shelves", shelves, "--caps", caps, "--foods", own, "--sizes", "all", "--ill", "odd", "--water", "allowance", "--boil-water")
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, p := range req.People {
		names = append(names, p.Name)
	}
	if !reflect.DeepEqual(names, []string{"Signe", "Odd"}) || !reflect.DeepEqual(req.Ill, []string{"Odd"}) || req.Demo != (ration.Demo{}) || !req.Allowance || !req.BoilWater || req.Start != "2026-01-05" {
		t.Errorf("%q, ill %q, demo %+v, allowance %v, boil %v, %s", names, req.Ill, req.Demo, req.Allowance, req.BoilWater, req.Start)
	}
	if len(req.Stock) != 1 || req.Stock[0].Pack.Key != "white-rice-907g-bag" || req.Stock[0].Count != 3 || req.Stock[0].BestBefore != "2028-01-01" || req.StockWaterL == nil || *req.StockWaterL != 20 || req.StockHeatMJ == nil || *req.StockHeatMJ != 5 {
		t.Errorf("stock %+v, %v L, %v MJ", req.Stock, req.StockWaterL, req.StockHeatMJ)
	}
	if want := (stores.Shelf{Name: "A", WidthCm: 90, DepthCm: 40, HeightCm: 35, LoadKg: 60}); len(req.Shelves) != 1 || req.Shelves[0] != want {
		t.Errorf("shelves %+v, want %+v", req.Shelves, want)
	}
	for what, c := range map[string]struct {
		rows [][]string
		cell string
	}{"prices": {req.Files.Prices, "1.25"}, "stock": {req.Files.Stock, "2028-01-01"}, "caps": {req.Files.Caps, "123"}, "foods": {req.Files.Foods, "Ternsund rice"}} {
		if flat := strings.Join(flatten(c.rows), "|"); !strings.Contains(flat, c.cell) {
			t.Errorf("%s: %q, no %s", what, flat, c.cell)
		}
	}
	if req.Files.Weights != nil || req.Files.Dishes != nil || req.Files.DishParts != nil {
		t.Errorf("files that nobody gave: %+v", req.Files)
	}
	p, err := req.Table.Pack("white-rice-907g-bag")
	if err != nil || p.Price != 1.25 {
		t.Errorf("%+v, %v", p, err)
	}
	if _, err := req.Table.Food("Ternsund rice"); err != nil {
		t.Error(err)
	}
	if !strings.Contains(said, "rationwright: "+prices+" prices 1 packs; ") || !strings.Contains(said, " more keep an invented demo price\n") {
		t.Errorf("%q", said)
	}

	req, said, err = planAsked(t, "")
	if err != nil || req.Demo != (ration.Demo{Household: true, Prices: true}) || len(req.People) == 0 || req.Stock != nil || req.StockWaterL != nil || req.StockHeatMJ != nil || req.Shelves != nil || req.Ill != nil || req.Allowance || req.BoilWater || req.Files.Stock != nil || req.Files.Prices != nil || req.Files.Foods != nil || req.Files.Caps != nil || said != "" {
		t.Errorf("without files: %v, %+v, %q", err, req, said)
	}
	if req.Days != 14 || req.Time != ration.DefaultTime || req.Within != 0.01 || req.Least != ration.LeastCost || req.Cook != ration.CookBoil || req.Standard != nutrients.StandardRDA || req.Energy != nutrients.Energy2023 || req.Stove != stores.UsualStove || req.Slack != 0 {
		t.Errorf("without flags: %+v", req)
	}
	if req, _, err = planAsked(t, "name,age_years,sex\nLiv,40,f\n", "--household", "-", "--within", "0"); err != nil || len(req.People) != 1 || req.People[0].Name != "Liv" || req.Within <= 0 || req.Within > 1e-6 {
		t.Errorf("from standard input: %v, %+v", err, req)
	}
}

func flatten(rows [][]string) (cells []string) {
	for _, row := range rows {
		cells = append(cells, row...)
	}
	return cells
}

// TestFaultsOfAllFiles: what is wrong in each file is said in one go, with its place.
func TestFaultsOfAllFiles(t *testing.T) {
	write := writer(t, t.TempDir())
	files := map[string]string{
		"--household": write("home.csv", "name,age_years,sex\nSigne,many,f\n"), "--prices": write("prices.csv", "pack,price\nwhite-rice-907g-bag,dear\n"),
		"--shelves": write("shelves.csv", "shelf,width_cm,depth_cm,height_cm,load_kg\nA,wide,40,35,60\n"), "--caps": write("caps.csv", "kind,measure,value\nzwrnk,day,123\n"), "--foods": write("own.csv", "ndb,name,pack,grams\n,Bread,bread,much\n"),
	}
	var args []string
	for flag, file := range files {
		args = append(args, flag, file)
		if req, _, err := planAsked(t, "", flag, file); req != nil || exitCode(err) != exit.BadInput || !strings.Contains(err.Error(), file+":2:") {
			t.Errorf("%s alone: %v", flag, err)
		}
	}
	_, _, err := planAsked(t, "", args...)
	for flag, file := range files {
		if err == nil || !strings.Contains(err.Error(), file+":2:") {
			t.Errorf("%s among all: %v", flag, err)
		}
	}
	stock := write("stock.csv", "pack,count\nno such pack,1\n")
	words := write("words.csv", "name,age_years,sex,dislikes\nSigne,30,f,zwrnk\n")
	if _, _, err := planAsked(t, "", "--stock", stock, "--household", words); exitCode(err) != exit.BadInput || !strings.Contains(err.Error(), stock+":2:1") || !strings.Contains(err.Error(), words+":2:") {
		t.Errorf("what only the table can tell: %v", err)
	}
	if _, _, err := planAsked(t, "", "--without", "zwrnk"); exitCode(err) != exit.BadInput || !strings.HasPrefix(err.Error(), "--without: ") {
		t.Error(err)
	}
	if _, _, err := planAsked(t, "", "--ill", "Zwrnk"); exitCode(err) != exit.BadInput {
		t.Error(err)
	}
	if _, _, err := planAsked(t, "", "--start", "soon"); exitCode(err) != exit.Usage {
		t.Error(err)
	}
}

// TestOneStandardInput: no two flags read standard input, whichever they are.
func TestOneStandardInput(t *testing.T) {
	all := []string{"--household", "--foods", "--prices", "--stock", "--shelves"}
	of := func(flags ...string) error {
		var f sources
		var more namedFile
		for _, flag := range flags {
			switch flag {
			case "--household":
				f.household = "-"
			case "--foods":
				f.foods = "-"
			case "--prices":
				f.prices = "-"
			case "--stock":
				f.stock = "-"
			default:
				more = namedFile{flag, "-"}
			}
		}
		return f.oneStream(more)
	}
	for i, a := range all {
		if err := of(a); err != nil {
			t.Errorf("%s alone: %v", a, err)
		}
		for _, b := range all[i+1:] {
			if err := of(a, b); exitCode(err) != exit.Usage || err.Error() != a+" and "+b+" cannot all read standard input; give files for all but one" {
				t.Errorf("%s and %s: %v", a, b, err)
			}
		}
	}
	if err := (&sources{household: "a.csv", stock: "b.csv"}).oneStream(); err != nil {
		t.Error(err)
	}
}

// TestUnitsAreOfTables: that --units changes tables only is said where it is asked of another
// form.
func TestUnitsAreOfTables(t *testing.T) {
	for _, c := range []struct {
		args string
		note bool
	}{{"--units us --format csv", true}, {"--units us --format json", true}, {"--units us", false}, {"--units us --format table", false}, {"--format csv", false}, {"--units metric --format csv", false}} {
		code, text := said(t, append([]string{"foods", "list", "20044"}, strings.Fields(c.args)...)...)
		if code != 0 || strings.Contains(text, "rationwright: csv and json are always metric; --units us changes tables only") != c.note {
			t.Errorf("%s: %d, a note %v\n%s", c.args, code, c.note, text)
		}
	}
	_, metric := said(t, "foods", "list", "20044")
	_, us := said(t, "foods", "list", "20044", "--units", "us")
	if !strings.Contains(us, " lb") && !strings.Contains(us, " oz") || strings.Contains(us, " kg") || metric == us {
		t.Errorf("%s\n%s", metric, us)
	}
}

// TestSizesOfShops: packs of metric countries, of North America, or both, the food being the same.
func TestSizesOfShops(t *testing.T) {
	packs := func(args ...string) map[string]bool {
		list := map[string]bool{}
		for _, row := range rowsOf(t, append([]string{"foods", "list", "20044"}, args...)...) {
			list[row["pack"]] = true
		}
		return list
	}
	usual, metric, us, all := packs(), packs("--sizes", foods.SizesMetric), packs("--sizes", foods.SizesUS), packs("--sizes", foods.SizesAll)
	if !reflect.DeepEqual(usual, metric) || len(metric) == 0 || len(us) == 0 || reflect.DeepEqual(metric, us) {
		t.Errorf("usual %v, metric %v, us %v", usual, metric, us)
	}
	for pack := range all {
		if !metric[pack] && !us[pack] {
			t.Errorf("%s is of neither", pack)
		}
	}
	if len(all) < len(metric) || len(all) < len(us) || !all["white-rice-907g-bag"] || !us["white-rice-907g-bag"] || metric["white-rice-907g-bag"] { // 907 g are two pounds
		t.Errorf("%v of %v and %v", all, metric, us)
	}
}
