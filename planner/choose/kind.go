package choose

// Kind is one way to carry a house through an outage.
type Kind string

// The kinds, and None for a house that nothing carries within its limits (or that needs nothing).
const (
	Battery   Kind = "battery"
	Generator Kind = "generator"
	Hybrid    Kind = "hybrid"
	None      Kind = "none"
)
