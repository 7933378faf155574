package exercise

import (
	"slices"
	"strconv"
	"strings"

	"heddle/line"
	"heddle/pitch"
)

// A Phrase is a piece of the sentence that describes an exercise: plain text, or the
// words of one field, which a page can turn into a control.
type Phrase struct {
	Text  string
	Field string // empty for plain text
	Index int    // which value of a field that has several
}

// sentenceOf joins the phrases.
func sentenceOf(phrases []Phrase) string {
	var b strings.Builder
	for _, p := range phrases {
		b.WriteString(p.Text)
	}
	return b.String()
}

// A sentence is a sentence being made.
type sentence struct {
	plan    *plan
	phrases []Phrase
}

func (w *sentence) say(text string)         { w.phrases = append(w.phrases, Phrase{Text: text}) }
func (w *sentence) field(name, text string) { w.nth(name, text, 0) }
func (w *sentence) nth(name, text string, at int) {
	w.phrases = append(w.phrases, Phrase{text, name, at})
}

// choice adds a value in the words of the table of fields.
func (w *sentence) choice(name, value string) {
	f, _ := FieldNamed(name)
	w.field(name, f.words(value))
}

// phrases describes the canonical spec in a sentence. Rare fields appear only if they
// differ from their default.
func (p *plan) phrases() []Phrase {
	w := &sentence{plan: p}
	if p.phrased {
		w.phrase()
	} else {
		w.harmony()
		w.pattern()
	}
	w.place()
	w.time()
	w.touch()
	w.landing()
	w.cut()
	w.say(".")
	return w.phrases
}

func (w *sentence) cut() {
	if c := w.plan.cut; !c.whole() {
		w.say("; only notes ")
		w.field("cut", strconv.Itoa(c.from)+" to "+strconv.Itoa(c.to))
		w.say(" of it")
	}
}

// over says what sounds under the notes.
func (w *sentence) over() {
	p := w.plan
	w.say("Over ")
	switch {
	case p.form.name != "":
		w.field("changes", p.form.article+p.form.name+" in "+p.naming.Name(p.key))
	case len(p.spans) > 1:
		w.field("changes", p.chordNames())
	default:
		w.field("chord", p.spans[0].chord.Display(p.naming))
	}
}

func (w *sentence) harmony() {
	p := w.plan
	w.over()
	scales := p.spans[0].scales
	if len(scales) == 1 {
		w.say(", play ")
		w.field("home", p.scaleNames(0))
		return
	}
	w.say(", weave ")
	w.field("home", p.scaleNames(0))
	for i := range scales[1:] {
		w.say(joint(i, len(scales)-1, " with ", " and with "))
		w.superimposed(i)
	}
}

// superimposed says a superimposed scale as the player gave it: how far from home it
// is, or its name.
func (w *sentence) superimposed(i int) {
	first := w.plan.spans[0]
	r := first.laid[i]
	other := func(s span) bool { return s.laid[i].Given != r.Given }
	switch {
	case r.Away == "" || slices.ContainsFunc(w.plan.spans, other):
		w.nth("superimpose", w.plan.scaleNames(i+1), i)
	case r.Scale.Type.Name == first.scales[0].Type.Name:
		w.say("the same scale ")
		w.nth("superimpose", r.Away, i)
	default:
		w.say("the ")
		w.nth("superimpose", r.Scale.Type.Symbol()+" "+r.Away, i)
	}
}

func (w *sentence) pattern() {
	s := &w.plan.spec
	w.say(", ")
	if line.IsRun(s.Groups) {
		w.run()
	} else {
		w.groups()
	}
	if s.Order != "straight" {
		w.say(" in the order ")
		w.field("order", s.Order)
	}
	w.say(", ")
	w.choice("direction", string(w.plan.direction))
	if slices.Max(s.Groups) > 1 {
		w.say(", each group starting beside the ")
		w.field("follow", s.Follow)
		w.say(" note of the one before")
	}
	if w.plan.repeats == line.SkipRepeats {
		w.say(", repeated notes ")
		w.choice("repeats", s.Repeats)
	}
}

func (w *sentence) groups() {
	sizes := w.plan.sizes
	for i, n := range sizes {
		w.say(joint(i, len(sizes), "", " and "))
		w.nth("groups", countWord(n), i)
		w.say(plural(n, " note"))
	}
	if len(sizes) == 1 {
		w.say(" at a time")
	}
}

func (w *sentence) run() {
	w.say("in ")
	w.field("groups", "a run")
	switch len(w.plan.sizes) {
	case 1:
	case 2:
		w.say(" through both")
	default:
		w.say(" through them all")
	}
}

