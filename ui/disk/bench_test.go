package disk

import (
	"path/filepath"
	"testing"
)

// What an edit waits for: a recovery file of the size of the demo home.
func BenchmarkPrivate(b *testing.B) {
	path, text := filepath.Join(b.TempDir(), "kept"), make([]byte, 6<<10)
	for b.Loop() {
		if err := Private(OS, path, text); err != nil {
			b.Fatal(err)
		}
	}
}
