package web

import (
	"crypto/rand"
	"crypto/subtle"
	"net"
	"net/http"
	"strings"
	"time"
)

// Limits of the server.
const (
	mostBody     = 8 << 20 // bytes of a request: a plan and its files with room to spare
	mostAtOnce   = 16      // requests in work; further ones are asked to come again
	headerTime   = 5 * time.Second
	bodyTime     = 20 * time.Second
	writeTime    = 60 * time.Second
	stopTime     = 3 * time.Second
	mostHeader   = 32 << 10
	idleTime     = 2 * time.Minute
	tokenParam   = "token"
	cookiePrefix = "rationwright-" // and the port: cookies are shared between ports
)

// policy lets a page use what this server sends and nothing else; no script and no
// style inside a page.
const policy = "default-src 'none'; style-src 'self'; script-src 'self'; img-src 'self' data:; connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'"

// newToken is a secret of this run.
func newToken() string { return rand.Text() }

// gate knows who may come in.
type gate struct {
	token string
	port  string
	seen  func() // told of every request that came in
}

// guard is every check that stands before a page.
func (g *gate) guard(next http.Handler) http.Handler {
	cross := http.NewCrossOriginProtection()
	cross.SetDenyHandler(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		refuse(w, http.StatusForbidden, "This request came from another page, and was not carried out.")
	}))
	slots := make(chan struct{}, mostAtOnce)
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Content-Security-Policy", policy)
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("Cross-Origin-Opener-Policy", "same-origin")
		h.Set("Cross-Origin-Resource-Policy", "same-origin")
		h.Set("Cache-Control", "no-store")
		if !g.ownHost(r.Host) {
			refuse(w, http.StatusMisdirectedRequest, "This server answers on this machine only, under its own address.")
			return
		}
		select {
		case slots <- struct{}{}:
			defer func() { <-slots }()
		default:
			h.Set("Retry-After", "1")
			refuse(w, http.StatusServiceUnavailable, "Too many requests at once. Come again in a moment.")
			return
		}
		if !g.knows(w, r) {
			return
		}
		r.Body = http.MaxBytesReader(w, r.Body, mostBody)
		g.seen()
		cross.Handler(next).ServeHTTP(w, r)
	})
}

// ownHost reports whether a request names this server as its host: a name of another
// machine that is made to point here is refused.
func (g *gate) ownHost(host string) bool {
	name, port, err := net.SplitHostPort(host)
	if err != nil || port != g.port {
		return false
	}
	return name == "127.0.0.1" || name == "::1" || strings.EqualFold(name, "localhost")
}

// knows lets in whoever holds the token of this run. The link that the program
// prints carries it once; from then on it is a cookie.
func (g *gate) knows(w http.ResponseWriter, r *http.Request) bool {
	if r.Method == http.MethodGet && same(r.URL.Query().Get(tokenParam), g.token) {
		http.SetCookie(w, &http.Cookie{Name: cookiePrefix + g.port, Value: g.token, Path: "/", HttpOnly: true, SameSite: http.SameSiteStrictMode})
		http.Redirect(w, r, r.URL.Path, http.StatusSeeOther)
		return false
	}
	if c, err := r.Cookie(cookiePrefix + g.port); err == nil && same(c.Value, g.token) {
		return true
	}
	refuse(w, http.StatusForbidden, "Open the link that the program printed when it started: it holds the key to this page.")
	return false
}

// ownForm reports whether a form that changes something is one of this run: it holds
// the token too.
func (g *gate) ownForm(r *http.Request) bool { return same(r.PostFormValue(tokenParam), g.token) }

func same(a, b string) bool { return subtle.ConstantTimeCompare([]byte(a), []byte(b)) == 1 }

// refuse answers with one plain sentence.
func refuse(w http.ResponseWriter, status int, why string) {
	w.Header().Set("Content-Type", "text/plain; charset=utf-8")
	w.WriteHeader(status)
	if _, err := w.Write([]byte(why + "\n")); err != nil {
		return // whoever asked is gone
	}
}
