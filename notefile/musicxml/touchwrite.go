package musicxml

import (
	"strconv"

	"heddle/line"
	"heddle/pitch"
	"heddle/touch"
)

// touchOf returns the touch of the note that a sign belongs to.
func (p *page) touchOf(s line.Written) touch.Touch {
	if s.Note == line.Silence {
		return touch.Touch{}
	}
	return p.ex.Notes[s.Note].Touch
}

// pitchOn returns the pitch of a sign on a staff: the notation has the note that is
// heard, the tablature the one that a bent string is stopped at.
func (p *page) pitchOn(s line.Written, staff string) pitch.Pitch {
	heard := p.ex.Notes[s.Note].Pitch
	below := p.touchOf(s).Bend.Below()
	if staff != "tab" || below == 0 {
		return heard
	}
	name := pitch.Interval{Steps: -1, Semitones: -below}.From(heard.Name)
	return pitch.Named(name, heard.MIDI()-below)
}

// ghost writes the brackets around a note that is hardly sounded.
func (p *page) ghost(s line.Written) {
	if p.touchOf(s).Ghost {
		p.text("notehead", "normal", "parentheses", "yes")
	}
}

// shaped reports whether shape or shiftSlides writes anything for a sign.
func (p *page) shaped(s line.Written) bool {
	t := p.touchOf(s)
	return t.Vibrato && (!s.TieFrom || !s.TieTo) || !s.TieFrom && (t.Accent || t.Staccato || t.Slide != "") || !s.TieTo && p.slidesOn(s)
}

// slidesOn reports whether the note of a sign slides to the next, which is picked.
func (p *page) slidesOn(s line.Written) bool {
	return s.Note != line.Silence && s.Note+1 < len(p.ex.Notes) && p.ex.Notes[s.Note+1].Touch.Slide == touch.Between
}

// shape writes accent, staccato, a slide from nowhere and vibrato. MusicXML's scoop
// is "an indeterminate slide attached to a single note, [which] appears before the
// main note and comes from below the main pitch".
func (p *page) shape(s line.Written) {
	t := p.touchOf(s)
	if t.Vibrato && (!s.TieFrom || !s.TieTo) {
		p.start("ornaments")
		if !s.TieFrom {
			p.empty("wavy-line", "type", "start", "number", "1", "placement", "above")
		}
		if !s.TieTo {
			p.empty("wavy-line", "type", "stop", "number", "1")
		}
		p.end()
	}
	if s.TieFrom || !t.Accent && !t.Staccato && t.Slide != touch.Into {
		return
	}
	p.start("articulations")
	if t.Accent {
		p.empty("accent")
	}
	if t.Staccato {
		p.empty("staccato")
	}
	if t.Slide == touch.Into {
		p.empty("scoop")
	}
	p.end()
}

// shiftSlide is the number of slides to notes that are picked; those of slurs have 1
// and 2.
const shiftSlide = "3"

// shiftSlides writes the ends of slides to and from a sign that are picked again.
func (p *page) shiftSlides(s line.Written) {
	if s.Note == line.Silence {
		return
	}
	if !s.TieFrom && p.touchOf(s).Slide == touch.Between && s.Note > 0 {
		p.empty("slide", "type", "stop", "number", shiftSlide, "line-type", "solid")
	}
	if !s.TieTo && p.slidesOn(s) {
		p.empty("slide", "type", "start", "number", shiftSlide, "line-type", "solid")
	}
}

// bends writes a bend, and its release as a bend back.
func (p *page) bends(s line.Written) {
	t := p.touchOf(s)
	if t.Bend == 0 || s.TieFrom {
		return
	}
	semitones := func(b touch.Bend) {
		p.text("bend-alter", strconv.FormatFloat(float64(b), 'f', -1, 64))
	}
	p.start("bend")
	semitones(t.Bend)
	p.end()
	if t.Release {
		p.start("bend")
		semitones(-t.Bend)
		p.empty("release")
		p.end()
	}
}
