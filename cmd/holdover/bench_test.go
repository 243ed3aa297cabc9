package main

import (
	"io"
	"os"
	"strings"
	"testing"
)

// How long a whole call takes but for starting the process: see DEVELOPERS.md for the built program's own time.

func BenchmarkPlanDemo(b *testing.B) { benchmarkCall(b, "", exitDone, "plan") }

// Nothing carries this one: its circuits that take turns want too many hours, and every remedy is a home planned again.
func BenchmarkPlanThousandCircuits(b *testing.B) {
	benchmarkCall(b, "", exitNotCarried, "plan", thousand)
}

func BenchmarkPlanThousandCircuitsJSON(b *testing.B) {
	benchmarkCall(b, "", exitNotCarried, "plan", "--json", thousand)
}

// The same house without turns is carried.
func BenchmarkPlanThousandCircuitsCarried(b *testing.B) {
	text, err := os.ReadFile(thousand)
	if err != nil {
		b.Fatal(err)
	}
	benchmarkCall(b, strings.ReplaceAll(string(text), "care: rotate", "care: shed"), exitDone, "plan", "-")
}

func BenchmarkWhyThousandCircuits(b *testing.B) {
	benchmarkCall(b, "", exitDone, "why", "battery.nameplate_wh", thousand)
}

const thousand = "../../testdata/homes/thousand-circuits.yaml"

func benchmarkCall(b *testing.B, input string, want int, args ...string) {
	b.ReportAllocs()
	for b.Loop() {
		if code := run(args, terminal{strings.NewReader(input), io.Discard, io.Discard}); code != want {
			b.Fatalf("exit status %d", code)
		}
	}
}
