package midi

import (
	"cmp"
	"slices"

	"heddle/line"
)

// A Part is a track of the band under the line.
type Part struct {
	Name    string
	Channel int // from 0; 9 is percussion
	Program int // General MIDI, from 0
	Notes   []PartNote
}

// A PartNote is a key held from one sounding beat to another.
type PartNote struct {
	At, End  line.Beat
	Key      int
	Velocity int // 1 to 127
}

// part returns the track of a part, up to the end of the last bar.
func (s *sequence) part(p Part) *track {
	type event struct {
		tick    int
		message [3]byte
	}
	var events []event
	end := s.tick(s.bars[len(s.bars)-1].End)
	channel := byte(p.Channel & 0x0F)
	for _, n := range p.Notes {
		from := max(0, s.tick(n.At))
		to := min(max(from+1, s.tick(n.End)), end)
		if from >= end {
			continue
		}
		key, velocity := byte(n.Key&0x7F), byte(min(max(n.Velocity, 1), 127))
		events = append(events, event{from, [3]byte{noteOn | channel, key, velocity}}, event{to, [3]byte{noteOff | channel, key, 0}})
	}
	// A key goes up before it goes down again.
	slices.SortStableFunc(events, func(a, b event) int {
		return cmp.Or(cmp.Compare(a.tick, b.tick), cmp.Compare(a.message[0], b.message[0]))
	})
	t := &track{}
	t.text(0, metaTrackName, p.Name)
	if p.Channel != drumChannel {
		t.event(0, programChange|channel, byte(p.Program&0x7F))
	}
	for _, e := range events {
		t.event(e.tick, e.message[:]...)
	}
	return t
}
