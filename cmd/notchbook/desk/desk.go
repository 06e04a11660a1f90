// Package desk shows the record live in a browser on the same machine: whenever
// a notebook is saved the record is made anew, and the page that lies open
// changes in place.
//
// It listens on the loopback addresses only. Whoever does not know the token of
// the address that was printed, or comes under another host's name (which is
// how a page from elsewhere would reach it), is turned away, and nothing can be
// written through it.
package desk

import (
	"context"
	"crypto/rand"
	"crypto/subtle"
	_ "embed"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"path"
	"strings"
	"time"
)

// Options are what the desk is given of the world.
type Options struct {
	Build   func() (*Edition, error)                            // makes the record anew
	Changes <-chan struct{}                                     // tells when it should
	Open    func(scan string) (io.ReadSeekCloser, error)        // a scan that the record names
	Ready   func(address string)                                // hears where to look, once
	Failed  func(err error)                                     // hears of a Build that failed; the record before it stays
	Listen  func(network, address string) (net.Listener, error) // nil: net.Listen
}

// Script is the path of the script that keeps a page up to date, from the
// record's folder.
const Script = "../desk/follow.js"

//go:embed follow.js
var follow []byte

// desk is the server: the edition on show, and who is told of the next.
type desk struct {
	Options
	token string
	port  string
	show  stand
}

// Serve shows the record until the context ends. Errors are those of the first
// Build and of the network.
func Serve(ctx context.Context, o Options) error {
	first, err := o.Build()
	if err != nil {
		return err
	}
	if o.Listen == nil {
		o.Listen = net.Listen
	}
	listeners, port, err := loopback(o.Listen)
	if err != nil {
		return err
	}
	d := &desk{Options: o, token: rand.Text(), port: port}
	d.show.put(first)
	server := &http.Server{
		Handler: d, ReadHeaderTimeout: 10 * time.Second, MaxHeaderBytes: 64 << 10,
		BaseContext: func(net.Listener) context.Context { return ctx },
	}
	ended := make(chan error, len(listeners))
	for _, l := range listeners {
		go func() { ended <- server.Serve(l) }()
	}
	o.Ready("http://127.0.0.1:" + port + "/?key=" + d.token)
	d.follow(ctx, ended)
	closing, cancel := context.WithTimeout(context.WithoutCancel(ctx), 2*time.Second)
	defer cancel()
	if err := server.Shutdown(closing); err != nil {
		server.Close()
	}
	if ctx.Err() != nil {
		return nil
	}
	if err := <-ended; !errors.Is(err, http.ErrServerClosed) {
		return err
	}
	return nil
}

// follow makes an edition for each change, until the context or the server ends.
func (d *desk) follow(ctx context.Context, ended chan error) {
	for {
		select {
		case <-ctx.Done():
			return
		case err := <-ended:
			ended <- err
			return
		case _, ok := <-d.Changes:
			if !ok {
				d.Changes = nil
				continue
			}
			if next, err := d.Build(); err != nil {
				d.Failed(err)
			} else {
				d.show.put(next)
			}
		}
	}
}

// loopback listens on a free port of 127.0.0.1, and on the same of ::1 where the
// machine has it.
func loopback(listen func(network, address string) (net.Listener, error)) (all []net.Listener, port string, err error) {
	four, err := listen("tcp4", "127.0.0.1:0")
	if err != nil {
		return nil, "", err
	}
	_, port, err = net.SplitHostPort(four.Addr().String())
	if err != nil {
		return nil, "", err
	}
	all = append(all, four)
	if six, err := listen("tcp6", "[::1]:"+port); err == nil {
		all = append(all, six)
	}
	return all, port, nil
}

