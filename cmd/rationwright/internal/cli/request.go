package cli

import (
	"fmt"
	"time"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/foods"
	"rationwright/foods/stores"
	"rationwright/nutrients"
	"rationwright/nutrients/table"
	"rationwright/solver/ration"
)

// sources are the flags that name what is read.
type sources struct {
	household, foods, prices, stock string
	sizes                           string
	caps                            string
}

// addHousehold adds --household.
func (f *sources) addHousehold(fs *pflag.FlagSet) {
	fs.StringVar(&f.household, "household", "", "who is fed: a household.csv `FILE`, - for standard input (default: the demo household)")
}

// addFoods adds --foods.
func (f *sources) addFoods(fs *pflag.FlagSet) {
	fs.StringVar(&f.foods, "foods", "", "extra foods and packs: a `FILE` with columns of the built-in table")
}

// addTable adds the flags that change the food table.
func (f *sources) addTable(fs *pflag.FlagSet) {
	f.addFoods(fs)
	choice(fs, &f.sizes, "sizes", foods.SizesMetric, "the sizes that shops sell: of metric countries, of North America, or both", foods.SizesMetric, foods.SizesUS, foods.SizesAll)
	fs.StringVar(&f.caps, "caps", "", "limits on kinds of food in place of the built-in planning rules: a `FILE` kind,measure,value")
	fs.StringVar(&f.prices, "prices", "", "prices: a `FILE` pack,price (default: invented demo prices)")
}

// addStock adds --stock.
func (f *sources) addStock(fs *pflag.FlagSet) {
	fs.StringVar(&f.stock, "stock", "", "what is on hand: a `FILE` pack,count,best_before; it costs nothing more")
}

// shape are the flags that say how a result is written.
type shape struct {
	format, out, units string
}

// add adds the flags; formats are those the command can write, table first.
func (f *shape) add(fs *pflag.FlagSet, formats ...string) {
	choice(fs, &f.format, "format", formats[0], "how the result is written", formats...)
	fs.StringVar(&f.out, "out", "", "write to `FILE` instead of standard output; it is replaced whole or not at all")
}

// addUnits adds --units.
func (f *shape) addUnits(fs *pflag.FlagSet) {
	choice(fs, &f.units, "units", string(sheet.Metric), "units in tables: us is oz, lb, US gallons, cubic feet", string(sheet.Metric), string(sheet.US))
}

// output returns where to write to, having checked that it is there, and says
// so where --units has no effect.
func (f *shape) output(s *session) (*output, error) {
	o := &output{format: format(f.format), out: f.out, stdout: s.stdout}
	if err := o.check(s); err != nil {
		return nil, err
	}
	if f.units == string(sheet.US) && o.format != formatTable {
		s.note("csv and json are always metric; --units us changes tables only")
	}
	return o, nil
}

// planFlags are the flags that decide a plan. They are those of every command
// that builds the model.
type planFlags struct {
	sources
	storage
	without  []string
	least    string
	days     int
	standard string
	energy   string
	lean     bool
	cook     string
	hot      bool
	pets     int
	easyOpen bool
	store    string
	boil     bool
	start    string
	within   fraction
	time     seconds

	budget, weight, litres, water, heat, washing quantity
}

// defaults of the search.
const (
	defaultWithin = 0.01
	defaultTime   = 10 * time.Second
	defaultDays   = 14
	longestDays   = 365
)

func (f *planFlags) add(fs *pflag.FlagSet) {
	f.addHousehold(fs)
	f.addTable(fs)
	f.addStock(fs)
	f.addWishes(fs)
	f.storage.add(fs)
	f.addSearch(fs)
	f.time = seconds(defaultTime)
	fs.Var(&f.time, "time", "stop the search after this: 10s, 2m")
}

// addWishes adds the flags that say what a plan must be like.
func (f *planFlags) addWishes(fs *pflag.FlagSet) {
	fs.StringArrayVar(&f.without, "without", nil, "a `FOOD` nobody gets: any word for it, a name, NDB number or group; repeat for more")
	choice(fs, &f.least, "least", string(ration.LeastCost), "what is made as small as possible, water and fuel counted in", string(ration.LeastCost), string(ration.LeastWeight), string(ration.LeastVolume))
	f.days = defaultDays
	fs.Var(whole{&f.days, 1, longestDays}, "days", "feed everyone for `N` days, 1 to 365")
	addStandard(fs, &f.standard, &f.energy)
	fs.BoolVar(&f.lean, "lean-energy", false, "energy from 97 % of the requirement, for adults of 19 to 64 only")
	f.budget, f.weight, f.litres = quantity{kind: kindMoney}, quantity{kind: kindWeight}, quantity{kind: kindVolume}
	f.water, f.heat, f.washing = quantity{kind: kindVolume}, quantity{kind: kindHeat}, quantity{kind: kindVolume}
	fs.Var(&f.budget, "budget", "most that it may cost, in the currency of the prices")
	fs.Var(&f.weight, "max-weight", "most that it may weigh: 120, 120kg or 260lb")
	fs.Var(&f.litres, "max-litres", "most litres, as upright boxes: 200, 200L or 7cuft; shelves take 1/0.85 of it")
	fs.Var(&f.water, "max-water", "most water stored: 150, 150L or 40gal")
	fs.Var(&f.heat, "max-heat", "most useful heat for cooking: 20, 20MJ or 5.5kWh")
	choice(fs, &f.cook, "cook", string(ration.CookBoil), "the most demanding cooking there is; boil is under 20 minutes' simmering", string(ration.CookNone), string(ration.CookWarm), string(ration.CookBoil), string(ration.CookSimmer))
	fs.BoolVar(&f.hot, "hot", false, "hot climate: twice the water to drink")
	fs.BoolVar(&f.easyOpen, "easy-open", false, "only packs that weak hands can open and lift")
	fs.Var(whole{&f.pets, 0, mostPets}, "pets", "store water for `N` pets")
	choice(fs, &f.store, "water", storeNeed, "water stored: what this plan needs, or at least the older allowance, 7 US gallons a head", storeNeed, storeAllowance)
	fs.Var(&f.washing, "washing", "water for hands and dishes, a head and day: 0.5 or 1L; 0 where there is other water (default 1)")
	fs.BoolVar(&f.boil, "boil-water", false, "drinking water must be boiled: more heat")
}

