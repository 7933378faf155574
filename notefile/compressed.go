package notefile

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"strings"
)

// importCompressed makes a line of a compressed MusicXML file: a zip archive
// whose META-INF/container.xml names the score (MusicXML 4.0, container).
func importCompressed(content []byte) (Import, error) {
	archive, err := zip.NewReader(bytes.NewReader(content), int64(len(content)))
	if err != nil {
		return Import{}, fmt.Errorf("compressed MusicXML: %w", err)
	}
	name, err := scoreName(archive)
	if err != nil {
		return Import{}, fmt.Errorf("compressed MusicXML: %w", err)
	}
	score, err := openIn(archive, name)
	if err != nil {
		return Import{}, fmt.Errorf("compressed MusicXML: %w", err)
	}
	defer score.Close()
	return importXML(&bounded{from: score, left: MaxXMLBytes, most: MaxXMLBytes})
}

// scoreName returns the path of the score in the archive: the first root file
// of the container, or, without a container, the first score there is.
func scoreName(archive *zip.Reader) (string, error) {
	const container = "META-INF/container.xml"
	if file, err := openIn(archive, container); err == nil {
		defer file.Close()
		decoder, err := newXMLDecoder(&bounded{from: file, left: maxTokenBytes, most: maxTokenBytes})
		if err != nil {
			return "", fmt.Errorf("%s: %w", container, err)
		}
		for {
			token, err := decoder.Token()
			if err != nil {
				return "", fmt.Errorf("%s names no score: %w", container, err)
			}
			if e, ok := token.(xml.StartElement); ok && e.Name.Local == "rootfile" {
				return attribute(e, "full-path"), nil
			}
		}
	}
	for _, f := range archive.File {
		if strings.HasSuffix(f.Name, ".xml") || strings.HasSuffix(f.Name, ".musicxml") {
			return f.Name, nil
		}
	}
	return "", errors.New("no score in the archive")
}

// openIn opens a file of the archive by its exact name.
func openIn(archive *zip.Reader, name string) (io.ReadCloser, error) {
	for _, f := range archive.File {
		if f.Name == name {
			return f.Open()
		}
	}
	return nil, fmt.Errorf("no file %q in the archive", cleanText([]byte(name)))
}

// A bounded reader refuses to unpack more than it may.
type bounded struct {
	from io.Reader
	left int64
	most int64
}

// Read reads on, up to the bound.
func (b *bounded) Read(p []byte) (int, error) {
	if b.left <= 0 {
		return 0, fmt.Errorf("unpacks to more than %d bytes", b.most)
	}
	n, err := b.from.Read(p[:min(int64(len(p)), b.left)])
	b.left -= int64(n)
	return n, err
}
