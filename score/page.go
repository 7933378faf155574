package score

import (
	"errors"
	"fmt"
	"strings"

	"heddle/exercise"
	"heddle/score/surface"
)

// The page in mm.
const (
	sideMargin   = 15.0
	topMargin    = 12.0
	bottomMargin = 15.0
	titleSize    = 7.0
	sentenceSize = 4.2
	sentenceLine = 5.8
	footerSize   = 3.0
	blockGap     = 5.0 // between title, sentence, neck and music
)

// widestGap is how far, as a multiple of systemGap, systems are spread to fill
// a page that has room left.
const widestGap = 2.4

// errNoStrings is what is said of an instrument that is none.
var errNoStrings = errors.New("an instrument without strings can't be drawn")

// Pages returns the exercise on paper: title, sentence, neck and the systems
// of the line, broken into pages with a footer.
//
// It fails if the exercise has no strings to draw.
func Pages(ex *exercise.Exercise, opt Options) ([]surface.Drawing, error) {
	if ex.Instrument.Strings() == 0 {
		return nil, errNoStrings
	}
	width, height := opt.Page.size()
	inner := width - 2*sideMargin
	l := newLayout(ex, opt)
	l.fit(inner)
	b := pageBuilder{layout: l, width: width, height: height}
	b.newPage()
	b.heading(inner)
	b.music(l.systems(inner / l.options.space()))
	b.footers()
	return b.pages, nil
}

// A pageBuilder fills pages from the top.
type pageBuilder struct {
	layout        *layout
	width, height float64
	pages         []surface.Drawing
	y             float64
	pending       []*system // of the page, not yet spread over its height
}

func (b *pageBuilder) newPage() {
	d := b.layout.drawing(b.width, "score")
	d.Height = b.height
	b.pages = append(b.pages, d)
	b.y = topMargin
}

func (b *pageBuilder) page() *surface.Drawing { return &b.pages[len(b.pages)-1] }

func (b *pageBuilder) add(items ...surface.Item) {
	d := b.page()
	d.Items = append(d.Items, items...)
}

// heading puts title, sentence and neck on the first page.
func (b *pageBuilder) heading(inner float64) {
	opt, ex := b.layout.options, b.layout.exercise
	if opt.Title != "" {
		for _, text := range wrap(opt.Title, surface.SerifBold, titleSize, inner) {
			b.y += titleSize
			b.add(surface.Text{Text: text, At: surface.Pt(sideMargin, b.y), Size: titleSize, Face: surface.SerifBold, Paint: surface.Ink})
			b.y += titleSize * 0.15
		}
		b.y += blockGap * 0.3
	}
	if opt.has(Sentence) && ex.Sentence != "" {
		for _, run := range sentenceLines(ex, inner) {
			b.y += sentenceLine
			b.add(run.at(surface.Pt(sideMargin, b.y))...)
		}
		b.y += blockGap
	}
	if opt.has(NeckDiagram) {
		neckOptions := opt
		neckOptions.Width = inner
		d := drawNeck(ex, neckOptions, paperStringGap)
		b.add(surface.Shift(d.Items, sideMargin, b.y)...)
		b.y += d.Height + blockGap*0.6
	}
}

// music puts the systems on pages.
func (b *pageBuilder) music(systems []*system) {
	space := b.layout.options.space()
	bottom := b.height - bottomMargin
	y := b.y
	for _, s := range systems {
		h := s.height() * space
		if y+h > bottom && (len(b.pending) > 0 || len(b.page().Items) > 0) {
			b.spread(true)
			b.newPage()
			y = b.y
		}
		b.pending = append(b.pending, s)
		y += h + systemGap*space
	}
	b.spread(false)
}

// spread draws the page's systems; on a full page their gaps take up the room
// that is left, within reason.
func (b *pageBuilder) spread(full bool) {
	space := b.layout.options.space()
	gap := systemGap * space
	if full && len(b.pending) > 1 {
		room := b.height - bottomMargin - b.y
		for _, s := range b.pending {
			room -= s.height() * space
		}
		gap = min(gap*widestGap, room/float64(len(b.pending)-1))
	}
	for _, s := range b.pending {
		b.add(surface.Group{Class: "system", Items: s.draw(surface.Pt(sideMargin, b.y))})
		b.y += s.height()*space + gap
	}
	b.pending = nil
}

// footers numbers the pages, and repeats the title where there are several.
func (b *pageBuilder) footers() {
	if !b.layout.options.has(Footer) {
		return
	}
	y := b.height - bottomMargin/2
	for i := range b.pages {
		d := &b.pages[i]
		number := fmt.Sprintf("%d / %d", i+1, len(b.pages))
		d.Items = append(d.Items, surface.Text{Text: number, At: surface.Pt(b.width-sideMargin, y), Size: footerSize, Face: surface.Sans, Align: surface.Right, Paint: surface.Soft})
		if i > 0 && b.layout.options.Title != "" {
			d.Items = append(d.Items, surface.Text{Text: b.layout.options.Title, At: surface.Pt(sideMargin, y), Size: footerSize, Face: surface.Sans, Paint: surface.Soft})
		}
	}
}

// wrap breaks a text into lines no wider than width. A word that is wider
// stands on a line of its own.
func wrap(text string, face surface.Face, size, width float64) []string {
	var lines []string
	line := ""
	for word := range strings.FieldsSeq(text) {
		longer := word
		if line != "" {
			longer = line + " " + word
		}
		if line != "" && face.Width(longer, size) > width {
			lines = append(lines, line)
			longer = word
		}
		line = longer
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}
