package bench

import (
	"heddle/bench/take"
	"net"
	"net/http"
	"slices"
	"strings"
)

// contentPolicy lets a page load only what this server sends. Inline scripts and
// styles are not allowed, and no other site may frame a page.
const contentPolicy = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; font-src 'self'; " +
	"media-src 'self'; connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'"

// headers are sent with every answer. They keep other sites from embedding these
// pages and from learning their addresses.
var headers = [][2]string{
	{"Content-Security-Policy", contentPolicy},
	{"X-Content-Type-Options", "nosniff"},
	{"X-Frame-Options", "DENY"},
	{"Referrer-Policy", "no-referrer"},
	{"Cross-Origin-Opener-Policy", "same-origin"},
	{"Cross-Origin-Resource-Policy", "same-origin"},
	{"Permissions-Policy", "camera=(), geolocation=(), payment=(), usb=()"},
}

// mostBody bounds a request's body in bytes, except for recordings.
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
		most := int64(mostBody)
		if r.Method == http.MethodPost && take.Receives(r.URL.Path) {
			most = take.MostBytes
		}
		r.Body = http.MaxBytesReader(w, r.Body, most)
		sameOrigin.ServeHTTP(w, r)
	})
}

// isFile reports whether a path names a file that takes long to make.
func isFile(path string) bool {
	return strings.HasPrefix(path, "/line.") || strings.HasPrefix(path, "/sound/")
}

// foreign reports whether a request says that another site or a frame sent it.
// The player's own click, a typed address and a bookmark do not.
func foreign(h http.Header) bool {
	site, dest := h.Get("Sec-Fetch-Site"), h.Get("Sec-Fetch-Dest")
	return site == "cross-site" || site == "same-site" || slices.Contains([]string{"iframe", "frame", "embed", "object"}, dest)
}

// Hosts lists the names that a request to a listener may give as its host: the
// address the listener is bound to and, for a loopback address, its other names.
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
