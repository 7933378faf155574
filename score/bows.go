package score

import (
	"math"
	"slices"

	"heddle/finger"
	"heddle/score/surface"
)

// A bow is a tie or a slur in one system.
type bow struct {
	from, to surface.Point
	height   float64 // negative: over the notes
	slur     bool
	notes    []int // that it joins, of this system
}

const (
	tieStart   = 0.72 // from a head's middle to a tie's end
	tieLow     = 0.55
	tieHigh    = 1.1
	slurLift   = 0.85 // from a head's middle to a slur's end
	slurClear  = 0.5  // between a slur and what it passes over
	slurLow    = 0.9
	slurHigh   = 3.2 // of the handles: the bow itself is three quarters as high
	bowOverrun = 1.6 // how far before its note a bow from the previous system begins
)

// tiesOf finds the system's ties, including those from the previous system and
// those to the next.
func (s *system) tiesOf() []bow {
	var bows []bow
	add := func(h *head, from, to float64) {
		side := -h.sign()
		if !h.hasStem() && h.place >= 0 {
			side = -1
		}
		height := side * min(tieHigh, max(tieLow, (to-from)*0.09+0.3))
		y := h.y + side*0.28
		bows = append(bows, bow{from: surface.Pt(from, y), to: surface.Pt(to, y), height: height, notes: []int{h.event.Note}})
	}
	for i := range s.heads {
		h := &s.heads[i]
		if h.event.TieFrom && i == 0 {
			add(h, h.x-tieStart-bowOverrun, h.x-tieStart)
		}
		if !h.event.TieTo {
			continue
		}
		to := s.right - 0.2
		if i+1 < len(s.heads) {
			to = s.heads[i+1].x - tieStart
			if w := s.columns[s.heads[i+1].column].accidental.width(); w > 0 {
				to -= w
			}
		}
		add(h, h.x+tieStart, to)
	}
	return bows
}

// slurred reports whether a stroke sounds from the note before.
func slurred(stroke finger.Stroke) bool {
	return stroke == finger.HammerOn || stroke == finger.PullOff || stroke == finger.Slide
}

// slursOf slurs each run of legato notes together with the picked note before it.
func (s *system) slursOf() []bow {
	var bows []bow
	for i := 0; i < len(s.heads); {
		j := i + 1
		for j < len(s.heads) && (s.heads[j].event.TieFrom || s.legato(j)) {
			j++
		}
		open := i == 0 && s.legato(0) && !s.first
		goes := j == len(s.heads) && !s.last && s.nextSlurred()
		if s.sounds(i, j) > 1 || open || goes {
			bows = append(bows, s.slur(i, j, open, goes))
		}
		i = j
	}
	return bows
}

// sounds counts the notes in heads i … j−1, each tied note once.
func (s *system) sounds(i, j int) (n int) {
	for _, h := range s.heads[i:j] {
		if !h.event.TieFrom {
			n++
		}
	}
	return n
}

// legato reports whether a head sounds from the note before it.
func (s *system) legato(head int) bool { return s.fromNoteBefore(s.heads[head].event.Note) }

// fromNoteBefore reports whether a note is hammered on, pulled off or slid to
// from the note before, on its string.
func (l *layout) fromNoteBefore(note int) bool {
	notes := l.exercise.Notes
	return note > 0 && note < len(notes) && slurred(notes[note].Stroke) && notes[note].String == notes[note-1].String
}

func (s *system) strokeOf(head int) finger.Stroke {
	return s.exercise.Notes[s.heads[head].event.Note].Stroke
}

// nextSlurred reports whether the first note after the system is legato.
func (s *system) nextSlurred() bool {
	return s.fromNoteBefore(s.heads[len(s.heads)-1].event.Note + 1)
}

// slur draws a slur over heads i … j−1: on the notehead side where all stems
// go one way, else above.
func (s *system) slur(i, j int, open, goes bool) bow {
	heads := s.heads[i:j]
	side := -1.0
	if allUp(heads) {
		side = 1
	}
	edge := func(h *head) float64 {
		top, bottom := s.reachOf(h)
		if side < 0 && !h.up || side > 0 && h.up {
			return h.y + side*slurLift
		}
		if side < 0 {
			return top - slurClear
		}
		return bottom + slurClear
	}
	first, last := &heads[0], &heads[len(heads)-1]
	b := bow{from: surface.Pt(first.x, edge(first)), to: surface.Pt(last.x, edge(last)), slur: true}
	for _, h := range heads {
		b.notes = append(b.notes, h.event.Note)
	}
	b.notes = slices.Compact(b.notes)
	if open {
		b.from = surface.Pt(first.x-tieStart-bowOverrun, b.from.Y)
	}
	if goes {
		b.to.X = s.right - 0.2
		if len(heads) == 1 {
			b.to.Y = b.from.Y
		}
	}
	s.arch(&b, heads, side)
	return b
}

// arch gives a slur the height to pass over the stems and accidentals between
// its ends. Near an end, or where it would take a steep arch, the end moves away
// from its note instead (common practice; Gould 2011, "Slurs", from memory).
func (s *system) arch(b *bow, heads []head, side float64) {
	length := b.to.X - b.from.X
	type obstacle struct{ at, over float64 } // at: 0 to 1 along the bow; over: its height above the straight line
	var obstacles []obstacle
	clear := func(x, top, bottom float64) {
		t := (x - b.from.X) / length
		straight := b.from.Y + (b.to.Y-b.from.Y)*t
		over := straight - (top - slurClear)
		if side > 0 {
			over = bottom + slurClear - straight
		}
		obstacles = append(obstacles, obstacle{t, over})
	}
	for k := range heads[1:] {
		h := &heads[1+k]
		if mark := s.columns[h.column].accidental; mark.printed {
			top, bottom := mark.reach()
			clear(h.x-halfHead-accidentalGap-mark.width()/2, h.y+top+slurClear/2, h.y+bottom-slurClear/2)
		}
		if 1+k < len(heads)-1 {
			top, bottom := h.reach()
			clear(h.x, top, bottom)
		}
	}
	height := min(slurLow+length*0.05, slurHigh)
	for _, o := range obstacles {
		if o.at > 0.25 && o.at < 0.75 {
			height = max(height, min(o.over/bulge(o.at), slurHigh))
		}
	}
	left, right := 0.0, 0.0 // how far the ends move
	for _, o := range obstacles {
		switch short := o.over - height*bulge(o.at); {
		case o.at < 0.1 || o.at > 0.9: // too near to an end to be passed over
		case o.at < 0.5:
			left = max(left, short/(1-o.at))
		default:
			right = max(right, short/o.at)
		}
	}
	b.height = side * height
	b.from.Y += side * left
	b.to.Y += side * right
}

// bulge returns how far a bow with handles of height 1 is from the straight line
// at t, 0 to 1 along it.
func bulge(t float64) float64 { return 3 * t * (1 - t) }

func allUp(heads []head) bool {
	for _, h := range heads {
		if !h.up {
			return false
		}
	}
	return true
}

// reach returns the highest and lowest y of the bow.
func (b bow) reach() (top, bottom float64) {
	middle := (b.from.Y+b.to.Y)/2 + b.height*0.75
	return min(b.from.Y, b.to.Y, middle), max(b.from.Y, b.to.Y, middle)
}

func (b bow) draw(p pen) surface.Item {
	e := surface.Engraving()
	end, middle := e.TieEnd, e.TieMiddle
	if b.slur {
		end, middle = e.SlurEnd, e.SlurMiddle
	}
	return p.bow(b.from, b.to, b.height, end, math.Max(end, middle))
}
