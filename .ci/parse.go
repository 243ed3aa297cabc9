//go:build ignore

// Command parse reads one plan as JSON from standard input and says what it chooses; it fails on anything else.
package main

import (
	"encoding/json"
	"fmt"
	"os"
)

func main() {
	var plan struct {
		Version int            `json:"holdover"`
		Choice  string         `json:"choice"`
		Figures map[string]any `json:"figures"`
	}
	decoder := json.NewDecoder(os.Stdin)
	if err := decoder.Decode(&plan); err != nil || decoder.More() || plan.Version != 1 || plan.Choice == "" || len(plan.Figures) == 0 {
		fmt.Fprintln(os.Stderr, "no plan in JSON:", err)
		os.Exit(1)
	}
	fmt.Printf("%s, %d figures\n", plan.Choice, len(plan.Figures))
}
