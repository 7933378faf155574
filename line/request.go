package line

import (
	"fmt"
	"strconv"
	"strings"

	"heddle/neck"
	"heddle/pitch"
)

// A Source is one placed scale of a line, and the groups taken from it.
type Source struct {
	Scale     pitch.Scale
	Placement neck.Placement
	Size      int   // notes in a group, 1 to 12
	Order     []int // the group's digital pattern; nil is straight
}

// A Section is a stretch of the line with the same scales. A line without changes
// has one.
type Section struct {
	Start   Beat     // the first section includes whatever comes before it
	Sources []Source // home first
}

// A Request describes a line.
type Request struct {
	Sections  []Section // in the order of their starts
	Direction Direction
	Follow    Follow
	Run       bool         // the plain run through the union of the scales, whose sizes are 1
	Repeats   Repeats      // whether a pitch may come twice in a row
	Start     *pitch.Pitch // a note of the home placement; nil for its outermost
	Rhythm    Rhythm
	Bars      int // the line ends by the end of this bar; 0 is as long as the neck allows
}

// mostBars is the length of the longest line.
const mostBars = 256

// checkBars returns an error for a number of bars outside 0 to 256.
func checkBars(bars int) error {
	if bars < 0 || bars > mostBars {
		return &pitch.InputError{What: "bars", Value: strconv.Itoa(bars),
			Want: fmt.Sprintf("1 to %d, or 0 for as long as the neck allows", mostBars)}
	}
	return nil
}

// check returns an error if no line can be made of the request.
func (r Request) check() error {
	if _, err := ParseDirection(string(r.Direction)); err != nil {
		return err
	}
	if _, err := ParseFollow(string(r.Follow)); err != nil {
		return err
	}
	if _, err := ParseRepeats(string(r.Repeats)); err != nil {
		return err
	}
	if err := r.Rhythm.Check(); err != nil {
		return err
	}
	if err := checkBars(r.Bars); err != nil {
		return err
	}
	if err := checkSections(r.Sections); err != nil || !r.Run {
		return err
	}
	for _, section := range r.Sections {
		for _, source := range section.Sources {
			if source.Size != 1 || source.Order != nil {
				return groupsError(strconv.Itoa(source.Size))
			}
		}
	}
	return nil
}

func checkSections(sections []Section) error {
	if len(sections) == 0 {
		return &pitch.InputError{What: "home", Value: "", Want: "a scale to take notes from"}
	}
	for i, section := range sections {
		if i > 0 && section.Start <= sections[i-1].Start {
			return &pitch.InputError{What: "changes", Value: section.Start.String(),
				Want: "each change after the one before, at quarter note " + sections[i-1].Start.String()}
		}
		if n := len(section.Sources); n == 0 || n > mostScales {
			return &pitch.InputError{What: "superimpose", Value: strconv.Itoa(n) + " scales",
				Want: fmt.Sprintf("a home scale and at most %d more", mostScales-1)}
		}
		for _, source := range section.Sources {
			if err := source.check(); err != nil {
				return err
			}
		}
	}
	return nil
}

// check returns an error if the source's groups do not fit its placement.
func (s Source) check() error {
	if err := checkGroup(s.Size); err != nil {
		return err
	}
	if err := checkOrder(s.Order, s.Size); err != nil {
		return err
	}
	places := s.Placement.Places
	for i := 1; i < len(places); i++ {
		if places[i].Pitch.MIDI() <= places[i-1].Pitch.MIDI() {
			return &pitch.InputError{What: "placement", Value: s.Scale.Name(),
				Want: fmt.Sprintf("notes that rise; %v is not above %v", places[i].Pitch, places[i-1].Pitch)}
		}
	}
	if reach := farthest(s.Order, s.Size); reach > len(places) {
		field, value := "groups", strconv.Itoa(s.Size)
		if s.Order != nil {
			field, value = "order", joinInts(s.Order, " ")
		}
		return &pitch.InputError{What: field, Value: value,
			Want: fmt.Sprintf("at most step %d: %s has %d notes under the hand", len(places), s.Scale.Name(), len(places))}
	}
	return nil
}

// startError returns the error for a start note. It lists the notes of the home
// placement that a group fits on, from the lowest.
func startError(start pitch.Pitch, home ladder, rises bool) error {
	e := &pitch.InputError{What: "start", Value: start.String()}
	var fit []string
	for i, place := range home.places {
		if !home.fits(i, rises) {
			continue
		}
		fit = append(fit, place.Pitch.String())
		if place.Pitch.MIDI() == start.MIDI() {
			e.Nearest = place.Pitch.String()
		}
	}
	e.Want = "a note of the home scale under the hand with room for a group: " + strings.Join(fit, " ")
	return e
}
