package choose

import (
	"math"
	"testing"

	"holdover/loads/units"
)

// How to run them, on one core: go test ./planner/choose -run '^$' -bench . -benchmem -cpu 1
//
// The grid is the demo home's without a budget and with ample fuel: in that grid hybrids compete, and the search has most to
// do. Designs are counted as brute force would try them; a target of one screen frame, 16 ms, is for all of them.

// benchCase is the demo home over so many hours.
func benchCase(b *testing.B, lengthH float64) *Case {
	c := demoCase(b, "budget: 20000", "budget: 10000000", "fuel_store: 25 gal", "fuel_store: 250 gal", "fuels: [propane, gasoline]",
		"fuels: [propane, gasoline, natural-gas, diesel]")
	return c.WithLength(units.Hours(lengthH))
}

func gridSize(c *Case) (designs int) {
	for _, kind := range []Kind{Generator, Battery, Hybrid} {
		everyDesign(c, kind, func(Design) { designs++ })
	}
	return designs
}

// benchmarkGrid chooses over the whole grid, and fails where it has fewer designs than are said.
func benchmarkGrid(b *testing.B, lengthH float64) {
	c := benchCase(b, lengthH)
	designs := gridSize(c)
	if designs < 100_000 {
		b.Fatalf("%d designs: the grid is too small", designs)
	}
	tries := c.search(Hybrid, c.Budget, math.Inf(1)).tries
	b.ReportAllocs()
	b.ResetTimer()
	for range b.N {
		if kind, _ := c.Choose(); kind == None {
			b.Fatal("nothing carries the house")
		}
	}
	b.ReportMetric(float64(designs), "designs")
	b.ReportMetric(float64(tries), "runs/hybrid")
	b.ReportMetric(float64(designs)*float64(b.N)/b.Elapsed().Seconds(), "designs/s")
}

func BenchmarkGrid100k72h(b *testing.B) { benchmarkGrid(b, 72) }
func BenchmarkGrid100k30d(b *testing.B) { benchmarkGrid(b, 30*24) }

// The hybrids alone, without a battery's or a generator's price to beat: more of the grid must be looked at.
func BenchmarkHybrids72h(b *testing.B) {
	c := benchCase(b, 72)
	b.ReportAllocs()
	for range b.N {
		if _, ok := c.Best(Hybrid); !ok {
			b.Fatal("no hybrid carries the house")
		}
	}
}

// Brute force over the same grid, one design a turn in an even spread of a thousand: by designs/s it compares with the grid's.
func BenchmarkBrute72h(b *testing.B) {
	c := benchCase(b, 72)
	var designs []Design
	everyDesign(c, Hybrid, func(d Design) { designs = append(designs, d) })
	step := len(designs)/1000 + 1
	b.ReportAllocs()
	b.ResetTimer()
	carried := 0
	for i := range b.N {
		if c.Try(designs[i*step%len(designs)]).Carried() {
			carried++
		}
	}
	b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "designs/s")
	b.ReportMetric(float64(carried)/float64(b.N), "carried")
}

// The general solver on one linear programme, sizing and dispatch of one charger over 24 h; compare with the grid as a whole.
func BenchmarkLP(b *testing.B) {
	c := relaxable(b, relaxedHome("24 h", "21:00-06:30", "400 L", eveningWatts), "inverter-portable")
	b.ReportAllocs()
	for range b.N {
		r := relax(c, 0.5)
		if _, _, err := r.solve(); err != nil {
			b.Fatal(err)
		}
	}
}

// The search on the very case that BenchmarkLP solves.
func BenchmarkLPCaseBySearch(b *testing.B) {
	c := relaxable(b, relaxedHome("24 h", "21:00-06:30", "400 L", eveningWatts), "inverter-portable")
	b.ReportAllocs()
	for range b.N {
		if _, ok := c.Best(Hybrid); !ok {
			b.Fatal("no hybrid carries the house")
		}
	}
}

// benchmarkRun carries the best hybrid through the outage.
func benchmarkRun(b *testing.B, lengthH float64) {
	c := benchCase(b, lengthH)
	best, ok := c.Best(Hybrid)
	if !ok {
		b.Fatal("no hybrid carries the house")
	}
	plant := c.Plant(best.Design)
	b.ReportAllocs()
	b.ResetTimer()
	for range b.N {
		c.Outages[0].Run(&plant, nil)
	}
	b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "runs/s")
}

func BenchmarkRun72h(b *testing.B) { benchmarkRun(b, 72) }
func BenchmarkRun30d(b *testing.B) { benchmarkRun(b, 30*24) }

func BenchmarkFlipPoints(b *testing.B) {
	c := demoCase(b)
	chosen, _ := c.Choose()
	b.ReportAllocs()
	for range b.N {
		c.FlipPoints(chosen)
	}
}

func BenchmarkFront(b *testing.B) {
	c := demoCase(b)
	b.ReportAllocs()
	for range b.N {
		c.Front()
	}
}
