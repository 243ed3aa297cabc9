package choose

import (
	"slices"

	"holdover/planner/sheet"
	"holdover/profiles"
)

// A Machine is one generator on one fuel, rated for this site.
type Machine struct {
	sheet.Engine // at the price of fuel in force; its SiteKW in a hybrid less the power margin, which a machine that serves alone has in its size already
	Sheet        sheet.Sheet
	Kind         string // of the price bands; [Owned] for one that costs nothing to buy
	Title        string // in words
	Price        profiles.GeneratorPrice
}

// Owned is the kind of a machine that the house has already.
const Owned = "owned"

// same says whether two machines are the same size of the same kind on the same fuel.
func (m *Machine) same(other *Machine) bool {
	return m.Kind == other.Kind && m.KW == other.KW && m.Fuel.Name == other.Fuel.Name
}

// addMachines lists every generator made, on every fuel to be had, that does its part by itself or beside a battery.
func (c *Case) addMachines() {
	for _, s := range sheet.Generators(c.duty.Home) {
		c.addMachine(s, s.Made.Kind, s.Made.Title)
	}
}

// AddOwned puts a generator that the house has among the machines, at no price; false where it does no part here, or its sheet
// does not say enough.
func (c *Case) AddOwned(s sheet.Sheet) bool {
	c.Machines, c.Generators = slices.Clone(c.Machines), slices.Clone(c.Generators)
	return c.addMachine(s, Owned, s.Name)
}

func (c *Case) addMachine(s sheet.Sheet, kind, title string) (serves bool) {
	e, ok := c.duty.EngineOf(s)
	if !ok {
		return false
	}
	if own := c.duty.Home.Prices.Fuels[e.Fuel.Name]; own != nil {
		e.Fuel.Price.PerUnit.Typical = *own
	}
	m := Machine{Engine: e, Sheet: s, Kind: kind, Title: title, Price: generatorPrice(c.duty.Home, s.Made)}
	if c.duty.Holds(s, sheet.Place{Part: sheet.House}) {
		c.Generators, serves = append(c.Generators, m), true
	}
	if c.duty.Holds(s, sheet.Place{Part: sheet.Charging}) {
		m.SiteKW /= 1 + c.duty.Home.Assume.PowerMargin
		c.Machines, serves = append(c.Machines, m), true
	}
	return serves
}
