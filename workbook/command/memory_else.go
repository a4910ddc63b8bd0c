//go:build !linux

package command

// askForLargePages does nothing where the system decides by itself.
func askForLargePages() {}
