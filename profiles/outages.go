package profiles

// OutageStatistics is how often and how long customers are without power, year by year.
type OutageStatistics struct {
	Source string       `yaml:"source"`
	Years  []OutageYear `yaml:"years"`
}

// An OutageYear is one year's indices of IEEE 1366: minutes a year, times a year, minutes an interruption; with major event
// days and without.
type OutageYear struct {
	Year         int     `yaml:"year"`
	SAIDI        float64 `yaml:"saidi"`         // min a year
	SAIFI        float64 `yaml:"saifi"`         // times a year
	CAIDI        float64 `yaml:"caidi"`         // min an interruption
	SAIDIWithout float64 `yaml:"saidi_without"` // min a year
	SAIFIWithout float64 `yaml:"saifi_without"` // times a year
	CAIDIWithout float64 `yaml:"caidi_without"` // min an interruption
}

var outages = table[OutageStatistics]("outages.yaml")

// Outages gives the published statistics.
func Outages() OutageStatistics { return outages() }
