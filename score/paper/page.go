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
	smallTitle   = 5.5
	sentenceSize = 4.2
	sentenceLine = 5.8
	footerSize   = 3.0
	blockGap     = 5.0  // between title, sentence, neck and music
	widestGap    = 16.0 // added between systems to fill a page
	nameSize     = 3.4  // of the words before the lines for name and date
	nameLine     = 48.0 // length of the line for a name
	dateLine     = 26.0
	runningSize  = 4.0 // of the title above later pages
	noteInset    = 4.0 // from the margin to the note, which has a rule at its left
)

// staffSpaces are the sizes of staff in mm that are tried to fill a page, the
// largest first; the last is that of printed parts.
var staffSpaces = [...]float64{2, 1.8, 1.65, 1.55}

// Options say how an exercise is drawn on paper. The zero Options draw
// everything, in colour on white, for an A4 page.
type Options struct {
	Size  Size
	Title string        // above every page; empty for the exercise's own, and on a poster for none
	Note  string        // to the student, under the sentence
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

// Pages returns the exercise as a handout: lines for name and date, title,
// sentence, note, neck and the systems of the line, broken into numbered pages.
// The staff is as large as it may be without taking more pages, unless the
// options give its size. It fails if the instrument has no strings.
func Pages(ex *exercise.Exercise, opt Options) ([]surface.Drawing, error) {
	_, height := opt.Size.mm()
	if opt.Title == "" {
		opt.Title = ex.Title()
	}
	b, err := fill(ex, opt, height, true)
	if err != nil {
		return nil, err
	}
	if opt.Music.Space == 0 {
		for _, opt.Music.Space = range staffSpaces[:len(staffSpaces)-1] {
			larger, err := fill(ex, opt, height, true)
			if err != nil {
				return nil, err
			}
			// From four bars a row to three, phrases would be broken; two are
			// good again.
			whole := larger.systems == b.systems || larger.systems >= 2*b.systems-1
			if len(larger.pages) == len(b.pages) && whole {
				b = larger
				break
			}
		}
	}
	b.numbers()
	return b.pages, nil
}

// Poster returns the exercise as one picture: what Pages puts on paper, on a
// single sheet as tall as it needs, without the lines for name and date. It
// fails where Pages does.
func Poster(ex *exercise.Exercise, opt Options) (surface.Drawing, error) {
	b, err := fill(ex, opt, endless, false)
	if err != nil {
		return surface.Drawing{}, err
	}
	d := b.pages[0]
	d.Height = b.y + topMargin
	return d, nil
}

// fill puts heading and music on pages of a height.
func fill(ex *exercise.Exercise, opt Options, height float64, handout bool) (*builder, error) {
	if ex.Instrument.Strings() == 0 {
		return nil, errors.New("an instrument without strings can't be drawn")
	}
	width, _ := opt.Size.mm()
	b := &builder{exercise: ex, options: opt, width: width, height: height}
	opt.Music.Width = b.inner()
	systems := score.Systems(ex, opt.Music)
	b.systems = len(systems)
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
	if handout {
		b.nameLines()
	}
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
	systems       int
	pending       []surface.Drawing // systems of the page, not yet spread over its height
}

// inner returns the width between the margins.
func (b *builder) inner() float64 { return b.width - 2*sideMargin }

// newPage begins a page, with the title above it if it is not the first.
func (b *builder) newPage() {
	b.pages = append(b.pages, b.blank)
	b.y = topMargin
	if title := wrap(b.options.Title, surface.SerifBold, runningSize, b.inner()); len(b.pages) > 1 && len(title) > 0 {
		b.y += runningSize
		b.text(title[0], 0, runningSize, surface.SerifBold, surface.Left)
		b.y += blockGap
	}
}

// text adds a line of text on the current baseline, at a distance from the left
// margin.
func (b *builder) text(text string, x, size float64, face surface.Face, align surface.Align) {
	b.add(surface.Text{Text: text, At: surface.Pt(sideMargin+x, b.y), Size: size, Face: face, Align: align, Paint: surface.Ink})
}

func (b *builder) page() *surface.Drawing { return &b.pages[len(b.pages)-1] }

func (b *builder) add(items ...surface.Item) {
	d := b.page()
	d.Items = append(d.Items, items...)
}

// nameLines puts lines for name and date at the top right.
func (b *builder) nameLines() {
	b.y += nameSize
	x := b.inner()
	for _, field := range []struct {
		word   string
		length float64
	}{{"Date", dateLine}, {"Name", nameLine}} {
		from, to := surface.Pt(sideMargin+x-field.length, b.y+0.6), surface.Pt(sideMargin+x, b.y+0.6)
		b.add(surface.Rules{Lines: [][2]surface.Point{{from, to}}, Width: 0.2, Paint: surface.Soft})
		x -= field.length + 2
		b.text(field.word, x, nameSize, surface.Sans, surface.Right)
		x -= surface.Sans.Width(field.word, nameSize) + 6
	}
	b.y += blockGap * 0.6
}

// heading puts title, sentence, note and neck on the first page.
func (b *builder) heading() {
	if b.options.Title != "" {
		size := titleSize // a little smaller where that saves a line
		if wide := surface.SerifBold.Width(b.options.Title, size); wide > b.inner() {
			size = max(smallTitle, size*b.inner()/wide)
		}
		for _, text := range wrap(b.options.Title, surface.SerifBold, size, b.inner()) {
			b.y += size
			b.text(text, 0, size, surface.SerifBold, surface.Left)
			b.y += size * 0.15
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
	b.note()
	neck := b.options.Neck
	neck.Width, neck.Paper, neck.Theme = b.inner(), true, b.options.Music.Theme
	d := fretboard.Draw(b.exercise, neck)
	b.add(surface.Shift(d.Items, sideMargin, b.y)...)
	b.y += d.Height + blockGap*0.6
}

// note puts the note to the student, with a rule at its left.
func (b *builder) note() {
	top := b.y
	for _, text := range wrap(b.options.Note, surface.Serif, sentenceSize, b.inner()-noteInset) {
		b.y += sentenceLine
		b.text(text, noteInset, sentenceSize, surface.Serif, surface.Left)
	}
	if b.y > top {
		from, to := surface.Pt(sideMargin+0.5, top+1), surface.Pt(sideMargin+0.5, b.y+1)
		b.add(surface.Rules{Lines: [][2]surface.Point{{from, to}}, Width: 0.8, Paint: surface.Hair})
		b.y += blockGap
	}
}

// music puts the systems on pages.
func (b *builder) music(systems []surface.Drawing) {
	bottom := b.height - bottomMargin
	y := b.y
	for _, s := range systems {
		if y+s.Height > bottom && len(b.page().Items) > 0 {
			b.spread()
			b.newPage()
			y = b.y
		}
		b.pending = append(b.pending, s)
		y += s.Height
	}
	b.spread()
}

// spread draws the page's systems; the space that is left goes between them,
// within reason.
func (b *builder) spread() {
	gap := widestGap
	room := b.height - bottomMargin - b.y
	for _, s := range b.pending {
		room -= s.Height
	}
	if gaps := len(b.pending) - 1; gaps > 0 && b.height < endless {
		gap = min(gap, room/float64(gaps))
	} else {
		gap = 0
	}
	for _, s := range b.pending {
		b.add(surface.Shift(s.Items, sideMargin, b.y)...)
		b.y += s.Height + gap
	}
	b.pending = nil
}

// numbers puts the number of each page at its foot.
func (b *builder) numbers() {
	y := b.height - bottomMargin/2
	for i := range b.pages {
		d := &b.pages[i]
		number := fmt.Sprintf("%d / %d", i+1, len(b.pages))
		d.Items = append(d.Items, surface.Text{Text: number, At: surface.Pt(b.width-sideMargin, y), Size: footerSize, Face: surface.Sans, Align: surface.Right, Paint: surface.Soft})
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
