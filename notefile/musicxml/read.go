package musicxml

import (
	"encoding/xml"
	"errors"
	"fmt"
	"io"

	"heddle/notefile/melody"
)

// Read reads a line from an uncompressed MusicXML file, part-wise or time-wise; see
// [melody.Choose] for the part.
func Read(r io.Reader, part string) (melody.Import, error) {
	guard, err := newGuard(r)
	if err != nil {
		return melody.Import{}, fmt.Errorf("MusicXML: %w", err)
	}
	s := &scoreReader{guard: guard, decoder: xml.NewTokenDecoder(guard), names: map[string]string{}, parts: map[string]*scorePart{}}
	if err := s.read(); err != nil {
		return melody.Import{}, fmt.Errorf("MusicXML: %s%w", s.where(), err)
	}
	im, err := s.line(part)
	if err != nil {
		return melody.Import{}, fmt.Errorf("MusicXML: %w", err)
	}
	return im, nil
}

// A scoreReader walks through a score. Part-wise and time-wise scores differ
// only in which of part and measure is inside the other: the open part and the
// open measure tell whose notes are read.
type scoreReader struct {
	guard    *guard
	decoder  *xml.Decoder
	title    string            // of the work
	movement string            // the movement's title
	names    map[string]string // of parts, by id
	order    []string          // ids of parts in the order they appear
	parts    map[string]*scorePart
	kept     melody.Counter

	part    *scorePart
	measure *xml.StartElement
}

func (s *scoreReader) where() string {
	if s.part == nil || s.measure == nil {
		return ""
	}
	number := melody.CleanText(attribute(*s.measure, "number"))
	return fmt.Sprintf("part %s, measure %s: ", or(s.part.id, "without id"), or(number, "without number"))
}

func (s *scoreReader) read() error {
	root, err := s.root()
	if err != nil {
		return err
	}
	if root != "score-partwise" && root != "score-timewise" {
		return fmt.Errorf("the file holds <%s>, want <score-partwise> or <score-timewise>", melody.CleanText(root))
	}
	for {
		s.guard.reset()
		token, err := s.decoder.Token()
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			return err
		}
		switch t := token.(type) {
		case xml.StartElement:
			err = s.open(t)
		case xml.EndElement:
			err = s.close(t.Name.Local)
		}
		if err != nil {
			return err
		}
	}
}

func (s *scoreReader) root() (string, error) {
	for {
		token, err := s.decoder.Token()
		if errors.Is(err, io.EOF) {
			return "", errors.New("no element in the file")
		}
		if err != nil {
			return "", err
		}
		if t, ok := token.(xml.StartElement); ok {
			return t.Name.Local, nil
		}
	}
}

func (s *scoreReader) open(e xml.StartElement) error {
	switch e.Name.Local {
	case "part-list":
		return nil
	case "work":
		var w xmlWork
		err := s.decode(&w, e)
		s.title = melody.CleanText(w.Title)
		return err
	case "movement-title":
		var title string
		err := s.decode(&title, e)
		s.movement = melody.CleanText(title)
		return err
	case "score-part":
		var p xmlScorePart
		err := s.decode(&p, e)
		s.names[melody.CleanText(p.ID)] = melody.CleanText(p.Name)
		return err
	case "part":
		return s.openPart(e)
	case "measure":
		s.measure = &e
		if s.part != nil {
			s.part.openMeasure(e)
		}
		return s.kept.Keep()
	}
	if s.part == nil || s.measure == nil {
		return s.skip()
	}
	return s.music(e)
}

func (s *scoreReader) openPart(e xml.StartElement) error {
	id := melody.CleanText(attribute(e, "id"))
	s.part = s.parts[id]
	if s.part == nil {
		s.part = &scorePart{id: id, divisions: 1, transpose: map[int]transposition{}, kept: &s.kept}
		s.parts[id] = s.part
		s.order = append(s.order, id)
	}
	if s.measure != nil {
		s.part.openMeasure(*s.measure)
	}
	return s.kept.Keep()
}

// close leaves an element. The part's measure ends when the part or the measure
// closes, whichever comes first.
func (s *scoreReader) close(name string) error {
	if name != "part" && name != "measure" {
		return nil
	}
	if s.part != nil && s.measure != nil {
		if err := s.part.closeMeasure(); err != nil {
			return err
		}
	}
	if name == "part" {
		s.part = nil
	} else {
		s.measure = nil
	}
	return nil
}

// music reads one element of a measure.
func (s *scoreReader) music(e xml.StartElement) error {
	if read, ok := elements[e.Name.Local]; ok {
		return read(s, e)
	}
	return s.skip()
}

// elements are the elements of a measure that are read.
var elements = map[string]func(*scoreReader, xml.StartElement) error{
	"note": decoded((*scorePart).note), "backup": decoded((*scorePart).backup), "forward": decoded((*scorePart).forward),
	"attributes": decoded((*scorePart).attributes), "direction": decoded((*scorePart).direction), "sound": decoded((*scorePart).sound),
	"harmony": decoded((*scorePart).harmony), "barline": decoded((*scorePart).barline),
}

// decoded passes an element to the open part.
func decoded[Element any](read func(*scorePart, Element) error) func(*scoreReader, xml.StartElement) error {
	return func(s *scoreReader, e xml.StartElement) error {
		var element Element
		if err := s.decode(&element, e); err != nil {
			return err
		}
		return read(s.part, element)
	}
}

// decode reads a whole element, which counts as one of the things kept.
func (s *scoreReader) decode(element any, e xml.StartElement) error {
	s.guard.reset()
	if err := s.decoder.DecodeElement(element, &e); err != nil {
		return err
	}
	return s.kept.Keep()
}

func (s *scoreReader) skip() error {
	for depth := 1; depth > 0; {
		s.guard.reset()
		token, err := s.decoder.Token()
		if err != nil {
			return err
		}
		switch token.(type) {
		case xml.StartElement:
			depth++
		case xml.EndElement:
			depth--
		}
	}
	return nil
}
