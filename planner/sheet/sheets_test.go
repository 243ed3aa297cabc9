package sheet

import (
	"strings"
)

// without takes the line of one key out of a sheet.
func without(sheet, key string) []byte {
	var kept []string
	for _, line := range strings.Split(sheet, "\n") {
		if !strings.HasPrefix(strings.TrimSpace(line), key+":") {
			kept = append(kept, line)
		}
	}
	return []byte(strings.Join(kept, "\n"))
}
