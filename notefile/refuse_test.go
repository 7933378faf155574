package notefile

import (
	"archive/zip"
	"bytes"
	"io"
	"strings"
	"testing"

	"heddle/internal/need"
)

func TestBadScoresGetOneClearError(t *testing.T) {
	note := "<note><pitch><step>C</step><octave>4</octave></pitch><duration>1</duration></note>"
	for name, c := range map[string]struct{ text, want string }{
		"not a score":        {"<html><body/></html>", "the file holds <html>, want <score-partwise> or <score-timewise>"},
		"empty":              {"<?xml version='1.0'?>", "no element"},
		"cut off":            {strings.TrimSuffix(musicXML(note), "</part></score-partwise>"), "unexpected EOF"},
		"tags that cross":    {"<score-partwise><part-list></score-partwise></part-list>", "closed by </score-partwise>"},
		"no notes":           {musicXML("<note><rest/><duration>4</duration></note>"), "no pitched notes"},
		"entity":             {"<!DOCTYPE x [<!ENTITY a \"aaaa\">]><score-partwise>&a;</score-partwise>", "declares entities"},
		"entity from a file": {"<!DOCTYPE x [<!ENTITY a SYSTEM \"file:///etc/passwd\">]><score-partwise/>", "declares entities"},
		"unknown entity":     {"<score-partwise><work><work-title>&boom;</work-title></work></score-partwise>", "entity &boom;"},
		"deep":               {"<score-partwise>" + strings.Repeat("<a>", 1000), "nest deeper than 40"},
		"deep in a note":     {musicXML("<note>" + strings.Repeat("<a>", 1000)), "part P1, measure 1: elements nest deeper than 40"},
		"a long tag":         {"<score-partwise " + strings.Repeat("a='b' ", 20_000) + ">", "longer than 65536 bytes"},
		"a long text":        {"<score-partwise><work><work-title>" + strings.Repeat("la ", 40_000), "longer than 65536 bytes"},
		"no duration":        {musicXML("<note><pitch><step>C</step><octave>4</octave></pitch></note>"), "part P1, measure 1: a note has no duration"},
		"no such duration":   {musicXML("<note><rest/><duration>long</duration></note>"), `duration "long": want a number of divisions`},
		"a lying duration":   {musicXML("<note><rest/><duration>1e99</duration></note>"), `duration "1e99"`},
		"negative duration":  {musicXML("<note><rest/><duration>-1</duration></note>"), `duration "-1"`},
		"an endless part":    {musicXML(strings.Repeat("<note><rest/><duration>90000</duration></note>", 2)), "longer than 108000 quarter notes"},
		"no such step":       {musicXML("<note><pitch><step>H</step><octave>4</octave></pitch><duration>1</duration></note>"), `pitch "H4"`},
		"no such octave":     {musicXML("<note><pitch><step>C</step><octave>99</octave></pitch><duration>1</duration></note>"), `pitch "C99"`},
		"too low":            {musicXML("<attributes><transpose><chromatic>-100</chromatic></transpose></attributes>" + note), "transposed pitch"},
		"no divisions":       {musicXML("<attributes><divisions>0</divisions></attributes>" + note), `divisions "0": want a number above 0`},
		"backup too far":     {musicXML(note + "<backup><duration>2</duration></backup>"), "backup of 2 goes back beyond the beginning"},
		"an odd encoding":    {"<?xml version='1.0' encoding='KOI8-R'?><score-partwise/>", `encoding "KOI8-R", want UTF-8`},
	} {
		_, err := Read("bad.musicxml", strings.NewReader(c.text), "")
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: error %q, want %q in it", name, err, c.want)
		} else if strings.ContainsAny(err.Error(), "\n\r") {
			t.Errorf("%s: %q is more than a line", name, err)
		}
	}
}

// compressed packs files as a compressed score.
func compressed(t testing.TB, files ...string) []byte {
	t.Helper()
	var out bytes.Buffer
	archive := zip.NewWriter(&out)
	for i := 0; i+1 < len(files); i += 2 {
		w, err := archive.Create(files[i])
		if err != nil {
			t.Fatal(err)
		}
		if _, err := io.WriteString(w, files[i+1]); err != nil {
			t.Fatal(err)
		}
	}
	if err := archive.Close(); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

const container = `<?xml version="1.0"?><container><rootfiles><rootfile full-path="music/line.xml"/></rootfiles></container>`

func TestCompressedScores(t *testing.T) {
	score := musicXML(quarterNotes(1, "E4", "G4"))
	for name, content := range map[string][]byte{
		"with a container":    compressed(t, "META-INF/container.xml", container, "other.xml", "<no/>", "music/line.xml", score),
		"without a container": compressed(t, "readme.txt", "no", "line.musicxml", score),
	} {
		im, err := Read("line.mxl", bytes.NewReader(content), "")
		if err != nil || told(im.Notes) != "E4@0+1, G4@1+1" {
			t.Errorf("%s: %q, %v", name, told(im.Notes), err)
		}
	}
	for name, c := range map[string]struct {
		content []byte
		want    string
	}{
		"no score":              {compressed(t, "readme.txt", "no"), "no score in the archive"},
		"a score that is away":  {compressed(t, "META-INF/container.xml", container), `no file "music/line.xml"`},
		"an empty container":    {compressed(t, "META-INF/container.xml", "<container/>", "line.xml", score), "names no score"},
		"an archive cut short":  {compressed(t, "line.xml", score)[:40], "compressed MusicXML: zip"},
		"a bomb of text":        {compressed(t, "line.xml", "<score-partwise>"+strings.Repeat("<a>"+strings.Repeat(" ", 60_000)+"</a>", (33<<20)/60_000)), "unpacks to more than 33554432 bytes"},
		"a score of other kind": {compressed(t, "line.xml", "<opus/>"), "the file holds <opus>"},
	} {
		_, err := Read("line.mxl", bytes.NewReader(c.content), "")
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: error %q, want %q in it", name, err, c.want)
		}
	}
}

// endless gives the same bytes for ever.
type endless string

func (e endless) Read(p []byte) (int, error) {
	for i := range p {
		p[i] = e[i%len(e)]
	}
	return len(p), nil
}

func TestEndlessScoresAreCutOff(t *testing.T) {
	need.Long(t, "it reads 16 MB of comments")
	text := endless("<!--" + strings.Repeat("a", 4089) + "-->")
	if _, err := Read("x", text, ""); err == nil || !strings.Contains(err.Error(), "want at most 16 MB") {
		t.Error(err)
	}
}

func TestReadingIsBounded(t *testing.T) {
	for name, c := range map[string]struct {
		file io.Reader
		want string
	}{
		"endless zeros": {endless("\x00"), "want a Standard MIDI File"},
		"endless MIDI":  {io.MultiReader(strings.NewReader("MThd\x00\x00\x00\x06\x00\x00\x00\x01\x03\xc0MTrk\xff\xff\xff\xff"), endless("\x00")), "want at most 8 MB"},
	} {
		_, err := Read("x", c.file, "")
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if _, err := Read("song.txt", strings.NewReader("C D E"), ""); err == nil || err.Error() != `file "song.txt": want a Standard MIDI File (.mid), MusicXML (.musicxml, .xml, .mxl) or the JSON of heddle line (.json)` {
		t.Errorf("a text: %v", err)
	}
	if _, err := Read("nothing.mid", strings.NewReader(""), ""); err == nil {
		t.Error("an empty file was read")
	}
}
