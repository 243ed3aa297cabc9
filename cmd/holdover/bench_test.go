package main

import (
	"io"
	"strings"
	"testing"
)

// How long a whole call takes but for starting the process: see DEVELOPERS.md for the built program's own time.

func BenchmarkPlanDemo(b *testing.B) { benchmarkCall(b, "plan") }

func BenchmarkPlanThousandCircuits(b *testing.B) { benchmarkCall(b, "plan", thousand) }

func BenchmarkPlanThousandCircuitsJSON(b *testing.B) { benchmarkCall(b, "plan", "--json", thousand) }

func BenchmarkWhyThousandCircuits(b *testing.B) {
	benchmarkCall(b, "why", "battery.nameplate_wh", thousand)
}

const thousand = "../../testdata/homes/thousand-circuits.yaml"

func benchmarkCall(b *testing.B, args ...string) {
	b.ReportAllocs()
	for b.Loop() {
		if code := run(args, terminal{strings.NewReader(""), io.Discard, io.Discard}); code != exitDone {
			b.Fatalf("exit status %d", code)
		}
	}
}