// ServeHTTP turns away whoever has no business here, and shows the rest.
func (d *desk) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	h := w.Header()
	h.Set("X-Content-Type-Options", "nosniff")
	h.Set("Referrer-Policy", "no-referrer")
	h.Set("Cross-Origin-Resource-Policy", "same-origin")
	h.Set("Cache-Control", "no-store")
	switch {
	case !d.ours(r.Host):
		http.Error(w, "this address is not the desk's", http.StatusForbidden)
	case r.Method != http.MethodGet && r.Method != http.MethodHead:
		h.Set("Allow", "GET, HEAD")
		http.Error(w, "nothing is written through the desk", http.StatusMethodNotAllowed)
	case r.URL.Path == "/" && d.knows(r.URL.Query().Get("key")):
		http.SetCookie(w, &http.Cookie{Name: d.cookie(), Value: d.token, Path: "/", HttpOnly: true, SameSite: http.SameSiteStrictMode})
		http.Redirect(w, r, "/record/"+d.show.edition().First(), http.StatusSeeOther)
	case !d.carries(r):
		http.Error(w, "open the address that notchbook printed: it carries a key", http.StatusForbidden)
	default:
		d.serve(w, r)
	}
}

// ours holds the Host header against our own names: a foreign name that was made
// to lead to this machine is still a foreign name.
func (d *desk) ours(host string) bool {
	name, port, err := net.SplitHostPort(host)
	return err == nil && port == d.port && (name == "127.0.0.1" || name == "localhost" || name == "::1")
}

func (d *desk) knows(key string) bool {
	return subtle.ConstantTimeCompare([]byte(key), []byte(d.token)) == 1
}

// cookie is named by the port: browsers keep one jar for all ports of a host.
func (d *desk) cookie() string { return "notchbook-desk-" + d.port }

func (d *desk) carries(r *http.Request) bool {
	c, err := r.Cookie(d.cookie())
	return err == nil && d.knows(c.Value)
}

func (d *desk) serve(w http.ResponseWriter, r *http.Request) {
	name := strings.TrimPrefix(r.URL.Path, "/")
	page, isPage := strings.CutPrefix(name, "record/")
	edition := d.show.edition()
	switch {
	case name == "":
		http.Redirect(w, r, "/record/"+edition.First(), http.StatusSeeOther)
	case name == "desk/follow.js":
		serveBytes(w, r, name, follow)
	case name == "desk/editions":
		d.tell(w, r)
	case isPage && edition.pages[page] != nil:
		serveBytes(w, r, page, edition.pages[page])
	case edition.scans[name]:
		d.serveScan(w, r, name)
	default:
		http.NotFound(w, r)
	}
}

func serveBytes(w http.ResponseWriter, r *http.Request, name string, b []byte) {
	http.ServeContent(w, r, path.Base(name), time.Time{}, strings.NewReader(string(b)))
}

// serveScan serves an original, of which a browser may ask parts.
func (d *desk) serveScan(w http.ResponseWriter, r *http.Request, name string) {
	file, err := d.Open(name)
	if err != nil {
		http.NotFound(w, r)
		return
	}
	defer file.Close()
	http.ServeContent(w, r, path.Base(name), time.Time{}, file)
}

// tell keeps a line open on which the page hears of every edition, by the pages
// in which it differs from the one before (server-sent events, HTML Living
// Standard).
func (d *desk) tell(w http.ResponseWriter, r *http.Request) {
	news, leave := d.show.subscribe()
	defer leave()
	w.Header().Set("Content-Type", "text/event-stream")
	rc := http.NewResponseController(w)
	fmt.Fprint(w, "retry: 1000\n\n")
	if rc.Flush() != nil {
		return
	}
	alive := time.NewTicker(30 * time.Second)
	defer alive.Stop()
	for {
		select {
		case <-r.Context().Done():
			return
		case <-alive.C:
			fmt.Fprint(w, ": still here\n\n")
		case changed := <-news:
			fmt.Fprintf(w, "event: edition\ndata: %s\n\n", changed)
		}
		if rc.Flush() != nil {
			return
		}
	}
}