func (w *sentence) place() {
	s := &w.plan.spec
	w.say(", near fret ")
	w.field("fret", strconv.Itoa(max(0, s.Fret)))
	if s.Fret == OpenPosition {
		w.say(", in open position")
	}
	if s.Instrument != "guitar" {
		w.say(" on the ")
		w.field("instrument", s.Instrument)
	}
	if w.plan.retuned {
		w.say(", tuned ")
		w.field("tuning", w.plan.openNames())
	}
	if s.Capo > 0 {
		w.say(" with a capo at ")
		w.field("capo", strconv.Itoa(s.Capo))
	}
}

// openNames names the open strings, the last one first, as tunings are said.
func (p *plan) openNames() string {
	names := make([]pitch.Name, len(p.instrument.Open))
	for i, open := range p.instrument.Open {
		names[len(names)-1-i] = open.Name
	}
	return p.naming.Names(names)
}

func (w *sentence) time() {
	s, r := &w.plan.spec, w.plan.rhythm
	w.say(", in ")
	if s.Feel != "straight" {
		w.field("feel", strings.Replace(s.Feel, "swing", "swung", 1))
		w.say(" ")
	}
	w.choice("value", string(r.Value))
	w.say(" at ")
	w.field("tempo", number(s.Tempo))
	if r.Meter.Compound() {
		perBeat := s.Tempo * float64(line.Quarter) / float64(r.Meter.Counted())
		w.say(" quarter notes a minute, " + strconv.FormatFloat(perBeat, 'g', 3, 64) + " per beat,")
	}
	if s.Meter != "4/4" {
		w.say(" in ")
		w.field("meter", s.Meter)
	}
	if r.Pickup > 0 {
		w.say(", from ")
		w.field("pickup", w.restWords(r.Pickup))
		w.say(" before the bar")
	}
	if r.Gap > 0 {
		w.say(", resting ")
		w.field("gap", w.restWords(r.Gap))
		w.say(" between groups")
	}
	if s.Bars > 0 {
		w.say(", for ")
		w.field("bars", countWord(s.Bars))
		w.say(plural(s.Bars, " bar"))
	}
}

// restWords says a time in notes of the line, or in quarter notes: "two eighths".
func (w *sentence) restWords(b line.Beat) string {
	value := w.plan.rhythm.Value
	if b%value.Length() != 0 {
		return number(b.Quarters()) + " of a quarter"
	}
	f, _ := FieldNamed("value")
	n := int(b / value.Length())
	return countWord(n) + " " + plural(n, strings.TrimSuffix(f.words(string(value)), "s"))
}

func (w *sentence) touch() {
	style := w.plan.touch
	switch {
	case style == 0:
	case style.Named():
		w.say(", with a ")
		w.field("touch", style.String())
		w.say(" touch")
	default:
		w.say(", with ")
		w.field("touch", joinWords(style.Parts()))
	}
}

// joinWords joins a list for reading: "bends, slides and vibrato".
func joinWords(list []string) string {
	last := len(list) - 1
	if last < 1 {
		return strings.Join(list, "")
	}
	return strings.Join(list[:last], ", ") + " and " + list[last]
}

func (w *sentence) landing() {
	s := &w.plan.spec
	words := w.plan.landWords()
	if len(words) == 0 {
		return
	}
	w.say(", landing on ")
	said := "the "
	for i, word := range words {
		said += joint(i, len(words), "", " or ") + pitch.Signs(word)
	}
	w.field("land", said)
	if s.LandBeat != 1 {
		w.say(" on beat ")
		w.field("land-beat", number(s.LandBeat))
	}
}

// joint returns what comes before an item of a list: first before the first, last
// before the last, a comma before the others.
func joint(i, count int, first, last string) string {
	switch {
	case i == 0:
		return first
	case i == count-1:
		return last
	}
	return ", "
}

func (p *plan) chordNames() string {
	bars, next := make([]bar, len(p.bars)), 0
	for i, b := range p.bars {
		for _, share := range b {
			if share != hold {
				share = p.spans[next].chord.Display(p.naming)
				next++
			}
			bars[i] = append(bars[i], share)
		}
	}
	return writeChanges(bars)
}

func (p *plan) scaleNames(at int) string {
	return p.joinSpans(func(s span) string { return p.naming.Scale(s.scales[at]) })
}

func countWord(n int) string {
	words := [...]string{"no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"}
	if n < len(words) {
		return words[n]
	}
	return strconv.Itoa(n)
}

func plural(n int, noun string) string {
	if n == 1 {
		return noun
	}
	return noun + "s"
}
