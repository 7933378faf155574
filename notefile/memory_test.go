package notefile

import (
	"archive/zip"
	"bytes"
	"encoding/binary"
	"io"
	"runtime"
	"runtime/metrics"
	"slices"
	"strconv"
	"strings"
	"testing"

	"heddle/internal/need"
	"heddle/notefile/melody"
)

// mostHeap is what reading any file may add to the heap, in bytes.
const mostHeap = 64 << 20

// peakHeap runs a function and returns by how much the heap grew meanwhile, as
// far as looking again and again can tell.
func peakHeap(run func()) int64 {
	runtime.GC()
	sample := []metrics.Sample{{Name: "/memory/classes/heap/objects:bytes"}}
	heap := func() int64 {
		metrics.Read(sample)
		return int64(sample[0].Value.Uint64())
	}
	before, peak := heap(), int64(0)
	done := make(chan struct{})
	go func() {
		defer close(done)
		run()
	}()
	for {
		peak = max(peak, heap())
		select {
		case <-done:
			return peak - before
		default:
			runtime.Gosched()
		}
	}
}

// filled repeats a unit between a head and a tail, up to a size.
func filled(size int, head, unit, tail string) string {
	return head + strings.Repeat(unit, (size-len(head)-len(tail))/len(unit)) + tail
}

// packed returns a compressed score that repeats a unit between head and tail.
func packed(t testing.TB, head, unit string, times int, tail string) []byte {
	t.Helper()
	var out bytes.Buffer
	archive := zip.NewWriter(&out)
	w, err := archive.Create("line.xml")
	if err != nil {
		t.Fatal(err)
	}
	io.WriteString(w, head)
	block := strings.Repeat(unit, 1+(64<<10)/len(unit))
	for left := times * len(unit); left > 0; left -= len(block) {
		io.WriteString(w, block[:min(left, len(block))])
	}
	io.WriteString(w, tail)
	if err := archive.Close(); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// midiTrack returns a file with one track that repeats an event.
func midiTrack(event string, size int) []byte {
	body := filled(size, "", event, "")
	head := append([]byte("MThd\x00\x00\x00\x06\x00\x00\x00\x01\x03\xc0MTrk"), binary.BigEndian.AppendUint32(nil, uint32(len(body)))...)
	return append(head, body...)
}

func TestHostileFilesTakeLittleMemory(t *testing.T) {
	if raceDetector {
		t.Skip("memory is not measured under the race detector")
	}
	const (
		measure = "<score-partwise><part><measure>"
		named   = "<pitch><step>C</step><octave>4</octave></pitch><duration>1</duration>"
	)
	unpack := 6 << 20
	if need.All() {
		unpack = 31 << 20
	}
	long := strings.Repeat("x", 60_000)
	files := map[string]func() []byte{}
	for name, inside := range map[string][2]string{
		"technical":               {measure + "<note><notations>", "<technical/>"},
		"notations":               {measure + "<note>", "<notations/>"},
		"ties":                    {measure + "<note>", "<tie/>"},
		"degrees":                 {measure + "<harmony>", "<degree/>"},
		"metronomes":              {measure + "<direction><direction-type>", "<metronome/>"},
		"times":                   {measure + "<attributes>", "<time/>"},
		"tunings":                 {measure + "<attributes><staff-details>", "<staff-tuning/>"},
		"text":                    {measure + "<note><duration>", strings.Repeat("1", 60_000) + "<a/>"},
		"comments":                {measure, "<!--" + strings.Repeat("<", 100_000) + "-->"},
		"one comment of brackets": {measure + "<!--", "<<<<<<<<"},
		"one CDATA of brackets":   {measure + "<note><duration><![CDATA[", "<<<<<<<<"},
		"one instruction":         {measure + "<?a ", "<<<<<<<<"},
		"a tag of attributes":     {measure + "<note ", "a='' "},
		"elements":                {"<score-partwise>", "<a/>"},
		"parts":                   {"<score-partwise>", "<part/>"},
		"part names":              {"<score-partwise>", "<score-part id='" + long + "'><part-name>" + long + "</part-name></score-part>"},
		"measures":                {"<score-partwise><part>", "<measure/>"},
		"entities":                {"<score-partwise><work><work-title>", "&amp;"},
		"notes":                   {measure, "<note>" + named + "</note>"},
		"fingered notes":          {measure, "<note>" + named + "<notations><technical><string>1</string><fret>1</fret></technical></notations></note>"},
		"chords":                  {measure + "<note>" + named + "</note>", "<harmony><root><root-step>C</root-step></root><kind text='" + strings.Repeat("7", 150) + "'/></harmony>"},
		"tempos":                  {measure + "<note>" + named + "</note>", "<sound tempo='100'/>"},
		"transpositions":          {measure + "<note>" + named + "</note>", "<attributes><transpose number='" + long + "'/></attributes>"},
	} {
		files[name] = func() []byte { return packed(t, inside[0], inside[1], unpack/len(inside[1]), "") }
	}
	files["deep"] = func() []byte { return packed(t, measure, "<a>", unpack/3, "") }
	// Files that can just be read.
	const most = melody.MaxNotes - 100
	files["a line as long as may be"] = func() []byte {
		return packed(t, measure, "<note>"+named+"</note>", most, "</measure></part></score-partwise>")
	}
	files["part after part"] = func() []byte {
		return packed(t, "<score-partwise>", "<part><measure><note>"+named+"</note></measure></part>", most/3, "</score-partwise>")
	}

	files["MIDI notes"] = func() []byte { return midiTrack("\x01\x90\x40\x40\x01\x90\x40\x00", maxHeldBytes-100) }
	files["MIDI notes, as many as may be"] = func() []byte { return midiTrack("\x01\x90\x40\x40\x01\x90\x40\x00", 8*most) }
	files["MIDI lyrics"] = func() []byte { return midiTrack("\x01\xff\x05\x01A", maxHeldBytes-100) }
	files["MIDI tempos"] = func() []byte { return midiTrack("\x01\xff\x51\x03\x07\xa1\x20", maxHeldBytes-100) }
	files["MIDI texts"] = func() []byte { return midiTrack("\x00\xff\x01\x7f"+strings.Repeat("a", 127), maxHeldBytes-100) }
	files["MIDI tracks"] = func() []byte {
		return append([]byte("MThd\x00\x00\x00\x06\x00\x01\xff\xff\x03\xc0"), strings.Repeat("MTrk\x00\x00\x00\x00", 1_000_000)...)
	}
	files["a directory of many files"] = func() []byte {
		names := make([]string, 0, 120_000)
		for i := range cap(names) / 2 {
			names = append(names, strconv.Itoa(i), "")
		}
		return compressed(t, names...)
	}

	slow := []string{"elements", "chords", "notes", "fingered notes", "a line as long as may be"}
	for name, build := range files {
		t.Run(name, func(t *testing.T) {
			if slices.Contains(slow, name) {
				need.Long(t, "it reads to the limits")
			}
			content := build()
			var err error
			peak := peakHeap(func() { _, err = Read(name, bytes.NewReader(content), "") })
			t.Logf("%d KB: %d MB: %v", len(content)>>10, peak>>20, err)
			if peak > mostHeap {
				t.Errorf("the heap grew by %d MB, want at most %d", peak>>20, mostHeap>>20)
			}
		})
	}
}
