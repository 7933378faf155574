package main

import (
	"cmp"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// licenceKinds are the licences under which an MIT program may pass a part on,
// and words that only they have, with single spaces.
var licenceKinds = []struct{ name, words string }{
	{"MIT", "Permission is hereby granted, free of charge, to any person obtaining a copy of this software"},
	{"ISC", "Permission to use, copy, modify, and distribute this software for any purpose with or without fee is hereby granted, provided that"},
	{"0BSD", "Permission to use, copy, modify, and/or distribute this software for any purpose with or without fee is hereby granted."},
	{"BSD-3-Clause", "Neither the name of"},
	{"BSD-3-Clause", "Neither the names of the authors nor the names of the contributors may be used"},
	{"public domain", "has been dedicated to the public domain by the authors"},
	{"Apache-2.0", "Apache License Version 2.0, January 2004"},
	{"Unlicense", "This is free and unencumbered software released into the public domain."},
	{"OFL-1.1", "SIL OPEN FONT LICENSE Version 1.1"},
}

// A part is something in the binary that came with a licence.
type part struct{ name, kind, text string }

func newPart(t *testing.T, name, path string) part {
	t.Helper()
	raw, err := os.ReadFile(path)
	if err != nil {
		t.Errorf("%s: no licence: %v", name, err)
	}
	p := part{name: name, text: strings.TrimRight(strings.ReplaceAll(string(raw), "\r\n", "\n"), "\n ")}
	words := strings.Join(strings.Fields(p.text), " ")
	for _, k := range licenceKinds {
		if strings.Contains(words, k.words) {
			p.kind = cmp.Or(p.kind, k.name)
		}
	}
	if p.kind == "" {
		t.Errorf("%s: %s holds no licence known to let an MIT program pass it on", name, path)
	}
	return p
}

var licenceFile = regexp.MustCompile(`(?i)^(licen[cs]e|copying|unlicense)(\.txt|\.md)?$`)

// goPrints is what the go command prints.
func goPrints(t *testing.T, args ...string) string {
	t.Helper()
	out, err := exec.Command("go", args...).Output()
	if err != nil {
		t.Fatalf("go %s: %v", args[0], err)
	}
	return strings.TrimSpace(string(out))
}

// modules are the standard library and the modules in the binary.
func modules(t *testing.T) []part {
	t.Helper()
	parts := []part{newPart(t, "The Go standard library", filepath.Join(goPrints(t, "env", "GOROOT"), "LICENSE"))}
	lines := strings.Split(goPrints(t, "list", "-deps", "-f", `{{with .Module}}{{if not .Main}}{{.Path}} {{.Version}};{{.Dir}}{{end}}{{end}}`, "."), "\n")
	slices.Sort(lines)
	for _, line := range slices.Compact(lines) {
		name, dir, found := strings.Cut(line, ";")
		if !found {
			continue // the standard library and our own packages
		}
		files, err := os.ReadDir(dir)
		if err != nil {
			t.Fatal(err)
		}
		i := slices.IndexFunc(files, func(f fs.DirEntry) bool { return licenceFile.MatchString(f.Name()) })
		if i < 0 {
			t.Errorf("%s has no licence", name)
			continue
		}
		parts = append(parts, newPart(t, name, filepath.Join(dir, files[i].Name())))
		module, _, _ := strings.Cut(name, " ")
		for file, title := range within[module] {
			parts = append(parts, newPart(t, title+", in "+name, filepath.Join(dir, file)))
		}
	}
	return parts
}

// within names what a module holds of others, by the file with its licence.
var within = map[string]map[string]string{
	"modernc.org/libc":   {"LICENSE-3RD-PARTY.md": "Parts of Go, musl and others"},
	"modernc.org/sqlite": {"LICENSE-SQLITE": "SQLite"},
}

// copies names what lies in the repository with a licence of its own, by how
// the licence's file ends.
var copies = map[string]string{
	"strokes-LICENSE.txt": "The recorded strokes of the drums, from FluidR3",
	"mp3/LICENSE":         "github.com/hajimehoshi/go-mp3 v0.3.4, a copy with one change",
	"bravura-OFL.txt":     "The music font Bravura",
	"text-OFL.txt":        "The text fonts Heddle Serif and Heddle Sans",
}

// copied are the parts that lie in the repository itself.
func copied(t *testing.T) (parts []part) {
	t.Helper()
	root := filepath.Join("..", "..")
	err := filepath.WalkDir(root, func(path string, entry fs.DirEntry, err error) error {
		name := entry.Name()
		if err != nil || entry.IsDir() {
			if err == nil && (name == "node_modules" || name == "testdata" || strings.HasPrefix(name, ".") && path != root) {
				return fs.SkipDir
			}
			return err
		}
		if !licenceFile.MatchString(name) && !strings.HasSuffix(name, "-LICENSE.txt") && !strings.HasSuffix(name, "-OFL.txt") {
			return nil
		}
		if filepath.Dir(path) == root {
			parts = append([]part{newPart(t, "heddle", path)}, parts...)
			return nil
		}
		for end, title := range copies {
			if strings.HasSuffix(filepath.ToSlash(path), "/"+end) {
				parts = append(parts, newPart(t, title, path))
				return nil
			}
		}
		t.Errorf("%s is the licence of something without a name in this test", path)
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return parts
}

// Everything in the binary has a licence under which an MIT program may pass
// it on, and heddle licences prints it. -update writes the text.
func TestEverythingInTheBinaryHasALicence(t *testing.T) {
	parts := append(copied(t), modules(t)...)
	if len(parts) < 12 || parts[0].name != "heddle" {
		t.Fatalf("only %d parts found", len(parts))
	}
	notices, err := os.ReadFile("licences/notices.txt")
	if err != nil {
		t.Fatal(err)
	}
	var b strings.Builder
	b.Write(notices)
	b.WriteString("\n")
	for _, p := range parts {
		fmt.Fprintf(&b, "%-14s%s\n", p.kind, p.name)
	}
	for i, p := range parts {
		same := func(o part) bool { return o.text == p.text }
		if slices.IndexFunc(parts, same) < i {
			continue // printed above
		}
		fmt.Fprintf(&b, "\n%s\n", strings.Repeat("-", 72))
		for _, o := range parts {
			if same(o) {
				fmt.Fprintln(&b, o.name)
			}
		}
		fmt.Fprintf(&b, "\n%s\n", p.text)
	}
	if *update {
		if err := os.WriteFile("licences/all.txt", []byte(b.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	} else if b.String() != licences {
		t.Error("what is in the binary has changed: run go test ./cmd/heddle -run Licence -update and look at the difference")
	}
}
