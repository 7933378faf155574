package musicxml

import (
	"bytes"
	"encoding/xml"
	"strconv"
)

// A markup is XML being written, element by element and indented.
type markup struct {
	out  bytes.Buffer
	open []string
}

// start opens an element; attributes come as name, value, name, value.
func (m *markup) start(name string, attributes ...string) {
	m.indent()
	m.tag(name, attributes)
	m.out.WriteString(">\n")
	m.open = append(m.open, name)
}

func (m *markup) end() {
	name := m.open[len(m.open)-1]
	m.open = m.open[:len(m.open)-1]
	m.indent()
	m.out.WriteString("</" + name + ">\n")
}

func (m *markup) text(name, content string, attributes ...string) {
	m.indent()
	m.tag(name, attributes)
	m.out.WriteByte('>')
	m.escape(content)
	m.out.WriteString("</" + name + ">\n")
}

func (m *markup) number(name string, n int, attributes ...string) {
	m.text(name, strconv.Itoa(n), attributes...)
}

func (m *markup) empty(name string, attributes ...string) {
	m.indent()
	m.tag(name, attributes)
	m.out.WriteString("/>\n")
}

func (m *markup) tag(name string, attributes []string) {
	m.out.WriteString("<" + name)
	for i := 0; i+1 < len(attributes); i += 2 {
		m.out.WriteString(" " + attributes[i] + `="`)
		m.escape(attributes[i+1])
		m.out.WriteByte('"')
	}
}

func (m *markup) indent() {
	for range m.open {
		m.out.WriteByte(' ')
	}
}

func (m *markup) escape(s string) {
	// A bytes.Buffer does not return errors.
	_ = xml.EscapeText(&m.out, []byte(s))
}
