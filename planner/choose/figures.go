package choose

import (
	"fmt"
	"strings"

	"holdover/loads/units"
	"holdover/planner/derive"
	"holdover/planner/generator"
	"holdover/planner/sheet"
	"holdover/profiles"
)

// This file puts down what a design is made of, how it ran, and what it costs. The figures of a kind share its name: battery.purchase,
// generator.purchase, hybrid.purchase, …

const (
	tried     = "found by trying designs in the sizes made, cheapest first"
	runSource = "the event-driven run of this design through the outage"
	estimate  = "generic price bands, typical figure: estimates, common practice, no source"
)

// An account is an outcome of a kind being put down.
type account struct {
	*derive.Figures
	*Case
	Outcome
	kind Kind
}

// Derive puts a design of a kind that is real down.
func (c *Case) Derive(f *derive.Figures, kind Kind, o Outcome) {
	a := account{f, c, o, kind}
	if o.Modules > 0 {
		a.storage()
	}
	if o.ChargerKW > 0 {
		a.add("charger_kw", o.ChargerKW, "kW", tried, "ratings commonly sold, common practice, no source")
	}
	if o.Machine != nil {
		a.engine(o.Machine)
	}
	short := o.Run.ShortKWh
	if o.Carried() {
		short = 0 // but for rounding
	}
	a.add("short_kwh", short, "kWh", "wanted but not supplied", runSource)
	a.costs()
}

// id is that of a figure of the kind.
func (a *account) id(name string) string { return string(a.kind) + "." + name }

// add puts down what the search or the run came to.
func (a *account) add(name string, value float64, unit, how, source string, from ...string) derive.Term {
	return a.Add(derive.Figure{ID: a.id(name), Value: value, Unit: unit, How: how, Source: source, From: from})
}

func (a *account) storage() {
	modules := derive.Quantity(float64(a.Modules), "modules").Times(a.Term("assume.module").Kilo())
	a.Put(a.id("battery_kwh"), "kWh", modules.With(tried), "")
	a.add("inverter_va", a.InverterVA, "VA", "the inverter that serves these loads", "", "inverter.size_va")
	a.add("end_kwh", a.Run.EndKWh, "kWh", "left in the battery at the end, of what may be used", runSource)
}

func (a *account) engine(m *Machine) {
	kw := a.add("generator_kw", m.KW, "kW", fmt.Sprintf("%s on %s, %s", m.Title, strings.ToLower(m.Fuel.Title), tried), "", "site.engine_derate")
	site := kw.As("rated kW", kw.Value).Times(a.Term("site.engine_derate"))
	if a.kind == Hybrid {
		site = site.Over(derive.One.Plus(a.Term("assume.power_margin"))).With("which is what the plan counts on")
	}
	a.Put(a.id("generator_site_kw"), "kW", site, "")
	a.add("run_hours", a.Run.RunHours, "h", fmt.Sprintf("generator on, in %d starts", a.Run.Starts), runSource)
	a.add("generated_kwh", a.Run.GeneratorKWh, "kWh", "given by the generator over the outage", runSource)
	a.add("fuel_burnt", a.Run.Fuel, m.Fuel.Unit, fmt.Sprintf("%s: %.4g %s/h for each rated kW · hours on + %.4g %s/kWh · energy given = %s", m.Fuel.Title,
		m.Line.IdleUnitsPerHourPerKW, m.Fuel.Unit, m.Line.UnitsPerKWh, m.Fuel.Unit, generator.FuelText(m.Fuel, a.Run.Fuel)), "Willans line; "+m.Line.Source,
		a.id("generator_kw"), a.id("run_hours"), a.id("generated_kwh"))
}

// costs puts down what each part costs, and what all come to over the planning years.
func (a *account) costs() {
	put := func(name string, t derive.Term, source string) derive.Term {
		return a.Put(a.id(name), currency(), t, source)
	}
	annuity := derive.Called("annuity of "+units.Format(a.Horizon.Annuity), a.Horizon.Annuity, "assume.years", "assume.discount")
	burnt := a.burnt()
	var prices, again, yearly []derive.Term
	for _, part := range a.Parts(a.Design, a.Fuel, a.Hours) {
		if part.Kind == "" {
			continue
		}
		price := put("price."+string(part.Kind), a.price(part, burnt), a.priceSource(part.Kind))
		prices = append(prices, price)
		if times := a.Horizon.Replacements(part.LifeYears); times > 0 {
			again = append(again, price.Times(derive.Called(units.Format(times), times)))
		}
		if part.PerYear > 0 {
			yearly = append(yearly, price.As(units.Format(part.PerYear)+" a year for the "+string(part.Kind), part.PerYear))
		}
	}
	bought := append(derive.IDs(prices...), derive.IDs(annuity)...)
	purchase := put("purchase", derive.Sum(prices...).With("with installation"), estimate)
	replacement := put("replacement", derive.Sum(again...).With("each part bought again at the end of its life before the horizon, at present worth", bought...), estimate)
	upkeep := put("upkeep", derive.Sum(yearly...).Times(annuity).With("by the year and by running hours, at present worth", append(bought, "outage.per_year")...), estimate)
	fuel := derive.Called("no fuel is burnt", 0)
	if m := a.Machine; m != nil {
		outages := a.Term("outage.per_year")
		each := derive.Quantity(m.Fuel.Price.PerUnit.Typical, currency()+"/"+m.Fuel.Unit)
		fuel = burnt.Times(outages.As("outages a year", outages.Value)).Times(each).Times(annuity).With("at present worth")
	}
	fuel = put("fuel_cost", fuel, estimate)
	put("cost", derive.Sum(purchase, replacement, upkeep, fuel).With("the present cost over the planning years"), estimate)
}

// burnt is the fuel of one outage by which a design is priced.
func (a *account) burnt() derive.Term {
	if a.Machine == nil {
		return derive.Number(0)
	}
	burnt := a.Term(a.id("fuel_burnt"))
	if a.Fuel != burnt.Value {
		return burnt.As("most fuel of any start hour", a.Fuel)
	}
	return burnt
}

// price is what a part costs to buy, so much fixed and so much for each unit of it, with what it costs to keep and how often it is
// bought again.
func (a *account) price(p Part, burnt derive.Term) derive.Term {
	amount := burnt
	var also []string
	switch p.Kind {
	case transferPart:
		amount, also = derive.Quantity(p.Amount, "circuits"), []string{"for transfer equipment, installed"}
	case batteryPart:
		amount = a.Term(a.id("battery_kwh"))
	case inverterPart:
		amount = a.Term(a.id("inverter_va")).Kilo()
	case chargerPart:
		amount = a.Term(a.id("charger_kw"))
	case generatorPart:
		amount = a.Term(a.id("generator_kw"))
	}
	price := sheet.Priced(p.Fixed, p.Each, p.Unit, amount)
	if p.PerYear > 0 {
		also = append(also, units.Format(p.PerYear)+" a year to keep up")
	}
	if p.LifeYears > 0 {
		also = append(also, fmt.Sprintf("bought again every %s years", units.Format(p.LifeYears)))
	}
	if len(also) > 0 {
		price = price.With(strings.Join(also, "; "))
	}
	return price
}

// priceSource says whose price it is: the household's own, or the band's.
func (a *account) priceSource(part PartKind) string {
	if own := a.ownPrices(part); len(own) > 0 {
		return "the home file: " + strings.Join(own, ", ")
	}
	return "typical figure of a generic band, " + profiles.PriceBands().Dated + ": an estimate, common practice, no source"
}

func currency() string { return profiles.PriceBands().Currency }
