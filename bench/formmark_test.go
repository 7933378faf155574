package bench_test

import (
	"regexp"
	"strings"
	"testing"
)

var (
	formMark  = regexp.MustCompile(`<form id="exercise" data-mark="([^"]*)"`)
	rareMark  = regexp.MustCompile(`<div class="rare" id="rare" data-mark="([^"]*)"`)
	sentPlace = regexp.MustCompile(`data-picture="([^"]*)"`)
)

// places returns the places that an answer has something for.
func places(answer string) string {
	var list []string
	for _, m := range sentPlace.FindAllStringSubmatch(answer, -1) {
		list = append(list, m[1])
	}
	return strings.Join(list, " ")
}

// submitted is what the form of the demo submits, with some words changed.
func submitted(changes ...string) string {
	query := "chord=Gm7&home=G+minor+pentatonic&superimpose=semitone+up&groups=3&groups=3&direction=down&follow=first&fret=10&value=eighth&tempo=84&land=third" +
		"&superimpose=&changes=&order=&start=&meter=&feel=&pickup=&gap=&bars=&land-beat=&instrument=&tuning=&frets=&scale=&reach=&capo=&picking=&names="
	return "/?" + strings.NewReplacer(changes...).Replace(query)
}

// A page that shows the form as it would be sent does not get it again.
func TestTheFormIsSentWhereItChanges(t *testing.T) {
	h := handler(t)
	page := ask(h, "GET", "/").Body.String()
	marks := "exercise=" + formMark.FindStringSubmatch(page)[1] + " rare=" + rareMark.FindStringSubmatch(page)[1]
	for _, c := range []struct {
		name, query, marks string
		form, rare         bool
	}{
		{"the same words", submitted(), marks, false, false},
		{"another direction", submitted("=down", "=up"), strings.Replace(marks, " rare=", " rare=later ", 1), false, false},
		{"another direction, with the rare words in sight", submitted("=down", "=up"), marks, false, true}, // another first note is the usual one
		{"a chord spelled another way is put right as typed", submitted("Gm7", "+Gm7+"), marks, true, true},
		{"a landing that the sentence says another way", submitted("land=third", "land=third,fifth"), marks, true, true},
		{"a wrong word", submitted("Gm7", "Hmm7"), marks, true, true},
		{"a wrong word after a wrong word", submitted("Gm7", "Hmm7"), "exercise= rare=later", true, true},
		{"another number of scales", submitted("superimpose=&", "superimpose=tritone&"), marks, true, true},
		{"a page that says nothing of itself", submitted(), "", true, true},
		{"a page that asks for the rest", submitted(), "exercise=later rare=0", false, true},
	} {
		answer := ask(h, "GET", c.query, "HX-Request", "true", "Heddle-Shown", c.marks).Body.String()
		if form, rare := formMark.MatchString(answer), rareMark.MatchString(answer); form != c.form || rare != c.rare {
			t.Errorf("%s: the answer has the form: %v, want %v; the rare words: %v, want %v", c.name, form, c.form, rare, c.rare)
		}
	}
}

// What the page shows already, or asks for later, is left out of an answer.
func TestAnswersHoldWhatIsAskedFor(t *testing.T) {
	h := handler(t)
	page := ask(h, "GET", "/").Body.String()
	neck := regexp.MustCompile(`<div id="neck" class="picture" data-mark="([^"]*)"`).FindStringSubmatch(page)
	if neck == nil {
		t.Fatal("the page has no neck with a mark")
	}
	for _, c := range []struct{ shown, want string }{
		{"", "neck system-0 system-1 cards strip rows suggestions pages downloads"},
		{"neck=" + neck[1] + " pages=later downloads=later suggestions=later", "system-0 system-1 cards strip rows"},
		{"neck=other strip=later rows=later cards=later system-0=1 system-1=later pages=later downloads=later suggestions=later", "neck system-0"},
		{"system-0=later strip=later rows=later", "neck cards suggestions pages downloads"},                                                            // a system beneath one that is out of sight is so too
		{"neck=other system-0=1 system-1= strip=later rows=later cards=later pages=later downloads=later suggestions=later", "neck system-0 system-1"}, // a place that holds nothing yet
		{"nonsense = == =x", "neck system-0 system-1 cards strip rows suggestions pages downloads"},
	} {
		answer := ask(h, "GET", submitted(), "HX-Request", "true", "Heddle-Shown", c.shown).Body.String()
		if got := places(answer); got != c.want {
			t.Errorf("shown %q: the answer has %q, want %q", c.shown, got, c.want)
		}
	}
}
