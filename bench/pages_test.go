package bench_test

import (
	"bytes"
	"compress/gzip"
	"encoding/json"
	"html"
	"io"
	"net/http"
	"net/http/httptest"
	"net/url"
	"regexp"
	"strings"
	"testing"

	"heddle/bench"
)

const host = "127.0.0.1:7878"

func handler(t testing.TB) http.Handler {
	t.Helper()
	b, err := bench.New(bench.Options{SoundBytes: 32 << 20})
	if err != nil {
		t.Fatal(err)
	}
	return b.Handler([]string{host, "localhost:7878"})
}

// ask sends a request as a browser on this machine does; headers come in pairs.
func ask(h http.Handler, method, address string, headers ...string) *httptest.ResponseRecorder {
	r := httptest.NewRequest(method, "http://"+host+address, nil)
	r.Host = host
	for i := 0; i+1 < len(headers); i += 2 {
		if headers[i] == "Host" {
			r.Host = headers[i+1]
			continue
		}
		r.Header.Set(headers[i], headers[i+1])
	}
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w
}

func TestTheFirstPageIsTheDemo(t *testing.T) {
	w := ask(handler(t), "GET", "/")
	page := w.Body.String()
	if w.Code != http.StatusOK {
		t.Fatalf("status %d", w.Code)
	}
	for _, want := range []string{`value="Gm7"`, `value="G minor pentatonic"`, `value="semitone up"`, `<option value="3" selected>three</option>`,
		`<option value="down" selected>falling</option>`, "10-5, prime form 0 1 2 3 4 5 7 8 9 10", `<svg`, `data-note="0"`} {
		if !strings.Contains(page, want) {
			t.Errorf("the page lacks %s", want)
		}
	}
	for _, inline := range []string{"<style", " style=", "<script>", " onclick=", "javascript:", "http://", "https://"} {
		if at := strings.Index(strings.ReplaceAll(page, "http://www.w3.org/2000/svg", ""), inline); at >= 0 {
			t.Errorf("the page holds %s, which its own policy forbids", inline)
		}
	}
}

func TestEveryControlHasALabel(t *testing.T) {
	page := ask(handler(t), "GET", "/?home=A+blues&changes=A7+|+D7&superimpose=tritone&superimpose=semitone+up&capo=2&instrument=bass").Body.String()
	controls := regexp.MustCompile(`<(?:input|select)[^>]*\bid="([^"]+)"[^>]*>`).FindAllStringSubmatch(page, -1)
	if len(controls) < 30 {
		t.Fatalf("only %d controls were found", len(controls))
	}
	seen := map[string]bool{}
	for _, c := range controls {
		if seen[c[1]] {
			t.Errorf("two controls are called %s", c[1])
		}
		seen[c[1]] = true
		wrapped := regexp.MustCompile(`<label[^>]*>[^<]*(?:<span>[^<]*</span>[^<]*)?<(?:input|select)[^>]*\bid="` + c[1] + `"`).MatchString(page)
		if !wrapped && !strings.Contains(page, `for="`+c[1]+`"`) && !strings.Contains(c[0], "aria-label") {
			t.Errorf("%s has no label", c[1])
		}
	}
}

func TestAChangedWordAnswersWithWhatItChanges(t *testing.T) {
	h := handler(t)
	w := ask(h, "GET", "/?home=A+minor+pentatonic&groups=3&groups=2&superimpose=tritone&chord=&order=", "Heddle-Shown", "none")
	if w.Code != http.StatusOK || strings.Contains(w.Body.String(), "<html") {
		t.Fatalf("status %d, a whole page: %v", w.Code, strings.Contains(w.Body.String(), "<html"))
	}
	if got, want := addressIn(w), "/?home=A+minor+pentatonic&superimpose=tritone&groups=3%2C2"; got != want {
		t.Errorf("the address becomes %s, want %s", got, want)
	}
	for _, picture := range []string{"neck", "system-0", "strip", "cards", "downloads"} {
		if !strings.Contains(w.Body.String(), `{"id":"`+picture+`"`) {
			t.Errorf("the answer lacks %s", picture)
		}
	}
}

