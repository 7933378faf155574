package midi

import (
	"encoding/binary"

	"heddle/line"
)

// ticksPerQuarter is the division of our files: a tick is one line.Beat.
const ticksPerQuarter = int(line.Quarter)

// Meta event types (Standard MIDI Files 1.0).
const (
	metaText          = 0x01
	metaTrackName     = 0x03
	metaLyric         = 0x05
	metaMarker        = 0x06
	metaCue           = 0x07
	metaEndOfTrack    = 0x2F
	metaTempo         = 0x51
	metaTimeSignature = 0x58
	metaKeySignature  = 0x59
)

// Channel message kinds, the high half of the status byte.
const (
	noteOff       = 0x80
	noteOn        = 0x90
	keyPressure   = 0xA0
	controlChange = 0xB0
	programChange = 0xC0
	chanPressure  = 0xD0
	pitchBend     = 0xE0
)

const (
	metaStatus    = 0xFF
	sysexStatus   = 0xF0
	sysexContinue = 0xF7

	microsecondsPerMinute = 60_000_000
)

// appendVarLen appends a variable-length quantity below 2²⁸: seven bits a byte,
// the highest first, with the eighth bit set on all but the last.
func appendVarLen(b []byte, n uint32) []byte {
	for shift := 21; shift > 0; shift -= 7 {
		if n>>shift != 0 {
			b = append(b, byte(n>>shift)|0x80)
		}
	}
	return append(b, byte(n)&0x7F)
}

// A track is a track chunk being written. Events are appended in order.
type track struct {
	body []byte
	now  int // tick of the last event
}

// event appends one event at a tick, no earlier than the one before.
func (t *track) event(tick int, message ...byte) {
	t.body = appendVarLen(t.body, uint32(tick-t.now))
	t.body = append(t.body, message...)
	t.now = tick
}

func (t *track) meta(tick int, kind byte, content ...byte) {
	head := appendVarLen([]byte{metaStatus, kind}, uint32(len(content)))
	t.event(tick, append(head, content...)...)
}

func (t *track) text(tick int, kind byte, text string) { t.meta(tick, kind, []byte(text)...) }

func (t *track) appendTo(file []byte, end int) []byte {
	t.meta(max(end, t.now), metaEndOfTrack)
	file = append(file, "MTrk"...)
	file = binary.BigEndian.AppendUint32(file, uint32(len(t.body)))
	return append(file, t.body...)
}

func appendHeader(file []byte, tracks int) []byte {
	file = append(file, "MThd"...)
	file = binary.BigEndian.AppendUint32(file, 6)
	file = binary.BigEndian.AppendUint16(file, 1)
	file = binary.BigEndian.AppendUint16(file, uint16(tracks))
	return binary.BigEndian.AppendUint16(file, uint16(ticksPerQuarter))
}

// tempoBytes returns the content of a tempo event: microseconds in a quarter
// note, three bytes. Tempo is in quarter notes a minute.
func tempoBytes(tempo float64) []byte {
	us := uint32(microsecondsPerMinute/tempo + 0.5)
	return []byte{byte(us >> 16), byte(us >> 8), byte(us)}
}
