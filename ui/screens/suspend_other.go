//go:build !unix

package screens

// standAside does nothing where there is no job control.
func standAside() {}
