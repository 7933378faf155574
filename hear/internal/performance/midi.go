package performance

import (
	"bytes"
	"cmp"
	"encoding/binary"
	"slices"
)

// An Event is a channel message at a time.
type Event struct {
	AtS   float64
	Bytes []byte
}

// midiDivision is ticks a second: the file's tempo is one quarter note a
// second, and a tick is a tenth of a millisecond.
const midiDivision = 10000

// midiFile writes a Standard MIDI File of format 0.
func midiFile(events []Event) []byte {
	events = slices.Clone(events)
	slices.SortStableFunc(events, func(a, b Event) int { return cmp.Compare(a.AtS, b.AtS) })
	var track bytes.Buffer
	track.Write([]byte{0, 0xFF, 0x51, 3, 0x0F, 0x42, 0x40}) // 1,000,000 µs a quarter note
	now := 0
	for _, e := range events {
		tick := int(e.AtS*midiDivision + 0.5)
		track.Write(variableLength(tick - now))
		track.Write(e.Bytes)
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

func noteOn(atS float64, channel, key, velocity int) Event {
	return Event{atS, []byte{0x90 | byte(channel), byte(key), byte(velocity)}}
}

func noteOff(atS float64, channel, key int) Event {
	return Event{atS, []byte{0x80 | byte(channel), byte(key), 64}}
}

// Program sets a channel's instrument.
func Program(channel, number int) Event {
	return Event{0, []byte{0xC0 | byte(channel), byte(number)}}
}

func control(channel, number, value int) Event {
	return Event{0, []byte{0xB0 | byte(channel), byte(number), byte(value)}}
}

// bendRange is how far a bend reaches here, in semitones.
const bendRange = 12

// bendSetup sets a channel's bend range (registered parameter 0).
func bendSetup(channel int) []Event {
	return []Event{control(channel, 101, 0), control(channel, 100, 0), control(channel, 6, bendRange), control(channel, 38, 0)}
}

func bend(atS float64, channel int, semitones float64) Event {
	value := int(8192 + semitones/bendRange*8192 + 0.5)
	value = min(max(value, 0), 16383)
	return Event{atS, []byte{0xE0 | byte(channel), byte(value & 0x7F), byte(value >> 7)}}
}

// events writes the take as MIDI. Each stroke has a channel of its own, so
// that a bend moves one string only.
func (t *Take) events() []Event {
	const channels = 8
	var events []Event
	for c := range channels {
		events = append(events, Program(c, t.Program))
		events = append(events, bendSetup(c)...)
	}
	tune := t.Cents / 100
	channel, struck := 0, 0
	for i, n := range t.Played {
		if n.Legato {
			events = append(events, bend(n.OnS, channel, tune+float64(n.Key-struck)))
		} else {
			channel, struck = (channel+1)%channels, n.Key
			events = append(events, bend(n.OnS-0.0005, channel, tune), noteOn(n.OnS, channel, n.Key, n.Velocity))
		}
		if i+1 == len(t.Played) || !t.Played[i+1].Legato {
			events = append(events, noteOff(n.OffS, channel, struck))
		}
	}
	return events
}
