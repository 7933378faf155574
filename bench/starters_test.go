package bench_test

import (
	"html"
	"net/http"
	"regexp"
	"strings"
	"testing"
)

func TestANewcomerIsOfferedExercisesThatWork(t *testing.T) {
	h := handler(t)
	page := ask(h, "GET", "/").Body.String()
	intro := page[strings.Index(page, `id="intro"`):]
	links := regexp.MustCompile(`href="(/\?[^"]+)"`).FindAllStringSubmatch(intro[:strings.Index(intro, "</section>")], -1)
	if len(links) < 3 {
		t.Fatalf("%d exercises to start with", len(links))
	}
	for _, link := range links {
		w := ask(h, "GET", html.UnescapeString(link[1]))
		if w.Code != http.StatusOK || strings.Contains(w.Body.String(), `id="intro"`) || strings.Contains(w.Body.String(), `class="fault"`) {
			t.Errorf("%s: status %d", link[1], w.Code)
		}
	}
}
