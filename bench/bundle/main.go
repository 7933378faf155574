// Bundle builds the scripts and styles that the bench embeds, from their
// source to the folder built: `go generate ./bench`. Only whoever changes
// them needs it; the program itself is built from what is kept there.
package main

import (
	"fmt"
	"os"

	"heddle/bench/bundle/bundler"
)

func main() {
	files, err := bundler.Build(".")
	if err != nil {
		fmt.Fprintln(os.Stderr, "bundle:", err)
		os.Exit(1)
	}
	for name, body := range files {
		if err := os.WriteFile("built/"+name, body, 0o644); err != nil {
			fmt.Fprintln(os.Stderr, "bundle:", err)
			os.Exit(1)
		}
	}
}
