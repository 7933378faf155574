package notefile

import (
	"bytes"
	"encoding/binary"
	"encoding/hex"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"gitlab.com/gomidi/midi/v2"
	"gitlab.com/gomidi/midi/v2/smf"
)

// bytesOf reads hexadecimal bytes; what stands between brackets is a remark.
func bytesOf(text string) []byte {
	for {
		from, to := strings.IndexByte(text, '('), strings.IndexByte(text, ')')
		if from < 0 {
			break
		}
		text = text[:from] + text[to+1:]
	}
	content, err := hex.DecodeString(strings.Join(strings.Fields(text), ""))
	if err != nil {
		panic(err)
	}
	return content
}

// midiBytes puts tracks, written in hexadecimal, into a file.
func midiBytes(format, division uint16, tracks ...string) []byte {
	file := bytesOf("4d546864 00000006")
	for _, n := range []uint16{format, uint16(len(tracks)), division} {
		file = binary.BigEndian.AppendUint16(file, n)
	}
	for _, t := range tracks {
		body := bytesOf(t)
		file = append(file, "MTrk"...)
		file = binary.BigEndian.AppendUint32(file, uint32(len(body)))
		file = append(file, body...)
	}
	return file
}

const trackEnd = "00 ff2f00"

func TestMIDIFilesOfManyStyles(t *testing.T) {
	for name, c := range map[string]struct {
		content []byte
		want    account
	}{
		"format 0, running status, drums beside, G major": {
			midiBytes(0, 96, `00 ff5902 0100 (one sharp) 00 ff5103 07a120 00 ff5804 03021808 (3/4)
				00 c018 00 99 2450 (a drum) 00 90 4350 (G4) 30 43 00 (off by velocity 0) 00 44 50 (the key above) 30 4400
				00 4850 (C5) 60 4800 00 8924 40 00 90 4240 (F sharp 4) 8140 4200`+trackEnd),
			account{part: "track 1", meter: "3/4", tempo: 120, notes: "G4@0+0.5, G#4@0.5+0.5, C5@1+1, F#4@2+2"},
		},
		"format 1, chords first, no key: flats fit best": {
			midiBytes(1, 480, `00 ff0304 54756e65 (Tune) 00 ff5103 0a2c2a (90) 8700 ff5103 07a120`+trackEnd,
				`00 ff0305 4b657973 21 (Keys!) 00 90 3a40 00 3e40 00 4140 8f00 3a00 00 3e00 00 4100`+trackEnd,
				`00 ff0304 4c656164 (Lead) 00 91 4640 (B flat 4) 8360 4600 00 4540 8360 4500 00 4340 8360 4300 00 3f40 (E flat 4) 8360 3f00`+trackEnd),
			account{title: "Tune", part: "Lead", meter: "4/4", tempo: 90, notes: "Bb4@0+1, A4@1+1, G4@2+1, Eb4@3+1", remarks: []string{
				`the line is that of part 2 of 2: 1 "Keys!", 2 "Lead"`, "the tempo at the first note is kept; 1 tempo change after it left out",
			}},
		},
		"SMPTE: 25 frames of 40, a thousand ticks a second": {
			midiBytes(1, 0xE728, `00 ff5103 07a120 (120)`+trackEnd,
				`00 90 4040 8374 (500) 8040 40 00 90 4140 817a (250) 804140 817a 90 4340 8374 80 4340`+trackEnd),
			account{part: "track 2", meter: "4/4", tempo: 120, notes: "E4@0+1, F4@1+0.5, G4@2+1"},
		},
		"two silent bars": {
			midiBytes(0, 96, `8660 (864 ticks: beat 2 of bar 3) ff0102 6869 00 90 4540 60 4500`+trackEnd),
			account{part: "track 1", meter: "4/4", tempo: 120, notes: "A4@1+1", remarks: []string{"2 silent bars before the line left out"}},
		},
		"a line that begins on the last beat": {
			midiBytes(0, 96, `8520 (672 ticks: beat 4 of bar 2) 90 4540 60 4500 00 4740 60 4700`+trackEnd),
			account{part: "track 1", meter: "4/4", tempo: 120, pickup: 1, notes: "A4@-1+1, B4@0+1", remarks: []string{"1 silent bar before the line left out"}},
		},
		"overlaps, a chord, a note without end, no end of track": {
			midiBytes(0, 96, `00 90 4040 60 4540 00 4340 (under it) 10 4000 50 4740 00 4500 00 4300 60 ff0100`),
			account{part: "track 1", meter: "4/4", tempo: 120, notes: "E4@0+1, A4@1+1, B4@2+1", remarks: []string{
				"the highest note of 1 chord is kept", "1 note cut short where the next begins",
				"track 1 stops without an end of track", "1 note of track 1 never ended and last to its end",
			}},
		},
		"sections are not chords, chords are": {
			midiBytes(1, 96, `00 ff0601 41 60 ff0601 42`+trackEnd, `00 90 4040 8300 4000`+trackEnd),
			account{part: "track 2", meter: "4/4", tempo: 120, notes: "E4@0+4"},
		},
		"chords": {
			midiBytes(1, 96, `00 ff0602 416d 60 ff0602 4637`+trackEnd, `00 90 4040 8300 4000`+trackEnd),
			account{part: "track 2", meter: "4/4", tempo: 120, notes: "E4@0+4", chords: "Am@0 F7@1"},
		},
		"a metre changes": {
			midiBytes(0, 96, `00 ff5804 06032408 (6/8) 00 90 4040 8110 4000 00 ff5804 04021808 00 90 4140 8300 4100`+trackEnd),
			account{part: "track 1", meter: "6/8", tempo: 120, notes: "E4@0+1.5, F4@1.5+4", remarks: []string{"the metre at the first note (6/8) is kept; 1 metre change after it left out"}},
		},
	} {
		im, err := Read("", bytes.NewReader(c.content), "")
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if diff := cmp.Diff(c.want, accountOf(im), cmp.AllowUnexported(account{})); diff != "" {
			t.Errorf("%s:\n%s", name, diff)
		}
	}
}