// addSearch adds the flags of the day and of the gap.
func (f *planFlags) addSearch(fs *pflag.FlagSet) {
	fs.StringVar(&f.start, "start", "", "day one, a `DATE` as 2026-11-25 (default: today)")
	f.within = defaultWithin
	fs.Var(&f.within, "within", "stop when proven this near the best possible: 1% or 0.01")
}

// The words of --water.
const (
	storeNeed      = "need"
	storeAllowance = "allowance"
)

// addStandard adds --standard and --energy.
func addStandard(fs *pflag.FlagSet, standard, energy *string) {
	choice(fs, standard, "standard", string(nutrients.StandardRDA), "rda: RDA or AI; ear: for groups; basic: energy, protein and water only", string(nutrients.StandardRDA), string(nutrients.StandardEAR), string(nutrients.StandardBasic))
	choice(fs, energy, "energy", string(nutrients.Energy2023), "energy equations: DRI 2023, DRI 2005 or the Dietary Guidelines table", string(nutrients.Energy2023), string(nutrients.Energy2005), string(nutrients.EnergyGuidelines))
}

// request reads every file and builds the request. All problems of all files
// are in one error.
func (f *planFlags) request(s *session, cmd *cobra.Command) (*ration.Request, error) {
	if err := f.check(); err != nil {
		return nil, err
	}
	if err := f.oneStream(namedFile{"--shelves", f.shelf}); err != nil {
		return nil, err
	}
	home, peopleErr := f.people(s)
	larder, files, tableErr := f.table(s)
	shelves, shelvesErr := f.shelves(s)
	var (
		stock              *foods.Stock
		stockErr, namesErr error
	)
	if tableErr == nil {
		stock, stockErr = f.stockOf(s, larder, f.start)
		if peopleErr == nil {
			namesErr = s.foodNames(home, larder)
		}
	}
	if err := table.Join(peopleErr, tableErr, shelvesErr, stockErr, namesErr); err != nil {
		return nil, badInput(err)
	}
	files.Stock = stock.Rows
	if err := s.meant(larder, f.without...); err != nil {
		return nil, badInput(fmt.Errorf("--without: %w", err))
	}
	ill, err := f.sick(home.people)
	if err != nil {
		return nil, err
	}
	req := f.asked(larder, files)
	req.People, req.Ill, req.Shelves, req.Demo.Household = home.people, ill, shelves, f.household == ""
	req.Stock, req.StockWaterL, req.StockHeatMJ = stock.Lines, stock.WaterL, stores.HeatOfStock(stock)
	return req, nil
}

// check refuses flags that cannot be, and fills in today.
func (f *planFlags) check() error {
	if f.start == "" {
		f.start = time.Now().Format(time.DateOnly)
	} else if err := goodDay(f.start); err != nil {
		return err
	}
	if most := float64(ration.MostWashingL); f.washing.value != nil && *f.washing.value > most {
		return usagef("invalid --washing %g: litres a head and day; write 0 to %g", *f.washing.value, most)
	}
	return nil
}

// asked is the request of the flags alone, for people yet to be named.
func (f *planFlags) asked(larder *foods.Table, files ration.Files) *ration.Request {
	return &ration.Request{
		Table: larder, Without: f.without,
		Least: ration.Least(f.least), Days: f.days,
		Standard: nutrients.Standard(f.standard), Energy: nutrients.EnergySet(f.energy), LeanEnergy: f.lean,
		Cook: ration.Cook(f.cook), Hot: f.hot, Pets: f.pets, EasyOpen: f.easyOpen,
		Stove: string(f.stove), BoilWater: f.boil, Allowance: f.store == storeAllowance,
		Limits:   ration.Limits{Budget: f.budget.value, WeightKg: f.weight.value, VolumeL: f.litres.value, WaterL: f.water.value, HeatMJ: f.heat.value},
		WashingL: f.washing.value,
		Within:   searchGap(f.within), Time: time.Duration(f.time), Start: f.start,
		Files: files,
		Demo:  ration.Demo{Prices: f.prices == ""},
	}
}

// tightestGap stands for "--within 0": in a request 0 means the default, and
// no search in floating-point numbers proves less than this.
const tightestGap = 1e-9

func searchGap(f fraction) float64 {
	if f < tightestGap {
		return tightestGap
	}
	return float64(f)
}
