package hear

import (
	"bytes"
	"cmp"
	"encoding/binary"
	"slices"
)

// A midiEvent is a channel message at a time.
type midiEvent struct {
	atS   float64
	bytes []byte
}

// midiDivision is ticks a second: the file's tempo is one quarter note a
// second, and a tick is a tenth of a millisecond.
const midiDivision = 10000

// midiFile writes a Standard MIDI File of format 0.
func midiFile(events []midiEvent) []byte {
	events = slices.Clone(events)
	slices.SortStableFunc(events, func(a, b midiEvent) int { return cmp.Compare(a.atS, b.atS) })
	var track bytes.Buffer
	track.Write([]byte{0, 0xFF, 0x51, 3, 0x0F, 0x42, 0x40}) // 1,000,000 µs a quarter note
	now := 0
	for _, e := range events {
		tick := int(e.atS*midiDivision + 0.5)
		track.Write(variableLength(tick - now))
		track.Write(e.bytes)
		now = tick
	}
	track.Write([]byte{0, 0xFF, 0x2F, 0})
	out := []byte("MThd\x00\x00\x00\x06\x00\x00\x00\x01")
	out = binary.BigEndian.AppendUint16(out, midiDivision)
	out = append(out, "MTrk"...)
	out = binary.BigEndian.AppendUint32(out, uint32(track.Len()))
	return append(out, track.Bytes()...)
}

func variableLength(n int) []byte {
	out := []byte{byte(n & 0x7F)}
	for n >>= 7; n > 0; n >>= 7 {
		out = append([]byte{byte(n&0x7F | 0x80)}, out...)
	}
	return out
}

func noteOn(atS float64, channel, key, velocity int) midiEvent {
	return midiEvent{atS, []byte{0x90 | byte(channel), byte(key), byte(velocity)}}
}

func noteOff(atS float64, channel, key int) midiEvent {
	return midiEvent{atS, []byte{0x80 | byte(channel), byte(key), 64}}
}

func program(channel, number int) midiEvent {
	return midiEvent{0, []byte{0xC0 | byte(channel), byte(number)}}
}

func control(channel, number, value int) midiEvent {
	return midiEvent{0, []byte{0xB0 | byte(channel), byte(number), byte(value)}}
}

// bendRange is how far a bend reaches here, in semitones.
const bendRange = 12

// bendSetup sets a channel's bend range (registered parameter 0).
func bendSetup(channel int) []midiEvent {
	return []midiEvent{control(channel, 101, 0), control(channel, 100, 0), control(channel, 6, bendRange), control(channel, 38, 0)}
}

func bend(atS float64, channel int, semitones float64) midiEvent {
	value := int(8192 + semitones/bendRange*8192 + 0.5)
	value = min(max(value, 0), 16383)
	return midiEvent{atS, []byte{0xE0 | byte(channel), byte(value & 0x7F), byte(value >> 7)}}
}
