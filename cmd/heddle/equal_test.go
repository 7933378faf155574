package main

import (
	"bytes"
	"fmt"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"heddle/bench"
	"heddle/deliver"
	"heddle/exercise"
	"heddle/internal/need"
)

// thirtySpecs are exercises of every kind, a field=value in each word; they are
// short, since each is rendered to sound.
var thirtySpecs = []string{
	"home=G minor pentatonic|superimpose=semitone up|groups=3,3|fret=10|land=third",
	"home=A minor blues|superimpose=tritone|direction=up",
	"home=C major|direction=down-up|value=sixteenth",
	"home=D dorian|superimpose=whole tone up|groups=2,1|direction=up-down",
	"home=E minor pentatonic|order=1 3 2|groups=3|value=eighth-triplet|cut=2-5",
	"home=F# minor pentatonic|superimpose=minor third up|follow=last",
	"home=Bb major pentatonic|chord=Bbmaj7|start=F4",
	"home=G minor pentatonic|changes=Gm7 C7 \\| Fmaj7|superimpose=semitone down",
	"home=A dorian|meter=5/4|feel=swing 2:1",
	"home=A mixolydian|changes=blues in A|meter=6/8|value=quarter",
	"home=C melodic minor|pickup=0.5|gap=0.5",
	"home=D harmonic minor|land=root|land-beat=3|ending=2",
	"home=Eb lydian|superimpose=F major triad|groups=3,3",
	"home=G whole tone|chord=G7#5|value=quintuplet",
	"home=B minor pentatonic|names=german",
	"home=B minor pentatonic|names=solfege|superimpose=tritone",
	"home=E minor pentatonic|instrument=bass",
	"home=A minor|instrument=ukulele",
	"home=G major|instrument=mandolin|picking=economy",
	"home=D minor pentatonic|tuning=D2 A2 D3 G3 B3 E4|frets=24",
	"home=C minor pentatonic|left=true|capo=3",
	"home=A blues|picking=legato|scale=628|reach=90|touch=blues",
	"home=G minor pentatonic|superimpose=semitone up|superimpose=tritone|groups=2,2,2",
	"home=C major|chord=Cmaj7|superimpose=D major triad|groups=1,3|repeats=skip",
	"home=Ab major pentatonic|superimpose=semitone down|value=sixteenth-triplet",
	"home=F minor pentatonic|feel=swing 3:2|land=fifth",
	"home=E phrygian|superimpose=tritone|groups=run|meter=7/8|direction=up",
	"home=G octatonic half-whole|chord=G7b9|fret=3",
	"home=A minor pentatonic|fret=12|land=root,third,fifth",
	"home=G minor pentatonic|superimpose=semitone up|form=phrase|bars=4|dips=1|busy=sparse|choice=1|cell=home=G+minor+pentatonic&superimpose=semitone+up&cut=3-6",
}

// optionSets are combinations of the choices for sound and picture.
var optionSets = []string{
	"",
	"title=Thursday evening|note=Accent the first note.|paper=letter|vamp=funk",
	"label=degrees|neck=whole|vamp=swing|click=2 and 4",
	"hide=names|hide=tab|count-in=0|voice=true",
	"hide=line|loops=2|response=true|mute=drums",
	"label=nothing|loops=2|silent=true|level=bass=-6|level=line=3",
	"ladder=180-200 by 20|pan=line=0.3|seed=7|bits=16",
	"vamp=ballad|click=once a bar|count-in=2|bits=32f",
	"vamp=drone|mute=click|mute=chords|seed=1|tone=nylon|articulation=palm-muted",
	"vamp=click|click=all|loops=3|title=A \\| B & C",
}

// slow are the formats that take long to write; everyday tests write each of
// them for every tenth spec.
var slow = map[string]bool{"pdf": true, "png": true, "opus": true, "mp3": true, "m4a": true, "flac": true, "wav": true}

// The command and the page write the same bytes, in every format and for all
// options.
func TestCommandAndPageWriteTheSameBytes(t *testing.T) {
	need.Program(t, "MP3 and M4A are written through it", "ffmpeg")
	b, err := bench.New(bench.Options{})
	if err != nil {
		t.Fatal(err)
	}
	page := b.Handler([]string{"example.com"})
	if len(thirtySpecs) != 30 {
		t.Fatalf("%d specs are compared, want 30", len(thirtySpecs))
	}
	used := map[string]bool{}
	for i, spec := range thirtySpecs {
		if !strings.Contains(spec, "|bars=") {
			spec += "|bars=1"
		}
		words := fieldWords(spec + "|tempo=200|rate=22050|" + optionSets[i%len(optionSets)])
		dir, args, query := t.TempDir(), []string{"line"}, url.Values{}
		for _, word := range words {
			name, value, _ := strings.Cut(word, "=")
			used[name] = true
			args = append(args, "--"+word)
			query.Add(name, value)
		}
		var formats []deliver.Format
		for j, f := range deliver.Formats() {
			if !slow[f.Name] || need.All() || (i+j)%10 == 0 {
				formats = append(formats, f)
				args = append(args, "-o", filepath.Join(dir, "line."+f.Name))
			}
		}
		var out, remarks bytes.Buffer
		if code := run(t.Context(), args, streams{strings.NewReader(""), &out, &remarks}); code != exitDone {
			t.Fatalf("%q exits with %d: %s", args, code, &remarks)
		}
		for _, f := range formats {
			file, err := os.ReadFile(filepath.Join(dir, "line."+f.Name))
			if err != nil {
				t.Fatal(err)
			}
			shown := asked(t, page, "GET", "/line."+f.Name+"?"+query.Encode(), nil)
			if !bytes.Equal(file, shown.Body.Bytes()) {
				t.Errorf("%s %s: the command writes %s, the page %s", query.Encode(), f.Name, summary(file), summary(shown.Body.Bytes()))
			}
		}
	}
	for _, f := range exercise.Fields() {
		if !used[f.Name] {
			t.Errorf("no spec has the field %s", f.Name)
		}
	}
	for _, k := range deliver.Keys() {
		if !used[k.Name] {
			t.Errorf("no options have %s", k.Name)
		}
	}
}

// fieldWords splits at bars; a bar after a backslash is part of a value.
func fieldWords(s string) []string {
	var words []string
	for _, word := range strings.Split(strings.ReplaceAll(s, `\|`, "\x00"), "|") {
		if word != "" {
			words = append(words, strings.ReplaceAll(word, "\x00", "|"))
		}
	}
	return words
}

func summary(b []byte) string { return fmt.Sprintf("%d bytes, %.40q", len(b), b) }
