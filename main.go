// Command railbook grades, values, checks and places a fair's carcasses from the fair office's own workbook.
package main

import (
	"os"

	"railbook/workbook/command"
)

// version is set when a release is built: -ldflags "-X main.version=1.2.3".
var version = "development"

func main() { os.Exit(command.Run(os.Args, version)) }
