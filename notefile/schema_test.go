package notefile

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"heddle/internal/need"
)

// schemaFile is the MusicXML 4.0 schema of the W3C Music Notation Community
// Group.
const schemaFile = "testdata/musicxml-4.0/musicxml.xsd"

// xmllint returns the validator.
func xmllint(t *testing.T) string {
	t.Helper()
	return need.Program(t, "it checks MusicXML against the schema", "xmllint")
}

// writeSamples writes the sample exercises to files, in one folder.
func writeSamples(t *testing.T) []string {
	t.Helper()
	folder := t.TempDir()
	var files []string
	for i, ex := range samples(t) {
		var out bytes.Buffer
		if err := WriteMusicXML(&out, ex); err != nil {
			t.Fatalf("%s: %v", sampleName(i, ex), err)
		}
		file := filepath.Join(folder, fmt.Sprintf("%d.musicxml", i))
		if err := os.WriteFile(file, out.Bytes(), 0o600); err != nil {
			t.Fatal(err)
		}
		files = append(files, file)
	}
	return files
}

func TestMusicXMLIsValidAgainstTheSchema(t *testing.T) {
	program := xmllint(t)
	files := writeSamples(t)
	arguments := append([]string{"--noout", "--nonet", "--schema", schemaFile}, files...)
	if out, err := exec.Command(program, arguments...).CombinedOutput(); err != nil {
		t.Fatalf("%v\n%.4000s", err, out)
	}
}

// The check above means something only if the validator finds faults.
func TestTheSchemaRefusesAFault(t *testing.T) {
	program := xmllint(t)
	var out bytes.Buffer
	if err := WriteMusicXML(&out, built(t, workedExample())); err != nil {
		t.Fatal(err)
	}
	fault := strings.Replace(out.String(), "<type>eighth</type>", "<type>quaver</type>", 1)
	command := exec.Command(program, "--noout", "--nonet", "--schema", schemaFile, "-")
	command.Stdin = strings.NewReader(fault)
	if err := command.Run(); err == nil {
		t.Fatal("a note type that does not exist passed")
	}
}