// addressIn is the address that an answer to a changed word gives the page.
func addressIn(w *httptest.ResponseRecorder) string {
	var update struct{ Address string }
	_ = json.Unmarshal(w.Body.Bytes(), &update) // what is no update has no address
	return update.Address
}

// htmlIn is the content of all regions that an answer holds.
func htmlIn(w *httptest.ResponseRecorder) string {
	var update struct{ Regions []struct{ HTML string } }
	_ = json.Unmarshal(w.Body.Bytes(), &update)
	html := ""
	for _, r := range update.Regions {
		html += r.HTML
	}
	return html
}

// A page is sent only what differs from what it shows.
func TestAnAnswerHoldsTheRegionsThatDiffer(t *testing.T) {
	h := handler(t)
	const demo = "/?chord=Gm7&home=G+minor+pentatonic&superimpose=semitone+up&groups=3%2C3&fret=10&tempo=84&land=third"
	page := ask(h, "GET", "/").Body.String()
	shown := ""
	for _, m := range regexp.MustCompile(`id="([^"]+)"[^>]* data-mark="([^"]*)"`).FindAllStringSubmatch(page, -1) {
		shown += m[1] + "=" + m[2] + " "
	}
	for _, c := range []struct{ name, query, shown, want string }{
		{"the same exercise", demo, shown, ""},
		{"another neck", demo, strings.Replace(shown, "neck=", "neck=other", 1), "neck"},
		{"a system that the page has no place for yet", demo, regexp.MustCompile(`system-1=\S+`).ReplaceAllString(shown, "system-1="), "system-1"},
		{"another tempo", strings.Replace(demo, "84", "90", 1), shown, "sentence system-0 cards rows pages downloads"}, // the metronome mark,
		{"another note value", demo + "&value=quarter", shown, "sentence system-0 system-1 system-2 strip cards rows pages downloads"},
		{"nothing is known of the page", demo, "nonsense = == =x", "sentence faults rare neck system-0 system-1 strip cards rows suggestions neck-tools line-tools pages downloads"},
	} {
		var update struct{ Regions []struct{ ID string } }
		if err := json.Unmarshal(ask(h, "GET", c.query, "Heddle-Shown", c.shown).Body.Bytes(), &update); err != nil {
			t.Fatal(err)
		}
		var ids []string
		for _, r := range update.Regions {
			ids = append(ids, r.ID)
		}
		if got := strings.Join(ids, " "); got != c.want {
			t.Errorf("%s: the answer has %q, want %q", c.name, got, c.want)
		}
	}
}

func TestGroupSizesFollowTheScales(t *testing.T) {
	for _, c := range []struct{ name, query, want string }{
		{"a scale that went takes its size along", "home=A+minor+pentatonic&groups=3&groups=2", "groups=3"},
		{"a new scale has as many notes as the last", "home=A+minor+pentatonic&superimpose=tritone&superimpose=semitone+up&groups=3&groups=2", "groups=3%2C2%2C2"},
	} {
		w := ask(handler(t), "GET", "/?"+c.query, "Heddle-Shown", "none")
		if got := addressIn(w); !strings.HasSuffix(got, c.want) {
			t.Errorf("%s: the address is %s, want %s", c.name, got, c.want)
		}
	}
}

