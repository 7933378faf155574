package bench_test

import (
	"html"
	"net/http"
	"regexp"
	"strings"
	"testing"
)

func TestThePrintHoldsTheHandoutsParts(t *testing.T) {
	h := handler(t)
	const query = "?chord=Gm7&home=G+minor+pentatonic&superimpose=semitone+up&groups=3%2C3&fret=10"
	print := ask(h, "GET", "/paper"+query).Body.String()
	for _, part := range []string{
		`<p class="who">Name`, "<h1>G minor pentatonic with A♭ minor pentatonic over Gm7</h1>",
		`<p class="sentence">Over <b>Gm7</b>, weave <b>G minor pentatonic</b>`,
	} {
		if !strings.Contains(print, part) {
			t.Errorf("it lacks %q: %.300q", part, print)
		}
	}
	if noted := ask(h, "GET", "/paper"+query+"&title=Thursday&note=Slowly.").Body.String(); !strings.Contains(noted, "<h1>Thursday</h1>") || !strings.Contains(noted, `<p class="note">Slowly.</p>`) {
		t.Errorf("its title and note are %.300q", noted)
	}
	drawings := regexp.MustCompile(`<svg [^>]* width="([^"]+)"`).FindAllStringSubmatch(print, -1)
	if len(drawings) < 3 {
		t.Fatalf("%d pictures, want the neck and two systems", len(drawings))
	}
	for i, d := range drawings {
		if d[1] != "180mm" {
			t.Errorf("picture %d is %s wide, want 180mm", i, d[1])
		}
	}

	// Without scripts the same pictures are loaded with the page.
	page := ask(h, "GET", "/"+query).Body.String()
	loaded := regexp.MustCompile(`<img src="(/paper/[^"]+)"`).FindAllStringSubmatch(page, -1)
	if len(loaded) != len(drawings) {
		t.Errorf("%d pictures are loaded, want %d", len(loaded), len(drawings))
	}
	for _, l := range loaded {
		w := ask(h, "GET", html.UnescapeString(l[1]))
		if w.Code != http.StatusOK || w.Header().Get("Content-Type") != "image/svg+xml" || !strings.Contains(w.Body.String(), "@font-face") {
			t.Errorf("%s: status %d, %s, want a picture with its letters", l[1], w.Code, w.Header().Get("Content-Type"))
		}
	}
	for _, bad := range []string{"/paper/99" + query, "/paper/neck" + query, "/paper?home=nonsense"} {
		if w := ask(h, "GET", bad); w.Code != http.StatusBadRequest {
			t.Errorf("%s: status %d, want 400", bad, w.Code)
		}
	}
}

func TestALineHiddenOnThePageIsNotPrinted(t *testing.T) {
	print := ask(handler(t), "GET", "/paper?home=A+blues&superimpose=tritone&hide=line").Body.String()
	for _, shown := range []string{"data-note", `class="tab"`, ">roughness<"} {
		if strings.Contains(print, shown) {
			t.Errorf("it holds %s", shown)
		}
	}
	if !strings.Contains(print, `class="bracket`) || !strings.Contains(print, `class="neck"`) {
		t.Error("the marks of the groups or the neck are gone too")
	}
}
