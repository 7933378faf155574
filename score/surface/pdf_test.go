package surface_test

import (
	"bytes"
	"fmt"
	"os/exec"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"heddle/internal/need"
	"heddle/score/internal/examples"
	"heddle/score/paper"
	"heddle/score/surface"
)

func pdfOf(t testing.TB, pages []surface.Drawing) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := surface.WritePDF(&out, pages); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// The cross-reference table must point to every object (ISO 32000-1, 7.5.4).
func TestThePDFsTableFindsItsObjects(t *testing.T) {
	pages, err := paper.Pages(examples.Worked(t), paper.Options{Title: "Out and back"})
	if err != nil {
		t.Fatal(err)
	}
	file := pdfOf(t, pages)
	at := bytes.LastIndex(file, []byte("startxref\n"))
	start, err := strconv.Atoi(string(bytes.Fields(file[at:])[1]))
	if err != nil || !bytes.HasPrefix(file[start:], []byte("xref\n")) {
		t.Fatalf("startxref does not point to the table: %v", err)
	}
	offsets := regexp.MustCompile(`(?m)^(\d{10}) 00000 n $`).FindAllSubmatch(file[start:], -1)
	if len(offsets) < 10 {
		t.Fatalf("only %d objects", len(offsets))
	}
	for i, m := range offsets {
		offset, _ := strconv.Atoi(string(m[1]))
		if want := fmt.Sprintf("%d 0 obj\n", i+1); !bytes.HasPrefix(file[offset:], []byte(want)) {
			t.Errorf("object %d is not where the table says", i+1)
		}
	}
}

func TestThePDFHasNoDateAndNoRandomID(t *testing.T) {
	pages, err := paper.Pages(examples.Worked(t), paper.Options{})
	if err != nil {
		t.Fatal(err)
	}
	file := pdfOf(t, pages)
	for _, word := range []string{"CreationDate", "ModDate", "/ID"} {
		if bytes.Contains(file, []byte(word)) {
			t.Errorf("the file holds %s", word)
		}
	}
	if again := pdfOf(t, pages); !bytes.Equal(file, again) {
		t.Error("the same pages give other bytes")
	}
}

// What a reader of the PDF can search and copy, as poppler finds it.
func TestThePDFsTextIsFoundBySearching(t *testing.T) {
	need.Program(t, "whether the text of a PDF is found is not checked", "pdftotext")
	for _, c := range []struct {
		name  string
		words []string
	}{
		{"worked-example", []string{"Out and back in G minor", "weave G minor pentatonic", "Gm7", "D♭", "C♭", "♯11"}},
		{"sixteenth-triplets-double-accidentals", []string{"B𝄫", "F𝄪", "C♯"}},
		{"threes-in-five-four-with-pickup", []string{"Sol♭", "Ré"}},
		{"left-handed-dark", []string{"Ces", "As", "As minor pentatonic, frets 11–14"}},
	} {
		var found *examples.Case
		for _, h := range examples.Cases(t) {
			if h.Name == c.name {
				found = &h
			}
		}
		if found == nil {
			t.Fatalf("no hard case %s", c.name)
		}
		pages, err := paper.Pages(found.Exercise, paper.Options{Title: "Out and back in G minor"})
		if err != nil {
			t.Fatal(err)
		}
		cmd := exec.Command("pdftotext", "-enc", "UTF-8", "-", "-")
		cmd.Stdin = bytes.NewReader(pdfOf(t, pages))
		text, err := cmd.Output()
		if err != nil {
			t.Fatal(err)
		}
		flat := strings.Join(strings.Fields(string(text)), " ")
		for _, word := range c.words {
			if !strings.Contains(flat, word) {
				t.Errorf("%s: %q is not found in the text", c.name, word)
			}
		}
	}
}
