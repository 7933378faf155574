package main

import (
	_ "embed"
	"io"
)

// licences is the text of licences/all.txt, which a test keeps equal to what is
// in the binary: every module, font, script and copied package with its
// licence, after the notices of licences/notices.txt.
//
//go:embed licences/all.txt
var licences string

// licencesCommand prints under what terms the parts of the program are passed on.
type licencesCommand struct{}

// Run prints.
func (licencesCommand) Run(s streams) error {
	_, err := io.WriteString(s.out, licences)
	return err
}