func TestRIFFAroundMIDIIsTakenOff(t *testing.T) {
	inner := midiBytes(0, 96, "00 90 4040 60 4000"+trackEnd)
	file := append([]byte("RIFF\x00\x00\x00\x00RMIDDISP\x04\x00\x00\x00abcddata"), binary.LittleEndian.AppendUint32(nil, uint32(len(inner)))...)
	im, err := Read("line.rmi", bytes.NewReader(append(file, inner...)), "")
	if err != nil || told(im.Notes) != "E4@0+1" {
		t.Errorf("%s, %v", told(im.Notes), err)
	}
}

// A file that gomidi writes, running status and all, comes in note for note.
func TestGomidisFilesAreRead(t *testing.T) {
	file := smf.New()
	file.TimeFormat = smf.MetricTicks(480)
	var track smf.Track
	track.Add(0, smf.MetaTempo(100))
	track.Add(0, smf.MetaMeter(5, 4))
	keys := []uint8{77, 74, 72, 75, 73, 71, 74, 72, 70}
	for _, key := range keys {
		track.Add(0, midi.NoteOn(3, key, 90))
		track.Add(160, midi.NoteOff(3, key))
	}
	track.Close(0)
	if err := file.Add(track); err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	if _, err := file.WriteTo(&out); err != nil {
		t.Fatal(err)
	}
	im, err := Read("", &out, "")
	if err != nil {
		t.Fatal(err)
	}
	if im.Tempo != 100 || im.Rhythm.Meter.String() != "5/4" || len(im.Notes) != len(keys) {
		t.Fatalf("%+v", im)
	}
	for i, n := range im.Notes {
		if n.Pitch.MIDI() != int(keys[i]) || int(n.Start) != 320*i || n.Duration != 320 {
			t.Errorf("note %d is %s", i, told(im.Notes[i:i+1]))
		}
	}
}

