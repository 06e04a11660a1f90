// Package lsp is notchbook beside the writer: a server of the Language Server
// Protocol 3.17, so that any editor that speaks it shows the findings while one
// types, explains a sheet on hover, completes what the kit declares, and mends
// what is certain. It has no rule of its own: it asks the compiler of every
// edition of the notes and says what it says.
package lsp

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"sync"
	"time"

	"github.com/creachadair/jrpc2"
	"github.com/creachadair/jrpc2/channel"
	"github.com/creachadair/jrpc2/handler"
)

// Options are what the server is given of the world.
type Options struct {
	Open    func(dir string) (Folder, error) // a season's folder
	Version string
	Pause   time.Duration // between changes that do not come in one go
}

// server is one editor's session. Its lock is held while a message is answered:
// an answer always speaks of one edition.
type server struct {
	options Options
	mu      sync.Mutex
	rpc     *jrpc2.Server
	leave   sync.Once
	left    chan struct{} // closed when the editor has left
	roots   []string
	holds   map[string]bool // by the workspace's folder, see holdsNotebooks
	leads   map[string]bool // by a document's folder, see usesAbove
	seasons map[string]*season
	bytes   bool // positions count bytes
	begun   bool
	ended   bool
}

// Serve speaks with one editor until it leaves. The error is that of the
// connection, or tells that the editor left without saying goodbye.
func Serve(in io.Reader, out io.WriteCloser, o Options) error {
	s := &server{options: o, left: make(chan struct{}), holds: map[string]bool{}, leads: map[string]bool{}, seasons: map[string]*season{}}
	// So many questions may wait for the lock that one which withdraws them is heard.
	s.rpc = jrpc2.NewServer(s.methods(), &jrpc2.ServerOptions{AllowPush: true, DisableBuiltin: true, Concurrency: 256})
	s.mu.Lock() // until rpc can be spoken through
	s.rpc.Start(&line{Channel: channel.StrictHeader("")(in, out), left: s.left})
	s.mu.Unlock()
	status := s.rpc.WaitStatus()
	s.mu.Lock()
	defer s.mu.Unlock()
	for _, sn := range s.seasons {
		sn.close()
	}
	if !s.ended {
		return fmt.Errorf("the editor left without a shutdown")
	}
	if status.Err != nil {
		return fmt.Errorf("editor: %w", status.Err)
	}
	return nil
}

// line is the connection, as forgiving as editors need and as strict as the
// library does: jrpc2 answers a faulty notification that it still holds when the
// connection has ended, and falls over (1.3.6). So such a notification, which
// nobody waits for, is not passed on, and the end comes only by way of Recv.
type line struct {
	channel.Channel
	leaves bool            // the editor's last message has been passed on
	left   <-chan struct{} // closed when it has been taken
}

func (c *line) Recv() ([]byte, error) {
	if c.leaves {
		<-c.left
		return nil, io.EOF
	}
	for {
		message, err := c.Channel.Recv()
		// Editors spell the type in several ways, and there is only one.
		if mismatch := (*channel.ContentTypeMismatchError)(nil); errors.As(err, &mismatch) {
			err = nil
		}
		if err != nil {
			return message, err
		}
		message = bytes.ToValidUTF8(message, []byte("\uFFFD")) // JSON is UTF-8, and an id is said back as it came
		faulty, leaves := false, false
		parts, _ := jrpc2.ParseRequests(message) // what is no JSON at all is answered at once
		for _, p := range parts {
			faulty = faulty || p.Error != nil && p.ID == "" && p.Method != ""
			leaves = leaves || p.Error == nil && p.ID == "" && p.Method == "exit"
		}
		if !faulty {
			c.leaves = leaves
			return message, nil
		}
	}
}

// Send gives the answer to a question that was withdrawn the number that the
// protocol has for it, RequestCancelled, where the library has one of its own. In
// a string the same bytes would stand behind backslashes.
func (c *line) Send(message []byte) error {
	return c.Channel.Send(bytes.Replace(message, cancelled, requestCancelled, 1))
}

var (
	cancelled        = fmt.Appendf(nil, `"error":{"code":%d,`, jrpc2.Cancelled)
	requestCancelled = []byte(`"error":{"code":-32800,`)
)

func (sn *season) close() {
	sn.open = nil
	if sn.timer != nil {
		sn.timer.Stop()
	}
	if sn.folder != nil {
		sn.folder.Close()
	}
}

// methods is everything that an editor may ask.
func (s *server) methods() handler.Map {
	return handler.Map{
		"initialize":                       handler.New(s.initialize),
		"initialized":                      handler.New(nothing),
		"shutdown":                         handler.New(s.shutdown),
		"exit":                             handler.New(s.exit),
		"$/cancelRequest":                  handler.New(s.cancel),
		"$/setTrace":                       handler.New(nothing),
		"textDocument/didOpen":             handler.New(s.didOpen),
		"textDocument/didChange":           handler.New(s.didChange),
		"textDocument/didSave":             handler.New(s.didSave),
		"textDocument/didClose":            handler.New(s.didClose),
		"workspace/didChangeWatchedFiles":  handler.New(s.filesChanged),
		"workspace/didChangeConfiguration": handler.New(nothing),
		"textDocument/hover":               on(s, (*server).hover),
		"textDocument/completion":          on(s, (*server).complete),
		"textDocument/definition":          on(s, (*server).definition),
		"textDocument/references":          on(s, (*server).references),
		"textDocument/prepareRename":       on(s, (*server).prepareRename),
		"textDocument/rename":              on(s, (*server).rename),
		"textDocument/documentSymbol":      on(s, (*server).symbols),
		"textDocument/foldingRange":        on(s, (*server).folds),
		"textDocument/semanticTokens/full": on(s, (*server).tokens),
		"textDocument/codeAction":          on(s, (*server).actions),
		"textDocument/formatting":          on(s, (*server).format),
		"textDocument/inlayHint":           on(s, (*server).hints),
		"textDocument/documentLink":        on(s, (*server).links),
	}
}

