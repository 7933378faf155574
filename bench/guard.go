package bench

import (
	"net"
	"net/http"
	"slices"
	"strings"
)

// contentPolicy lets a page use what this server sends and nothing else. No
// script and no style may stand inline; no other site may frame a page.
const contentPolicy = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; font-src 'self'; " +
	"media-src 'self'; connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'"

// headers are sent with every answer. Sounds and microphones of other sites
// stay out, what this machine works on stays in.
var headers = [][2]string{
	{"Content-Security-Policy", contentPolicy},
	{"X-Content-Type-Options", "nosniff"},
	{"X-Frame-Options", "DENY"},
	{"Referrer-Policy", "no-referrer"},
	{"Cross-Origin-Opener-Policy", "same-origin"},
	{"Cross-Origin-Resource-Policy", "same-origin"},
	{"Permissions-Policy", "camera=(), geolocation=(), payment=(), usb=()"},
}

// mostBody bounds a request's body in bytes, but for recordings.
const mostBody = 64 << 10

// guarded lets through only requests meant for this server. A page of another
// site could reach it under that site's name (DNS rebinding), so the Host must
// be one of ours; and a cross-site request that could change something is
// refused by its Origin.
func guarded(next http.Handler, hosts []string) http.Handler {
	sameOrigin := http.NewCrossOriginProtection().Handler(next)
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		for _, h := range headers {
			w.Header().Set(h[0], h[1])
		}
		if !slices.Contains(hosts, strings.ToLower(r.Host)) {
			http.Error(w, "this address is not served here; open the one that heddle printed", http.StatusMisdirectedRequest)
			return
		}
		if site := r.Header.Get("Sec-Fetch-Site"); site == "cross-site" && r.Header.Get("Sec-Fetch-Mode") != "navigate" {
			http.Error(w, "another site may not use these pages", http.StatusForbidden)
			return
		}
		if isFile(r.URL.Path) && foreign(r.Header) {
			http.Error(w, "another site or a frame may not ask for files", http.StatusForbidden)
			return
		}
		r.Body = http.MaxBytesReader(w, r.Body, bodyBound(r))
		sameOrigin.ServeHTTP(w, r)
	})
}

// isFile reports whether a path is of a file that takes long to make.
func isFile(path string) bool {
	return strings.HasPrefix(path, "/line.") || strings.HasPrefix(path, "/sound/")
}

// foreign reports whether a request says that another site or a frame sent it.
// The player's own click, a typed address and a bookmark do not.
func foreign(h http.Header) bool {
	site, dest := h.Get("Sec-Fetch-Site"), h.Get("Sec-Fetch-Dest")
	return site == "cross-site" || site == "same-site" || slices.Contains([]string{"iframe", "frame", "embed", "object"}, dest)
}

// Hosts lists the names under which a listener may be asked: the address it is
// bound to, and, where that is this machine's loopback, its other names.
func Hosts(at net.Addr) []string {
	host, port, err := net.SplitHostPort(at.String())
	if err != nil {
		return nil
	}
	hosts := []string{net.JoinHostPort(host, port)}
	if ip := net.ParseIP(host); ip != nil && ip.IsLoopback() {
		for _, name := range []string{"127.0.0.1", "localhost", "::1"} {
			if joined := net.JoinHostPort(name, port); !slices.Contains(hosts, joined) {
				hosts = append(hosts, joined)
			}
		}
	}
	if port == "80" { // a browser leaves the port out
		for _, name := range slices.Clone(hosts) {
			hosts = append(hosts, strings.TrimSuffix(name, ":80"))
		}
	}
	return hosts
}
