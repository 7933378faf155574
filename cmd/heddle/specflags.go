package main

import (
	"bytes"
	"encoding/json"
	"io"
	"os"

	"heddle/exercise"
	"heddle/pitch"
)

// specFlags say where a spec comes from, besides its fields' own flags.
type specFlags struct {
	Spec *string `help:"Read the fields from a file of 'field: value' lines or JSON; - reads standard input. Flags override the file." placeholder:"FILE" group:"output"`
}

// read gathers the spec from the file, if one is named, and the flags.
func (f *specFlags) read(in io.Reader, flags given) (exercise.Spec, error) {
	var spec exercise.Spec
	if f.Spec != nil {
		var err error
		if spec, err = readSpec(*f.Spec, in); err != nil {
			return spec, err
		}
	}
	return spec, flags.apply(&spec)
}

// byteOrderMark is what some editors put before a text file.
const byteOrderMark = "\ufeff"

// maxSpecFile bounds a spec file in bytes.
const maxSpecFile = 64 << 10

func readSpec(name string, in io.Reader) (exercise.Spec, error) {
	in, done, err := openInput("spec", name, in)
	if err != nil {
		return exercise.Spec{}, err
	}
	defer done()
	text, err := io.ReadAll(io.LimitReader(in, maxSpecFile+1))
	if err != nil {
		return exercise.Spec{}, err
	}
	if len(text) > maxSpecFile {
		return exercise.Spec{}, &pitch.InputError{What: "spec", Value: name, Want: "a file of at most 64 KiB"}
	}
	text = bytes.TrimSpace(bytes.TrimPrefix(text, []byte(byteOrderMark)))
	if bytes.HasPrefix(text, []byte("{")) {
		var spec exercise.Spec
		if !json.Valid(text) {
			return spec, &pitch.InputError{What: "spec", Value: name, Want: "valid JSON or lines of 'field: value'"}
		}
		return spec, json.Unmarshal(text, &spec)
	}
	return exercise.ParseText(string(text))
}

// openInput opens a file named on the command line; - is standard input. Call done
// after reading.
func openInput(what, name string, in io.Reader) (file io.Reader, done func() error, err error) {
	if name == "-" {
		return in, func() error { return nil }, nil
	}
	opened, err := os.Open(name)
	if err != nil {
		return nil, nil, &pitch.InputError{What: what, Value: name, Want: "a file that can be read"}
	}
	return opened, opened.Close, nil
}