func TestWrongWordsAreExplainedBesideThem(t *testing.T) {
	h := handler(t)
	for _, c := range []struct{ query, id, value, want string }{
		{"home=G+minor+pentatonik", "word-home", "G minor pentatonik", "G minor pentatonic"},
		{"home=G+minor+pentatonic&superimpose=semitone+upp", "word-superimpose", "semitone upp", "semitone up"},
		{"home=G+minor+pentatonic&superimpose=tritone&superimpose=quarter+tone+up", "word-superimpose-2", "quarter tone up", "interval"},
		{"home=G+minor+pentatonic&groups=99", "word-groups", "99", "1 to 12"},
		{"home=G+minor+pentatonic&value=minim", "word-value", "minim", "eighth"},
		{"home=G+minor+pentatonic&tempo=1000", "word-tempo", "1000", "20 to 400"},
		{"home=G+minor+pentatonic&fret=40", "word-fret", "40", "36"},
		{"home=G+minor+pentatonic&chord=Hm77", "word-chord", "Hm77", "chord"},
		{"home=G+minor+pentatonic&tuning=E2+A2+banana", "word-tuning", "E2 A2 banana", "note name with or without an octave"},
		{"home=G+minor+pentatonic&land=banana", "word-land", "banana", "degree"},
	} {
		w := ask(h, "GET", "/?"+c.query)
		page := w.Body.String()
		if w.Code != http.StatusBadRequest {
			t.Errorf("%s: status %d, want 400", c.query, w.Code)
		}
		control := regexp.MustCompile(`<(?:input|select)[^>]*\bid="` + c.id + `"[^>]*>`).FindString(page)
		fault := regexp.MustCompile(`(?s)<p class="fault" id="fault-` + c.id + `">.*?</p>`).FindString(page)
		if !strings.Contains(control, `aria-invalid="true" aria-describedby="fault-`+c.id+`"`) {
			t.Errorf("%s: the control is %s, not marked as wrong", c.query, control)
		}
		if !strings.Contains(page, `value="`+c.value+`"`) {
			t.Errorf("%s: what was typed is gone", c.query)
		}
		if !strings.Contains(fault, c.value) || !strings.Contains(fault, c.want) {
			t.Errorf("%s: the fault is %q, want it to hold %q and %q", c.query, fault, c.value, c.want)
		}
		update := ask(h, "GET", "/?"+c.query, "Heddle-Shown", "none")
		if update.Code != http.StatusOK || strings.Contains(update.Body.String(), `"system-0"`) || addressIn(update) != "" {
			t.Errorf("%s: in place it must be a good answer without pictures or address", c.query)
		}
	}
}

func TestSeveralWrongWordsAreAllToldOf(t *testing.T) {
	page := ask(handler(t), "GET", "/?home=G+minr&tempo=9&land=banana").Body.String()
	for _, id := range []string{"home", "tempo", "land"} {
		if !strings.Contains(page, `id="fault-word-`+id+`"`) {
			t.Errorf("nothing is said of %s", id)
		}
	}
}

func TestANearestSpellingIsOneClickAway(t *testing.T) {
	h := handler(t)
	page := ask(h, "GET", "/?home=G+minor+pentatonik&groups=4&label=degrees").Body.String()
	link := regexp.MustCompile(`<a class="here" href="([^"]+)">G minor pentatonic</a>`).FindStringSubmatch(page)
	if link == nil {
		t.Fatal("no link to the nearest spelling")
	}
	w := ask(h, "GET", html.UnescapeString(link[1]))
	if w.Code != http.StatusOK || !strings.Contains(w.Body.String(), `<option value="degrees" selected>`) {
		t.Errorf("%s answers %d", link[1], w.Code)
	}
}

func TestWhatCanNotBeReadIsRefusedWithTheReason(t *testing.T) {
	h := handler(t)
	for _, c := range []struct{ address, want string }{
		{"/?hoem=G+minor", "home"},
		{"/?home=G+minor&label=colours", "names, degrees, nothing"},
		{"/?home=G+minor&hide=ears", "names, tab, line"},
		{"/?home=%ZZ", "escaped"},
		{"/?home=" + strings.Repeat("G", 9000), "8 KiB"},
		{"/line.pdf?home=nonsense", "scale"},
		{"/sound/line?home=G+minor&vamp=polka", "funk"},
		{"/sound/kazoo?home=G+minor", "drums"},
		{"/sound/line?home=G+minor&changes=" + url.QueryEscape(strings.Repeat("Gm7 | ", 63)+"Gm7") + "&tempo=20&bars=64&direction=down-up", "at most 3:00"},
	} {
		w := ask(h, "GET", c.address)
		if w.Code != http.StatusBadRequest || !strings.Contains(w.Body.String(), c.want) {
			t.Errorf("%.60s: status %d, %.200q; want 400 and %q", c.address, w.Code, w.Body.String(), c.want)
		}
	}
}

