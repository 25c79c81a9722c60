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
	household, foods, prices, stock, sizes, caps string
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
	format format
	out    string
	units  sheet.Units
}

// add adds the flags; formats are those the command can write, table first.
func (f *shape) add(fs *pflag.FlagSet, formats ...format) {
	choice(fs, &f.format, "format", formats[0], "how the result is written", formats...)
	f.addOut(fs)
}

// addOut adds --out.
func (f *shape) addOut(fs *pflag.FlagSet) {
	fs.StringVar(&f.out, "out", "", "write to `FILE` instead of standard output; it is replaced whole or not at all")
}

// addUnits adds --units.
func (f *shape) addUnits(fs *pflag.FlagSet) {
	choice(fs, &f.units, "units", sheet.Metric, "units in tables: us is oz, lb, US gallons, cubic feet", sheet.Metric, sheet.US)
}

// output returns where to write to, having checked that it is there, and says
// so where --units has no effect.
func (f *shape) output(s *session) (*output, error) {
	o := &output{format: f.format, out: f.out, stdout: s.stdout}
	if err := o.check(s); err != nil {
		return nil, err
	}
	if f.units == sheet.US && f.format != "" && f.format != formatTable {
		s.note("csv and json are always metric; --units us changes tables only")
	}
	return o, nil
}

// work makes the RunE of a command that writes one result.
func (f *shape) work(s *session, do func(*cobra.Command, []string, *output) error) func(*cobra.Command, []string) error {
	return func(cmd *cobra.Command, args []string) error {
		out, err := f.output(s)
		if err != nil {
			return err
		}
		return do(cmd, args, out)
	}
}

// planFlags are the flags that decide a plan. They are those of every command
// that builds the model.
type planFlags struct {
	sources
	asked ration.Request // what the flags ask, for people and foods yet to be read
	store string
	ill   []string
	shelf string
}

func (f *planFlags) add(fs *pflag.FlagSet) {
	f.addHousehold(fs)
	f.addTable(fs)
	f.addStock(fs)
	f.addWishes(fs)
	f.addStorage(fs)
	f.addSearch(fs)
	f.asked.Time = ration.DefaultTime
	fs.Var((*seconds)(&f.asked.Time), "time", "stop the search after this: 10s, 2m")
}

// addWishes adds the flags that say what a plan must be like.
func (f *planFlags) addWishes(fs *pflag.FlagSet) {
	q := &f.asked
	fs.StringArrayVar(&q.Without, "without", nil, "a `FOOD` nobody gets: any word for it, a name, NDB number or group; repeat for more")
	choice(fs, &q.Least, "least", ration.LeastCost, "what is made as small as possible, water and fuel counted in", ration.LeastCost, ration.LeastWeight, ration.LeastVolume)
	q.Days = ration.DefaultDays
	fs.Var(whole{&q.Days, 1, ration.MostDays}, "days", "feed everyone for `N` days, 1 to 365")
	addStandard(fs, &q.Standard, &q.Energy)
	fs.BoolVar(&q.LeanEnergy, "lean-energy", false, "energy from 97 % of the requirement, for adults of 19 to 64 only")
	fs.Var(quantity{kindMoney, &q.Limits.Budget}, "budget", "most that it may cost, in the currency of the prices")
	fs.Var(quantity{kindWeight, &q.Limits.WeightKg}, "max-weight", "most that it may weigh: 120, 120kg or 260lb")
	fs.Var(quantity{kindVolume, &q.Limits.VolumeL}, "max-litres", "most litres, as upright boxes: 200, 200L or 7cuft; shelves take 1/0.85 of it")
	fs.Var(quantity{kindVolume, &q.Limits.WaterL}, "max-water", "most water stored: 150, 150L or 40gal")
	fs.Var(quantity{kindHeat, &q.Limits.HeatMJ}, "max-heat", "most useful heat for cooking: 20, 20MJ or 5.5kWh")
	choice(fs, &q.Cook, "cook", ration.CookBoil, "the most demanding cooking there is; boil is under 20 minutes' simmering", ration.CookNone, ration.CookWarm, ration.CookBoil, ration.CookSimmer)
	fs.BoolVar(&q.Hot, "hot", false, "hot climate: twice the water to drink")
	fs.BoolVar(&q.EasyOpen, "easy-open", false, "only packs that weak hands can open and lift")
	fs.Var(whole{&q.Pets, 0, mostPets}, "pets", "store water for `N` pets")
	choice(fs, &f.store, "water", storeNeed, "water stored: what this plan needs, or at least the older allowance, 7 US gallons a head", storeNeed, storeAllowance)
	fs.Var(quantity{kindVolume, &q.WashingL}, "washing", "water for hands and dishes, a head and day: 0.5 or 1L; 0 where there is other water (default 1)")
	fs.BoolVar(&q.BoilWater, "boil-water", false, "drinking water must be boiled: more heat")
}

