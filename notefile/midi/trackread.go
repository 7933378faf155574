package midi

import (
	"fmt"
	"strings"

	"heddle/line"
	"heddle/notefile/melody"
)

// mostSharps is the number of sharps, or flats, that a key signature can have.
const mostSharps = 7

// A trackReader reads the events of one track.
type trackReader struct {
	file    *midiFile
	track   midiTrack
	rest    []byte
	now     int
	running byte           // the status that data bytes without one belong to
	held    map[[2]int]int // index of the note that holds a channel's key
}

// parseTrack reads a track chunk into the file. A track that stops at an
// event's end without saying so is read as far as it goes.
func (f *midiFile) parseTrack(body []byte) error {
	t := &trackReader{file: f, rest: body, held: map[[2]int]int{}}
	t.track.Cut = true
	for len(t.rest) > 0 {
		delta, rest, err := varLen(t.rest)
		if err != nil {
			return err
		}
		t.now, t.rest = t.now+delta, rest
		ended, err := t.event()
		if err != nil {
			return err
		}
		if ended {
			t.track.Cut = false
			break
		}
	}
	t.track.Ends = t.now
	t.track.Open = len(t.held)
	for _, i := range t.held {
		t.track.Notes[i].End = t.now
	}
	f.Tracks = append(f.Tracks, t.track)
	return nil
}

// event reads one event after its delta time, and says whether it ended the
// track.
func (t *trackReader) event() (ended bool, err error) {
	if len(t.rest) == 0 {
		return false, fmt.Errorf("an event is missing at tick %d", t.now)
	}
	status := t.rest[0]
	switch {
	case status == metaStatus:
		return t.metaEvent()
	case status == sysexStatus || status == sysexContinue:
		_, err := t.take(1)
		return false, err
	case status >= 0xF1:
		return false, fmt.Errorf("status %#x at tick %d belongs in no file", status, t.now)
	case status >= 0x80:
		t.running, t.rest = status, t.rest[1:]
	case t.running == 0:
		return false, fmt.Errorf("data byte %#x at tick %d before any status", status, t.now)
	}
	return false, t.channelMessage()
}

// take reads a length after so many bytes of head, and returns what it
// measures.
func (t *trackReader) take(head int) ([]byte, error) {
	if len(t.rest) < head {
		return nil, fmt.Errorf("an event is cut off at tick %d", t.now)
	}
	size, rest, err := varLen(t.rest[head:])
	if err != nil {
		return nil, err
	}
	if size > len(rest) {
		return nil, fmt.Errorf("an event at tick %d says %d bytes, %d are left", t.now, size, len(rest))
	}
	t.rest = rest[size:]
	return rest[:size], nil
}

// channelMessage reads the data bytes of the running status.
func (t *trackReader) channelMessage() error {
	kind := t.running & 0xF0
	size := 2
	if kind == programChange || kind == chanPressure {
		size = 1
	}
	if len(t.rest) < size {
		return fmt.Errorf("an event is cut off at tick %d", t.now)
	}
	for _, b := range t.rest[:size] {
		if b >= 0x80 {
			return fmt.Errorf("status %#x at tick %d where a data byte should be", b, t.now)
		}
	}
	first, second := int(t.rest[0]), 0
	if size == 2 {
		second = int(t.rest[1])
	}
	t.rest = t.rest[size:]
	key := [2]int{int(t.running & 0x0F), first}
	switch {
	case kind == noteOn && second > 0:
		return t.press(key)
	case kind == noteOn || kind == noteOff:
		t.release(key)
	}
	return nil
}

// press begins a note; one that the same key still holds ends.
func (t *trackReader) press(key [2]int) error {
	t.release(key)
	if err := t.file.kept.Keep(); err != nil {
		return err
	}
	t.held[key] = len(t.track.Notes)
	t.track.Notes = append(t.track.Notes, midiNote{Channel: key[0], Key: key[1], Start: t.now})
	return nil
}

func (t *trackReader) release(key [2]int) {
	if i, ok := t.held[key]; ok {
		t.track.Notes[i].End = t.now
		delete(t.held, key)
	}
}

func (t *trackReader) metaEvent() (ended bool, err error) {
	if len(t.rest) < 2 {
		return false, fmt.Errorf("an event is cut off at tick %d", t.now)
	}
	kind := t.rest[1]
	content, err := t.take(2)
	if err != nil {
		return false, err
	}
	if kind == metaEndOfTrack {
		return true, nil
	}
	if err := t.file.kept.Keep(); err != nil {
		return false, err
	}
	t.mark(kind, content)
	return false, nil
}

// mark keeps what a meta event says, if a line has a use for it.
func (t *trackReader) mark(kind byte, content []byte) {
	f := t.file
	switch kind {
	case metaTempo:
		if len(content) == 3 && bigEndian(content) > 0 {
			us := bigEndian(content)
			f.Tempos = append(f.Tempos, midiChange[float64]{t.now, microsecondsPerMinute / float64(us)})
		}
	case metaTimeSignature:
		t.timeSignature(content)
	case metaKeySignature:
		if len(content) == 2 {
			if sharps := int(int8(content[0])); sharps >= -mostSharps && sharps <= mostSharps {
				f.Keys = append(f.Keys, midiChange[int]{t.now, sharps})
			}
		}
	case metaTrackName:
		if t.track.Name == "" {
			t.track.Name = melody.CleanText(string(content))
		}
	case metaLyric:
		t.keep(&t.track.Lyrics, content)
	case metaCue:
		t.keep(&t.track.Cues, content)
	case metaMarker:
		f.Markers = append(f.Markers, midiChange[string]{t.now, melody.CleanText(string(content))})
	case metaText:
		if words, ours := strings.CutPrefix(string(content), touchText); ours {
			t.keep(&t.track.Shaped, []byte(words))
			return
		}
		f.Texts = append(f.Texts, melody.CleanText(string(content)))
	}
}

// keep keeps a text at the present tick.
func (t *trackReader) keep(texts *map[int]string, content []byte) {
	if *texts == nil {
		*texts = map[int]string{}
	}
	(*texts)[t.now] = melody.CleanText(string(content))
}

func (t *trackReader) timeSignature(content []byte) {
	if len(content) < 2 || content[1] > 6 {
		t.file.odd++
		return
	}
	m := line.Meter{Beats: int(content[0]), Unit: 1 << content[1]}
	if m.Beats == 0 {
		t.file.odd++
		return
	}
	t.file.Meters = append(t.file.Meters, midiChange[line.Meter]{t.now, m})
}

// bigEndian reads a whole number of up to seven bytes.
func bigEndian(b []byte) int {
	n := 0
	for _, x := range b {
		n = n<<8 | int(x)
	}
	return n
}
