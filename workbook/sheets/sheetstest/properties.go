package sheetstest

import (
	"flag"
	"os"
	"testing"

	"pgregory.net/rapid"
)

// CheckSome tries a property of whole workbooks, each of which takes a while, on thirty of them, or on as many as of any other
// property with RAILBOOK_LONG set.
func CheckSome(t *testing.T, property func(*rapid.T)) {
	t.Helper()
	checks := flag.Lookup("rapid.checks")
	if usual := checks.Value.String(); os.Getenv("RAILBOOK_LONG") == "" && usual == checks.DefValue {
		_ = checks.Value.Set("30")
		defer func() { _ = checks.Value.Set(usual) }()
	}
	rapid.Check(t, property)
}