// addSearch adds the flags of the day and of the gap.
func (f *planFlags) addSearch(fs *pflag.FlagSet) {
	f.addStart(fs)
	f.asked.Within = ration.DefaultWithin
	fs.Var((*fraction)(&f.asked.Within), "within", "stop when proven this near the best possible: 1% or 0.01")
}

// addStart adds --start.
func (f *planFlags) addStart(fs *pflag.FlagSet) {
	fs.StringVar(&f.asked.Start, "start", "", "day one, a `DATE` as 2026-11-25 (default: today)")
}

// The words of --water.
const (
	storeNeed      = "need"
	storeAllowance = "allowance"
)

// addStandard adds --standard and --energy.
func addStandard(fs *pflag.FlagSet, standard *nutrients.Standard, energy *nutrients.EnergySet) {
	choice(fs, standard, "standard", nutrients.StandardRDA, "rda: RDA or AI; ear: for groups; basic: energy, protein and water only", nutrients.StandardRDA, nutrients.StandardEAR, nutrients.StandardBasic)
	choice(fs, energy, "energy", nutrients.Energy2023, "energy equations: DRI 2023, DRI 2005 or the Dietary Guidelines table", nutrients.Energy2023, nutrients.Energy2005, nutrients.EnergyGuidelines)
}

// request reads every file and builds the request. All problems of all files
// are in one error.
func (f *planFlags) request(s *session) (*ration.Request, error) {
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
		stock, stockErr = f.stockOf(s, larder, f.asked.Start)
		if peopleErr == nil {
			namesErr = s.foodNames(home, larder)
		}
	}
	if err := table.Join(peopleErr, tableErr, shelvesErr, stockErr, namesErr); err != nil {
		return nil, badInput(err)
	}
	files.Stock = stock.Rows
	if err := s.meant(larder, f.asked.Without...); err != nil {
		return nil, badInput(fmt.Errorf("--without: %w", err))
	}
	ill, err := f.sick(home.people)
	if err != nil {
		return nil, err
	}
	req := f.of(larder, files)
	req.People, req.Ill, req.Shelves, req.Demo.Household = home.people, ill, shelves, f.household == ""
	req.Stock, req.StockWaterL, req.StockHeatMJ = stock.Lines, stock.WaterL, stores.HeatOfStock(stock)
	return req, nil
}

// check refuses flags that cannot be, and fills in today.
func (f *planFlags) check() error {
	if f.asked.Start == "" {
		f.asked.Start = time.Now().Format(time.DateOnly)
	} else if err := goodDay(f.asked.Start); err != nil {
		return err
	}
	if most, washing := float64(ration.MostWashingL), f.asked.WashingL; washing != nil && *washing > most {
		return usagef("invalid --washing %g: litres a head and day; write 0 to %g", *washing, most)
	}
	return nil
}

// of is what the flags ask with the foods of a table, for people yet to be named.
func (f *planFlags) of(larder *foods.Table, files ration.Files) *ration.Request {
	req := f.asked
	req.Table, req.Files, req.Demo.Prices = larder, files, f.prices == ""
	req.Allowance = f.store == storeAllowance
	req.Within = max(req.Within, tightestGap)
	return &req
}

// tightestGap stands for "--within 0": in a request 0 means the default, and
// no search in floating-point numbers proves less than this.
const tightestGap = 1e-9
