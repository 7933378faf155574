package musicxml

import (
	"bufio"
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
)

const (
	// maxDepth is how deep elements may nest. MusicXML's own deepest are about
	// a dozen deep.
	maxDepth = 40

	// maxElements is how many elements a file may have, because a packed file
	// can hide the cost of walking through them: as many as there are in
	// maxUnpacked bytes of real music.
	maxElements = 2_000_000

	// maxInside and maxText are how many elements, and how many bytes of text,
	// one note, direction or other element may hold that is decoded as a whole.
	// The largest in real files are part declarations with a drum kit.
	maxInside = 4096
	maxText   = 256 << 10

	// maxToken is how many bytes one tag, comment or run of text may have.
	// MusicXML's longest are credits of a few lines.
	maxToken = 64 << 10
)

// A guard passes on the tokens of an XML file in UTF-8, UTF-16 or Latin-1, and
// returns an error if it holds more than it may or declares entities.
type guard struct {
	decoder         *xml.Decoder
	gauge           *gauge
	depth, elements int
	inside, text    int // elements and bytes of text since the last reset
}

func newGuard(r io.Reader) (*guard, error) {
	text, err := decodeUTF(bufio.NewReader(r))
	if err != nil {
		return nil, err
	}
	g := &gauge{text: bufio.NewReader(text)}
	decoder := xml.NewDecoder(g)
	decoder.CharsetReader = charset
	return &guard{decoder: decoder, gauge: g}, nil
}

func (g *guard) reset() { g.inside, g.text = 0, 0 }

// Token returns the next token. It is a raw one: the decoder around the guard
// matches tags.
func (g *guard) Token() (xml.Token, error) {
	g.gauge.run = 0
	token, err := g.decoder.RawToken()
	if err != nil {
		return token, err
	}
	switch t := token.(type) {
	case xml.StartElement:
		g.depth, g.elements, g.inside = g.depth+1, g.elements+1, g.inside+1
		for _, a := range t.Attr {
			g.text += len(a.Value)
		}
	case xml.EndElement:
		g.depth--
	case xml.CharData:
		g.text += len(t)
	case xml.Directive:
		if bytes.Contains(t, []byte("<!")) || bytes.IndexByte(t, '[') >= 0 {
			return nil, errors.New("the document type declares entities or elements of its own, which are not read")
		}
	}
	switch {
	case g.depth > maxDepth:
		return nil, fmt.Errorf("elements nest deeper than %d", maxDepth)
	case g.elements > maxElements:
		return nil, fmt.Errorf("more than %d elements", maxElements)
	case g.inside > maxInside:
		return nil, fmt.Errorf("one element holds more than %d others", maxInside)
	case g.text > maxText:
		return nil, fmt.Errorf("one element holds more than %d bytes of text", maxText)
	}
	return token, nil
}

// A gauge measures the bytes of the token that is being read, which the decoder
// keeps in memory: a tag, a comment or a run of text.
type gauge struct {
	text *bufio.Reader
	run  int
}

// ReadByte returns the next byte.
func (g *gauge) ReadByte() (byte, error) {
	if g.run++; g.run > maxToken {
		return 0, fmt.Errorf("a tag or text is longer than %d bytes", maxToken)
	}
	return g.text.ReadByte()
}

// Read reads a byte at a time. The decoder calls it only under a charset.
func (g *gauge) Read(b []byte) (int, error) {
	if len(b) == 0 {
		return 0, nil
	}
	c, err := g.ReadByte()
	if err != nil {
		return 0, err
	}
	b[0] = c
	return 1, nil
}