func nothing(context.Context, json.RawMessage) error { return nil }

// about is the document that a request speaks of.
type about interface{ uri() string }

func (p documentParams) uri() string { return p.TextDocument.URI }
func (p positionParams) uri() string { return p.TextDocument.URI }
func (p rangeParams) uri() string    { return p.TextDocument.URI }

// view is a document in its season, as the last edition has it.
type view struct {
	*season
	name string
	doc  *opened
}

// on makes a handler for a request about an open document. An answer of nil is
// the protocol's null.
func on[P about, R any](s *server, answer func(*server, view, P) (R, error)) jrpc2.Handler {
	return handler.New(func(ctx context.Context, p P) (any, error) {
		s.mu.Lock()
		defer s.mu.Unlock()
		if err := ctx.Err(); err != nil { // withdrawn while it waited
			return nil, err
		}
		if !s.begun {
			return nil, jrpc2.Errorf(-32002, "the server is not initialized")
		}
		sn, name := s.seasonOf(p.uri())
		doc := sn.open[name]
		if doc == nil {
			return nil, jrpc2.Errorf(jrpc2.InvalidParams, "%s is not open", p.uri())
		}
		return answer(s, view{sn, name, doc}, p)
	})
}

func (s *server) initialize(_ context.Context, p initializeParams) (any, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.begun = true
	for _, f := range append(p.WorkspaceFolders, folder{p.RootURI}) {
		if dir, ok := filePath(f.URI); ok {
			s.roots = append(s.roots, dir)
		}
	}
	encoding := "utf-16"
	for _, e := range p.Capabilities.General.PositionEncodings {
		if e == "utf-8" {
			encoding, s.bytes = e, true
		}
	}
	return map[string]any{
		"capabilities": capabilities(encoding),
		"serverInfo":   map[string]string{"name": "notchbook", "version": s.options.Version},
	}, nil
}

func (s *server) shutdown(context.Context) (any, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.ended = true
	return nil, nil
}

func (s *server) exit(context.Context, json.RawMessage) error {
	s.leave.Do(func() { close(s.left) })
	return nil
}

func (s *server) cancel(_ context.Context, p cancelParams) error {
	id, err := json.Marshal(p.ID)
	if err == nil {
		s.rpc.CancelRequest(string(id))
	}
	return nil
}

func (s *server) notify(method string, params any) {
	// An editor that is gone hears nothing; Serve says so.
	_ = s.rpc.Notify(context.Background(), method, params)
}

func (s *server) didOpen(_ context.Context, p documentParams) error {
	s.mu.Lock()
	defer s.mu.Unlock()
	sn, name := s.seasonOf(p.TextDocument.URI)
	sn.open[name] = &opened{uri: p.TextDocument.URI, version: p.TextDocument.Version, text: newText(p.TextDocument.Text, s.bytes)}
	s.changed(sn)
	return nil
}

func (s *server) didChange(_ context.Context, p changeParams) error {
	s.mu.Lock()
	defer s.mu.Unlock()
	sn, name := s.seasonOf(p.TextDocument.URI)
	doc := sn.open[name]
	if doc == nil {
		return nil
	}
	for _, c := range p.ContentChanges {
		if c.Range == nil {
			doc.text = newText(c.Text, s.bytes)
		} else {
			doc.text = doc.replaced(*c.Range, c.Text)
		}
	}
	doc.version = p.TextDocument.Version
	s.changed(sn)
	return nil
}

func (s *server) didSave(_ context.Context, p documentParams) error {
	s.mu.Lock()
	defer s.mu.Unlock()
	sn, _ := s.seasonOf(p.TextDocument.URI)
	s.reread(sn)
	return nil
}

// didClose leaves the notebook to the disk again.
func (s *server) didClose(_ context.Context, p documentParams) error {
	s.mu.Lock()
	defer s.mu.Unlock()
	sn, name := s.seasonOf(p.TextDocument.URI)
	delete(sn.open, name)
	if len(sn.open) > 0 {
		s.changed(sn)
		return nil
	}
	for name := range sn.said {
		s.notify("textDocument/publishDiagnostics", publishParams{URI: sn.uri(name), Diagnostics: []diagnostic{}})
	}
	sn.close()
	for key, other := range s.seasons {
		if other == sn {
			delete(s.seasons, key)
		}
	}
	return nil
}

func (s *server) filesChanged(context.Context, json.RawMessage) error {
	s.mu.Lock()
	defer s.mu.Unlock()
	for _, sn := range s.seasons {
		s.reread(sn)
	}
	return nil
}

// reread looks at the folder anew: a notebook or a scan may have come or gone.
func (s *server) reread(sn *season) {
	if sn.dir == "" {
		return
	}
	if f, err := s.options.Open(sn.dir); err == nil {
		if sn.folder != nil {
			sn.folder.Close()
		}
		sn.folder = f
	}
	s.changed(sn)
}
