package paper

import (
	"errors"
	"fmt"
	"strings"

	"heddle/exercise"
	"heddle/score"
	"heddle/score/fretboard"
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
	widestGap    = 6.5 // added between systems to fill a page
)

// Options say how an exercise is drawn on paper. The zero Options draw
// everything, in colour on white, for an A4 page.
type Options struct {
	Size  Size
	Title string        // above the first page; empty for none
	Music score.Options // its width is the page's
	Neck  fretboard.Options
}

// A Size is a size of paper.
type Size int

// The sizes of paper.
const (
	A4     Size = iota // 210 by 297 mm (ISO 216)
	Letter             // 8.5 by 11 inches (ANSI/ASME Y14.1)
)

// mm returns width and height.
func (s Size) mm() (width, height float64) {
	if s == Letter {
		return 8.5 * surface.MMPerInch, 11 * surface.MMPerInch
	}
	return 210, 297
}

// endless is taller in mm than any exercise: a page that is never full.
const endless = 1e6

// Pages returns the exercise on paper: title, sentence, neck and the systems
// of the line, broken into pages with a footer. It fails if the instrument has
// no strings.
func Pages(ex *exercise.Exercise, opt Options) ([]surface.Drawing, error) {
	_, height := opt.Size.mm()
	b, err := fill(ex, opt, height)
	if err != nil {
		return nil, err
	}
	b.footers()
	return b.pages, nil
}

// Poster returns the exercise as one picture: what Pages puts on paper, on a
// single sheet as tall as it needs. It fails where Pages does.
func Poster(ex *exercise.Exercise, opt Options) (surface.Drawing, error) {
	b, err := fill(ex, opt, endless)
	if err != nil {
		return surface.Drawing{}, err
	}
	d := b.pages[0]
	d.Height = b.y + topMargin
	return d, nil
}

// fill puts heading and music on pages of a height.
func fill(ex *exercise.Exercise, opt Options, height float64) (*builder, error) {
	if ex.Instrument.Strings() == 0 {
		return nil, errors.New("an instrument without strings can't be drawn")
	}
	width, _ := opt.Size.mm()
	b := &builder{exercise: ex, options: opt, width: width, height: height}
	opt.Music.Width = b.inner()
	systems := score.Systems(ex, opt.Music)
	b.blank = surface.Drawing{Width: width, Height: height, Title: opt.Title, Theme: opt.Music.Theme, Prefix: opt.Music.Prefix}
	if b.blank.Title == "" {
		b.blank.Title = ex.Sentence
	}
	var described []string
	for _, s := range systems {
		described = append(described, s.Description)
	}
	b.blank.Description = strings.Join(described, " ")
	b.newPage()
	b.heading()
	b.music(systems)
	return b, nil
}

// A builder fills pages from the top.
type builder struct {
	exercise      *exercise.Exercise
	options       Options
	width, height float64
	blank         surface.Drawing
	pages         []surface.Drawing
	y             float64
	pending       []surface.Drawing // systems of the page, not yet spread over its height
}

// inner returns the width between the margins.
func (b *builder) inner() float64 { return b.width - 2*sideMargin }

func (b *builder) newPage() {
	b.pages = append(b.pages, b.blank)
	b.y = topMargin
}

func (b *builder) page() *surface.Drawing { return &b.pages[len(b.pages)-1] }

func (b *builder) add(items ...surface.Item) {
	d := b.page()
	d.Items = append(d.Items, items...)
}

// heading puts title, sentence and neck on the first page.
func (b *builder) heading() {
	if b.options.Title != "" {
		for _, text := range wrap(b.options.Title, surface.SerifBold, titleSize, b.inner()) {
			b.y += titleSize
			b.add(surface.Text{Text: text, At: surface.Pt(sideMargin, b.y), Size: titleSize, Face: surface.SerifBold, Paint: surface.Ink})
			b.y += titleSize * 0.15
		}
		b.y += blockGap * 0.3
	}
	if b.exercise.Sentence != "" {
		for _, run := range sentenceLines(b.exercise, b.inner()) {
			b.y += sentenceLine
			b.add(run.at(surface.Pt(sideMargin, b.y))...)
		}
		b.y += blockGap
	}
	neck := b.options.Neck
	neck.Width, neck.Paper, neck.Theme = b.inner(), true, b.options.Music.Theme
	d := fretboard.Draw(b.exercise, neck)
	b.add(surface.Shift(d.Items, sideMargin, b.y)...)
	b.y += d.Height + blockGap*0.6
}

// music puts the systems on pages.
func (b *builder) music(systems []surface.Drawing) {
	bottom := b.height - bottomMargin
	y := b.y
	for _, s := range systems {
		if y+s.Height > bottom && (len(b.pending) > 0 || len(b.page().Items) > 0) {
			b.spread(true)
			b.newPage()
			y = b.y
		}
		b.pending = append(b.pending, s)
		y += s.Height
	}
	b.spread(false)
}

// spread draws the page's systems; on a full page the space that is left goes
// between them, within reason.
func (b *builder) spread(full bool) {
	gap := 0.0
	if full && len(b.pending) > 1 {
		room := b.height - bottomMargin - b.y
		for _, s := range b.pending {
			room -= s.Height
		}
		gap = min(widestGap, room/float64(len(b.pending)-1))
	}
	for _, s := range b.pending {
		b.add(surface.Shift(s.Items, sideMargin, b.y)...)
		b.y += s.Height + gap
	}
	b.pending = nil
}

// footers numbers the pages, and repeats the title where there are several.
func (b *builder) footers() {
	y := b.height - bottomMargin/2
	for i := range b.pages {
		d := &b.pages[i]
		number := fmt.Sprintf("%d / %d", i+1, len(b.pages))
		d.Items = append(d.Items, surface.Text{Text: number, At: surface.Pt(b.width-sideMargin, y), Size: footerSize, Face: surface.Sans, Align: surface.Right, Paint: surface.Soft})
		if i > 0 && b.options.Title != "" {
			d.Items = append(d.Items, surface.Text{Text: b.options.Title, At: surface.Pt(sideMargin, y), Size: footerSize, Face: surface.Sans, Paint: surface.Soft})
		}
	}
}

// wrap breaks a text into lines no wider than width. A word that is wider
// has a line of its own.
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
