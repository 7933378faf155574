package notefile

import (
	"encoding/xml"
	"errors"
	"fmt"
	"io"
)

// importXML makes a line of an uncompressed MusicXML file.
func importXML(r io.Reader) (Import, error) {
	decoder, err := newXMLDecoder(r)
	if err != nil {
		return Import{}, fmt.Errorf("MusicXML: %w", err)
	}
	s := &scoreReader{decoder: decoder, parts: map[string]*scorePart{}}
	if err := s.read(); err != nil {
		return Import{}, fmt.Errorf("MusicXML: %s%w", s.where(), err)
	}
	im, err := s.line()
	if err != nil {
		return Import{}, fmt.Errorf("MusicXML: %w", err)
	}
	return im, nil
}

// A scoreReader walks through a score. Part-wise and time-wise scores differ
// only in which of part and measure is inside the other; the innermost two
// that are open say whose notes are read.
type scoreReader struct {
	decoder *xml.Decoder
	title   string // of the work
	subject string // of the movement
	names   []xmlScorePart
	order   []string // ids of parts as they come
	parts   map[string]*scorePart
	kept    int // notes and chord symbols in memory

	part    *scorePart
	measure *xml.StartElement
}

// where says which measure is being read.
func (s *scoreReader) where() string {
	if s.part == nil || s.measure == nil {
		return ""
	}
	id, number := cleanText([]byte(s.part.id)), cleanText([]byte(attribute(*s.measure, "number")))
	return fmt.Sprintf("part %s, measure %s: ", or(id, "without id"), or(number, "without number"))
}

// read reads the whole file.
func (s *scoreReader) read() error {
	root, err := s.root()
	if err != nil {
		return err
	}
	if root != "score-partwise" && root != "score-timewise" {
		return fmt.Errorf("the file holds <%s>, want <score-partwise> or <score-timewise>", cleanText([]byte(root)))
	}
	for {
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

// root reads up to the first element.
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

// open reads an element, or goes into it.
func (s *scoreReader) open(e xml.StartElement) error {
	switch e.Name.Local {
	case "part-list":
		return nil
	case "work":
		var w xmlWork
		err := s.decoder.DecodeElement(&w, &e)
		s.title = cleanText([]byte(w.Title))
		return err
	case "movement-title":
		var title string
		err := s.decoder.DecodeElement(&title, &e)
		s.subject = cleanText([]byte(title))
		return err
	case "score-part":
		var p xmlScorePart
		if err := s.decoder.DecodeElement(&p, &e); err != nil {
			return err
		}
		s.names = append(s.names, p)
		return s.keep()
	case "part":
		return s.openPart(e)
	case "measure":
		s.measure = &e
		if s.part != nil {
			s.part.openMeasure(e)
		}
		return s.keep()
	}
	if s.part == nil || s.measure == nil {
		return s.decoder.Skip()
	}
	return s.music(e)
}

func (s *scoreReader) openPart(e xml.StartElement) error {
	id := attribute(e, "id")
	s.part = s.parts[id]
	if s.part == nil {
		s.part = newScorePart(id)
		s.parts[id] = s.part
		s.order = append(s.order, id)
	}
	if s.measure != nil {
		s.part.openMeasure(*s.measure)
	}
	return s.keep()
}

// close leaves an element. Whichever of part and measure closes first ends the
// part's measure.
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
	switch e.Name.Local {
	case "note":
		var n xmlNote
		if err := s.decoder.DecodeElement(&n, &e); err != nil {
			return err
		}
		if err := s.keep(); err != nil {
			return err
		}
		return s.part.note(n)
	case "backup", "forward":
		var l xmlLength
		if err := s.decoder.DecodeElement(&l, &e); err != nil {
			return err
		}
		return s.part.move(l.Duration, e.Name.Local == "backup")
	case "attributes":
		var a xmlAttributes
		if err := s.decoder.DecodeElement(&a, &e); err != nil {
			return err
		}
		if err := s.part.attributes(a); err != nil {
			return err
		}
		return s.keep()
	case "direction":
		var d xmlDirection
		if err := s.decoder.DecodeElement(&d, &e); err != nil {
			return err
		}
		s.part.direction(d)
		return s.keep()
	case "sound":
		var sound xmlSound
		if err := s.decoder.DecodeElement(&sound, &e); err != nil {
			return err
		}
		s.part.sound(sound)
		return s.keep()
	case "harmony":
		var h xmlHarmony
		if err := s.decoder.DecodeElement(&h, &e); err != nil {
			return err
		}
		s.part.harmony(h)
		return s.keep()
	case "barline":
		var b xmlBarline
		if err := s.decoder.DecodeElement(&b, &e); err != nil {
			return err
		}
		if b.Repeat != nil || b.Ending != nil {
			s.part.repeats++
		}
		return nil
	}
	return s.decoder.Skip()
}

// keep counts what is kept of a file in memory.
func (s *scoreReader) keep() error {
	if s.kept++; s.kept > maxNotes {
		return fmt.Errorf("more than %d notes and marks", maxNotes)
	}
	return nil
}
