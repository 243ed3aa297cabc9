package profiles

import (
	"fmt"

	"gopkg.in/yaml.v3"
)

// UnmarshalYAML reads three numbers that do not fall, none negative: [low, typical, high].
func (b *Band) UnmarshalYAML(node *yaml.Node) error {
	var numbers []float64
	if err := node.Decode(&numbers); err != nil {
		return err
	}
	if len(numbers) != 3 || numbers[0] < 0 || numbers[1] < numbers[0] || numbers[2] < numbers[1] {
		return fmt.Errorf("line %d: low, typical and high are wanted, none negative, not falling", node.Line)
	}
	*b = Band{numbers[0], numbers[1], numbers[2]}
	return nil
}
