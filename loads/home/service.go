package home

import (
	"fmt"
	"strings"

	"holdover/loads/units"
)

// A Service is the kind of supply a house has.
type Service string

// The services.
const (
	SplitPhase Service = "120/240 V"
	Only120    Service = "120 V"
	Only230    Service = "230 V"
)

// Services lists the accepted services.
func Services() []string { return []string{string(SplitPhase), string(Only120), string(Only230)} }

// LegVolts is the voltage from one line to neutral.
func (s Service) LegVolts() units.Volts {
	if s == Only230 {
		return 230
	}
	return 120
}

func (s *Service) readText(text string) (says string, err error) {
	plain := strings.TrimSuffix(strings.ReplaceAll(text, " ", ""), "V")
	for _, known := range Services() {
		if plain == strings.TrimSuffix(known, " V") {
			*s = Service(known)
			return text, nil
		}
	}
	return "", fmt.Errorf("%q found; %s is accepted", text, oneOf(Services()))
}
