package profiles

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestMedical_ByProfileOrByName(t *testing.T) {
	for _, c := range Circuits() {
		assert.Equal(t, c.Group == "medical", Medical(c.Name, "Bedside"), c.Name)
	}
	for _, name := range []string{"Oxygen concentrator", "Dad's CPAP", "Home-dialysis", "Insulin fridge", "Upstairs breathing device", "NEBULIZER (Ann)"} {
		assert.True(t, Medical("", name), name)
	}
	for _, name := range []string{"", "Kitchen lights", "Ventilation fan", "Well pump", "Refrigerator"} {
		assert.False(t, Medical("", name), name)
	}
}