func TestEveryHiddenAndShownThingIsInTheAddress(t *testing.T) {
	h := handler(t)
	all := ask(h, "GET", "/?home=A+minor+pentatonic").Body.String()
	for _, c := range []struct{ query, without string }{
		{"&hide=tab", `class="tab"`},
		{"&hide=line", "zzz"},
	} {
		page := ask(h, "GET", "/?home=A+minor+pentatonic"+c.query).Body.String()
		if len(page) == len(all) {
			t.Errorf("%s changes nothing", c.query)
		}
		if strings.Contains(all, c.without) && strings.Contains(page, c.without) {
			t.Errorf("%s still shows %s", c.query, c.without)
		}
	}
	if page := ask(h, "GET", "/?home=A+minor+pentatonic&hide=line").Body.String(); !strings.Contains(page, `class="by-heart"`) {
		t.Error("the hidden line is not hidden")
	}
}

// What a first visit to a page fetches, compressed, stays within the budget.
func TestThePagesWeighLittle(t *testing.T) {
	const most = 100_000
	h := handler(t)
	for _, path := range []string{"/", "/take"} {
		total := weigh(t, h, path)
		t.Logf("%6d bytes in all for %s", total, path)
		if total > most {
			t.Errorf("%s weighs %d bytes, want at most %d", path, total, most)
		}
	}
}

// weigh adds up what a first visit fetches, compressed.
func weigh(t *testing.T, h http.Handler, path string) int {
	t.Helper()
	page := ask(h, "GET", path).Body.Bytes()
	total := packedSize(t, page)
	t.Logf("%6d the page", total)
	styles := ""
	for _, m := range regexp.MustCompile(`(?:src|href|data-capture)="(/assets/[^"]+)"`).FindAllSubmatch(page, -1) {
		body := ask(h, "GET", string(m[1])).Body
		t.Logf("%6d %s", packedSize(t, body.Bytes()), m[1])
		total += packedSize(t, body.Bytes())
		if strings.HasSuffix(string(m[1]), ".css") {
			styles += body.String()
		}
	}
	fonts := regexp.MustCompile(`url\("?([^")]+\.woff2)"?\)`).FindAllStringSubmatch(styles, -1)
	if len(fonts) == 0 {
		t.Fatal("no fonts were found")
	}
	for _, f := range fonts {
		w := ask(h, "GET", "/assets/"+f[1])
		if w.Code != http.StatusOK {
			t.Errorf("%s: status %d", f[1], w.Code)
		}
		t.Logf("%6d %s", w.Body.Len(), f[1])
		total += w.Body.Len()
	}
	return total
}

func packedSize(t *testing.T, body []byte) int {
	t.Helper()
	var b bytes.Buffer
	w := gzip.NewWriter(&b)
	if _, err := w.Write(body); err != nil {
		t.Fatal(err)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Len()
}

func TestFarReadersGetPackedPages(t *testing.T) {
	h := handler(t)
	r := httptest.NewRequest("GET", "http://"+host+"/", nil)
	r.Host = host
	r.RemoteAddr = "192.0.2.7:4000" // a documentation address, RFC 5737
	r.Header.Set("Accept-Encoding", "gzip, br")
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	if w.Header().Get("Content-Encoding") != "gzip" {
		t.Fatal("the page came unpacked")
	}
	unpacked, err := gzip.NewReader(w.Body)
	if err != nil {
		t.Fatal(err)
	}
	body, err := io.ReadAll(unpacked)
	if err != nil || !bytes.Contains(body, []byte("</html>")) {
		t.Errorf("unpacked: %v, %d bytes", err, len(body))
	}
}

// drain reads an answer to its end and lets go of it.
func drain(response *http.Response) (int64, error) {
	defer response.Body.Close()
	return io.Copy(io.Discard, response.Body)
}
