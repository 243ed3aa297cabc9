package derive

import (
	"fmt"
	"strings"
)

// Names writes up to so many names, and how many more there are.
func Names(names []string, most int) string {
	if len(names) <= most {
		return strings.Join(names, ", ")
	}
	return fmt.Sprintf("%s and %d more", strings.Join(names[:most], ", "), len(names)-most)
}