// A line as hands play it, late and early by up to 30 ticks of 960, is written
// as it is meant: two eighths, a triplet, four sixteenths, a swung pair.
func TestPlayedOnsetsAreMovedToTheBeat(t *testing.T) {
	played := []struct{ key, start, end int }{
		{64, 12, 450}, {65, 465, 930}, {67, 975, 1240}, {69, 1265, 1560}, {71, 1615, 1880}, {72, 1918, 2130},
		{71, 2170, 2380}, {69, 2391, 2600}, {67, 2655, 2850}, {65, 2872, 3480}, {64, 3530, 3800}, {62, 3850, 4700},
	}
	var track []byte
	now := 0
	for _, n := range played {
		for _, e := range []struct{ tick, velocity int }{{n.start, 80}, {n.end, 0}} {
			delta := e.tick - now
			track = append(track, byte(delta>>7)|0x80, byte(delta)&0x7F, 0x90, byte(n.key), byte(e.velocity))
			now = e.tick
		}
	}
	im, err := Read("", bytes.NewReader(midiBytes(0, 960, hex.EncodeToString(track)+trackEnd)), "")
	if err != nil {
		t.Fatal(err)
	}
	want := "E4@0+0.5, F4@0.5+0.5, G4@1+0.3333, A4@1.333+0.3333, B4@1.667+0.3333, C5@2+0.25, B4@2.25+0.25, A4@2.5+0.25, G4@2.75+0.25, F4@3+0.6667, E4@3.667+0.3333, D4@4+0.875"
	if got := told(im.Notes); got != want {
		t.Errorf(" got %s\nwant %s", got, want)
	}
	if len(im.Remarks) == 0 || !strings.Contains(im.Remarks[0], "onsets moved") {
		t.Errorf("remarks %q", im.Remarks)
	}
}

func TestBadMIDIFilesGetOneClearError(t *testing.T) {
	good := midiBytes(0, 96, "00 90 4040 60 4000"+trackEnd)
	lying := bytes.Clone(good)
	copy(lying[18:], "\xff\xff\xff\xff")
	for name, c := range map[string]struct {
		content []byte
		want    string
	}{
		"cut in the header":      {good[:10], `chunk "MThd" says 6 bytes, 2 are left`},
		"cut in the track":       {good[:len(good)-3], `chunk "MTrk" says 11 bytes, 8 are left`},
		"a length that lies":     {lying, `chunk "MTrk" says 4294967295 bytes`},
		"no track":               {good[:14], "no track"},
		"format 2":               {midiBytes(2, 96, trackEnd), "format 2, want 0 or 1"},
		"no ticks":               {midiBytes(0, 0, trackEnd), "0 ticks to the quarter note"},
		"an odd frame rate":      {midiBytes(0, 0xF128, trackEnd), "SMPTE division 15 frames"},
		"no notes":               {midiBytes(0, 96, trackEnd), "no notes, drums aside"},
		"drums only":             {midiBytes(0, 96, "00 99 2440 60 2400"+trackEnd), "no notes, drums aside"},
		"data before a status":   {midiBytes(0, 96, "00 4040"), "track 1: data byte 0x40 at tick 0 before any status"},
		"a status in the data":   {midiBytes(0, 96, "00 90 40 90"), "status 0x90 at tick 0 where a data byte should be"},
		"an event cut off":       {midiBytes(0, 96, "00 90 40"), "an event is cut off at tick 0"},
		"a time and no event":    {midiBytes(0, 96, "00 90 4040 60"), "an event is missing at tick 96"},
		"an endless time":        {midiBytes(0, 96, "ffffffffff"), "a variable-length quantity that does not end"},
		"a text that lies":       {midiBytes(0, 96, "00 ff01 ffffff7f 41"), "says 268435455 bytes, 1 are left"},
		"an exclusive that lies": {midiBytes(0, 96, "00 f0 7f 41"), "says 127 bytes, 1 are left"},
		"a real-time status":     {midiBytes(0, 96, "00 f8"), "status 0xf8 at tick 0 belongs in no file"},
		"a note next year":       {midiBytes(0, 96, "00 90 4040 60 4000 ffffff7f 904040 ffffff7f 4000"+trackEnd), "length of the line"},
	} {
		_, err := Read("bad.mid", bytes.NewReader(c.content), "")
		if err == nil || !strings.HasPrefix(err.Error(), "MIDI file: ") || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: error %q, want %q in it", name, err, c.want)
		}
	}
}
