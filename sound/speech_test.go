package sound

import (
	"bufio"
	"os"
	"strings"
	"testing"

	"heddle/pitch"
)

var namings = []pitch.Naming{pitch.English, pitch.German, pitch.Solfege}

func everyName() []pitch.Name {
	var names []pitch.Name
	for l := pitch.C; l <= pitch.B; l++ {
		for a := -2; a <= 2; a++ {
			names = append(names, pitch.Name{Letter: l, Accidental: a})
		}
	}
	return names
}

func TestEveryNameIsRecordedInEveryNamingInTheWordsThatAreSpoken(t *testing.T) {
	words := map[string]string{}
	f, err := os.Open("voice/words.txt")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	for lines := bufio.NewScanner(f); lines.Scan(); {
		col := strings.Split(lines.Text(), "\t")
		if len(col) != 4 {
			t.Fatalf("line %q has %d columns, want 4", lines.Text(), len(col))
		}
		words["voice/"+col[0]+"/"+col[1]+".flac"] = col[2]
	}
	if len(words) != 105 {
		t.Errorf("%d names are listed, want 7 letters × 5 accidentals × 3 namings", len(words))
	}
	for _, g := range namings {
		for _, n := range everyName() {
			path := recordingOf(g, n)
			if words[path] != g.Spoken(n) {
				t.Errorf("%s says %q, want %q", path, words[path], g.Spoken(n))
			}
			w, err := record(g, n, 48000)
			if err != nil {
				t.Errorf("%s: %v", path, err)
				continue
			}
			seconds := float64(len(w.samples)) / 48000
			if seconds < 0.08 || seconds > 0.75 {
				t.Errorf("%s lasts %.2f s, want a name spoken fast", path, seconds)
			}
			if at := float64(w.beat) / 48000; at > 0.2 {
				t.Errorf("%s is felt to begin %.2f s in, want its first vowel", path, at)
			}
			if len(w.samples) == 0 || highest(w.samples) < 0.1 {
				t.Errorf("%s is silent", path)
			}
		}
	}
}

func TestRecordingsStaySmall(t *testing.T) {
	total := 0
	for _, g := range namings {
		for _, n := range everyName() {
			file, err := recordings.ReadFile(recordingOf(g, n))
			if err != nil {
				t.Fatal(err)
			}
			total += len(file)
		}
	}
	if total > 1500_000 {
		t.Errorf("recordings take %d bytes, want well under 2 MB", total)
	}
}
