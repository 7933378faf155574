package bench

import (
	"net/http"
	"net/url"
	"strconv"

	"heddle/bench/site"
	"heddle/exercise"
	"heddle/pitch"
)

// A chooser is everything there is to choose for one word of the sentence.
type chooser struct {
	Label  string
	Roots  []choice // of scales and chords
	Types  []pitch.Family
	Type   string // of the superimposed scales that are listed
	Groups []offers
	Signed bool // whether the signs of functions are there to be explained
}

// offers are a number of choices under a heading.
type offers struct {
	Heading string
	Rows    []offer
}

// An offer is one row of a chooser.
type offer struct {
	ID           string
	Value, Title string
	Notes        []offeredNote
	Says         string
	Hear         string // the address of its sound
	Chosen       bool
}

type offeredNote struct{ Name, Degree, Sign, Function string }

// Keys of a chooser's address, beside those of the exercise.
const (
	rootKey = "on"   // the root of scales and chords
	typeKey = "type" // the type of superimposed scales
	wordKey = "word" // which word of several, counted from 0
)

// serveChooser answers with what there is to choose for a word, as a part of the
// page.
func (b *Bench) serveChooser(w http.ResponseWriter, r *http.Request) {
	query, err := site.Query(r)
	if err != nil {
		site.Refuse(w, r, err)
		return
	}
	root, kind := query.Get(rootKey), query.Get(typeKey)
	index, _ := strconv.Atoi(query.Get(wordKey))
	for _, key := range []string{rootKey, typeKey, wordKey} {
		query.Del(key)
	}
	a := asked{site.Read(query)}
	c, err := a.chooser(r.PathValue("field"), max(0, index), root, kind)
	if err != nil {
		site.Refuse(w, r, err)
		return
	}
	part, err := b.site.Part("chooser", c)
	if err != nil {
		site.Refuse(w, r, err)
		return
	}
	site.Send(w, r, http.StatusOK, "text/html; charset=utf-8", []byte(part))
}

// chooser lists the choices for a word.
func (a asked) chooser(name string, index int, root, kind string) (*chooser, error) {
	f, err := exercise.FieldNamed(name)
	if err != nil {
		return nil, err
	}
	root = a.rootOf(root)
	groups, err := a.Exercise.Offers(name, root, kind)
	if err != nil {
		return nil, err
	}
	word := a.control(name, index, "")
	c := &chooser{Label: word.Label, Signed: name == "home" || name == "superimpose"}
	c.tools(a, name, root, kind)
	id := 0
	for _, g := range groups {
		list := offers{Heading: g.Heading}
		for _, o := range g.Offers {
			value := f.Rename(o.Value, pitch.English, a.Exercise.Naming)
			row := offer{ID: "offer-" + strconv.Itoa(id), Value: value, Title: o.Title, Says: o.Says, Hear: a.hear(name, o), Chosen: value == word.Value}
			for _, n := range o.Notes {
				row.Notes = append(row.Notes, offeredNote{a.Exercise.Naming.Name(n.Name), n.Degree.Symbol(), n.Function.Sign(), string(n.Function)})
			}
			list.Rows = append(list.Rows, row)
			id++
		}
		c.Groups = append(c.Groups, list)
	}
	return c, nil
}

// rootOf reads a root, or the root of a chord, in the reader's naming. What can't
// be read is none.
func (a asked) rootOf(typed string) string {
	if n, err := a.Exercise.Naming.Parse(typed); err == nil {
		return n.String()
	}
	chord, _ := exercise.FieldNamed("chord")
	if c, err := pitch.ParseChord(chord.Rename(typed, a.Exercise.Naming, pitch.English)); err == nil {
		return c.Root.String()
	}
	return ""
}

// tools offers the roots of scales and chords, and the types of superimposed
// scales.
func (c *chooser) tools(a asked, name, root, kind string) {
	ex := a.Exercise
	on := ex.Scales[0].Root
	switch name {
	case "superimpose":
		c.Types, c.Type = pitch.Families(), kind
		if c.Type == "" {
			c.Type = ex.Scales[0].Type.Name
		}
		return
	case "chord":
		on = ex.Chords[0].Root
	case "home":
	default:
		return
	}
	if named, err := pitch.ParseName(root); err == nil {
		on = named
	}
	for class := range 12 {
		n := pitch.PlainName(class, class != 6)
		c.Roots = append(c.Roots, choice{ex.Naming.Plain(n), ex.Naming.Name(n), n.Class() == on.Class()})
	}
}

// hear returns the part and the query of the sound of a scale, rising, or of a
// chord.
func (a asked) hear(name string, o exercise.Offer) string {
	ex := a.Exercise
	spec := url.Values{"chord": {ex.Chords[0].Name()}, "home": {ex.Scales[0].Name()}, "tempo": {"160"}}
	switch {
	case len(o.Notes) == 0:
		return ""
	case name == "chord":
		spec.Set("chord", o.Value)
		spec.Set("bars", "1")
		spec.Set("vamp", "drone")
		return "chords?" + spec.Encode()
	}
	home := o.Value
	if name == "superimpose" {
		scale, err := pitch.Relative(ex.Scales[0].Scale, o.Value)
		if err != nil {
			return ""
		}
		home = scale.Scale.Name()
	}
	spec.Set("home", home)
	spec.Set("direction", "up")
	spec.Set("groups", "1")
	spec.Set("bars", "2")
	return "line?" + spec.Encode()
}
