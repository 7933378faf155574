package bench_test

import (
	"net/url"
	"regexp"
	"strings"
	"testing"
)

// Common practice: German B is B♭ and H is B; -is and -es for sharps and flats,
// with Es and As shortened; fixed do has Si for B.
func TestTheFormSaysAndTakesNamesAsThePlayerReadsThem(t *testing.T) {
	h := handler(t)
	for _, c := range []struct{ names, field, typed, spec, shown string }{
		{"german", "home", "H minor pentatonic", "B minor pentatonic", "H minor pentatonic"},
		{"german", "home", "B minor pentatonic", "Bb minor pentatonic", "B minor pentatonic"},
		{"german", "home", "es dorian", "Eb dorian", "Es dorian"},
		{"german", "home", "F# dorian", "F# dorian", "Fis dorian"}, // no German name: taken as the spec's
		{"german", "superimpose", "As minor pentatonic", "Ab minor pentatonic", "As minor pentatonic"},
		{"german", "superimpose", "semitone up", "semitone up", "semitone up"},
		{"german", "chord", "Hm7", "Bm7", "Hm7"},
		{"german", "chord", "B7", "Bb7", "B7"},
		{"german", "chord", "Asus4", "Asus4", "Asus4"},
		{"german", "chord", "Asm7", "Abm7", "Asm7"},
		{"german", "chord", "Es7/B", "Eb7/Bb", "Es7/B"},
		{"german", "changes", "Hm7 | E7 | % | Fism7", "Bm7 | E7 | % | F#m7", "Hm7 | E7 | % | Fism7"},
		{"german", "tuning", "E2 A2 D3 G3 H3 E4", "E2 A2 D3 G3 B3 E4", "E2 A2 D3 G3 H3 E4"},
		{"solfege", "home", "Sib minor pentatonic", "Bb minor pentatonic", "Sib minor pentatonic"},
		{"solfege", "chord", "Rem7", "Dm7", "Rem7"},
		{"solfege", "chord", "Solmaj7", "Gmaj7", "Solmaj7"},
		{"english", "home", "B minor pentatonic", "B minor pentatonic", "B minor pentatonic"},
	} {
		q := url.Values{"names": {c.names}, "home": {"A minor pentatonic"}, c.field: {c.typed}}
		if c.names != "english" {
			q.Set("said", c.names)
		}
		if c.field == "changes" {
			q.Set("home", "H minor pentatonic")
		}
		w := ask(h, "GET", "/?"+q.Encode(), "Heddle-Shown", "none")
		address, err := url.Parse(addressIn(w))
		if err != nil || !strings.EqualFold(address.Query().Get(c.field), c.spec) {
			t.Errorf("%s %s %q: the address is %s, want %s", c.names, c.field, c.typed, address, c.spec)
		}
		if address.Query().Has("said") {
			t.Errorf("%s %s: the address says how the form speaks", c.names, c.field)
		}
		control := regexp.MustCompile(`<input id="word-` + c.field + `"[^>]* value="([^"]*)"`).FindStringSubmatch(htmlIn(w))
		if control == nil || !strings.EqualFold(control[1], c.shown) {
			t.Errorf("%s %s %q: the control shows %q, want %q", c.names, c.field, c.typed, control, c.shown)
		}
	}

	// An address is in the spec's names, and shown in the reader's.
	page := ask(h, "GET", "/?home=B+minor+pentatonic&names=german").Body.String()
	for _, want := range []string{`value="H minor pentatonic"`, `value="Hm7"`, `<input type="hidden" name="said" value="german">`, `<option value="H dorian">`} {
		if !strings.Contains(page, want) {
			t.Errorf("the page lacks %s", want)
		}
	}
	if wrong := ask(h, "GET", "/?home=B+minor+pentatonik&names=german").Body.String(); !strings.Contains(wrong, ">H minor pentatonic</a>") {
		t.Error("a nearest spelling is not in the reader's names")
	}
	if page := ask(h, "GET", "/?home=B+minor+pentatonic&said=klingon"); page.Code != 400 || !strings.Contains(page.Body.String(), "english, german or solfege") {
		t.Error("an unknown way of saying names is taken")
	}
}
