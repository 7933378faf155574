package bench_test

import (
	"net"
	"net/http"
	"strings"
	"testing"

	"heddle/bench"
)

func TestOnlyRequestsMeantForThisMachineAreAnswered(t *testing.T) {
	h := handler(t)
	for _, c := range []struct {
		name, method string
		headers      []string
		want         int
	}{
		{"its own name", "GET", nil, http.StatusOK},
		{"its other name", "GET", []string{"Host", "localhost:7878"}, http.StatusOK},
		{"capitals in its name", "GET", []string{"Host", "LocalHost:7878"}, http.StatusOK},
		{"another site's name for this machine", "GET", []string{"Host", "practice.example:7878"}, http.StatusMisdirectedRequest},
		{"another port", "GET", []string{"Host", "127.0.0.1:80"}, http.StatusMisdirectedRequest},
		{"no name", "GET", []string{"Host", ""}, http.StatusMisdirectedRequest},
		{"a script of another site", "GET", []string{"Sec-Fetch-Site", "cross-site", "Sec-Fetch-Mode", "no-cors"}, http.StatusForbidden},
		{"a link on another site", "GET", []string{"Sec-Fetch-Site", "cross-site", "Sec-Fetch-Mode", "navigate"}, http.StatusOK},
		{"a form of another site", "POST", []string{"Origin", "https://other.example", "Sec-Fetch-Site", "cross-site", "Sec-Fetch-Mode", "navigate"}, http.StatusForbidden},
		{"its own form", "POST", []string{"Origin", "http://" + host, "Sec-Fetch-Site", "same-origin"}, http.StatusMethodNotAllowed},
		{"something to be deleted", "DELETE", nil, http.StatusMethodNotAllowed},
	} {
		if w := ask(h, c.method, "/", c.headers...); w.Code != c.want {
			t.Errorf("%s: status %d, want %d", c.name, w.Code, c.want)
		}
	}
}

func TestEveryAnswerKeepsThePageToItself(t *testing.T) {
	h := handler(t)
	for _, address := range []string{"/", "/nothing-here", "/?home=nonsense", "/line.svg?home=A+blues", "/line.pdf?home=nonsense", "/assets/nothing.js"} {
		w := ask(h, "GET", address)
		policy := w.Header().Get("Content-Security-Policy")
		for _, want := range []string{"default-src 'none'", "script-src 'self'", "style-src 'self'", "frame-ancestors 'none'", "base-uri 'none'", "form-action 'self'"} {
			if !strings.Contains(policy, want) {
				t.Errorf("%s: the policy lacks %s", address, want)
			}
		}
		if strings.Contains(policy, "unsafe") || strings.Contains(policy, "*") {
			t.Errorf("%s: the policy lets too much through: %s", address, policy)
		}
		for header, want := range map[string]string{
			"X-Content-Type-Options": "nosniff", "Referrer-Policy": "no-referrer", "Cross-Origin-Opener-Policy": "same-origin", "Cross-Origin-Resource-Policy": "same-origin",
		} {
			if got := w.Header().Get(header); got != want {
				t.Errorf("%s: %s is %q, want %q", address, header, got, want)
			}
		}
	}
}

func TestHostsAreTheLoopbackNamesOrTheAddressItself(t *testing.T) {
	for _, c := range []struct {
		ip   string
		want string
	}{
		{"127.0.0.1", "127.0.0.1:80 localhost:80 [::1]:80 127.0.0.1 localhost [::1]"},
		{"::1", "[::1]:80 127.0.0.1:80 localhost:80 [::1] 127.0.0.1 localhost"},
		{"192.0.2.7", "192.0.2.7:80 192.0.2.7"},
	} {
		got := strings.Join(bench.Hosts(&net.TCPAddr{IP: net.ParseIP(c.ip), Port: 80}), " ")
		if got != c.want {
			t.Errorf("%s: hosts %s, want %s", c.ip, got, c.want)
		}
	}
}

func TestFilesAreNotMadeForOtherSitesAndFrames(t *testing.T) {
	h := handler(t)
	for _, c := range []struct {
		name    string
		headers []string
		want    int
	}{
		{"a click on the page", []string{"Sec-Fetch-Site", "same-origin", "Sec-Fetch-Mode", "navigate", "Sec-Fetch-Dest", "document"}, http.StatusOK},
		{"a typed address", []string{"Sec-Fetch-Site", "none", "Sec-Fetch-Mode", "navigate", "Sec-Fetch-Dest", "document"}, http.StatusOK},
		{"no browser", nil, http.StatusOK},
		{"a link on another site", []string{"Sec-Fetch-Site", "cross-site", "Sec-Fetch-Mode", "navigate", "Sec-Fetch-Dest", "document"}, http.StatusForbidden},
		{"another port of this machine", []string{"Sec-Fetch-Site", "same-site", "Sec-Fetch-Mode", "navigate", "Sec-Fetch-Dest", "document"}, http.StatusForbidden},
		{"a frame", []string{"Sec-Fetch-Site", "same-origin", "Sec-Fetch-Mode", "navigate", "Sec-Fetch-Dest", "iframe"}, http.StatusForbidden},
	} {
		for _, address := range []string{"/line.svg?" + oneBar, "/sound/timeline?" + oneBar} {
			if w := ask(h, "GET", address, c.headers...); w.Code != c.want {
				t.Errorf("%s: %s is answered %d, want %d", c.name, address, w.Code, c.want)
			}
		}
	}
}

func TestARefusedMethodOnTheTakePageNamesPost(t *testing.T) {
	if allow := ask(handler(t), "PUT", "/take").Header().Get("Allow"); !strings.Contains(allow, "POST") {
		t.Errorf("Allow: %s", allow)
	}
}
